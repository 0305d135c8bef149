"""The wear board: a team's players against items. A click or Enter goes to the moment; under it the choices of the teams."""

from __future__ import annotations

from PyQt6.QtCore import QEvent, QModelIndex, Qt, pyqtSignal
from PyQt6.QtGui import QHideEvent, QKeyEvent, QResizeEvent, QShowEvent
from PyQt6.QtWidgets import QAbstractItemView, QCheckBox, QHBoxLayout, QHeaderView, QLabel, QTableView, QVBoxLayout, QWidget

from filmreview.desktop.scrolled_words import ScrolledWords
from filmreview.desktop.small_widgets import Choice
from filmreview.desktop.wear_board_cells import WearCellDelegate
from filmreview.desktop.wear_board_model import WearBoardModel
from filmreview.desktop.wear_board_presenter import WearBoardPresenter

NOTHING = "Nothing is tagged yet: every tag that is kept stands here, a line for each player."
NO_CHOICE = "No team has a choice to make: whatever must be of one colour is, as far as it was tagged."
MOST_LINES = 2  # of choices shown without scrolling


class _Table(QTableView):
    """The table. Enter wants the moment of the cell, F2 its tag on the card."""

    entered_cell = pyqtSignal(QModelIndex)
    card_wanted = pyqtSignal(QModelIndex)

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """Enter and F2; all others as in any table."""
        assert event is not None, "Qt gives the event"
        index = self.currentIndex()
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and index.isValid():
            self.entered_cell.emit(index)
        elif event.key() == Qt.Key.Key_F2 and index.isValid():
            self.card_wanted.emit(index)
        else:
            super().keyPressEvent(event)


class WearBoardPlace(QWidget):
    """The tab over the ledger."""

    jump_wanted = pyqtSignal(str)  # a tag's id: go to its moment
    change_wanted = pyqtSignal(str)  # a tag's id: open it on the card

    def __init__(self, presenter: WearBoardPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self._went_to = ""
        self.model = WearBoardModel(presenter)
        self.table = self._made_table()
        self.side = Choice("teams shown", ())
        self.side.setMinimumContentsLength(14)
        self.everybody = QCheckBox("&All players")
        self.everybody.setAccessibleName("show players without a tag too")
        self._told = QLabel()
        self._told.setAccessibleName("the cell chosen, in words")
        self._told.setMinimumWidth(1)
        self._choices = ScrolledWords("choices of the teams", MOST_LINES)
        self._lay_out()
        self._connect()
        self.refresh()

    def refresh(self) -> None:
        """Boards, teams shown or players shown have changed; the cell chosen stays where it is still there."""
        before = self._place()
        sides = self._presenter.sides()
        self.side.refill([words for words, _side in sides])
        self.side.show_text(next((words for words, side in sides if side == self._presenter.side), ""))
        self.model.refresh()
        for header in (self.table.horizontalHeader(), self.table.verticalHeader()):
            assert header is not None, "a table has headers"
            header.setVisible(self.model.columnCount() > 0)
        self.table.resizeColumnsToContents()
        self._choose(*before)
        choices = "\n".join(self._presenter.choices())  # or that rulings are hidden, and the board with them
        self._choices.show_words(choices or (NO_CHOICE if self.model.columnCount() else NOTHING))
        self._show_told()

    def choose(self, side: str, player: str | None, item: str) -> None:
        """Choose a cell and bring it into sight."""
        self._choose(side, player, item)

    def showEvent(self, event: QShowEvent | None) -> None:
        """Somebody looks: the boards are made."""
        super().showEvent(event)
        self._presenter.look(True)

    def hideEvent(self, event: QHideEvent | None) -> None:
        """Nobody looks any more."""
        super().hideEvent(event)
        self._presenter.look(False)

    def changeEvent(self, event: QEvent | None) -> None:
        """Another font or palette: the cells need other room."""
        super().changeEvent(event)
        kinds = (QEvent.Type.FontChange, QEvent.Type.StyleChange, QEvent.Type.PaletteChange)
        if event is not None and event.type() in kinds and hasattr(self, "_choices"):
            self.table.resizeColumnsToContents()

    def resizeEvent(self, event: QResizeEvent | None) -> None:
        """The words under the table are cut anew."""
        super().resizeEvent(event)
        self._show_told()

    def _made_table(self) -> _Table:
        table = _Table()
        table.setAccessibleName("wear board: players and what they wear")
        table.setModel(self.model)
        table.setItemDelegate(WearCellDelegate(table))
        table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        table.setTabKeyNavigation(False)
        table.setMinimumHeight(table.fontMetrics().height() * 3)
        table.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        rows, head = table.verticalHeader(), table.horizontalHeader()
        assert rows is not None, "a table has headers"
        assert head is not None, "a table has headers"
        rows.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        rows.setDefaultSectionSize(table.fontMetrics().height() + 12)
        rows.setHighlightSections(True)
        head.setHighlightSections(True)
        return table

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self.side)
        top.addWidget(self.everybody)
        top.addWidget(self._told, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 4, 0, 0)
        layout.setSpacing(4)
        layout.addLayout(top)
        layout.addWidget(self.table, 1)
        layout.addWidget(self._choices)

    def _connect(self) -> None:
        self.side.chosen.connect(lambda words: self._presenter.show_side(dict(self._presenter.sides())[words]))
        self.everybody.toggled.connect(self._presenter.show_everybody)
        self.table.clicked.connect(self._jump)
        self.table.entered_cell.connect(self._jump)
        self.table.card_wanted.connect(self._change)
        self.table.doubleClicked.connect(self._change)
        selection = self.table.selectionModel()
        assert selection is not None, "a table with a model has one"
        selection.currentChanged.connect(lambda _now, _before: self._show_told())
        self._presenter.events.on("boards", self.refresh)

    def _place(self) -> tuple[str, str | None, str]:
        index = self.table.currentIndex()
        if not index.isValid():
            return ("", None, "")
        line, item = self.model.place(index)
        return (line.board.side, line.player, item)

    def _choose(self, side: str, player: str | None, item: str) -> None:
        row, column = self.model.row_of(side, player), self.model.column_of(item)
        if row is None or column is None:
            row, column = 0, 0
        index = self.model.index(row, column)
        if index.isValid():
            self.table.setCurrentIndex(index)

    def _show_told(self) -> None:
        index = self.table.currentIndex()
        words = self._presenter.told(*self.model.place(index)) if index.isValid() else ""
        self._told.setToolTip(words)
        self._told.setText(self._told.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, self._told.width()))
        self._told.setAccessibleDescription(words)

    def _jump(self, index: QModelIndex) -> None:
        """Where several tags share a cell, each Enter goes to the next of them."""
        tag = self._presenter.next_tag(*self.model.place(index), after=self._went_to)
        if tag is not None:
            self._went_to = tag
            self.jump_wanted.emit(tag)

    def _change(self, index: QModelIndex) -> None:
        cell = self.model.cell(index)
        if cell is not None:
            tags = [one.tag.id for one in cell.findings]
            self.change_wanted.emit(self._went_to if self._went_to in tags else tags[0])

"""The ledger: the findings as a table. Type to filter, Enter goes to the moment, crew and note are edited in place."""

from __future__ import annotations

from PyQt6.QtCore import QEvent, QItemSelection, QModelIndex, Qt, pyqtSignal
from PyQt6.QtGui import QImage, QKeyEvent, QKeySequence
from PyQt6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QLineEdit,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from filmreview.desktop.ledger_choice import CellChoice
from filmreview.desktop.ledger_model import CREW, OFFICIAL, PICTURE, PICTURE_SIZE, TIME, LedgerFilter, LedgerModel, widths
from filmreview.desktop.ledger_presenter import NOT_MARKED, LedgerPresenter
from filmreview.desktop.short_label import ShortLabel
from filmreview.review.model import CREW_MARKS

SEVERAL_FILMS = 20  # letters of a time with the name of its film


class _Table(QTableView):
    """The table. Enter chooses the row's moment; Delete removes the rows chosen; F2 edits the crew mark where the cell stood on
    is not one that can be edited."""

    entered_row = pyqtSignal()
    remove_wanted = pyqtSignal()

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """Enter, Delete and F2, unless a cell is being edited."""
        assert event is not None, "Qt gives the event"
        editing = self.state() == QAbstractItemView.State.EditingState
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not editing:
            self.entered_row.emit()
        elif event.matches(QKeySequence.StandardKey.Delete) and not editing:
            self.remove_wanted.emit()
        elif event.key() == Qt.Key.Key_F2 and not editing and self._edit_crew():
            return
        else:
            super().keyPressEvent(event)

    def _edit_crew(self) -> bool:
        """Edit the crew mark of the row stood on; False where the cell itself can be edited. The rows chosen stay so."""
        at, selection = self.currentIndex(), self.selectionModel()
        if not at.isValid() or selection is None or at.flags() & Qt.ItemFlag.ItemIsEditable:
            return False
        crew = at.siblingAtColumn(CREW)
        selection.setCurrentIndex(crew, selection.SelectionFlag.NoUpdate)
        self.edit(crew)
        return True


class Ledger(QWidget):
    """The place at the bottom of the window."""

    jump_wanted = pyqtSignal(str)  # a tag's id: go to its moment
    change_wanted = pyqtSignal(str)  # a tag's id: open it on the card

    def __init__(self, presenter: LedgerPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self.model = LedgerModel(presenter, self.palette())
        self.filter = LedgerFilter(self.model)
        self.table = self._made_table()
        self._films = 0
        self.look_for = QLineEdit()
        self.look_for.setPlaceholderText("Look for: a number, an item, illegal, late ...")
        self.look_for.setAccessibleName("look for findings")
        self.look_for.setClearButtonEnabled(True)
        self.look_for.textChanged.connect(self._look_for)
        self.look_for.returnPressed.connect(self._to_first)
        self._summary = ShortLabel(name="how many findings")
        self.look_for.setMinimumWidth(self.look_for.fontMetrics().averageCharWidth() * 20)
        self._lay_out()
        self.refresh()

    def refresh(self) -> None:
        """The review or its findings changed."""
        chosen, at = self.chosen(), self.table.currentIndex().row()
        self.model.refresh()
        self._summary.setText(self._presenter.summary())
        self._make_room_for_films(self._presenter.films)
        self.table.setColumnHidden(OFFICIAL, len(self._presenter.officials) == 1)
        if chosen and self.chosen() != chosen:
            self._choose_again(chosen, at)

    def chosen(self) -> tuple[str, ...]:
        """The ids of the rows chosen, from above."""
        selection = self.table.selectionModel()
        found = selection.selection() if selection is not None else QItemSelection()
        ranges = [found[place] for place in range(len(found))]  # quicker than asking for every row chosen
        shown = sorted({row for one in ranges for row in range(one.top(), one.bottom() + 1)})
        return tuple(self.model.row(self.filter.mapToSource(self.filter.index(row, TIME)).row()).tag for row in shown)

    def choose(self, tag: str) -> None:
        """Choose a tag's row and bring it into sight."""
        row = self.model.row_of(tag)
        if row is None:
            return
        index = self.filter.mapFromSource(self.model.index(row, TIME))
        selection = self.table.selectionModel()
        if index.isValid() and selection is not None:
            selection.setCurrentIndex(index, selection.SelectionFlag.ClearAndSelect | selection.SelectionFlag.Rows)
            self.table.scrollTo(index)

    def _make_room_for_films(self, films: int) -> None:
        """With a second film the times say which one they are of."""
        if films > 1 and self._films <= 1:
            letter = self.table.fontMetrics().averageCharWidth()
            self.table.setColumnWidth(TIME, max(self.table.columnWidth(TIME), letter * SEVERAL_FILMS + 24))
        self._films = films

    def _choose_again(self, tags: tuple[str, ...], at: int) -> None:
        """Choose what was chosen before; when all of it has gone, the row that stands in its place now."""
        selection = self.table.selectionModel()
        rows = [row for tag in tags if (row := self.model.row_of(tag)) is not None]
        if not rows:
            self.table.selectRow(min(at, self.filter.rowCount() - 1))
        elif selection is not None:
            self.choose(self.model.row(rows[0]).tag)
            for row in rows[1:]:
                index = self.filter.mapFromSource(self.model.index(row, TIME))
                selection.select(index, selection.SelectionFlag.Select | selection.SelectionFlag.Rows)

    def set_picture(self, tag: str, picture: QImage) -> None:
        """A small picture has been made."""
        self.model.set_picture(tag, picture)

    def remove_chosen(self) -> None:
        """Take the chosen tags out of the review; undo brings them back."""
        self._presenter.remove(self.chosen())

    def changeEvent(self, event: QEvent | None) -> None:
        """Light or dark: the shapes follow."""
        if event is not None and event.type() == QEvent.Type.PaletteChange and hasattr(self, "model"):
            self.model.set_palette(self.palette())
        super().changeEvent(event)

    def _made_table(self) -> _Table:
        table = _Table()
        table.setAccessibleName("ledger of findings")
        table.setModel(self.filter)
        table.setSortingEnabled(True)
        table.sortByColumn(TIME, Qt.SortOrder.AscendingOrder)
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        table.setEditTriggers(QAbstractItemView.EditTrigger.EditKeyPressed | QAbstractItemView.EditTrigger.SelectedClicked)
        marks = (NOT_MARKED, *CREW_MARKS)
        table.setItemDelegateForColumn(CREW, CellChoice(table, "crew mark", lambda: marks, self._set_crew))
        officials = CellChoice(table, "official", lambda: self._presenter.officials, self._set_official)
        table.setItemDelegateForColumn(OFFICIAL, officials)
        table.setIconSize(PICTURE_SIZE)
        table.setAlternatingRowColors(True)
        table.setShowGrid(False)
        table.setMinimumHeight(table.fontMetrics().height() * 3)  # less than Qt asks for: small screens, large letters
        table.setWordWrap(False)
        table.setTabKeyNavigation(False)
        rows_at_left, head = table.verticalHeader(), table.horizontalHeader()
        assert rows_at_left is not None, "a table has headers"
        assert head is not None, "a table has headers"
        rows_at_left.hide()
        rows_at_left.setDefaultSectionSize(max(PICTURE_SIZE.height() + 4, table.fontMetrics().height() + 8))
        head.setStretchLastSection(True)
        head.setHighlightSections(False)
        table.setColumnWidth(PICTURE, PICTURE_SIZE.width() + 10)
        letter = table.fontMetrics().averageCharWidth()
        for column, letters in widths().items():
            table.setColumnWidth(column, letters * letter + 24)
        table.entered_row.connect(self._jump)
        table.remove_wanted.connect(self.remove_chosen)
        table.doubleClicked.connect(self._double_clicked)
        return table

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self.look_for, 1)
        top.addWidget(self._summary)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 4, 0, 0)
        layout.setSpacing(4)
        layout.addLayout(top)
        layout.addWidget(self.table, 1)

    def _look_for(self, text: str) -> None:
        self.filter.look_for(text)

    def _to_first(self) -> None:
        """Enter in the line goes on to the rows that are left."""
        if self.filter.rowCount():
            self.table.selectRow(0)
            self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def _jump(self) -> None:
        index = self.table.currentIndex()
        if index.isValid():
            self.jump_wanted.emit(self.model.row(self.filter.mapToSource(index).row()).tag)

    def _set_crew(self, index: QModelIndex, mark: str) -> None:
        """Of several rows chosen, all get the mark."""
        self._presenter.set_crew(self._meant(index), mark)

    def _set_official(self, index: QModelIndex, position: str) -> None:
        """Of several rows chosen, all become this official's."""
        self._presenter.set_official(self._meant(index), position)

    def _meant(self, index: QModelIndex) -> tuple[str, ...]:
        """The tags that an edit in this cell is for: all those chosen, if the cell's is one of them."""
        tag = self.model.row(self.filter.mapToSource(index).row()).tag
        chosen = self.chosen()
        return chosen if tag in chosen else (tag,)

    def _double_clicked(self, index: QModelIndex) -> None:
        self.change_wanted.emit(self.model.row(self.filter.mapToSource(index).row()).tag)

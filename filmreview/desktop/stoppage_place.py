"""The list of stoppages: where each starts and ends, its kind in words, who set it. Enter goes there; F2 edits in place."""

from __future__ import annotations

from PyQt6.QtCore import QModelIndex, Qt, pyqtSignal
from PyQt6.QtGui import QKeyEvent, QKeySequence, QResizeEvent
from PyQt6.QtWidgets import QAbstractItemView, QLabel, QPushButton, QTableView, QVBoxLayout, QWidget

from filmreview.desktop.film_bar_rows import WrappingRow
from filmreview.desktop.ledger_choice import CellChoice
from filmreview.desktop.stoppage_model import ENDS, KIND, LENGTH, SET, STARTS, StoppageModel
from filmreview.desktop.stoppage_presenter import KINDS, StoppagePresenter
from filmreview.desktop.when_seen import WhenSeen


class _Table(QTableView):
    """Enter goes to the stoppage, Delete removes those chosen; not while a cell is edited."""

    entered_row = pyqtSignal()
    remove_wanted = pyqtSignal()

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """The two keys; all others as in any table."""
        assert event is not None, "Qt gives the event"
        editing = self.state() == QAbstractItemView.State.EditingState
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not editing:
            self.entered_row.emit()
        elif event.matches(QKeySequence.StandardKey.Delete) and not editing:
            self.remove_wanted.emit()
        else:
            super().keyPressEvent(event)


class StoppagePlace(QWidget):
    """The tab over the ledger."""

    jump_wanted = pyqtSignal(str, object)  # film id, Moment
    edge_wanted = pyqtSignal(str, bool)  # a stoppage's id; True: it ends, False: it starts at the moment on the picture
    mark_wanted = pyqtSignal()  # begin or end one at the moment on the picture

    def __init__(self, presenter: StoppagePresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self.model = StoppageModel(presenter)
        self.table = self._made_table()
        self._summary = QLabel()
        self._summary.setAccessibleName("how many stoppages")
        self.mark = _button("&Begin one here", "begin or end a stoppage at the moment on the picture")
        self.starts = _button("&Starts here", "the stoppage chosen starts at the moment on the picture")
        self.ends = _button("En&ds here", "the stoppage chosen ends at the moment on the picture")
        self.keep = _button("It &is right", "the proposed stoppages chosen are right")
        self.remove = _button("Re&move", "remove the stoppages chosen")
        self._lay_out()
        self._connect()
        self.refresh()

    def refresh(self) -> None:
        """The stoppages have changed."""
        chosen, at = self.chosen(), self.table.currentIndex().row()
        self.model.refresh()
        if chosen and self.chosen() != chosen:
            row = self.model.row_of(chosen[0])
            self.table.selectRow(row if row is not None else min(at, self.model.rowCount() - 1))
        self._summary.setText(self._presenter.summary())
        self._summary.setToolTip(self._summary.text())
        begun = self._presenter.begun is not None
        words = "En&d it here" if begun else "&Begin one here"
        self.mark.setText(f"{words} ({self._presenter.mark_key.replace('&', '&&')})")
        self._show_chosen()

    def chosen(self) -> tuple[str, ...]:
        """The ids of the stoppages chosen, from above."""
        selection = self.table.selectionModel()
        rows = selection.selectedRows() if selection is not None else []
        return tuple(self.model.row(number).stoppage for number in sorted(index.row() for index in rows))

    def choose(self, stoppage: str) -> bool:
        """Choose a stoppage's row and bring it into sight; False when it is not there."""
        row = self.model.row_of(stoppage)
        if row is not None:
            self.table.selectRow(row)
            self.table.scrollTo(self.model.index(row, 0))
        return row is not None

    def ask_kind(self, stoppage: str) -> None:
        """Choose its kind, in its cell."""
        if self.choose(stoppage):
            self.table.setFocus(Qt.FocusReason.ShortcutFocusReason)
            index = self.model.index(self.table.currentIndex().row(), KIND)
            self.table.setCurrentIndex(index)
            self.table.edit(index)

    def resizeEvent(self, event: QResizeEvent | None) -> None:
        """Where it becomes narrow the buttons need a second row, and the place the height for it."""
        super().resizeEvent(event)
        layout = self.layout()
        if layout is not None:
            self.setMinimumHeight(layout.minimumHeightForWidth(self.width()))

    def _made_table(self) -> _Table:
        table = _Table()
        table.setAccessibleName("list of stoppages")
        table.setModel(self.model)
        table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        table.setEditTriggers(QAbstractItemView.EditTrigger.EditKeyPressed | QAbstractItemView.EditTrigger.SelectedClicked)
        table.setItemDelegateForColumn(KIND, CellChoice(table, "kind of stoppage", lambda: KINDS, self._set_kind))
        table.setAlternatingRowColors(True)
        table.setShowGrid(False)
        table.setMinimumHeight(table.fontMetrics().height() * 3)
        table.setWordWrap(False)
        table.setTabKeyNavigation(False)
        rows, head = table.verticalHeader(), table.horizontalHeader()
        assert rows is not None, "a table has headers"
        assert head is not None, "a table has headers"
        rows.hide()
        rows.setDefaultSectionSize(table.fontMetrics().height() + 8)
        head.setHighlightSections(False)
        head.setStretchLastSection(True)
        letter = table.fontMetrics().averageCharWidth()
        for column, letters in ((STARTS, 14), (ENDS, 10), (LENGTH, 9), (KIND, 18), (SET, 12)):
            table.setColumnWidth(column, letters * letter + 24)
        return table

    def _lay_out(self) -> None:
        below = WrappingRow(gap_after=1)
        below.addWidget(self._summary)
        for button in (self.mark, self.starts, self.ends, self.keep, self.remove):
            below.addWidget(button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 4, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(self.table, 1)
        layout.addLayout(below)

    def _connect(self) -> None:
        self.table.entered_row.connect(lambda: self._jump(self.table.currentIndex()))
        self.table.doubleClicked.connect(self._double_clicked)
        self.table.remove_wanted.connect(lambda: self._presenter.remove(self.chosen()))
        self.mark.clicked.connect(self.mark_wanted)
        self.starts.clicked.connect(lambda: self._edge(False))
        self.ends.clicked.connect(lambda: self._edge(True))
        self.keep.clicked.connect(lambda: self._presenter.accept(self.chosen()))
        self.remove.clicked.connect(lambda: self._presenter.remove(self.chosen()))
        selection = self.table.selectionModel()
        assert selection is not None, "a table with a model has one"
        selection.selectionChanged.connect(lambda _now, _before: self._show_chosen())
        self._presenter.events.on("stoppages", WhenSeen(self, self.refresh))

    def _show_chosen(self) -> None:
        rows = [row for row in self._presenter.rows() if row.stoppage in self.chosen()]
        for button in (self.starts, self.ends):
            button.setEnabled(len(rows) == 1)
        self.keep.setEnabled(any(row.proposed for row in rows))
        self.remove.setEnabled(bool(rows))

    def _double_clicked(self, index: QModelIndex) -> None:
        if index.column() != KIND:
            self._jump(index)

    def _jump(self, index: QModelIndex) -> None:
        """To its start; from the cell of its end, to its end."""
        if index.isValid():
            place = self._presenter.place(self.model.row(index.row()).stoppage, index.column() == ENDS)
            if place is not None:
                self.jump_wanted.emit(*place)

    def _edge(self, end: bool) -> None:
        for stoppage in self.chosen()[:1]:
            self.edge_wanted.emit(stoppage, end)

    def _set_kind(self, index: QModelIndex, kind: str) -> None:
        """Of several rows chosen, all get the kind."""
        stoppage, chosen = self.model.row(index.row()).stoppage, self.chosen()
        self._presenter.set_kind(chosen if stoppage in chosen else (stoppage,), kind)


def _button(words: str, name: str) -> QPushButton:
    button = QPushButton(words)
    button.setAccessibleName(name)
    button.setToolTip(name[:1].upper() + name[1:])
    button.setAutoDefault(False)
    return button

"""The procedure clock's rows as a Qt table model."""

from __future__ import annotations

from PyQt6.QtCore import QAbstractTableModel, QModelIndex, Qt
from PyQt6.QtGui import QFont

from filmreview.desktop.procedure_clock_presenter import EventRow, ProcedureClockPresenter, seconds_words

COLUMNS = ("Time", "What happened", "Whose", "Since", "Dead for", "By the book", "Besides")
TIME, WHAT, WHO, SINCE, DEAD, BOOK, MORE = range(len(COLUMNS))
_LONGER = {SINCE: "seconds since the event before", DEAD: "seconds that the ball has been dead"}
"""What a short head says in full."""


class ProcedureClockModel(QAbstractTableModel):
    """One row an event, in the order of time."""

    def __init__(self, presenter: ProcedureClockPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self._rows: tuple[EventRow, ...] = ()

    def refresh(self) -> None:
        """Take the presenter's rows; where the events are the same, what is chosen stays."""
        rows = self._presenter.rows()
        if [row.event for row in rows] == [row.event for row in self._rows]:
            self._rows = rows
            if rows:
                self.dataChanged.emit(self.index(0, 0), self.index(len(rows) - 1, MORE))
            return
        self.beginResetModel()
        self._rows = rows
        self.endResetModel()

    def row(self, number: int) -> EventRow:
        """The row of that number."""
        return self._rows[number]

    def row_of(self, event: str) -> int | None:
        """The number of an event's row."""
        return next((number for number, row in enumerate(self._rows) if row.event == event), None)

    def rowCount(self, parent: QModelIndex = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        """As many as there are events."""
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: QModelIndex = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        """As many as COLUMNS."""
        return 0 if parent.isValid() else len(COLUMNS)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """The words over the columns."""
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        if role == Qt.ItemDataRole.DisplayRole and orientation == Qt.Orientation.Horizontal:
            return COLUMNS[section]
        if role == Qt.ItemDataRole.ToolTipRole and orientation == Qt.Orientation.Horizontal:
            return _LONGER.get(section)
        return None

    def data(self, index: QModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """A cell's words; a row with a departure is bold."""
        if not index.isValid():
            return None
        row, column = self._rows[index.row()], index.column()
        words = _text(row, column)
        if role == Qt.ItemDataRole.DisplayRole:
            return words
        if role == Qt.ItemDataRole.FontRole and row.against:
            font = QFont()
            font.setBold(True)
            return font
        if role == Qt.ItemDataRole.ToolTipRole:
            return row.against or words or None
        if role == Qt.ItemDataRole.AccessibleTextRole:
            told = row.against if column == BOOK else words
            return f"{COLUMNS[column]}: {told or 'none'}"
        return None


def _text(row: EventRow, column: int) -> str:
    book = "departure" if row.against else ""
    return (row.time, row.what, row.who, seconds_words(row.since), seconds_words(row.dead), book, row.more)[column]

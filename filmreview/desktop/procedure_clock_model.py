"""The procedure clock's rows as a Qt table model."""

from __future__ import annotations

from PyQt6.QtCore import QModelIndex, Qt
from PyQt6.QtGui import QFont

from filmreview.desktop.procedure_clock_presenter import EventRow, ProcedureClockPresenter, seconds_words
from filmreview.desktop.row_model import RowModel

COLUMNS = ("Time", "What happened", "Whose", "Since", "Dead for", "By the book", "Besides")
TIME, WHAT, WHO, SINCE, DEAD, BOOK, MORE = range(len(COLUMNS))
_LONGER = {SINCE: "seconds since the event before", DEAD: "seconds that the ball has been dead"}
"""What a short head says in full."""


class ProcedureClockModel(RowModel[EventRow]):
    """One row an event, in the order of time."""

    def __init__(self, presenter: ProcedureClockPresenter) -> None:
        super().__init__(presenter.rows, lambda row: row.event, COLUMNS)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """The words over the columns; under the pointer in full."""
        if role == Qt.ItemDataRole.ToolTipRole and orientation == Qt.Orientation.Horizontal:
            return _LONGER.get(section)
        return super().headerData(section, orientation, role)

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
            return f"{COLUMNS[column]}: {told or 'empty'}"
        return None


def _text(row: EventRow, column: int) -> str:
    book = "departure" if row.against else ""
    return (row.time, row.what, row.who, seconds_words(row.since), seconds_words(row.dead), book, row.more)[column]

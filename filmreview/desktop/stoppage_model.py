"""The stoppages as a Qt table model."""

from __future__ import annotations

from PyQt6.QtCore import QModelIndex, Qt

from filmreview.desktop.row_model import RowModel
from filmreview.desktop.stoppage_presenter import PROPOSED, StoppagePresenter, StoppageRow

COLUMNS = ("Starts", "Ends", "Length", "Kind", "Put down", "Note")
STARTS, ENDS, LENGTH, KIND, SET, NOTE = range(len(COLUMNS))


class StoppageModel(RowModel[StoppageRow]):
    """One row a stoppage, in the order of time. Kind and note can be edited."""

    def __init__(self, presenter: StoppagePresenter) -> None:
        super().__init__(presenter.rows, lambda row: row.stoppage, COLUMNS)
        self._presenter = presenter

    def flags(self, index: QModelIndex) -> Qt.ItemFlag:
        """Kind and note can be edited."""
        flags = super().flags(index)
        return flags | Qt.ItemFlag.ItemIsEditable if index.column() in (KIND, NOTE) else flags

    def data(self, index: QModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """A cell's words."""
        if not index.isValid():
            return None
        words = _text(self._rows[index.row()], index.column())
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return words
        if role == Qt.ItemDataRole.ToolTipRole:
            return words or None
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{COLUMNS[index.column()]}: {words or 'empty'}"
        return None

    def setData(self, index: QModelIndex, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        """A kind or a note edited in place; True when the review took it."""
        if role != Qt.ItemDataRole.EditRole:
            return False
        stoppage = self._rows[index.row()].stoppage
        if index.column() == KIND:
            return self._presenter.set_kind((stoppage,), str(value))
        return index.column() == NOTE and self._presenter.set_note(stoppage, str(value))


def _text(row: StoppageRow, column: int) -> str:
    start = f"{row.film_words} {row.start_time}".strip()
    set_by = PROPOSED if row.proposed else "by hand"
    return (start, row.end_time, f"{float(row.length):.1f} s", row.kind, set_by, row.note)[column]

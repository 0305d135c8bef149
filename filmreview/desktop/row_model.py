"""A Qt table model over a presenter's rows, in their order; what a cell says is told by the model of each table."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Generic, TypeVar

from PyQt6.QtCore import QAbstractTableModel, QModelIndex, Qt

Row = TypeVar("Row")


class RowModel(QAbstractTableModel, Generic[Row]):
    """rows: asked for at every refresh. id_of: what says that a row is still the same thing. columns: the words over them."""

    def __init__(self, rows: Callable[[], Sequence[Row]], id_of: Callable[[Row], str], columns: Sequence[str]) -> None:
        super().__init__()
        self._ask, self._id_of, self._columns = rows, id_of, tuple(columns)
        self._rows: tuple[Row, ...] = ()

    def refresh(self) -> None:
        """Take the presenter's rows; where the things are the same, what is chosen stays."""
        rows = tuple(self._ask())
        if [self._id_of(row) for row in rows] == [self._id_of(row) for row in self._rows]:
            self._rows = rows
            if rows:
                self.dataChanged.emit(self.index(0, 0), self.index(len(rows) - 1, len(self._columns) - 1))
            return
        self.beginResetModel()
        self._rows = rows
        self.endResetModel()

    def row(self, number: int) -> Row:
        """The row of that number."""
        return self._rows[number]

    def row_of(self, one_id: str) -> int | None:
        """The number of a thing's row."""
        return next((number for number, row in enumerate(self._rows) if self._id_of(row) == one_id), None)

    def rowCount(self, parent: QModelIndex = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        """As many as there are things."""
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: QModelIndex = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        """As many as have words over them."""
        return 0 if parent.isValid() else len(self._columns)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """The words over the columns."""
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        if role == Qt.ItemDataRole.DisplayRole and orientation == Qt.Orientation.Horizontal:
            return self._columns[section]
        return None

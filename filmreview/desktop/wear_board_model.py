"""The wear board's cells as a Qt table model."""

from __future__ import annotations

from PyQt6.QtCore import QAbstractTableModel, QModelIndex, Qt
from PyQt6.QtGui import QFont

from filmreview.desktop.wear_board_presenter import WearBoardPresenter, WearLine
from filmreview.review.wear import WearCell


class WearBoardModel(QAbstractTableModel):
    """Lines of teams and players against items. The presenter says what there is; `refresh` takes it."""

    def __init__(self, presenter: WearBoardPresenter) -> None:
        super().__init__()
        self.presenter = presenter
        self._lines: tuple[WearLine, ...] = ()
        self._items: tuple[str, ...] = ()

    def refresh(self) -> None:
        """Take the presenter's lines and items."""
        self.beginResetModel()
        self._lines, self._items = self.presenter.lines(), self.presenter.items()
        self.endResetModel()

    def place(self, index: QModelIndex) -> tuple[WearLine, str]:
        """The line and item of a cell."""
        return self._lines[index.row()], self._items[index.column()]

    def cell(self, index: QModelIndex) -> WearCell | None:
        """What was seen there."""
        return self.presenter.cell(*self.place(index))

    def row_of(self, side: str, player: str | None) -> int | None:
        """The row of a team's line or player."""
        places = ((line.board.side, line.player) for line in self._lines)
        return next((row for row, place in enumerate(places) if place == (side, player)), None)

    def column_of(self, item: str) -> int | None:
        """The column of an item."""
        return self._items.index(item) if item in self._items else None

    def rowCount(self, parent: QModelIndex = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        """A row a line."""
        return 0 if parent.isValid() else len(self._lines)

    def columnCount(self, parent: QModelIndex = QModelIndex()) -> int:  # noqa: B008 - Qt's own default
        """A column an item."""
        return 0 if parent.isValid() else len(self._items)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """Items above, teams and numbers at the left."""
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        if orientation == Qt.Orientation.Horizontal:
            return self._items[section] if role == Qt.ItemDataRole.DisplayRole else None
        line = self._lines[section]
        if role == Qt.ItemDataRole.FontRole and line.player is None:
            font = QFont()
            font.setBold(True)
            return font
        return line.head if role == Qt.ItemDataRole.DisplayRole else None

    def data(self, index: QModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """A cell's words; all about it as tooltip and for screen readers. Patch and shape are painted by the delegate."""
        if not index.isValid():
            return None
        place = self.place(index)
        if role == Qt.ItemDataRole.DisplayRole:
            return self.presenter.words(*place)
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole):
            return self.presenter.told(*place)
        return None

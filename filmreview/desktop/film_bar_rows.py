"""A row of controls that goes on in a second row where the window is too narrow for one."""

from __future__ import annotations

from PyQt6.QtCore import QPoint, QRect, QSize, Qt
from PyQt6.QtWidgets import QLayout, QLayoutItem, QWidget

_GAP = 4


class WrappingRow(QLayout):
    """Widgets side by side, each as wide as it asks for. gap_after: how many of them stand at the left; while all fit into one
    row the others stand at the right."""

    def __init__(self, parent: QWidget | None = None, gap_after: int = 0) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self._gap_after = gap_after
        self.setContentsMargins(0, 2, 0, 2)

    def addItem(self, item: QLayoutItem | None) -> None:
        """See QLayout."""
        assert item is not None
        self._items.append(item)

    def count(self) -> int:
        """See QLayout."""
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        """See QLayout."""
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        """See QLayout."""
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        """See QLayout: it takes no more than it needs."""
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        """See QLayout."""
        return True

    def heightForWidth(self, width: int) -> int:
        """See QLayout."""
        return self._lay(QRect(0, 0, width, 0), move=False)

    def sizeHint(self) -> QSize:
        """One row."""
        shown = self._shown()
        width = sum(item.sizeHint().width() + _GAP for item in shown)
        return QSize(width, max((item.sizeHint().height() for item in shown), default=0) + 4)

    def minimumSize(self) -> QSize:
        """The widest widget alone."""
        width = max((item.sizeHint().width() for item in self._shown()), default=0)
        return QSize(width, self.sizeHint().height())

    def setGeometry(self, rect: QRect) -> None:
        """See QLayout."""
        super().setGeometry(rect)
        self._lay(rect, move=True)

    def _shown(self) -> list[QLayoutItem]:
        return [item for item in self._items if not item.isEmpty()]

    def _rows(self, width: int) -> list[list[QLayoutItem]]:
        rows: list[list[QLayoutItem]] = [[]]
        left = width
        for item in self._shown():
            wide = item.sizeHint().width()
            if rows[-1] and wide > left:
                rows.append([])
                left = width
            rows[-1].append(item)
            left -= wide + _GAP
        return rows

    def _lay(self, rect: QRect, move: bool) -> int:
        rows = self._rows(rect.width())
        top = rect.top() + 2
        at_left = {id(item) for item in self._items[: self._gap_after]} if self._gap_after else set()
        for row in rows:
            high = max((item.sizeHint().height() for item in row), default=0)
            used = sum(item.sizeHint().width() + _GAP for item in row) - _GAP
            x, spare = rect.left(), max(0, rect.width() - used) if len(rows) == 1 and at_left else 0
            for item in row:
                if spare and id(item) not in at_left:
                    x, spare = x + spare, 0
                size = item.sizeHint()
                if move:
                    item.setGeometry(QRect(QPoint(x, top + (high - size.height()) // 2), size))
                x += size.width() + _GAP
            top += high + 2
        return top - rect.top()

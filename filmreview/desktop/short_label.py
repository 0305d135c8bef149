"""Words in one line that never make a window wider: where there is no room they end in "..." and the tool tip has them all."""

from __future__ import annotations

from PyQt6.QtCore import QEvent, QSize, Qt
from PyQt6.QtGui import QPainter, QPaintEvent, QPalette
from PyQt6.QtWidgets import QFrame, QSizePolicy

_LEAST = 8  # letters that are always in sight


class ShortLabel(QFrame):
    """A label of plain words; text and setText as of a QLabel. The tool tip is the whole text where some is not seen."""

    def __init__(self, words: str = "", name: str = "") -> None:
        super().__init__()
        self._words = words
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def text(self) -> str:
        """All of the words."""
        return self._words

    def setText(self, words: str) -> None:
        """Other words, in one line."""
        self._words = " ".join(words.split())
        self.setAccessibleDescription(self._words)
        self.updateGeometry()
        self.update()

    def clear(self) -> None:
        """No words."""
        self.setText("")

    def shown(self) -> str:
        """What is seen of them."""
        return self.fontMetrics().elidedText(self._words, Qt.TextElideMode.ElideRight, self.contentsRect().width())

    def sizeHint(self) -> QSize:
        """Room for all."""
        return self._room(self.fontMetrics().horizontalAdvance(self._words) + 2)

    def minimumSizeHint(self) -> QSize:
        """A few letters."""
        return self._room(min(self.fontMetrics().averageCharWidth() * _LEAST, self.sizeHint().width()))

    def event(self, event: QEvent | None) -> bool:
        """The tool tip, only where something is not seen."""
        if event is not None and event.type() == QEvent.Type.ToolTip:
            self.setToolTip(self._words if self.shown() != self._words else "")
        return super().event(event)

    def paintEvent(self, _event: QPaintEvent | None) -> None:
        """As much as there is room for."""
        painter = QPainter(self)
        painter.setPen(self.palette().color(QPalette.ColorRole.WindowText))
        flags = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        painter.drawText(self.contentsRect(), flags, self.shown())
        painter.end()

    def _room(self, width: int) -> QSize:
        return QSize(width, self.fontMetrics().height() + 2)

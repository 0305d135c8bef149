"""Words of unknown length in a part of a screen: as high as they need, up to so many lines, then they scroll."""

from __future__ import annotations

from PyQt6.QtCore import QEvent, QRect, Qt
from PyQt6.QtGui import QResizeEvent
from PyQt6.QtWidgets import QFrame, QScrollArea, QSizePolicy

from filmreview.desktop.small_widgets import wrapped


class ScrolledWords(QScrollArea):
    """Wrapped words. name: what a screen reader says. most_lines: shown without scrolling."""

    def __init__(self, name: str, most_lines: int) -> None:
        super().__init__()
        self._most_lines = most_lines
        self.words = wrapped(name=name)
        self.words.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        self.setAccessibleName(name)
        self.setWidget(self.words)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def show_words(self, words: str) -> None:
        """Other words."""
        self.words.setText(words)
        self._fit()

    def resizeEvent(self, event: QResizeEvent | None) -> None:
        """Another width: other breaks of lines."""
        super().resizeEvent(event)
        self._fit()

    def changeEvent(self, event: QEvent | None) -> None:
        """Another font: another height."""
        super().changeEvent(event)
        if event is not None and event.type() == QEvent.Type.FontChange and hasattr(self, "words"):
            self._fit()

    def _fit(self) -> None:
        """The keyboard reaches words that do not fit: then they take the focus and scroll with the arrows."""
        letters = self.words.fontMetrics()
        room = QRect(0, 0, max(1, self.width() - 8), 100_000)
        needed = letters.boundingRect(room, int(Qt.TextFlag.TextWordWrap), self.words.text()).height()
        most = letters.lineSpacing() * self._most_lines
        self.setFixedHeight(min(needed, most) + 4)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus if needed > most else Qt.FocusPolicy.NoFocus)

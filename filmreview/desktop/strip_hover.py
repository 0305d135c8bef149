"""What hovering over the film strip shows: a small picture and a few words above it."""

from __future__ import annotations

from PyQt6.QtCore import QPoint, Qt
from PyQt6.QtGui import QImage, QPixmap
from PyQt6.QtWidgets import QFrame, QLabel, QVBoxLayout, QWidget

from filmreview.desktop.strip_thumbnails import HEIGHT, WIDTH


class HoverPicture(QFrame):
    """A small window of its own above the strip; it takes no keys and no mouse."""

    def __init__(self, strip: QWidget) -> None:
        super().__init__(strip, Qt.WindowType.ToolTip | Qt.WindowType.WindowTransparentForInput)
        self.setAttribute(Qt.WidgetAttribute.WA_ShowWithoutActivating)
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.setAccessibleName("What the film shows there")
        self._picture, self._words = QLabel(), QLabel()
        self._picture.setFixedSize(WIDTH, HEIGHT)
        self._picture.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._picture.setAccessibleName("Small picture")
        self._words.setAccessibleName("Time and tag")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(4, 4, 4, 4)
        layout.addWidget(self._picture)
        layout.addWidget(self._words)

    def say(self, words: str, x: float) -> None:
        """Show these words above that place of the strip; the picture before stays until another one comes."""
        self._words.setText(words)
        self.adjustSize()
        strip = self.parentWidget()
        assert strip is not None
        at = strip.mapToGlobal(QPoint(round(x) - self.width() // 2, -self.height() - 4))
        screen = strip.screen()
        if screen is not None:
            room = screen.availableGeometry()
            at.setX(min(max(room.left(), at.x()), room.right() - self.width()))
        self.move(at)
        self.show()

    def show_picture(self, image: QImage) -> None:
        """Show this small picture."""
        self._picture.setPixmap(QPixmap.fromImage(image))

"""Room for large dialogs on small or much enlarged screens: they scroll rather than reach past the screen's edge."""

from __future__ import annotations

from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QDialog, QFrame, QScrollArea, QSizePolicy, QWidget

_FRAME = 40  # pixels that a window's own frame and title take


def scrolled(inside: QWidget) -> QScrollArea:
    """The widget in an area that scrolls when there is too little room for it."""
    area = QScrollArea()
    area.setWidget(inside)
    area.setWidgetResizable(True)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # it goes where the focus of what is inside goes
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
    return area


def fit_to_screen(dialog: QDialog, width: int, height: int) -> None:
    """As large as this where the screen allows it, else as large as it does."""
    screen = dialog.screen()
    if screen is not None:
        room = screen.availableGeometry()
        width, height = min(width, room.width()), min(height, room.height() - _FRAME)
    dialog.resize(width, height)

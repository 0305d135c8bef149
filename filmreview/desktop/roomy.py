"""Small screens and large letters: what does not fit scrolls, and nothing is cut off.

A page or a dialog keeps its own layout; where the screen has less room than that asks for, bars appear, and what takes the keys
is brought into sight.
"""

from __future__ import annotations

from PyQt6.QtCore import QChildEvent, QEvent, QObject, QSize, Qt
from PyQt6.QtWidgets import QApplication, QDialog, QFileDialog, QFrame, QScrollArea, QVBoxLayout, QWidget

_FRAME = QSize(8, 36)  # what a window's own frame takes, about
_LEAST = QSize(320, 200)
_AROUND = 12  # pixels around what takes the keys


class Roomy(QScrollArea):
    """A widget that may ask for more room than there is."""

    def __init__(self, inside: QWidget) -> None:
        super().__init__()
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName(inside.accessibleName())
        self.setWidget(inside)
        application = QApplication.instance()
        assert isinstance(application, QApplication), "widgets need one"
        application.focusChanged.connect(self._follow)

    def minimumSizeHint(self) -> QSize:
        """Little, whatever is inside."""
        return _LEAST

    def sizeHint(self) -> QSize:
        """What the inside asks for."""
        inside = self.widget()
        return inside.sizeHint().expandedTo(inside.minimumSize()) if inside is not None else _LEAST

    def _follow(self, _before: QWidget | None, now: QWidget | None) -> None:
        inside = self.widget()
        if now is None or inside is None or not inside.isAncestorOf(now):
            return
        pane = self.viewport()
        if pane is not None and (inside.width() > pane.width() or inside.height() > pane.height()):
            self.ensureWidgetVisible(now, _AROUND, _AROUND)


class FitDialogs(QObject):
    """Sees to it that the dialogs of a window, and theirs, fit on its screen."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject | None, event: QEvent | None) -> bool:
        """A dialog is about to be shown."""
        if isinstance(event, QChildEvent) and event.type() == QEvent.Type.ChildPolished:
            dialog = event.child()
            if isinstance(dialog, QDialog):
                self._take(dialog)
        return super().eventFilter(watched, event)

    def _take(self, dialog: QDialog) -> None:
        for below in dialog.findChildren(QDialog, options=Qt.FindChildOption.FindDirectChildrenOnly):
            self._take(below)  # those that were there before were looked over together with it
        if not isinstance(dialog, QFileDialog):
            dialog.installEventFilter(self)
            fit(dialog)


def room_on(window: QWidget) -> QSize:
    """What a window may take of its screen, without its own frame."""
    screen = window.screen()
    return screen.availableGeometry().size() - _FRAME if screen is not None else QSize(1024, 600)


def fit(dialog: QDialog, room: QSize | None = None) -> None:
    """No dialog begins larger than its screen; where it cannot be smaller, its inside scrolls. room: None for the screen's."""
    layout = dialog.layout()
    if layout is None:
        return
    room = room or room_on(dialog)
    asked = dialog.minimumSizeHint().expandedTo(dialog.minimumSize())
    if asked.boundedTo(room) == asked:
        if dialog.testAttribute(Qt.WidgetAttribute.WA_Resized):  # else it is as large as it asks for
            dialog.resize(dialog.size().boundedTo(room))
        return
    inside = QWidget()
    inside.setLayout(layout)  # Qt moves it with its widgets
    inside.setMinimumSize(dialog.minimumSize())
    dialog.setMinimumSize(_LEAST.boundedTo(room))
    outside = QVBoxLayout(dialog)
    outside.setContentsMargins(0, 0, 0, 0)
    outside.addWidget(Roomy(inside))
    dialog.resize(asked.boundedTo(room))

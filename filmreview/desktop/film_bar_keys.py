"""The space bar on a control: there it presses the control, though around the picture it plays and pauses the film."""

from __future__ import annotations

from PyQt6.QtCore import QEvent, QObject, Qt
from PyQt6.QtGui import QKeyEvent
from PyQt6.QtWidgets import QAbstractButton, QComboBox, QWidget


class SpacePresses(QObject):
    """Keeps the space bar for the buttons and choices inside a widget, whatever keys work around them."""

    def __init__(self, around: QWidget) -> None:
        super().__init__(around)
        controls: list[QWidget] = [*around.findChildren(QAbstractButton), *around.findChildren(QComboBox)]
        for one in controls:
            one.installEventFilter(self)

    def eventFilter(self, _watched: QObject | None, event: QEvent | None) -> bool:
        """Accepting the question whether a key is wanted keeps it from being a key of the window."""
        if not isinstance(event, QKeyEvent) or event.type() != QEvent.Type.ShortcutOverride:
            return False
        ours = event.key() == Qt.Key.Key_Space and not event.modifiers()
        if ours:
            event.accept()
        return ours

"""Places that lie under another tab are not written anew for every change, but when they are looked at."""

from __future__ import annotations

from collections.abc import Callable

from PyQt6.QtCore import QEvent, QObject
from PyQt6.QtWidgets import QWidget


class WhenSeen(QObject):
    """Call it in place of a widget's refresh: it refreshes at once what is seen, and all else as soon as it is shown."""

    def __init__(self, widget: QWidget, refresh: Callable[[], object]) -> None:
        super().__init__(widget)
        self._widget, self._refresh = widget, refresh
        self._missed = False
        widget.installEventFilter(self)

    def __call__(self) -> None:
        """Something changed."""
        if self._widget.isVisible():
            self._refresh()
        else:
            self._missed = True

    def eventFilter(self, watched: QObject | None, event: QEvent | None) -> bool:
        """The widget comes to be seen."""
        if self._missed and event is not None and event.type() == QEvent.Type.Show:
            self._missed = False
            self._refresh()
        return super().eventFilter(watched, event)

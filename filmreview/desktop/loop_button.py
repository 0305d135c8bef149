"""The loop's button in the row of controls: sets its start and end, puts it off, and says from when to when it goes."""

from __future__ import annotations

from collections.abc import Callable

from PyQt6.QtCore import Qt
from PyQt6.QtGui import QAction
from PyQt6.QtWidgets import QMenu, QPushButton

HOW = "A part of the film played over and over; it ends before the frame where its end is set"


class LoopButton(QPushButton):
    """A button with a menu. from_here, to_here, off: what its lines do."""

    def __init__(self, from_here: Callable[[], None], to_here: Callable[[], None], off: Callable[[], None]) -> None:
        super().__init__()
        menu = QMenu(self)
        menu.setAccessibleName("loop")
        for words, do in (("&Starts here", from_here), ("&Ends here", to_here)):
            self._add(menu, words, do)
        self._off = self._add(menu, "&Off", off)
        self.setMenu(menu)
        self.setAutoDefault(False)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.show_loop("")

    def show_loop(self, words: str) -> None:
        """Which loop there is, "" for none."""
        self.setText("Loop on" if words else "Loop")
        self.setAccessibleName(f"loop: {words}" if words else "loop: none")
        self.setToolTip(f"Loop: {words}" if words else HOW)
        self._off.setEnabled(bool(words))

    def _add(self, menu: QMenu, words: str, do: Callable[[], None]) -> QAction:
        action = menu.addAction(words)
        assert action is not None, "it was just made"
        action.triggered.connect(lambda _checked=False: do())
        return action

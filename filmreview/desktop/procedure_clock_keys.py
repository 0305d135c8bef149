"""The keys that put an event down while the film runs: a letter each, alive while the procedure clock is open and a film is on
the picture, whether the focus is on the film or on the clock."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from PyQt6.QtCore import Qt
from PyQt6.QtGui import QKeySequence, QShortcut
from PyQt6.QtWidgets import QWidget

from filmreview.desktop.procedure_clock_words import KEY_OF


class EventKeys:
    """note: gets the event word of the key pressed. places: the widgets that the keys work in."""

    def __init__(self, places: Iterable[QWidget], note: Callable[[str], None]) -> None:
        self._keys: list[QShortcut] = []
        for place in places:
            for what, key in KEY_OF.items():
                shortcut = QShortcut(QKeySequence(key), place)
                shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
                shortcut.setAutoRepeat(False)
                shortcut.activated.connect(lambda what=what: note(what))
                shortcut.activatedAmbiguously.connect(lambda what=what: note(what))  # a person gave the letter to the film too
                self._keys.append(shortcut)
        self.set_alive(False)

    def set_alive(self, alive: bool) -> None:
        """Have them work, or not."""
        for shortcut in self._keys:
            shortcut.setEnabled(alive)

"""Pointing at white by keys alone: a box put in the middle of the picture, moved, reshaped and taken."""

from __future__ import annotations

from PyQt6.QtCore import Qt
from PyQt6.QtGui import QKeyEvent

from filmreview.desktop.picture_region import Grip, dragged
from filmreview.desktop.picture_view import View
from filmreview.facts.region import Box

_PART_OF_SIGHT = 8
_ARROWS = {Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0), Qt.Key.Key_Up: (0, -1), Qt.Key.Key_Down: (0, 1)}
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class WhiteAim:
    """Where keys point while white is pointed at. box: None before the first Enter.

    Enter puts a box in the middle of what is seen, Alt+arrows move it by a pixel, Alt+Shift+arrows its right and lower edge,
    Enter takes it, Esc points no more.
    """

    def __init__(self) -> None:
        self.box: Box | None = None

    def is_ours(self, event: QKeyEvent) -> bool:
        """Whether the key is one of ours, while white is pointed at."""
        keys = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if event.key() in _ARROWS:
            return keys & ~Qt.KeyboardModifier.ShiftModifier == Qt.KeyboardModifier.AltModifier
        return not keys and event.key() in (*_ENTER, Qt.Key.Key_Escape)

    def key(self, event: QKeyEvent, view: View) -> Box | None:
        """Do what one of our keys but Esc says; the box that was taken, None while it is not."""
        key = Qt.Key(event.key())
        if key in _ENTER:
            if self.box is not None:
                return self.box
            left, top, right, bottom = view.in_sight()
            side = max(1, round(min(right - left, bottom - top) / _PART_OF_SIGHT))
            self.box = Box(round((left + right - side) / 2), round((top + bottom - side) / 2), side, side)
        elif self.box is not None:
            edges = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            self.box = dragged(self.box, Grip(right=edges, bottom=edges), *_ARROWS[key], view.picture)
        return None

    @property
    def words(self) -> str:
        """What there is to be done, for a person who does not see it."""
        if self.box is None:
            return "pointing at white: Enter puts a box in the middle"
        box = self.box
        return f"white: box at {box.x}, {box.y}, {box.width} x {box.height} pixels; Enter takes it"

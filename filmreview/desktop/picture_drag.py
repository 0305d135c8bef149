"""A drag on the picture from press to release that is no business of the region's: panning, pointing at white."""

from __future__ import annotations

from enum import Enum

from PyQt6.QtCore import Qt

from filmreview.desktop.picture_region import box_between
from filmreview.desktop.picture_view import Point, View
from filmreview.facts.region import Box

_MOVED = 3.0  # screen pixels that make a press a drag


class DragKind(Enum):
    """What a drag does."""

    PAN = "pan"
    REGION = "draw, move or reshape a region"
    REFERENCE = "point at white"
    POINT = "place or move a point"


def drag_kind(button: Qt.MouseButton, modifiers: Qt.KeyboardModifier, space: bool, pointing: bool) -> DragKind | None:
    """What a drag with this button and these keys does; None for a button that does nothing."""
    if button == Qt.MouseButton.MiddleButton:
        return DragKind.PAN
    if button != Qt.MouseButton.LeftButton:
        return None
    if space:
        return DragKind.PAN
    if pointing or modifiers & Qt.KeyboardModifier.ShiftModifier:
        return DragKind.REFERENCE
    return DragKind.REGION


class Drag:
    """One drag. kind: what it does. moved: whether it went far enough to be one. box: what it pointed at so far."""

    def __init__(self, kind: DragKind, start: Point) -> None:
        self.kind = kind
        self.moved = False
        self.box: Box | None = None
        self._start = self._last = start

    def move_to(self, point: Point, view: View) -> Point:
        """Take the pointer's new place on the canvas; the way it went since the last one comes back."""
        step = (point[0] - self._last[0], point[1] - self._last[1])
        self._last = point
        way = (point[0] - self._start[0], point[1] - self._start[1])
        self.moved = self.moved or max(abs(way[0]), abs(way[1])) >= _MOVED
        if self.moved and self.kind is DragKind.REFERENCE:
            self.box = box_between(view.to_picture(self._start), view.to_picture(point), view.picture)
        return step

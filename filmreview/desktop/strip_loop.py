"""A loop on a line of the film strip: a bracket from its start to its end, both of which can be dragged."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from PyQt6.QtCore import QRectF
from PyQt6.QtGui import QPainter, QPalette

from filmreview.desktop.strip_paint import Line

Ends = tuple[Fraction, Fraction]
_REACH = 6.0  # pixels beside an end from where it can be dragged
_REACH_ON_TAG = 2.5  # over a tag's shape, which wants its clicks too
_STILL = 2.0  # a press that moves less is a click


@dataclass(frozen=True)
class Grip:
    """What of the loop the mouse holds. end: True its end, False its start. near: on the strip's lower line. pressed, x:
    where the mouse went down and where it is, in pixels. moved: whether it is a drag yet."""

    end: bool
    near: bool
    pressed: float
    x: float
    moved: bool = False

    @property
    def words(self) -> str:
        """What is dragged."""
        return f"the loop's {'end' if self.end else 'start'}"

    def at(self, x: float) -> Grip:
        """The same with the mouse elsewhere."""
        return replace(self, x=x, moved=self.moved or abs(x - self.pressed) >= _STILL)

    def ends_on(self, line: Line, ends: Ends) -> Ends:
        """The loop as it is dragged: the start goes up to the end, the end back to the start, and not past it."""
        if not self.moved:
            return ends
        seconds = line.scale.seconds_at(self.x)
        return (ends[0], max(ends[0], seconds)) if self.end else (min(ends[1], seconds), ends[1])


def grip_at(line: Line, near: bool, ends: Ends, x: float, on_tag: bool) -> Grip | None:
    """The loop's start or end, the nearer of the two, where one can be dragged from a place on a line; None elsewhere."""
    reach = _REACH_ON_TAG if on_tag else _REACH
    legs = zip((False, True), ends, _legs(line, ends), strict=True)
    found = [(abs(x - leg), is_end) for is_end, seconds, leg in legs if line.shows(seconds) and abs(x - leg) <= reach]
    return Grip(min(found)[1], near, x, x) if found else None


def paint_loop(painter: QPainter, palette: QPalette, line: Line, ends: Ends) -> None:
    """A bracket that lies along the upper edge, where nothing is written, and stands down at start and end."""
    left, right = _legs(line, ends)
    top, bottom = line.rect.top() + 2.5, line.rect.bottom() - 1
    painter.save()
    painter.setClipRect(QRectF(line.rect))
    bar, colour = QRectF(left, top - 1.5, right - left, 3), palette.color(QPalette.ColorRole.Text)
    for x in (left, right):
        leg = QRectF(x - 1, top, 2, bottom - top)
        painter.fillRect(leg.adjusted(-1, 0, 1, 0), palette.color(QPalette.ColorRole.Base))
        painter.fillRect(leg, colour)
    painter.fillRect(bar, colour)
    painter.restore()


def _legs(line: Line, ends: Ends) -> tuple[float, float]:
    """Where the bracket stands down, never so close that start and end are one."""
    left, right = (line.scale.x_of(seconds) for seconds in ends)
    return left, max(right, left + 4)

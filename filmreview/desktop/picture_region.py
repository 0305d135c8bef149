"""A region as it is drawn, gripped, moved and reshaped: plain arithmetic on boxes, no widget."""

from __future__ import annotations

import math
from dataclasses import dataclass

from filmreview.desktop.picture_view import Point
from filmreview.facts.region import Box

Size = tuple[int, int]


@dataclass(frozen=True)
class Grip:
    """What of a region is held: which of its edges follow the pointer; none of them: the whole of it."""

    left: bool = False
    top: bool = False
    right: bool = False
    bottom: bool = False

    @property
    def whole(self) -> bool:
        """Whether the region is moved as it is."""
        return not (self.left or self.top or self.right or self.bottom)


def box_between(one: Point, other: Point, picture: Size) -> Box | None:
    """The smallest box of whole picture pixels that a drag from one picture point to the other touches; None when the drag
    lies beside the picture."""
    left, right = _touched(one[0], other[0], picture[0])
    top, bottom = _touched(one[1], other[1], picture[1])
    return Box(left, top, right - left, bottom - top) if right > left and bottom > top else None


def _touched(one: float, other: float, limit: int) -> tuple[int, int]:
    return max(0, math.floor(min(one, other))), min(limit, math.ceil(max(one, other)))


def grip_at(box: Box, point: Point, reach: float) -> Grip | None:
    """What of the box a pointer at a picture point holds. reach: picture pixels around an edge that still take hold of it;
    inside a small box an edge takes at most a third."""
    x, y = point
    if not (box.x - reach <= x <= box.right + reach and box.y - reach <= y <= box.bottom + reach):
        return None
    inward_x, inward_y = min(reach, box.width / 3), min(reach, box.height / 3)
    return Grip(
        left=x < box.x + inward_x,
        top=y < box.y + inward_y,
        right=x > box.right - inward_x,
        bottom=y > box.bottom - inward_y,
    )


def dragged(box: Box, grip: Grip, dx: float, dy: float, picture: Size) -> Box:
    """The box after the pointer that grips it went this many picture pixels; never outside the picture, never empty."""
    across, down = round(dx), round(dy)
    if grip.whole:
        x = min(max(0, box.x + across), picture[0] - box.width)
        y = min(max(0, box.y + down), picture[1] - box.height)
        return Box(x, y, box.width, box.height)
    left, right = _edges(box.x, box.right, grip.left, grip.right, across, picture[0])
    top, bottom = _edges(box.y, box.bottom, grip.top, grip.bottom, down, picture[1])
    return Box(left, top, right - left, bottom - top)


def _edges(low: int, high: int, low_held: bool, high_held: bool, by: int, limit: int) -> tuple[int, int]:
    if low_held:
        low = min(max(0, low + by), high - 1)
    if high_held:
        high = max(min(limit, high + by), low + 1)
    return low, high


def inside(box: Box, picture: Size) -> bool:
    """Whether a box can be shown on a picture of this size."""
    return box.x >= 0 and box.y >= 0 and box.right <= picture[0] and box.bottom <= picture[1]

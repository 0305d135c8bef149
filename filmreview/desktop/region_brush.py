"""The brush that paints a patch and rubs it out, pixel by pixel. No widget."""

from __future__ import annotations

import numpy as np

from filmreview.desktop.picture_region import Size
from filmreview.desktop.picture_view import Point
from filmreview.facts.region import Box, Patch
from filmreview.measure.shape import Mask, mask_of, patch_of

BRUSHES: tuple[int, ...] = (3, 6, 12, 24, 48)
"""How many picture pixels across a brush may be."""
USUAL_BRUSH = 12


class Stroke:
    """One stroke of a round brush. before: the patch it goes on from. add: paint; else rub out."""

    def __init__(self, before: Patch | None, picture: Size, across: int, add: bool) -> None:
        self._picture, self._radius, self._add = picture, across / 2, add
        self._mask: Mask = np.zeros((picture[1], picture[0]), dtype=np.bool_)
        self._last: Point | None = None
        if before is not None:
            box, mask = mask_of(before, *picture)
            self._mask[box.y : box.bottom, box.x : box.right] = mask

    def to(self, point: Point) -> None:
        """The brush goes on to this picture point; the first one is where it is set down."""
        start, self._last = self._last or point, point
        width, height = self._picture
        left, right = _window(start[0], point[0], self._radius, width)
        top, bottom = _window(start[1], point[1], self._radius, height)
        if right > left and bottom > top:
            touched = _distance(left, top, right, bottom, start, point) <= self._radius
            self._mask[top:bottom, left:right][touched] = self._add

    @property
    def painted(self) -> tuple[Mask, tuple[int, int]]:
        """What is painted now, and where its upper left pixel lies in the picture; an empty mask when nothing is left."""
        rows, columns = np.flatnonzero(self._mask.any(axis=1)), np.flatnonzero(self._mask.any(axis=0))
        if not len(rows):
            return np.zeros((0, 0), dtype=np.bool_), (0, 0)
        top, bottom, left, right = int(rows[0]), int(rows[-1]) + 1, int(columns[0]), int(columns[-1]) + 1
        return self._mask[top:bottom, left:right], (left, top)

    @property
    def patch(self) -> Patch | None:
        """The same as a region; None when nothing is left. Slow for a large one: for the end of a stroke."""
        mask, (left, top) = self.painted
        return patch_of(Box(left, top, mask.shape[1], mask.shape[0]), mask) if mask.size else None


def dab(before: Patch | None, picture: Size, across: int, add: bool, at: Point) -> Patch | None:
    """The patch after the brush was set down once; None when nothing is left."""
    stroke = Stroke(before, picture, across, add)
    stroke.to(at)
    return stroke.patch


def next_brush(across: int, way: int) -> int:
    """The next wider (1) or narrower (-1) brush."""
    place = min(max(0, BRUSHES.index(across) + way), len(BRUSHES) - 1)
    return BRUSHES[place]


def _window(one: float, other: float, radius: float, limit: int) -> tuple[int, int]:
    return max(0, int(min(one, other) - radius)), min(limit, int(max(one, other) + radius) + 2)


def _distance(left: int, top: int, right: int, bottom: int, start: Point, end: Point) -> np.ndarray:
    """Of each pixel's middle from the way the brush went, in pixels."""
    x = np.arange(left, right)[None, :] + 0.5 - start[0]
    y = np.arange(top, bottom)[:, None] + 0.5 - start[1]
    along_x, along_y = end[0] - start[0], end[1] - start[1]
    length = along_x**2 + along_y**2
    share = np.clip((x * along_x + y * along_y) / length, 0.0, 1.0) if length else np.zeros((bottom - top, right - left))
    return np.hypot(x - share * along_x, y - share * along_y)

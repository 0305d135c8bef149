"""A region as a mask of pixels, and the mask without its edge.

The edge of an item on a film is mixed with what lies behind it: blur spreads it over a pixel or two, and 4:2:0 video carries
one colour sample for two pixels each way. Eroding 4 px takes two such samples away.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box, Patch, Polygon, Region

Mask = NDArray[np.bool_]

LEAST_ACROSS = 6
"""Pixels across a region must have before eroding; narrower ones hold no pixel that is free of its neighbours."""
_LEAST_LEFT = 3


@dataclass(frozen=True)
class Eroded:
    """What is left of a region. box: the smallest box around it in the picture. mask: its pixels in that box, (height, width).
    across: width in pixels of the whole region at its widest inner place. by: pixels taken off each edge."""

    box: Box
    mask: Mask
    across: int
    by: int

    @property
    def pixels(self) -> int:
        """How many pixels are left."""
        return int(self.mask.sum())


def mask_of(region: Region, width: int, height: int) -> tuple[Box, Mask]:
    """The box around a region and which of its pixels belong to it. Raises FilmReviewError when it reaches outside a picture
    of this size."""
    box = bounds_of(region)
    box.check_inside(width, height)
    if isinstance(region, Polygon):
        return box, _polygon_mask(region, box)
    if isinstance(region, Patch):
        return box, _patch_mask(region)
    return box, np.ones((max(region.height, 0), max(region.width, 0)), dtype=np.bool_)


def bounds_of(region: Region) -> Box:
    """The smallest box around a region, wherever it lies. Raises FilmReviewError for a polygon of fewer than three corners."""
    if isinstance(region, Box):
        return region
    if isinstance(region, Patch):
        return region.box
    if len(region.points) < 3:
        raise FilmReviewError("a polygon has three corners or more", todo="add corners or drag a box")
    xs, ys = [x for x, _ in region.points], [y for _, y in region.points]
    left, top = math.floor(min(xs)), math.floor(min(ys))
    return Box(left, top, math.ceil(max(xs)) - left, math.ceil(max(ys)) - top)


def erode(box: Box, mask: Mask, by: int) -> Eroded:
    """Take up to `by` pixels off every edge, as long as 3 px across are left."""
    whole = mask
    current, taken = mask, 0
    while taken < by:
        smaller = without_edge(current)
        if not without_edge(smaller).any():  # fewer than 3 px across would be left
            break
        current, taken = smaller, taken + 1
    return Eroded(box, current, _across(whole), taken)


def apart(one: Box, two: Box) -> float:
    """Pixels between the middles of two boxes."""
    across = one.x + one.width / 2 - two.x - two.width / 2
    return math.hypot(across, one.y + one.height / 2 - two.y - two.height / 2)


def moved(region: Region, right: int, down: int) -> Region:
    """The region moved by whole pixels."""
    if isinstance(region, Polygon):
        return Polygon(tuple((x + right, y + down) for x, y in region.points))
    box = region if isinstance(region, Box) else region.box
    there = Box(box.x + right, box.y + down, box.width, box.height)
    return there if isinstance(region, Box) else Patch(there, region.rows)


def surroundings(shape: Eroded, whole: Mask, width: int, height: int, by: int = 4) -> tuple[Box, Mask]:
    """The ring of up to `by` px around a region before eroding, as far as it lies in the picture: its box and pixels."""
    box = shape.box
    outside = ~np.pad(whole, by)
    left = outside
    for _ in range(by):
        left = without_edge(np.pad(left, 1, constant_values=True))[1:-1, 1:-1]
    ring = outside & ~left
    low_x, low_y = max(by - box.x, 0), max(by - box.y, 0)
    high_x, high_y = min(width - box.x + by, ring.shape[1]), min(height - box.y + by, ring.shape[0])
    place = Box(box.x - by + low_x, box.y - by + low_y, high_x - low_x, high_y - low_y)
    return place, ring[low_y:high_y, low_x:high_x]


def without_edge(mask: Mask) -> Mask:
    """The mask less its outermost pixels, diagonal neighbours counted."""
    padded = np.zeros((mask.shape[0] + 2, mask.shape[1] + 2), dtype=np.bool_)
    padded[1:-1, 1:-1] = mask
    rows = padded[:-2] & padded[1:-1] & padded[2:]
    inner: Mask = rows[:, :-2] & rows[:, 1:-1] & rows[:, 2:]
    return inner


def _across(mask: Mask) -> int:
    """The side of the largest square that fits in; for a box its shorter side."""
    if mask.all():
        return min(mask.shape) if mask.size else 0
    side, current = 0, mask
    while current.any():
        side += 1
        current = current[1:, 1:] & current[1:, :-1] & current[:-1, 1:] & current[:-1, :-1]
    return side


def _polygon_mask(region: Polygon, box: Box) -> Mask:
    """Even-odd rule at pixel centres."""
    points = np.array(region.points, dtype=np.float64)
    x = np.arange(box.width)[None, :] + box.x + 0.5
    y = np.arange(box.height)[:, None] + box.y + 0.5
    inside = np.zeros((box.height, box.width), dtype=np.bool_)
    for (x1, y1), (x2, y2) in zip(points, np.roll(points, -1, axis=0), strict=True):
        if y1 != y2:
            inside ^= ((y1 <= y) != (y2 <= y)) & (x < (x2 - x1) * (y - y1) / (y2 - y1) + x1)
    return inside


def _patch_mask(region: Patch) -> Mask:
    mask = np.zeros((region.box.height, region.box.width), dtype=np.bool_)
    for row, runs in enumerate(region.rows[: region.box.height]):
        place, inside = 0, False
        for run in runs:
            mask[row, place : place + run] = inside
            place, inside = place + run, not inside
    return mask


def patch_of(box: Box, mask: Mask) -> Patch:
    """The painted patch of a mask (height, width) in a box."""
    return Patch(box, tuple(_runs(row) for row in mask))


def _runs(row: Mask) -> tuple[int, ...]:
    changes = np.flatnonzero(np.diff(np.concatenate([[False], row, [False]]).astype(np.int8)))
    ends = np.append(changes, len(row)) if not len(changes) or changes[-1] != len(row) else changes
    return tuple(int(run) for run in np.diff(np.concatenate([[0], ends])))

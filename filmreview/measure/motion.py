"""How far motion blurs a thing along the direction it is measured in, from where it is on the frames around.

A camera's shutter stands open for a part of the frame time (`view.OPEN_SHARE`).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from filmreview.facts.region import Box
from filmreview.film.film import Film, Moment
from filmreview.measure.ends import Ends
from filmreview.measure.on_film import pictures_beside
from filmreview.measure.shot import follow, steps_beside
from filmreview.measure.view import OPEN_SHARE, blur_length

_AROUND = 6


def blur_on_film(film: Film, moment: Moment, ends: Ends) -> float | None:
    """The same as `blur_along` with the frames before and after. Raises FilmReviewError for a frame that cannot be decoded."""
    return blur_along(*pictures_beside(film, moment), ends)


def blur_along(pictures: Sequence[NDArray[np.uint8]], place: int, ends: Ends) -> float | None:
    """Length of motion blur in pixels along the ends' direction; None when the thing is not found again on a neighbour.

    pictures: a frame and its neighbours, uint8 (height, width, 3). place: which of them the ends are on.
    """
    height, width = pictures[place].shape[:2]
    box = _around(ends, width, height)
    steps = steps_beside(follow(pictures, place, box), place)
    if not steps or not ends.pixels:
        return None
    along = ((ends.second[0] - ends.first[0]) / ends.pixels, (ends.second[1] - ends.first[1]) / ends.pixels)
    moved = max(abs(dx * along[0] + dy * along[1]) for dx, dy in steps)
    return blur_length(moved, OPEN_SHARE)


def _around(ends: Ends, width: int, height: int) -> Box:
    """A box around both ends with a little of what lies beside them, kept in the picture."""
    (x1, y1), (x2, y2) = ends.first, ends.second
    left, top = max(math.floor(min(x1, x2)) - _AROUND, 0), max(math.floor(min(y1, y2)) - _AROUND, 0)
    right, bottom = min(math.ceil(max(x1, x2)) + _AROUND, width), min(math.ceil(max(y1, y2)) + _AROUND, height)
    return Box(left, top, right - left, bottom - top)

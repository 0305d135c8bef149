"""Places and distances on the floor, from four or more named court points clicked in the picture.

The plane homography is found by the direct linear transform with normalised coordinates (Hartley and Zisserman, Multiple View
Geometry, 2nd ed. 2004, 4.1 and 4.4). Only for things on the floor or just above it: a foot of height moves a place by feet.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Amount
from filmreview.measure.courts import court_point
from filmreview.measure.size import CLICK

Floats = NDArray[np.float64]
Pixel = tuple[float, float]

_LEAST_PX_OFF_LINE, _LEAST_FEET_OFF_LINE = 8.0, 2.0


@dataclass(frozen=True)
class Floor:
    """Picture to floor. matrix: 3x3 from pixels to feet. pixels, feet: the clicked points (n, 2) it came from."""

    matrix: Floats
    pixels: Floats
    feet: Floats

    def place(self, pixel: Pixel) -> tuple[float, float]:
        """x, y in feet of a point on the floor."""
        x, y = _mapped(self.matrix, np.array([pixel]))[0]
        return (float(x), float(y))

    def distance(self, first: Pixel, second: Pixel) -> Amount:
        """Feet between two points on the floor, with the standard uncertainty that all clicks give, first order."""

        def feet_apart(clicks: Floats) -> float:
            matrix = _homography(clicks[:-2], self.feet)
            one, two = _mapped(matrix, clicks[-2:])
            return float(np.hypot(*(two - one)))

        clicks = np.vstack([self.pixels, np.array([first, second])])
        return Amount(feet_apart(clicks), _click_sd(feet_apart, clicks))


def floor_from(court: str, clicked: Mapping[str, Pixel], where: str | None = None) -> Floor:
    """The floor from court points by name and the pixels they were clicked at.

    Raises FilmReviewError for fewer than four, an unknown point, or points that lie nearly on a line.
    """
    if len(clicked) < 4:
        raise FilmReviewError(f"{len(clicked)} court points are given", where=where, todo="click four or more")
    feet = np.array([court_point(court, name, where) for name in clicked], dtype=np.float64)
    pixels = np.array(list(clicked.values()), dtype=np.float64)
    if _off_line(feet) < _LEAST_FEET_OFF_LINE or _off_line(pixels) < _LEAST_PX_OFF_LINE:
        raise FilmReviewError("three of the court points lie on one line", where=where, todo="click points farther apart")
    return Floor(_homography(pixels, feet), pixels, feet)


def _homography(pixels: Floats, feet: Floats) -> Floats:
    from_pixels, from_feet = _normaliser(pixels), _normaliser(feet)
    rows = []
    for (x, y), (u, v) in zip(_mapped(from_pixels, pixels), _mapped(from_feet, feet), strict=True):
        rows.append([-x, -y, -1, 0, 0, 0, u * x, u * y, u])
        rows.append([0, 0, 0, -x, -y, -1, v * x, v * y, v])
    normalised = np.linalg.svd(np.array(rows))[2][-1].reshape(3, 3)
    matrix: Floats = np.linalg.inv(from_feet) @ normalised @ from_pixels
    return matrix


def _normaliser(points: Floats) -> Floats:
    """Moves points to mean 0 and mean distance of the root of 2."""
    middle = points.mean(axis=0)
    scale = np.sqrt(2.0) / max(float(np.linalg.norm(points - middle, axis=1).mean()), 1e-12)
    return np.array([[scale, 0.0, -scale * middle[0]], [0.0, scale, -scale * middle[1]], [0.0, 0.0, 1.0]])


def _mapped(matrix: Floats, points: ArrayLike) -> Floats:
    flat = np.asarray(points, dtype=np.float64)
    mapped = np.column_stack([flat, np.ones(len(flat))]) @ matrix.T
    result: Floats = mapped[:, :2] / mapped[:, 2:]
    return result


def _click_sd(value_of: Callable[[Floats], float], clicks: Floats) -> float:
    """First-order standard uncertainty of a value that depends on clicks (n, 2), by central differences of half a pixel."""
    variance = 0.0
    for place in np.ndindex(*clicks.shape):
        step = np.zeros_like(clicks)
        step[place] = 0.5
        variance += (value_of(clicks + step) - value_of(clicks - step)) ** 2 * CLICK**2 / 3.0
    return math.sqrt(variance)


def _off_line(points: Floats) -> float:
    """How far three of the points are off one line: the least altitude of any triangle of them; of more than four points, that
    of the best triangle, since one good choice is enough."""
    altitudes = [_altitude(points[list(three)]) for three in _threes(len(points))]
    return max(altitudes) if len(points) > 4 else min(altitudes)


def _altitude(corners: Floats) -> float:
    (ax, ay), (bx, by), (cx, cy) = corners
    doubled = abs(float((bx - ax) * (cy - ay) - (cx - ax) * (by - ay)))
    longest = max(float(np.hypot(*(one - two))) for one, two in zip(corners, np.roll(corners, 1, axis=0), strict=True))
    return doubled / max(longest, 1e-12)


def _threes(count: int) -> Sequence[tuple[int, int, int]]:
    return [(one, two, three) for one in range(count) for two in range(one + 1, count) for three in range(two + 1, count)]

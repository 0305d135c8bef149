"""Places and distances on the floor, from four or more named court points clicked in the picture.

The plane homography is found by the direct linear transform with normalised coordinates (Hartley and Zisserman, Multiple View
Geometry, 2nd ed. 2004, 4.1 and 4.4). Only for things on the floor or just above it: a foot of height moves a place by feet.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Amount
from filmreview.measure.courts import court_point
from filmreview.measure.ends import Ends
from filmreview.measure.size import CLICK, Length

Floats = NDArray[np.float64]
Pixel = tuple[float, float]

INCHES_IN_FOOT = 12.0
_MOST_SHARE = 0.3
"""More than this and first-order propagation does not hold: near the horizon a pixel is feet one way, yards the other."""
_LEAST_PX_OFF_LINE, _LEAST_FEET_OFF_LINE = 8.0, 2.0


@dataclass(frozen=True)
class Floor:
    """Picture to floor. matrix: 3x3 from pixels to feet. pixels, feet: the clicked points (n, 2) it came from. court: which."""

    matrix: Floats
    pixels: Floats
    feet: Floats
    court: str = ""

    def place(self, pixel: Pixel) -> tuple[float, float]:
        """x, y in feet of a point on the floor; raises FilmReviewError above the floor's horizon, where no floor is."""
        self._check_below_horizon(pixel)
        x, y = _mapped(self.matrix, np.array([pixel]))[0]
        return (float(x), float(y))

    def distance(self, first: Pixel, second: Pixel) -> Amount:
        """Feet between two points on the floor, with the standard uncertainty that all clicks give, first order."""
        amount = self.length(Ends(first, second)).amount
        return Amount(amount.value / INCHES_IN_FOOT, amount.plus_minus / INCHES_IN_FOOT)

    def length(self, ends: Ends) -> Length:
        """The distance between two points on the floor in inches, first order. Raises FilmReviewError above the horizon."""
        clicks = self._with(ends)
        inches = self._inches(clicks)
        if inches == 0:
            raise FilmReviewError("both ends are the same point", todo="give two ends apart from each other")
        variances = self._click_variances(clicks)
        parts = {
            "court points' clicks": math.sqrt(variances[:-2].sum()) / inches,
            "item's ends": math.sqrt(variances[-2:].sum()) / inches,
        }
        plus_minus = math.sqrt(variances.sum())
        why_not = ""
        if plus_minus > _MOST_SHARE * inches:
            why_not = f"the court points leave ± {plus_minus / inches:.0%} there: click points nearer or farther apart"
        return Length(inches, plus_minus, parts, why_not, f"the floor of a {self.court} court")

    def drawn_length(self, ends: Ends, seed: int = 1, count: int = 2000) -> Floats:
        """Draws of the distance in inches, (count,): every click anew within a pixel either way."""
        draw = np.random.default_rng(seed)
        clicks = self._with(ends)
        moved = clicks + draw.uniform(-CLICK, CLICK, (count, *clicks.shape))
        return np.array([self._inches(one) for one in moved])

    @property
    def misfit(self) -> float:
        """Root mean square in pixels that the court points lie off where the floor puts them; 0 for four, which always fit."""
        back = _mapped(np.asarray(np.linalg.inv(self.matrix), dtype=np.float64), self.feet)
        return float(np.sqrt(((back - self.pixels) ** 2).sum(axis=1).mean()))

    def _with(self, ends: Ends) -> Floats:
        for point in (ends.first, ends.second):
            self._check_below_horizon(point)
        return np.vstack([self.pixels, np.array([ends.first, ends.second])])

    def _inches(self, clicks: Floats) -> float:
        one, two = _mapped(_homography(clicks[:-2], self.feet), clicks[-2:])
        return float(np.hypot(*(two - one))) * INCHES_IN_FOOT

    def _click_variances(self, clicks: Floats) -> Floats:
        """First-order variance that each click (n, 2) gives, by central differences of half a pixel."""
        variances = np.zeros_like(clicks)
        for place in np.ndindex(*clicks.shape):
            step = np.zeros_like(clicks)
            step[place] = 0.5
            variances[place] = (self._inches(clicks + step) - self._inches(clicks - step)) ** 2 * CLICK**2 / 3.0
        return variances

    def _check_below_horizon(self, pixel: Pixel) -> None:
        if _depths(self.matrix, np.array([pixel]))[0] * _depths(self.matrix, self.pixels)[0] <= 0:
            raise FilmReviewError(
                f"the point {pixel[0]:g},{pixel[1]:g} lies above the floor's horizon",
                todo="give points on the floor, and check the court points",
            )


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
    matrix = _homography(pixels, feet)
    _check_order(matrix, pixels, where)
    return Floor(matrix, pixels, feet, court)


def _check_order(matrix: Floats, pixels: Floats, where: str | None) -> None:
    """No camera above a floor sees it folded or mirrored: then points were given each other's names."""
    depths = _depths(matrix, pixels)
    folded = depths.min() * depths.max() <= 0
    mirrored = float(np.linalg.det(matrix)) * depths[0] ** 3 > 0  # y runs down the picture and away from the camera
    if folded or mirrored:
        raise FilmReviewError(
            "the court points do not lie as on a floor",
            where=where,
            todo="left and right, near and far are as the camera sees them",
        )


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


def _depths(matrix: Floats, points: Floats) -> Floats:
    """The third homogeneous coordinate: 0 at the horizon, of one sign in front of the camera."""
    result: Floats = points @ matrix[2, :2] + matrix[2, 2]
    return result


def _mapped(matrix: Floats, points: ArrayLike) -> Floats:
    flat = np.asarray(points, dtype=np.float64)
    mapped = np.column_stack([flat, np.ones(len(flat))]) @ matrix.T
    result: Floats = mapped[:, :2] / mapped[:, 2:]
    return result


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

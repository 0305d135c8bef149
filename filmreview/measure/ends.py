"""The two ends of a thing on a picture, as clicked: what sizes and places are measured from."""

from __future__ import annotations

import math
from dataclasses import dataclass

from filmreview.errors import FilmReviewError

Point = tuple[float, float]
"""x, y in pixels of the upright picture; 0, 0 is its top left corner, a pixel's middle lies at a half."""


@dataclass(frozen=True)
class Ends:
    """Two points."""

    first: Point
    second: Point

    @property
    def pixels(self) -> float:
        """How far they are apart."""
        return math.dist(self.first, self.second)

    @property
    def middle(self) -> Point:
        """The point halfway."""
        return (0.5 * (self.first[0] + self.second[0]), 0.5 * (self.first[1] + self.second[1]))

    def check(self, width: int, height: int, where: str | None = None) -> None:
        """Raise FilmReviewError unless both lie in a picture of this size, apart from each other."""
        for point in (self.first, self.second):
            check_point(point, width, height, where)
        if self.pixels == 0:
            raise FilmReviewError("both ends are the same point", where=where, todo="give two ends apart from each other")


def check_point(point: Point, width: int, height: int, where: str | None = None) -> None:
    """Raise FilmReviewError unless a point lies in a picture of this size."""
    x, y = point
    if not (0 <= x <= width and 0 <= y <= height):
        raise FilmReviewError(
            f"the point {x:g},{y:g} lies outside the picture of {width}x{height} pixels", where=where, todo="give one inside it"
        )

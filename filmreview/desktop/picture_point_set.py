"""Named points of a picture as a value: placed one after the other, moved, taken away. Plain arithmetic, no widget.

Positions are (x, y) in picture pixels, as a polygon's corners are: 0, 0 is the upper left corner of the picture, and 0.5, 0.5
the middle of its first pixel.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from filmreview.desktop.picture_view import Point

Size = tuple[int, int]
Placed = tuple[Point | None, ...]


@dataclass(frozen=True)
class PointSet:
    """names: what the points are called. at: where each is, None while it is not placed. chosen: the one that keys move.
    closed: a line also leads from the last to the first."""

    names: tuple[str, ...]
    at: Placed
    chosen: int = 0
    closed: bool = False

    @property
    def whole(self) -> bool:
        """Whether every point is placed."""
        return None not in self.at

    @property
    def lines(self) -> tuple[tuple[Point, Point], ...]:
        """The lines between neighbours that are placed."""
        ends = (*self.at, self.at[0]) if self.closed and len(self.at) > 2 else self.at
        pairs = itertools.pairwise(ends)
        return tuple((one, two) for one, two in pairs if one is not None and two is not None)

    def placed(self, point: Point, picture: Size) -> PointSet:
        """The chosen point here, held inside a picture of this width and height."""
        return replace(self, at=tuple(_held(point, picture) if n == self.chosen else old for n, old in enumerate(self.at)))

    def nudged(self, dx: float, dy: float, picture: Size) -> PointSet:
        """The chosen point moved by picture pixels; one that is not placed stays so."""
        at = self.at[self.chosen]
        return self if at is None else self.placed((at[0] + dx, at[1] + dy), picture)

    def taken_away(self) -> PointSet:
        """The chosen point not placed any more."""
        return replace(self, at=tuple(None if n == self.chosen else old for n, old in enumerate(self.at)))

    def choosing(self, number: int) -> PointSet:
        """Another point chosen; a number beside the list chooses its end."""
        return replace(self, chosen=min(max(0, number), len(self.names) - 1))

    def missing(self) -> int | None:
        """The first point that is not placed, the chosen one before all others; None when all are."""
        order = (self.chosen, *range(len(self.at)))
        return next((number for number in order if self.at[number] is None), None)

    def near(self, point: Point, reach: float) -> int | None:
        """The placed point nearest to this one, no farther than `reach` picture pixels; None when there is none."""
        apart = {number: math.dist(at, point) for number, at in enumerate(self.at) if at is not None}
        number = min(apart, key=apart.__getitem__, default=None)
        return number if number is not None and apart[number] <= reach else None

    @property
    def words(self) -> str:
        """What is chosen and where it is, for a person who does not see it."""
        name, at = self.names[self.chosen], self.at[self.chosen]
        where = "not placed yet" if at is None else f"at {at[0]:.1f}, {at[1]:.1f}"
        return f"point {self.chosen + 1} of {len(self.names)}, {name}, {where}"


def points_named(names: Sequence[str], at: Sequence[Point | None] = (), closed: bool = False) -> PointSet:
    """A set of named points, the first ones placed where `at` says; the first one missing is chosen."""
    known = tuple(at)[: len(names)]
    points = PointSet(tuple(names), (*known, *(None for _ in range(len(names) - len(known)))), closed=closed)
    return points.choosing(points.missing() or 0)


def _held(point: Point, picture: Size) -> Point:
    x, y = (min(max(0.0, place), float(limit)) for place, limit in zip(point, picture, strict=True))
    return (round(x, 2), round(y, 2))

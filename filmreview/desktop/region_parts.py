"""The parts of a region that a hand or a key holds, and what becomes of the region when a part is moved. Plain arithmetic.

A box has its edges and corners; a polygon its corners and, in the middle of each side, a place where a new corner is pulled
out; a painted patch is moved as a whole and reshaped with the brush (`region_brush`).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum

from filmreview.desktop.picture_region import Grip, Size, dragged, grip_at
from filmreview.desktop.picture_view import Point
from filmreview.facts.region import Box, Patch, Polygon, Region
from filmreview.measure.shape import bounds_of, mask_of, moved

LEAST_CORNERS = 3


class Shape(StrEnum):
    """The three kinds of region."""

    BOX = "box"
    POLYGON = "polygon"
    PATCH = "patch"


class Kind(StrEnum):
    """What a part is."""

    WHOLE = "whole"
    EDGES = "edges"
    CORNER = "corner"
    NEW_CORNER = "new corner"
    BRUSH = "brush"


@dataclass(frozen=True)
class Part:
    """One part. grip: which edges of a box. number: of a polygon's corner, or of the corner before the new one."""

    kind: Kind
    grip: Grip = Grip()  # noqa: RUF009 - a frozen value
    number: int = 0

    @property
    def words(self) -> str:
        """What it is called."""
        if self.kind is Kind.EDGES:
            upright = "upper " if self.grip.top else "lower " if self.grip.bottom else ""
            across = "left " if self.grip.left else "right " if self.grip.right else ""
            return f"{upright}{across}" + ("corner" if upright and across else "edge")
        return {Kind.WHOLE: "the whole region", Kind.BRUSH: "the brush"}.get(self.kind, f"corner {self.number + 1}")


WHOLE = Part(Kind.WHOLE)
BRUSH = Part(Kind.BRUSH)
_BOX_GRIPS = (
    Grip(left=True, top=True), Grip(top=True), Grip(right=True, top=True), Grip(right=True),
    Grip(right=True, bottom=True), Grip(bottom=True), Grip(left=True, bottom=True), Grip(left=True),
)  # fmt: skip


def shape_of(region: Region) -> Shape:
    """Which of the three kinds it is."""
    if isinstance(region, Box):
        return Shape.BOX
    return Shape.POLYGON if isinstance(region, Polygon) else Shape.PATCH


def parts_of(region: Region) -> tuple[Part, ...]:
    """The parts that a key can hold, the whole first, then round the region."""
    if isinstance(region, Box):
        return (WHOLE, *(Part(Kind.EDGES, grip) for grip in _BOX_GRIPS))
    if isinstance(region, Polygon):
        return (WHOLE, *(Part(Kind.CORNER, number=number) for number in range(len(region.points))))
    return (WHOLE, BRUSH)


def part_at(region: Region, point: Point, reach: float) -> Part | None:
    """What a pointer at a picture point holds. reach: picture pixels around a handle that still take hold of it."""
    if isinstance(region, Box):
        grip = grip_at(region, point, reach)
        return None if grip is None else WHOLE if grip.whole else Part(Kind.EDGES, grip)
    if isinstance(region, Polygon):
        return _polygon_part_at(region, point, reach)
    return WHOLE if math.dist(knob_of(region), point) <= reach else None


def _polygon_part_at(region: Polygon, point: Point, reach: float) -> Part | None:
    corner, apart = _nearest(region.points, point)
    if apart <= reach:
        return Part(Kind.CORNER, number=corner)
    side, apart = _nearest(side_middles(region), point)
    if apart <= reach:
        return Part(Kind.NEW_CORNER, number=side)
    return WHOLE if contains(region, point) else None


def _nearest(places: tuple[Point, ...], point: Point) -> tuple[int, float]:
    apart = [math.dist(place, point) for place in places]
    number = min(range(len(apart)), key=apart.__getitem__)
    return number, apart[number]


def side_middles(region: Polygon) -> tuple[Point, ...]:
    """The middle of each side, that of the one from corner n to corner n + 1 at place n."""
    after = (*region.points[1:], region.points[0])
    return tuple(((x + right) / 2, (y + down) / 2) for (x, y), (right, down) in zip(region.points, after, strict=True))


def middle_of(region: Region) -> Point:
    """The middle of the box around it."""
    box = bounds_of(region)
    return (box.x + box.width / 2, box.y + box.height / 2)


def knob_of(patch: Patch) -> Point:
    """Where a patch is taken hold of to move it: the upper left corner of the box around it, out of the brush's way."""
    return (float(patch.box.x), float(patch.box.y))


def contains(region: Region, point: Point) -> bool:
    """Whether a picture point lies in the region; for a polygon by the even-odd rule, as it is measured."""
    if isinstance(region, Polygon):
        x, y = point
        sides = zip(region.points, (*region.points[1:], region.points[0]), strict=True)
        return sum(_crossed(one, two, x, y) for one, two in sides) % 2 == 1
    box = bounds_of(region)
    if not (box.x <= point[0] < box.right and box.y <= point[1] < box.bottom):
        return False
    return isinstance(region, Box) or bool(
        mask_of(region, box.right, box.bottom)[1][int(point[1]) - box.y, int(point[0]) - box.x]
    )


def _crossed(one: Point, two: Point, x: float, y: float) -> bool:
    """Whether a line from the point to the right meets the side."""
    return (one[1] <= y) != (two[1] <= y) and x < (two[0] - one[0]) * (y - one[1]) / (two[1] - one[1]) + one[0]


def with_part_moved(region: Region, part: Part, dx: float, dy: float, picture: Size) -> Region:
    """The region after that part went this many picture pixels; never outside the picture, never empty."""
    if isinstance(region, Box):
        return dragged(region, part.grip, dx, dy, picture)
    if part.kind is Kind.WHOLE:
        return _shifted(region, dx, dy, picture)
    if isinstance(region, Polygon) and part.kind is not Kind.BRUSH:
        start = region if part.kind is Kind.CORNER else with_corner(region, part.number)
        number = part.number if part.kind is Kind.CORNER else part.number + 1
        return held_by_pixels(_with_point(start, number, dx, dy, picture), region)
    return region


def _shifted(region: Region, dx: float, dy: float, picture: Size) -> Region:
    """Whole pixels, and no farther than the picture's edge."""
    box = bounds_of(region)
    right = min(max(-box.x, round(dx)), max(picture[0] - box.right, -box.x))
    down = min(max(-box.y, round(dy)), max(picture[1] - box.bottom, -box.y))
    return moved(region, right, down)


def _with_point(region: Polygon, number: int, dx: float, dy: float, picture: Size) -> Polygon:
    x, y = region.points[number]
    there = (round(min(max(0.0, x + dx), picture[0]), 1), round(min(max(0.0, y + dy), picture[1]), 1))
    return replace(region, points=(*region.points[:number], there, *region.points[number + 1 :]))


def with_corner(region: Polygon, after: int) -> Polygon:
    """One more corner, in the middle of the side that follows corner number `after`."""
    return Polygon((*region.points[: after + 1], side_middles(region)[after], *region.points[after + 1 :]))


def without_corner(region: Polygon, number: int) -> Polygon:
    """A corner less; a polygon of three corners stays as it is."""
    if len(region.points) <= LEAST_CORNERS:
        return region
    return held_by_pixels(Polygon((*region.points[:number], *region.points[number + 1 :])), region)


def with_far_edges_moved(region: Region, dx: int, dy: int, picture: Size) -> Region:
    """Wider and higher by picture pixels, the upper left corner of the box around it staying where it is; a patch stays."""
    if isinstance(region, Patch):
        return region
    box = bounds_of(region)
    after = dragged(box, Grip(right=True, bottom=True), dx, dy, picture)
    if isinstance(region, Box):
        return after
    across, down = after.width / max(1, box.width), after.height / max(1, box.height)
    points = tuple((round(box.x + (x - box.x) * across, 1), round(box.y + (y - box.y) * down, 1)) for x, y in region.points)
    return held_by_pixels(Polygon(points), region)


def held_by_pixels(region: Polygon, otherwise: Polygon) -> Polygon:
    """The polygon if it holds a pixel, else the region given beside it."""
    box = bounds_of(region)
    return region if mask_of(region, box.right, box.bottom)[1].any() else otherwise


def polygon_of(points: tuple[Point, ...]) -> Polygon | None:
    """The polygon of corners as they were clicked; None when they are too few or hold no pixel."""
    corners = tuple(point for number, point in enumerate(points) if point != points[number - 1])
    if len(corners) < LEAST_CORNERS:
        return None
    made = Polygon(corners)
    box = bounds_of(made)
    return made if mask_of(made, box.right, box.bottom)[1].any() else None

"""Named points on the floor of school, college and FIBA courts, in feet.

x runs along the court from the left end line, y across it from the near side line, as the camera sees them. Lines belong to
the inside of the court's outer lines; the lane is measured to the outside of its lines. Sizes: court 84 x 50 ft (school, the
ideal), 94 x 50 ft (college), 28 x 15 m (FIBA); lane 12 ft, 4.90 m; free-throw line's far edge 19 ft, 5.80 m from the end line.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from types import MappingProxyType

from filmreview.errors import unknown

Point = tuple[float, float]
FEET_IN_METRE = 1.0 / 0.3048
_SIDES = (("left", 0.0), ("right", 1.0))


def _points(length: float, width: float, lane: float, free_throw: float, circle: float) -> Mapping[str, Point]:
    points: dict[str, Point] = {}
    for side, share in _SIDES:
        end = share * length
        line = free_throw if side == "left" else length - free_throw
        for place, y in (("near", 0.0), ("far", width)):
            points[f"{side} {place} corner"] = (end, y)
        for place, y in (("near", 0.5 * (width - lane)), ("far", 0.5 * (width + lane))):
            points[f"{side} lane at end line, {place}"] = (end, y)
            points[f"{side} lane at free-throw line, {place}"] = (line, y)
    for place, y in (("near", 0.0), ("far", width)):
        points[f"division line at {place} side"] = (0.5 * length, y)
    for place, y in (("near", 0.5 * width - circle), ("far", 0.5 * width + circle)):
        points[f"centre circle on division line, {place}"] = (0.5 * length, y)
    return MappingProxyType(points)


COURTS: Mapping[str, Mapping[str, Point]] = MappingProxyType({
    "school": _points(84.0, 50.0, 12.0, 19.0, 6.0),
    "college": _points(94.0, 50.0, 12.0, 19.0, 6.0),
    "fiba": _points(*(metres * FEET_IN_METRE for metres in (28.0, 15.0, 4.90, 5.80, 1.80))),
})  # fmt: skip

_COURT_OF_BOOK: Mapping[str, str] = MappingProxyType(
    {"nfhs": "school", "ncaa-men": "college", "ncaa-women": "college", "fiba": "fiba"}
)
NOT_SURE = "school books call a court of 84 x 50 ft ideal and allow others: best are the four corners of a lane"


def court_of(book: str | None) -> str:
    """The court that games of a book are played on; school for a book that is not one of ours."""
    return _COURT_OF_BOOK.get(book or "", "school")


def of_any_size(name: str, points: Collection[str]) -> bool:
    """Whether these points of a court lie where they do only when it has the ideal size: not so within one lane."""
    ends = {point.split()[0] for point in points if " lane " in point}
    return name == "school" and not (all(" lane " in point for point in points) and len(ends) == 1)


def court(name: str, where: str | None = None) -> Mapping[str, Point]:
    """The named points of a court: "school", "college" or "fiba"; raises FilmReviewError for another."""
    if name not in COURTS:
        raise unknown("court", name, COURTS, where=where)
    return COURTS[name]


def court_point(court_name: str, point: str, where: str | None = None) -> Point:
    """x, y in feet of a named point; raises FilmReviewError with the nearest one."""
    points = court(court_name, where)
    if point not in points:
        raise unknown("court point", point, points, where=where)
    return points[point]

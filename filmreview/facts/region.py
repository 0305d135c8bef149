"""Where in the picture: regions of the upright, square-pixel picture."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from filmreview.errors import FilmReviewError


@dataclass(frozen=True)
class Box:
    """A rectangle in pixels of the upright picture: left, top, width, height; its right and bottom edges not included."""

    x: int
    y: int
    width: int
    height: int

    @property
    def right(self) -> int:
        """The first column past the box."""
        return self.x + self.width

    @property
    def bottom(self) -> int:
        """The first row past the box."""
        return self.y + self.height

    def check_inside(self, width: int, height: int) -> None:
        """Raise FilmReviewError unless the whole box lies in a picture of this width and height."""
        if self.x < 0 or self.y < 0 or self.right > width or self.bottom > height:
            raise FilmReviewError(
                f"the region {self} reaches outside the picture of {width}x{height} pixels",
                todo="give x,y,width,height inside it",
            )

    def __str__(self) -> str:
        return f"{self.x},{self.y},{self.width},{self.height}"


@dataclass(frozen=True)
class Polygon:
    """The inside of three or more corners, each x, y in pixels of the upright picture; 0, 0 is its top left corner."""

    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Patch:
    """A painted patch: its box, and for each of its rows the runs of pixels left out and in by turns, the first left out."""

    box: Box
    rows: tuple[tuple[int, ...], ...]


Region = Box | Polygon | Patch


def parse_box(text: str, where: str | None = None) -> Box:
    """Read "x,y,width,height" in whole pixels; raises FilmReviewError for anything else or an empty box."""
    try:
        x, y, width, height = (int(part) for part in text.split(","))
    except ValueError:
        raise FilmReviewError(f'"{text}" is not a region', where=where, todo="write x,y,width,height in pixels") from None
    if width < 1 or height < 1:
        raise FilmReviewError(f'the region "{text}" holds no pixel', where=where, todo="give a width and height of 1 or more")
    return Box(x, y, width, height)


def box_to_json(box: Box) -> dict[str, Any]:
    """{"box": [x, y, width, height]}: the form kept in a review."""
    return {"box": [box.x, box.y, box.width, box.height]}


def box_from_json(data: Mapping[str, Any]) -> Box:
    """The inverse of `box_to_json`."""
    x, y, width, height = data["box"]
    return Box(x, y, width, height)


def region_to_json(region: Region) -> dict[str, Any]:
    """{"box": [x, y, width, height]}, {"polygon": [[x, y], ...]} or {"patch": {"box": , "rows": [[out, in, ...], ...]}}."""
    if isinstance(region, Polygon):
        return {"polygon": [list(point) for point in region.points]}
    if isinstance(region, Patch):
        return {"patch": {**box_to_json(region.box), "rows": [list(row) for row in region.rows]}}
    return box_to_json(region)


def region_from_json(data: Mapping[str, Any]) -> Region:
    """The inverse of `region_to_json`."""
    if "polygon" in data:
        return Polygon(tuple((float(x), float(y)) for x, y in data["polygon"]))
    if "patch" in data:
        return Patch(box_from_json(data["patch"]), tuple(tuple(int(run) for run in row) for row in data["patch"]["rows"]))
    return box_from_json(data)

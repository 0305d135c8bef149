"""What is to be measured and against what, from the words of `filmreview measure` and `filmreview tag`."""

from __future__ import annotations

import argparse
import math
from collections.abc import Iterable, Mapping
from fractions import Fraction

from filmreview.commandline.game_words import pair
from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.measure.courts import court_of
from filmreview.measure.ends import Ends, Point, check_point
from filmreview.measure.floor import floor_from
from filmreview.measure.known import known
from filmreview.measure.length import ByFloor, ByKnown

_BY_KNOWN = ("known", "depth", "lean")
_BY_FLOOR = ("floor", "point")
KINDS: Mapping[str, tuple[str, ...]] = {
    "box": ("white", "match", "frames", "sharpness"),
    "ends": (*_BY_KNOWN, *_BY_FLOOR, "blur", "draws", "limit", "sharpness"),
    "until": ("limit",),
    "number": ("jersey", "white", "match"),
}
"""Each thing that can be measured, by its own option, and the options that go with it."""


def kind_of(given: argparse.Namespace) -> str:
    """What is to be measured: one of KINDS. Raises FilmReviewError for none, two, or an option that does not go with it."""
    kinds = [kind for kind in KINDS if getattr(given, kind) is not None]
    if len(kinds) != 1:
        asked = "nothing to measure is given" if not kinds else " and ".join(f"--{kind}" for kind in kinds) + " are both given"
        todo = "give one of --box (a colour), --ends (a length), --until (a time), --number (its contrast)"
        raise FilmReviewError(asked, where="measure", todo=todo)
    for option in sorted({option for options in KINDS.values() for option in options} - set(KINDS[kinds[0]])):
        if getattr(given, option):
            fits = " or ".join(f"--{kind}" for kind, options in KINDS.items() if option in options)
            raise FilmReviewError(f"--{option} does not go with --{kinds[0]}", where="measure", todo=f"it goes with {fits}")
    return kinds[0]


def against_of(given: argparse.Namespace, film: Film, book: str | None = None) -> ByKnown | ByFloor:
    """What turns pixels into inches: a thing of known size or court points; book: picks the court when none is named."""
    floor = given.floor is not None or bool(given.point)
    if floor == bool(given.known):
        asked = "both a known thing and the floor are given" if floor else "nothing of known size is given"
        raise FilmReviewError(
            asked, where="--known", todo="give --known NAME=X,Y,X,Y, or --floor COURT with four --point NAME=X,Y"
        )
    if floor:
        if extra := next((option for option in _BY_KNOWN if getattr(given, option)), None):
            raise FilmReviewError(f"--{extra} does not go with --floor", where=f"--{extra}", todo="leave it out")
        return by_floor(given.floor or court_of(book), given.point, film)
    name, words = pair(given.known, "--known", "NAME=X,Y,X,Y", "boys' ball=130,50,130,77")
    thing, ends = known(name, "--known"), ends_of(words, "--known")
    ends.check(film.info.width, film.info.height, "--known")
    return ByKnown(thing, ends, share_of(given.depth or "0.02", "--depth"), amount_of(given.lean or "0", "--lean", "degrees"))


def by_floor(court: str, points: Iterable[str], film: Film) -> ByFloor:
    """The floor from court points written NAME=X,Y."""
    clicked: dict[str, Point] = {}
    for words in points:
        name, place = pair(words, "--point", "NAME=X,Y", "left near corner=41,160")
        if name in clicked:
            raise FilmReviewError(f'"{name}" is given twice', where="--point", todo="give each court point once")
        clicked[name] = point_of(place, "--point")
        check_point(clicked[name], film.info.width, film.info.height, "--point")
    return ByFloor(floor_from(court, clicked, "--point"), tuple(clicked))


def ends_of(text: str, where: str) -> Ends:
    """Two ends from "x,y,x,y" in pixels, parts of a pixel allowed."""
    x1, y1, x2, y2 = _numbers(text, 4, where, "x,y,x,y")
    return Ends((x1, y1), (x2, y2))


def point_of(text: str, where: str) -> Point:
    """A point from "x,y" in pixels."""
    x, y = _numbers(text, 2, where, "x,y")
    return (x, y)


def share_of(text: str, where: str) -> float:
    """A share from "0.02", "2%" or "3/43" (feet apart by feet from the camera)."""
    try:
        share = float(Fraction(text.removesuffix("%").strip()) / (100 if text.endswith("%") else 1))
    except (ValueError, ZeroDivisionError, OverflowError):
        raise FilmReviewError(
            f'"{text}" is not a share', where=where, todo="write 0.02, 2% or feet/feet such as 3/43"
        ) from None
    if not 0 <= share < 1:
        raise FilmReviewError(f"{text} is not from 0 to under 1", where=where, todo="write 0.02, 2% or feet/feet such as 3/43")
    return share


def amount_of(text: str, where: str, unit: str) -> float:
    """A number of 0 or more."""
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not (math.isfinite(value) and value >= 0):
        raise FilmReviewError(f'"{text}" is not an amount', where=where, todo=f"write a number of {unit}, 0 or more")
    return value


def _numbers(text: str, count: int, where: str, form: str) -> list[float]:
    try:
        numbers = [float(part) for part in text.split(",")]
    except ValueError:
        numbers = []
    if len(numbers) != count or not all(map(math.isfinite, numbers)):
        raise FilmReviewError(f'"{text}" is not {form}', where=where, todo=f"write {form} in pixels of the upright picture")
    return numbers

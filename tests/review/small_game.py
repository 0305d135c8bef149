"""A small game of our own invention, with one film that needs no file."""

from datetime import date
from fractions import Fraction

from filmreview.facts.fact import Fact, Origin
from filmreview.facts.keys import parse_value
from filmreview.film.moment import Moment
from filmreview.review.changes import AddFilm, AddTag
from filmreview.review.model import CrewMember, Game, Team


def declared(**colours: str) -> dict[str, Fact]:
    return {name: Fact(name, parse_value("colour", text), Origin.DECLARED) for name, text in colours.items()}


def moment(seconds: str) -> Moment:
    return Moment(round(Fraction(seconds) * 15360) + 1024, Fraction(1, 15360))


def a_game(**changes: object) -> Game:
    fields: dict[str, object] = {
        "day": date(2025, 1, 14),
        "level": "varsity",
        "book": "nfhs",
        "adoption": None,
        "home": Team("Thrunnockby", declared(jersey="white", number_colour="navy"), ("10", "00", "0")),
        "visitor": Team("Ovvermire", declared(jersey="green", trim="black, white")),
        "crew": (CrewMember("referee", "R. Quillander"), CrewMember("umpire", "U. Thornvex")),
        "observer": "O. Vanterell",
    }
    return Game(**(fields | changes))  # type: ignore[arg-type]


def a_film(**changes: object) -> AddFilm:
    fields: dict[str, object] = {
        "path": "/films/half-1.mp4",
        "size": 1_000_000,
        "length": Fraction(90),
        "digest": "ab12",
        "start": Moment(1024, Fraction(1, 15360)),
        "width": 1280,
        "height": 720,
    }
    return AddFilm(**(fields | changes))  # type: ignore[arg-type]


def a_tag(seconds: str = "12.5", **changes: object) -> AddTag:
    fields: dict[str, object] = {
        "film": "f1",
        "moment": moment(seconds),
        "team": "visitor",
        "player": "14",
        "item": "arm sleeve",
    }
    return AddTag(**(fields | changes))  # type: ignore[arg-type]

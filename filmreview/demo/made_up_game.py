"""The made-up game: two schools, their players, what they wear, and the crew. Every name is invented; no real person or school.

Colours here are true colours: 8-bit sRGB of the cloth in even daylight, before the gym's light falls on it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

Rgb = tuple[int, int, int]

WHITE: Rgb = (242, 243, 244)
NAVY: Rgb = (28, 48, 118)
GREEN: Rgb = (0, 126, 78)
GOLD: Rgb = (226, 178, 60)
BLACK: Rgb = (42, 42, 43)


@dataclass(frozen=True)
class Wear:
    """One thing worn besides the team's kit.

    item: word of `filmreview.facts.items`. colour: true colour. where: the part of the body it is drawn on, see
    `figure`; a side is the player's own. from_share, to_share: which stretch of that part it covers, 0 at the end nearer
    the trunk (or the lower edge, on the head).
    """

    item: str
    colour: Rgb
    where: tuple[str, ...]
    from_share: float = 0.0
    to_share: float = 1.0


@dataclass(frozen=True)
class Kit:
    """A team's uniform. number, border: colours of the numbers. trim: neckline, armholes and side inserts."""

    jersey: Rgb
    shorts: Rgb
    trim: Rgb
    number: Rgb
    border: Rgb


@dataclass(frozen=True)
class Person:
    """Somebody on the floor. team: "home", "visitor" or "crew". number: as worn; a crew member's is empty. tall: feet."""

    team: str
    number: str
    tall: float
    skin: Rgb
    hair: Rgb
    long_hair: bool = False
    wears: tuple[Wear, ...] = ()

    @property
    def key(self) -> str:
        """A short handle: team letter and number, as "v31"; a crew member's is the position."""
        return f"{self.team[0]}{self.number}" if self.team != "crew" else self.number


@dataclass(frozen=True)
class MadeUpGame:
    """Everything the set-up of the review needs."""

    day: date
    book: str
    level: str
    home: str
    visitor: str
    crew: tuple[tuple[str, str], ...]
    observer: str
    kits: Mapping[str, Kit]
    people: tuple[Person, ...] = field(default=())

    def person(self, key: str) -> Person:
        """The person of that handle."""
        return next(person for person in self.people if person.key == key)


_LIGHT: Rgb = (224, 178, 150)
_TAN: Rgb = (196, 144, 108)
_BROWN: Rgb = (142, 96, 68)
_DARK: Rgb = (98, 66, 50)
_BLOND: Rgb = (186, 150, 92)
_RUST: Rgb = (120, 66, 36)
_COAL: Rgb = (30, 26, 25)
_HAZEL: Rgb = (74, 50, 34)

_NECKLACE = Wear("jewelry", (214, 176, 66), ("neckline",))
_NAVY_SLEEVE = Wear("arm sleeve", NAVY, ("right upper arm", "right forearm"), 0.3, 0.9)
_BLACK_SLEEVE = Wear("arm sleeve", BLACK, ("left upper arm", "left forearm"), 0.3, 0.9)
_BLACK_SHIRT = Wear("undershirt", BLACK, ("left upper arm", "right upper arm", "neckline", "shoulders"), 0.0, 0.62)
_GREY_SHIRT = Wear("undershirt", (203, 203, 204), ("left upper arm", "right upper arm", "neckline", "shoulders"), 0.0, 0.62)
_BLACK_HEADBAND = Wear("headband", BLACK, ("head",), 0.22, 0.58)
_BAND_ABOVE_ELBOW = Wear("wristband", BLACK, ("right upper arm",), 0.55, 0.86)
_RED_BRACE = Wear("knee brace", (176, 38, 40), ("right knee",))

GAME = MadeUpGame(
    day=date(2024, 1, 19),
    book="nfhs",
    level="varsity",
    home="Quillmarsh",
    visitor="Varrowick",
    crew=(("referee", "Marl Tessendry"), ("umpire 1", "Junia Crathelow"), ("umpire 2", "Ansel Voorwick")),
    observer="Petra Linsfold",
    kits={
        "home": Kit(WHITE, WHITE, NAVY, WHITE, NAVY),
        "visitor": Kit(GREEN, GREEN, GOLD, (244, 244, 240), GREEN),
    },
    people=(
        Person("home", "12", 6.2, _LIGHT, _HAZEL),
        Person("home", "21", 6.5, _BROWN, _COAL, wears=(_BLACK_SHIRT,)),
        Person("home", "10", 6.0, _TAN, _COAL, wears=(_NAVY_SLEEVE,)),
        Person("home", "3", 5.9, _LIGHT, _RUST, wears=(_NECKLACE,)),
        Person("home", "44", 6.4, _DARK, _COAL, wears=(_GREY_SHIRT,)),
        Person("home", "30", 6.2, _TAN, _HAZEL),
        Person("visitor", "31", 6.4, _TAN, _COAL, wears=(_BLACK_SLEEVE,)),
        Person("visitor", "5", 6.1, _LIGHT, _BLOND, wears=(_BLACK_HEADBAND,)),
        Person("visitor", "24", 6.2, _BROWN, _COAL, wears=(_BAND_ABOVE_ELBOW,)),
        Person("visitor", "15", 6.3, _DARK, _COAL, wears=(_BLACK_SHIRT, _RED_BRACE)),
        Person("visitor", "22", 5.9, _LIGHT, _HAZEL),
        Person("visitor", "27", 6.1, _TAN, _RUST),
        Person("crew", "referee", 6.0, _TAN, (120, 116, 112)),
        Person("crew", "umpire 1", 5.7, _BROWN, _COAL, long_hair=True),
        Person("crew", "umpire 2", 6.1, _LIGHT, _BLOND),
    ),
)

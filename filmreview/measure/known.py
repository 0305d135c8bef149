"""Things of known size that pixels are turned into inches by, each with the range its book allows and where that stands.

Which books a thing is for: school and college games use boys' and girls' balls and a rectangle of 24 x 18 in, FIBA's its own.

The ring and the backboard's rectangle are the best near the basket, a ball is within 1 % but blurred when it flies, a number
is good only when nothing else is near: that it has its least legal height is an assumption, and the ruling says so.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from filmreview.errors import unknown
from filmreview.facts.items import BOOKS

MM = 1.0 / 25.4


@dataclass(frozen=True)
class Known:
    """low, high: inches between which its size lies, each value as likely. source: where that is from. assumed: true when
    nothing but habit says that the thing has this size. books: the books whose games have it, none when all do."""

    name: str
    low: float
    high: float
    source: str
    assumed: bool = False
    books: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """Its name, and whether its size is an assumption."""
        return f"{self.name} (its size is assumed)" if self.assumed else self.name

    def serves(self, book: str | None) -> bool:
        """Whether games of this book have it; a book that is not one of ours may have any."""
        return not self.books or book not in BOOKS or book in self.books

    @property
    def middle(self) -> float:
        """Inches."""
        return 0.5 * (self.low + self.high)

    @property
    def sd(self) -> float:
        """Standard uncertainty in inches of a rectangular distribution (JCGM 100:2008, 4.3.7)."""
        return (self.high - self.low) / math.sqrt(12.0)


def _all(*things: Known) -> Mapping[str, Known]:
    return MappingProxyType({thing.name: thing for thing in things})


_SCHOOL, _FIBA = ("nfhs", "ncaa-men", "ncaa-women"), ("fiba",)
_SCHOOL_BALL = "NFHS 1-12 (circumference 29.5 to 30 in boys, 28.5 to 29 in girls), as quoted in public; NCAA the same"
_FIBA_BALL = "FIBA equipment rules, from memory"
_RECTANGLE = "backboard rectangle 24 x 18 in to the outside of its lines (NFHS, NCAA); tolerance assumed"
_FIBA_RECTANGLE = "FIBA backboard rectangle 590 x 450 mm, 8 mm tolerance assumed"
_ABOUT_SO = "that it is about so: common practice"
KNOWN: Mapping[str, Known] = _all(
    Known("boys ball", 9.39, 9.55, _SCHOOL_BALL, books=("nfhs", "ncaa-men")),
    Known("girls ball", 9.07, 9.23, _SCHOOL_BALL, books=("nfhs", "ncaa-women")),
    Known("size 7 ball", 239 * MM, 245 * MM, _FIBA_BALL, books=_FIBA),
    Known("size 6 ball", 228 * MM, 232 * MM, _FIBA_BALL, books=_FIBA),
    Known("ring inside", 17.9, 18.1, "ring inside diameter 18 in (NFHS, NCAA); 450 to 459 mm (FIBA); tolerance assumed"),
    Known("ring height", 119.5, 120.5, "the ring's edge 10 ft above the floor (NFHS, NCAA), 3.05 m (FIBA); tolerance assumed"),
    Known("rectangle width", 23.75, 24.25, _RECTANGLE, books=_SCHOOL),
    Known("rectangle height", 17.75, 18.25, _RECTANGLE, books=_SCHOOL),
    Known("FIBA rectangle width", 582 * MM, 598 * MM, _FIBA_RECTANGLE, books=_FIBA),
    Known("FIBA rectangle height", 442 * MM, 458 * MM, _FIBA_RECTANGLE, books=_FIBA),
    Known("backboard width", 71.5, 72.5, "backboard 72 in wide (NFHS, NCAA), 1.80 m (FIBA); tolerance assumed"),
    Known("front number", 4.0, 4.5, f"least height in front 4 in (NFHS); {_ABOUT_SO}", True, ("nfhs",)),
    Known("back number", 6.0, 6.75, f"least height behind 6 in (NFHS); {_ABOUT_SO}", True, ("nfhs",)),
    Known("FIBA front number", 100 * MM, 112 * MM, f"least height in front 10 cm (FIBA); {_ABOUT_SO}", True, _FIBA),
    Known("FIBA back number", 200 * MM, 225 * MM, f"least height behind 20 cm (FIBA); {_ABOUT_SO}", True, _FIBA),
    Known("headband", 1.75, 2.25, "most headbands sold are 2 in wide: common practice", assumed=True),
)  # fmt: skip


def known(name: str, where: str | None = None) -> Known:
    """The thing of that name; raises FilmReviewError with the nearest one."""
    if name not in KNOWN:
        raise unknown("thing of known size", name, KNOWN, where=where)
    return KNOWN[name]


def known_in(book: str | None) -> tuple[Known, ...]:
    """The things of known size that games of a book have, those of a size that a rule lays down first."""
    return tuple(sorted((thing for thing in KNOWN.values() if thing.serves(book)), key=lambda thing: thing.assumed))

"""Things of known size that pixels are turned into inches by, each with the range its book allows and where that stands.

Which books a thing is for: school and college games use boys' and girls' balls and a rectangle of 24 x 18 in, FIBA's its own.

The ring and the backboard's rectangle are the best near the basket, a ball is within 1 % but blurred when it flies. A number's
height varies from maker to maker, so the number serves only when nothing else is near, with its whole range; where somebody
knows how high it is ("8 in"), it is as good as any.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from filmreview.errors import FilmReviewError, unknown
from filmreview.facts.items import BOOKS

MM = 1.0 / 25.4


@dataclass(frozen=True)
class Known:
    """low, high: inches between which its size lies, each value as likely. source: where that is from. assumed: true when
    nothing but habit says that the thing has this size. books: the books whose games have it, none when all do. declared: true
    when the observer said its size."""

    name: str
    low: float
    high: float
    source: str
    assumed: bool = False
    books: tuple[str, ...] = ()
    declared: bool = False

    @property
    def words(self) -> str:
        """Its name, and whether its size is an assumption; of a declared one the size alone."""
        if self.declared:
            return f"known size {self.size_words}, {self.source}"
        return f"{self.name} (its size is assumed)" if self.assumed else self.name

    @property
    def size_words(self) -> str:
        """ "7.75 to 8.25 in", "8 in"."""
        return f"{self.low:.4g} in" if self.low == self.high else f"{self.low:.2f} to {self.high:.2f} in"

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
_MAKERS = "makers offer heights up to this: common practice, from memory"
_DECLARED = re.compile(r"(\d+(?:\.\d+)?)(?: ?(?:\+-|±) ?(\d+(?:\.\d+)?))? ?(in|cm)", re.ASCII)
KNOWN: Mapping[str, Known] = _all(
    Known("boys' ball", 9.39, 9.55, _SCHOOL_BALL, books=("nfhs", "ncaa-men")),
    Known("girls' ball", 9.07, 9.23, _SCHOOL_BALL, books=("nfhs", "ncaa-women")),
    Known("size 7 ball", 239 * MM, 245 * MM, _FIBA_BALL, books=_FIBA),
    Known("size 6 ball", 228 * MM, 232 * MM, _FIBA_BALL, books=_FIBA),
    Known("ring inside", 17.9, 18.1, "ring inside diameter 18 in (NFHS, NCAA); 450 to 459 mm (FIBA); tolerance assumed"),
    Known("ring height", 119.5, 120.5, "the ring's edge 10 ft above the floor (NFHS, NCAA), 3.05 m (FIBA); tolerance assumed"),
    Known("rectangle width", 23.75, 24.25, _RECTANGLE, books=_SCHOOL),
    Known("rectangle height", 17.75, 18.25, _RECTANGLE, books=_SCHOOL),
    Known("FIBA rectangle width", 582 * MM, 598 * MM, _FIBA_RECTANGLE, books=_FIBA),
    Known("FIBA rectangle height", 442 * MM, 458 * MM, _FIBA_RECTANGLE, books=_FIBA),
    Known("backboard width", 71.5, 72.5, "backboard 72 in wide (NFHS, NCAA), 1.80 m (FIBA); tolerance assumed"),
    Known("front number", 4.0, 8.0, f"least height in front 4 in (NFHS); {_MAKERS}", True, ("nfhs",)),
    Known("back number", 6.0, 10.0, f"least height behind 6 in (NFHS); {_MAKERS}", True, ("nfhs",)),
    Known("FIBA front number", 100 * MM, 200 * MM, f"least height in front 10 cm (FIBA); {_MAKERS}", True, _FIBA),
    Known("FIBA back number", 200 * MM, 250 * MM, f"least height behind 20 cm (FIBA); {_MAKERS}", True, _FIBA),
    Known("headband", 1.75, 2.25, "most headbands sold are 2 in wide: common practice", assumed=True),
)  # fmt: skip

_OLD_NAMES: Mapping[str, str] = {"boys ball": "boys' ball", "girls ball": "girls' ball"}
"""As they were written before, which is still understood."""


def known(name: str, where: str | None = None) -> Known:
    """The thing of that name, or of a size that somebody knows (`known_size`); raises FilmReviewError with the nearest one."""
    if _DECLARED.fullmatch(name.strip()):
        return known_size(name, where)
    name = _OLD_NAMES.get(name, name)
    if name not in KNOWN:
        raise unknown("thing of known size", name, KNOWN, where=where)
    return KNOWN[name]


def known_size(text: str, where: str | None = None) -> Known:
    """A thing whose size somebody knows: "8 in", "8 +- 0.25 in", "20 cm". Raises FilmReviewError for what is no size."""
    found = _DECLARED.fullmatch(text.strip())
    if found is None:
        raise FilmReviewError(f'"{text}" is not a size', where=where, todo='write such as "8 in", "8 +- 0.25 in" or "20 cm"')
    inches = 1.0 if found[3] == "in" else 10 * MM
    middle, off = float(found[1]) * inches, float(found[2] or 0) * inches
    if middle <= off:
        raise FilmReviewError(f"the known size {text.strip()} may be nothing", where=where, todo='write such as "8 +- 0.25 in"')
    return Known(f"a thing of {text.strip()}", middle - off, middle + off, "as declared by the observer", declared=True)


def known_in(book: str | None) -> tuple[Known, ...]:
    """The things of known size that games of a book have, those of a size that a rule lays down first."""
    return tuple(sorted((thing for thing in KNOWN.values() if thing.serves(book)), key=lambda thing: thing.assumed))

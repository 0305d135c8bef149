"""Things of known size that pixels are turned into inches by, each with the range its book allows and where that stands.

The ring and the backboard's rectangle are the best near the basket, a ball is within 1 % but blurred when it flies, a number
is good only when nothing else is near: that it has its least legal height is an assumption, and the ruling says so.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from filmreview.errors import unknown

MM = 1.0 / 25.4


@dataclass(frozen=True)
class Known:
    """low, high: inches between which its size lies, each value as likely. source: where that is from. assumed: true when
    nothing but habit says that the thing has this size."""

    name: str
    low: float
    high: float
    source: str
    assumed: bool = False

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


_SCHOOL_BALL = "NFHS 1-12 (circumference 29.5 to 30 in boys, 28.5 to 29 in girls), as quoted in public; NCAA the same"
_FIBA_BALL = "FIBA equipment rules, from memory"
_RECTANGLE = "backboard rectangle 24 x 18 in to the outside of its lines (NFHS, NCAA); tolerance assumed"
KNOWN: Mapping[str, Known] = _all(
    Known("boys ball", 9.39, 9.55, _SCHOOL_BALL),
    Known("girls ball", 9.07, 9.23, _SCHOOL_BALL),
    Known("size 7 ball", 239 * MM, 245 * MM, _FIBA_BALL),
    Known("size 6 ball", 228 * MM, 232 * MM, _FIBA_BALL),
    Known("ring inside", 17.9, 18.1, "ring inside diameter 18 in (NFHS, NCAA); 450 to 459 mm (FIBA); tolerance assumed"),
    Known("rectangle width", 23.75, 24.25, _RECTANGLE),
    Known("rectangle height", 17.75, 18.25, _RECTANGLE),
    Known("FIBA rectangle width", 582 * MM, 598 * MM, "FIBA backboard rectangle 590 x 450 mm, 8 mm tolerance assumed"),
    Known("FIBA rectangle height", 442 * MM, 458 * MM, "FIBA backboard rectangle 590 x 450 mm, 8 mm tolerance assumed"),
    Known("backboard width", 71.5, 72.5, "backboard 72 in wide (NFHS, NCAA), 1.80 m (FIBA); tolerance assumed"),
    Known("front number", 4.0, 4.5, "least height in front 4 in (NFHS); that it is about so: common practice", assumed=True),
    Known("back number", 6.0, 6.75, "least height behind 6 in (NFHS); that it is about so: common practice", assumed=True),
    Known("headband", 1.75, 2.25, "most headbands sold are 2 in wide: common practice", assumed=True),
)  # fmt: skip


def known(name: str, where: str | None = None) -> Known:
    """The thing of that name; raises FilmReviewError with the nearest one."""
    if name not in KNOWN:
        raise unknown("thing of known size", name, KNOWN, where=where)
    return KNOWN[name]

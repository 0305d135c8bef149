"""One fact: a value, and where it came from."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from filmreview.colour.value import Colour


class Origin(StrEnum):
    """Where a fact came from."""

    MEASURED = "measured"
    SEEN = "seen"
    DECLARED = "declared"


@dataclass(frozen=True)
class Amount:
    """A size, count or area. value in the unit of its key (inches, square inches, pieces); plus_minus: standard uncertainty
    in the same unit, 0 when exact."""

    value: float
    plus_minus: float = 0.0

    def chance_at_most(self, limit: float) -> float:
        """Probability that the true value is at most the limit, for a normal distribution (JCGM 106:2012, 7)."""
        if self.plus_minus == 0.0:
            return 1.0 if self.value <= limit else 0.0
        return 0.5 * math.erfc((self.value - limit) / (self.plus_minus * math.sqrt(2.0)))

    def chance_at_least(self, limit: float) -> float:
        """Probability that the true value is at least the limit."""
        if self.plus_minus == 0.0:
            return 1.0 if self.value >= limit else 0.0
        return 1.0 - self.chance_at_most(limit)


Value = bool | str | Amount | tuple[Colour, ...]


@dataclass(frozen=True)
class Fact:
    """One thing known of an item. key: one of `keys.KEYS`. why: for a measured fact, the figures behind it in a few words."""

    key: str
    value: Value
    origin: Origin = Origin.SEEN
    why: str = ""

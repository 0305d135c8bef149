"""Yes, no, or cannot be told: a guard band decision in the sense of JCGM 106:2012 (ISO 14253-1 and ILAC-G8 describe the same).

A limit is taken as kept when the probability of it is 0.95 or more, as not kept at 0.05 or less; between, the film cannot
tell. Nothing here knows a rule.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from enum import StrEnum

from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Amount

SURE = 0.95
_LIMIT = re.compile(
    r"(?:(at most|at least) (?P<one>\d+(?:\.\d+)?)|(?P<low>\d+(?:\.\d+)?) to (?P<high>\d+(?:\.\d+)?))", re.ASCII
)


class Answer(StrEnum):
    """What a check of a measured value against a limit may say."""

    YES = "yes"
    NO = "no"
    UNKNOWN = "cannot be told"


@dataclass(frozen=True)
class Limit:
    """What a measured value must keep, both ends included, in the value's own unit."""

    low: float = -math.inf
    high: float = math.inf

    @property
    def ends(self) -> tuple[float, ...]:
        """The limits there are, one or two."""
        return tuple(end for end in (self.low, self.high) if math.isfinite(end))

    def chance(self, amount: Amount) -> float:
        """Probability that the true value keeps it."""
        return chance_between(amount, self.low, self.high)

    def __str__(self) -> str:
        if math.isinf(self.low):
            return f"at most {self.high:g}"
        return f"at least {self.low:g}" if math.isinf(self.high) else f"{self.low:g} to {self.high:g}"


def parse_limit(text: str, where: str | None = None) -> Limit:
    """Read "at most 3", "at least 6" or "2 to 4"; raises FilmReviewError for other text or a range the wrong way round."""
    found = _LIMIT.fullmatch(" ".join(text.split()).casefold())
    if found is None:
        raise FilmReviewError(f'"{text}" is not a limit', where=where, todo='write "at most 3", "at least 6" or "2 to 4"')
    if found["one"]:
        end = float(found["one"])
        return Limit(high=end) if found[1] == "at most" else Limit(low=end)
    low, high = float(found["low"]), float(found["high"])
    if low > high:
        raise FilmReviewError(f"the limit {text} ends before it starts", where=where, todo=f'write "{high:g} to {low:g}"')
    return Limit(low, high)


def answer(chance: float) -> Answer:
    """The answer for a probability that the limit is kept."""
    if chance >= SURE:
        return Answer.YES
    return Answer.NO if chance <= 1.0 - SURE else Answer.UNKNOWN


def chance_between(amount: Amount, low: float = -math.inf, high: float = math.inf) -> float:
    """Conformance probability of low <= true value <= high for a normal distribution (JCGM 106:2012, 7.2 and 7.4)."""
    if amount.plus_minus == 0.0:
        return float(low <= amount.value <= high)
    return _normal((high - amount.value) / amount.plus_minus) - _normal((low - amount.value) / amount.plus_minus)


def _normal(z: float) -> float:
    return 0.5 * math.erfc(-z / math.sqrt(2.0))

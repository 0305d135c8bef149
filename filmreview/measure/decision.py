"""Yes, no, or cannot be told: a guard band decision in the sense of JCGM 106:2012 (ISO 14253-1 and ILAC-G8 describe the same).

A limit is taken as kept when the probability of it is 0.95 or more, as not kept at 0.05 or less; between, the film cannot
tell. Nothing here knows a rule.
"""

from __future__ import annotations

import math
from enum import StrEnum

from filmreview.facts.fact import Amount

SURE = 0.95


class Answer(StrEnum):
    """What a check of a measured value against a limit may say."""

    YES = "yes"
    NO = "no"
    UNKNOWN = "cannot be told"


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

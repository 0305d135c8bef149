"""The facts that two people put down of one thing, compared: which ones say something else."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from filmreview.colour.value import Colour
from filmreview.facts.fact import Amount, Fact
from filmreview.facts.keys import KEYS
from filmreview.review.line import value_in_words
from filmreview.review.ruled import deciding_facts

NOT_SAID = "not said"
COVERAGE = 2.0
"""Two measured amounts agree while they lie no further apart than so many standard uncertainties of their difference
(coverage factor 2, about 95 %: JCGM 100:2008, 6.2 and G.6.6)."""


@dataclass(frozen=True)
class FactBeside:
    """One fact on which two people differ. mine, theirs: the value in words, NOT_SAID where one is silent."""

    key: str
    mine: str
    theirs: str

    @property
    def words(self) -> str:
        """The key for a person."""
        return KEYS[self.key].words


def facts_beside(mine: Iterable[Fact], theirs: Iterable[Fact]) -> tuple[FactBeside, ...]:
    """Where the deciding facts of two tags differ, in the order of the closed list of keys.

    A measured value that the other one lies within the uncertainty of does not differ.
    """
    ours, other = deciding_facts(mine), deciding_facts(theirs)
    keys = [key for key in KEYS if key in ours or key in other]
    return tuple(
        FactBeside(key, _words(ours.get(key)), _words(other.get(key)))
        for key in keys
        if not _alike(ours.get(key), other.get(key))
    )


def _words(fact: Fact | None) -> str:
    return NOT_SAID if fact is None else value_in_words(fact)


def _alike(one: Fact | None, other: Fact | None) -> bool:
    if one is None or other is None:
        return one is other
    if isinstance(one.value, Amount) and isinstance(other.value, Amount):
        spread = math.hypot(one.value.plus_minus, other.value.plus_minus)
        return math.isclose(one.value.value, other.value.value) or abs(one.value.value - other.value.value) <= COVERAGE * spread
    if isinstance(one.value, tuple) and isinstance(other.value, tuple):
        return colour_names(one.value) == colour_names(other.value)
    return one.value == other.value


def colour_names(colours: Iterable[Colour]) -> frozenset[str]:
    """The names of some colours; their order says nothing."""
    return frozenset(colour.name for colour in colours)

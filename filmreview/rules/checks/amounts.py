"""Checks of sizes and counts; `KINDS` lists them by their name in a book."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from filmreview.facts.fact import Amount
from filmreview.facts.keys import KEYS
from filmreview.facts.keys import Kind as FactKind
from filmreview.rules.checks.answer import decide
from filmreview.rules.checks.check import Answers, Base, Bound, Build, Check, Kind, fact_of, words_of
from filmreview.rules.checks.worn import Worn
from filmreview.rules.strict import Table


@dataclass(frozen=True, eq=False)
class _AmountLimit(Check):
    """An amount is at most, or at least, the limit: a guard band decision by its standard uncertainty."""

    fact: str
    limit: float
    least: bool

    @property
    def facts(self) -> tuple[str, ...]:
        return (self.fact,)

    def run(self, worn: Worn) -> int:
        told = worn.facts.get(self.fact)
        if told is None or not isinstance(told.value, Amount):
            return self.missing(worn)
        value = told.value
        return decide(value.chance_at_least(self.limit) if self.least else value.chance_at_most(self.limit))

    @property
    def bound(self) -> Bound:
        return Bound(self.limit, self.least)

    def say(self, worn: Worn) -> str:
        unit = "" if KEYS[self.fact].unit == "pieces" else f" {KEYS[self.fact].unit}"
        side = "at least" if self.least else "at most"
        return f"{words_of(self.fact)} {_shown(worn, self.fact)}; it must be {side} {self.limit:g}{unit}"

    def answers(self, fact: str, worn: Worn) -> Answers:  # noqa: ARG002 - one fact, whatever is worn
        pieces = KEYS[self.fact].unit == "pieces"
        beyond = 0.75 * self.limit if self.least else self.limit + 1 if pieces else 1.25 * self.limit or 1.0
        return in_bands(self.fact, (Amount(self.limit), Amount(beyond)), (self.bound,))


def in_bands(fact: str, amounts: Iterable[Amount], bounds: Iterable[Bound]) -> Answers:
    """The amounts, each under the words for all amounts that lie like it to every limit: "more than 2 and at most 3 in"."""
    unit = "" if KEYS[fact].unit == "pieces" else f" {KEYS[fact].unit}"
    limits = tuple(bounds)
    return {f"{_band(one.value, limits)}{unit}": one for one in sorted(amounts, key=lambda amount: amount.value)}


def _band(value: float, bounds: Iterable[Bound]) -> str:
    """The nearest limit below and the nearest above, in words."""
    below = [(one.limit, not one.least) for one in bounds if value > one.limit or (one.least and value == one.limit)]
    above = [(one.limit, not one.least) for one in bounds if value < one.limit or (not one.least and value == one.limit)]
    words = []
    if below:
        limit, passed = max(below)
        words.append(f"{'more than' if passed else 'at least'} {limit:g}")
    if above:
        limit, reached = min(above)
        words.append(f"{'at most' if reached else 'less than'} {limit:g}")
    return " and ".join(words)


def _shown(worn: Worn, fact: str) -> str:
    told = worn.facts.get(fact)
    if told is None or not isinstance(told.value, Amount):
        return "not known"
    spread = f" ± {told.value.plus_minus:.2g}" if told.value.plus_minus else ""
    return f"{told.value.value:g}{spread}"


def _limit(least: bool) -> Build:
    def build(table: Table, base: Base) -> Check:
        return _AmountLimit(*base, fact_of(table, None, (FactKind.AMOUNT,)), table.number("limit"), least)

    return build


def _count(table: Table, base: Base) -> Check:
    return _AmountLimit(*base, fact_of(table, "count", (FactKind.AMOUNT,)), float(table.whole("limit")), least=False)


KINDS: Mapping[str, Kind] = {
    "at_most": Kind(("fact", "limit"), _limit(False)),
    "at_least": Kind(("fact", "limit"), _limit(True)),
    "count_at_most": Kind(("fact", "limit"), _count),
}

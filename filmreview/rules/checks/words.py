"""Checks of yes and no, of words on a list, of places, and of reasons that excuse; `KINDS` lists them by name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from filmreview.errors import unknown
from filmreview.facts.fact import Value
from filmreview.facts.keys import KEYS
from filmreview.facts.keys import Kind as FactKind
from filmreview.rules.checks.answer import FAILS, HOLDS
from filmreview.rules.checks.check import Answers, Base, Build, Check, Kind, fact_of, words_of
from filmreview.rules.checks.colour_words import list_words
from filmreview.rules.checks.worn import Worn
from filmreview.rules.strict import Table

_TWO_DIGITS = tuple([str(number) for number in range(100)] + ["00"])


@dataclass(frozen=True, eq=False)
class _OneOf(Check):
    """A word or number is one of a list, or none of it."""

    fact: str
    values: tuple[str, ...]
    inside: bool

    @property
    def facts(self) -> tuple[str, ...]:
        return (self.fact,)

    def run(self, worn: Worn) -> int:
        told = worn.facts.get(self.fact)
        if told is None:
            return self.missing(worn)
        return HOLDS if (told.value in self.values) is self.inside else FAILS

    def say(self, worn: Worn) -> str:
        told = worn.facts.get(self.fact)
        seen = "not known" if told is None else str(told.value)
        values = list_words(self._named())
        words = words_of(self.fact)
        shown = f"{words} {seen}" if words.endswith(" at") else f"{words}: {seen}"
        if self.inside:
            return f"{shown}; allowed: {values}"
        if told is not None and told.value not in self.values:
            return f"{shown} (not one of: {values})"
        return f"{shown}; it must be none of: {values}"

    def _named(self) -> tuple[str, ...]:
        return self.values if len(self.values) <= 8 else (*self.values[:6], "…", self.values[-1])

    def answers(self, fact: str, worn: Worn) -> Answers:  # noqa: ARG002 - one fact, whatever is worn
        if KEYS[self.fact].kind is FactKind.CHOICE:
            return {choice: choice for choice in KEYS[self.fact].choices}
        outside = [number for number in _TWO_DIGITS[1:] if number not in self.values][:1]  # none where every number is listed
        listed, others = ("an allowed number", "another number") if self.inside else ("a forbidden number", "another number")
        return {f"{listed}, like {self.values[0]}": self.values[0], **{f"{others}, like {one}": one for one in outside}}


@dataclass(frozen=True, eq=False)
class _YesNo(Check):
    """A yes-or-no fact is as asked."""

    fact: str
    wanted: bool

    @property
    def facts(self) -> tuple[str, ...]:
        return (self.fact,)

    def run(self, worn: Worn) -> int:
        told = worn.facts.get(self.fact)
        if told is None:
            return self.missing(worn)
        return HOLDS if told.value is self.wanted else FAILS

    def say(self, worn: Worn) -> str:
        told = worn.facts.get(self.fact)
        seen = "not known" if told is None else "yes" if told.value else "no"
        return f"{words_of(self.fact)}: {seen}; it must be {'yes' if self.wanted else 'no'}"

    def answers(self, fact: str, worn: Worn) -> Answers:  # noqa: ARG002 - one fact, whatever is worn
        return {"yes": True, "no": False}


@dataclass(frozen=True, eq=False)
class _Reason(Check):
    """One of several reasons that excuse is there (only_if), or none is (no_word_of; then missing means none)."""

    reasons: tuple[str, ...]
    wanted: bool

    @property
    def excuses(self) -> bool:
        return True

    @property
    def facts(self) -> tuple[str, ...]:
        return self.reasons

    def run(self, worn: Worn) -> int:
        told = [worn.facts[reason].value for reason in self.reasons if reason in worn.facts]
        if any(told):
            return HOLDS if self.wanted else FAILS
        if not self.wanted:
            return HOLDS
        return FAILS if len(told) == len(self.reasons) else self.missing(worn)

    def say(self, worn: Worn) -> str:
        reasons = list_words([words_of(reason) for reason in self.reasons])
        given = [words_of(reason) for reason in self.reasons if reason in worn.facts and worn.facts[reason].value]
        seen = list_words(given, "and") if given else "no such reason known"
        return f"{seen}; allowed only if {reasons}" if self.wanted else f"{seen}; unless {reasons}"

    def answers(self, fact: str, worn: Worn) -> Answers:  # noqa: ARG002 - each reason is yes or no, whatever is worn
        return {"yes": True, "no": False}


def _one_of(inside: bool) -> Build:
    def build(table: Table, base: Base) -> Check:
        fact = fact_of(table, None, (FactKind.CHOICE, FactKind.NUMBER_TEXT))
        return _OneOf(*base, fact, _values(table, "values", fact), inside)

    return build


def _at(fact: str) -> Build:
    def build(table: Table, base: Base) -> Check:
        return _OneOf(*base, fact, _values(table, "places", fact), inside=True)

    return build


def _values(table: Table, key: str, fact: str) -> tuple[str, ...]:
    values = table.texts(key)
    known: tuple[Value, ...] = KEYS[fact].choices or _TWO_DIGITS
    for value in values:
        if value not in known:
            raise unknown(f"value of {fact}", value, [str(one) for one in known], where=table.at(key))
    return values


def _yes_no(wanted: bool) -> Build:
    def build(table: Table, base: Base) -> Check:
        return _YesNo(*base, fact_of(table, None, (FactKind.YES_NO,)), wanted)

    return build


def _reason(wanted: bool) -> Build:
    def build(table: Table, base: Base) -> Check:
        keys = tuple(key for key, one in KEYS.items() if one.kind is FactKind.YES_NO)
        return _Reason(*base, table.choices("facts", keys), wanted)

    return build


KINDS: Mapping[str, Kind] = {
    "is_one_of": Kind(("fact", "values"), _one_of(True)),
    "is_none_of": Kind(("fact", "values"), _one_of(False)),
    "worn_at": Kind(("places",), _at("worn")),
    "placed_at": Kind(("places",), _at("logo_at")),
    "yes": Kind(("fact",), _yes_no(True)),
    "no": Kind(("fact",), _yes_no(False)),
    "only_if": Kind(("facts",), _reason(True)),
    "no_word_of": Kind(("facts",), _reason(False)),
}

"""Checks that look across a team; `KINDS` lists them by their name in a book."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from filmreview.colour.chance import SAME_LIMIT
from filmreview.colour.value import Colour
from filmreview.errors import FilmReviewError
from filmreview.facts.items import ITEMS
from filmreview.facts.keys import Kind as FactKind
from filmreview.rules.checks.answer import FAILS, HOLDS
from filmreview.rules.checks.check import Answers, Base, Check, Kind, fact_of
from filmreview.rules.checks.colour_words import anything_but, list_words
from filmreview.rules.checks.worn import Worn, declared_word
from filmreview.rules.strict import Table


@dataclass(frozen=True, eq=False)
class SameAcrossTeam(Check):
    """Everybody of the team who wears one of these items wears one colour. A colour that another rule forbids takes no part:
    it has to go anyway. Fails for everybody concerned, since the choice which colour stays is the team's."""

    fact: str
    among: tuple[str, ...]
    within: float

    across: ClassVar[bool] = True

    @property
    def facts(self) -> tuple[str, ...]:
        """Keys of the facts it reads."""
        return (self.fact,)

    @property
    def team_words(self) -> tuple[str, ...]:
        """What the team declared for these items."""
        word = declared_word(self.fact, self.among)
        return (word,) if word else ()

    def run(self, worn: Worn) -> int:
        """Holds for a thing looked at alone."""
        if worn.mates is None:
            return HOLDS
        if self.fact not in worn.facts:
            return self.missing(worn)
        return worn.mates.same_colour(worn, self.fact, self.among, self.within)

    def say(self, worn: Worn) -> str:
        """Names the colours the teammates wear, apart from the items it is about, which need not all be worn."""
        mates = worn.mates.colours(worn, self.fact, self.among, self.within) if worn.mates else ()
        mine = worn.colours(self.fact) or ()
        names = list_words(list(dict.fromkeys(colour.name for colour in (*mine, *mates))), "and")
        alike = list_words(self.among, "and")
        return f"this team shows {names or 'no known colour'}; {alike} must be of one colour for the team"

    def answers(self, fact: str, worn: Worn) -> Answers:
        """The teammates' colours and one that nobody wears."""
        mates = worn.mates.colours(worn, self.fact, self.among, self.within) if worn.mates else ()
        if fact in self.team_words:
            mates = worn.colours(self.fact) or mates
        exact = [Colour(colour.lab, colour.name) for colour in mates]
        return {**{colour.name: (colour,) for colour in exact}, **anything_but(*exact)}


@dataclass(frozen=True, eq=False)
class NotTogether(Check):
    """These numbers do not all stand on one team."""

    fact: str
    values: tuple[str, ...]

    across: ClassVar[bool] = True

    @property
    def facts(self) -> tuple[str, ...]:
        """Keys of the facts it reads."""
        return (self.fact,)

    def run(self, worn: Worn) -> int:
        """Holds for a thing looked at alone."""
        told = worn.facts.get(self.fact)
        if worn.mates is None or (told is not None and told.value not in self.values):
            return HOLDS
        if told is None:
            return self.missing(worn)
        others = worn.mates.numbers() | {str(told.value)}
        return FAILS if others.issuperset(self.values) else HOLDS

    def say(self, worn: Worn) -> str:  # noqa: ARG002 - the list says it all
        """Names the numbers."""
        return f"{list_words(self.values, 'and')} on one team; only one of them is allowed"

    def answers(self, fact: str, worn: Worn) -> Answers:  # noqa: ARG002 - one fact
        """The numbers and one that is none of them."""
        return {**{value: value for value in self.values}, "another number, like 12": "12"}


def _same_across_team(table: Table, base: Base) -> Check:
    named = table.choices("items", ITEMS) if "items" in table else base.items
    among = tuple(item for item in ITEMS if item in named)  # one order, so that two rules share one look
    within = table.number("within") if "within" in table else SAME_LIMIT
    return SameAcrossTeam(*base, fact_of(table, "colour", (FactKind.COLOURS,)), among, within)


def _not_together(table: Table, base: Base) -> Check:
    values = table.texts("values")
    if len(values) < 2:
        raise FilmReviewError("names fewer than two", where=table.at("values"), todo="name all that may not stand together")
    return NotTogether(*base, fact_of(table, "number", (FactKind.NUMBER_TEXT,)), values)


KINDS: Mapping[str, Kind] = {
    "same_across_team": Kind(("fact", "items", "within"), _same_across_team),
    "not_together": Kind(("fact", "values"), _not_together),
}

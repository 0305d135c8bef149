"""What comes out of judging: rulings, the facts that could still change them, choices, penalties. Values only.

A `Ruling` carries its outcome at once; reasons, needs and the like are put into words when they are first asked for.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from typing import Protocol

from filmreview.facts.fact import Fact
from filmreview.rules.adoption import Adoption
from filmreview.rules.book import Book
from filmreview.rules.penalty import Penalty


@dataclass(frozen=True)
class Need:
    """A fact not known that could still change the outcome.

    fact: its key, or a team's word ("jersey", "opponent.jersey"). why: a sentence.
    outcomes: words of each answer -> the ruling it would bring by itself; consequences: the same for the consequence.
    presumed: True when the ruling stands because nothing was seen against the ordinary case; False when it waits for the fact.
    """

    fact: str
    why: str
    outcomes: Mapping[str, str]
    consequences: Mapping[str, str]
    presumed: bool


@dataclass(frozen=True)
class Ahead:
    """Legal on the day, illegal from a later day on that was known already. says: the later text, in our own words."""

    rule: str
    starts: date
    ruling: str
    reference: str
    says: str


@dataclass(frozen=True)
class RuleAnswer:
    """One rule in force on the item. holds: None when it cannot be told. presumed: it holds because nothing was seen
    against it."""

    rule: str
    title: str
    holds: bool | None
    presumed: bool
    reference: str
    says: str


@dataclass(frozen=True)
class Todo:
    """What an official does. found: "pre-game", "warm-up", "at table", "live" or "dead"; "" at any time."""

    found: str
    what: str


@dataclass(frozen=True)
class Option:
    """A choice of a team. keep: the colour that stays. change: the players who would have to change."""

    keep: str
    change: tuple[str, ...]


@dataclass(frozen=True)
class Choice:
    """All consistent choices of a team under one rule, the least change first; none when no colour worn may stay."""

    team: str
    rule: str
    options: tuple[Option, ...]


class Explainer(Protocol):
    """Puts one ruling into words, from the facts and rules it was made of."""

    def reasons(self) -> tuple[str, ...]:
        """Sentences, the deciding one first."""

    def needs(self) -> tuple[Need, ...]:
        """Facts that could still change the outcome, the most decisive first."""

    def ahead(self) -> tuple[Ahead, ...]:
        """Later editions, known that day, that would make a legal thing illegal."""

    def rules(self) -> tuple[RuleAnswer, ...]:
        """Every rule in force on the item."""

    def todo(self) -> tuple[Todo, ...]:
        """What to do, by when it was found."""

    def facts_used(self) -> tuple[Fact, ...]:
        """The facts the rules looked at."""


@dataclass(frozen=True)
class Ruling:
    """What the book says of one tag.

    id, team, player, item: of the tag. ruling: "legal", "illegal" or "cannot be told". consequence: "none", "fix or leave",
    "leave", "technical foul", or "cannot be told" while it hangs on a fact (has become a player) or the text is disputed.
    rule, reference, edition (season it is from), source, mark: of the deciding rule; empty when the book has none.
    adoption: code of the adoption that decided. The rest is made when first asked for, always the same.
    """

    id: str
    team: str
    player: str
    item: str
    ruling: str
    consequence: str
    rule: str
    reference: str
    edition: str
    source: str
    mark: str
    adoption: str | None
    explainer: Explainer = field(repr=False, compare=False)

    @cached_property
    def reasons(self) -> tuple[str, ...]:
        """Sentences, the deciding one first."""
        return self.explainer.reasons()

    @cached_property
    def needs(self) -> tuple[Need, ...]:
        """Facts that could still change the ruling or consequence, the most decisive first."""
        return self.explainer.needs()

    @cached_property
    def ahead(self) -> tuple[Ahead, ...]:
        """Later editions, known that day, that would make a legal thing illegal."""
        return self.explainer.ahead()

    @cached_property
    def rules(self) -> tuple[RuleAnswer, ...]:
        """Every rule in force on the item, with its answer."""
        return self.explainer.rules()

    @cached_property
    def todo(self) -> tuple[Todo, ...]:
        """What to do, by when it was found."""
        return self.explainer.todo()

    @cached_property
    def facts_used(self) -> tuple[Fact, ...]:
        """The facts the rules looked at, with their origin."""
        return self.explainer.facts_used()


@dataclass(frozen=True)
class Rulings:
    """What the book says of all tags on the day. edition: the season, as "2023-24". level: as judged."""

    rulings: tuple[Ruling, ...]
    penalties: tuple[Penalty, ...]
    choices: tuple[Choice, ...]
    book: Book
    edition: str
    day: date
    level: str
    adoption: Adoption | None

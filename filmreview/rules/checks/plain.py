"""Checks that need no fact of the item: always, never, whose it is, and where the text fails; `KINDS` lists them by name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from filmreview.errors import FilmReviewError
from filmreview.facts.items import ITEMS, LEVELS, TEAMS
from filmreview.rules.checks.answer import DISPUTED, FAILS, HOLDS
from filmreview.rules.checks.check import Answers, Base, Check, Kind
from filmreview.rules.checks.colour_words import list_words
from filmreview.rules.checks.worn import Worn
from filmreview.rules.strict import Table


@dataclass(frozen=True, eq=False)
class _Always(Check):
    """The same answer whatever is worn, with its words."""

    answer: int
    words: str

    def run(self, worn: Worn) -> int:  # noqa: ARG002 - whatever is worn
        return self.answer

    def say(self, worn: Worn) -> str:
        return self.words or f"{worn.tag.item}: {'not allowed' if self.answer == FAILS else 'allowed'}"

    def answers(self, fact: str, worn: Worn) -> Answers:  # noqa: ARG002 - reads no fact
        return {}


@dataclass(frozen=True, eq=False)
class _Whose(Check):
    """A condition on the team, the level of play or the item; always known. Where it is met it goes without saying."""

    values: tuple[str, ...]
    only_whose: ClassVar[bool] = True

    def run(self, worn: Worn) -> int:
        return HOLDS if self._mine(worn) in self.values else FAILS

    def say(self, worn: Worn) -> str:
        mine = self._mine(worn)
        return "" if mine in self.values else f"{mine}; for {list_words(self.values)}"

    def answers(self, fact: str, worn: Worn) -> Answers:  # noqa: ARG002 - reads no fact
        return {}

    def _mine(self, worn: Worn) -> str:
        if self.is_named == "team_is":
            return worn.tag.team
        return worn.level if self.is_named == "level_is" else worn.tag.item


def _disputed(table: Table, base: Base) -> Check:
    readings = table.texts("readings")
    if len(readings) < 2:
        raise FilmReviewError("a dispute has two readings", where=table.at("readings"), todo="name both")
    return _Always(*base, DISPUTED, "disputed: " + "; or: ".join(readings))


def _gap(table: Table, base: Base) -> Check:
    return _Always(*base, DISPUTED, f"the book here has no text for {table.text('about')}")


KINDS: Mapping[str, Kind] = {
    "allowed": Kind((), lambda _, base: _Always(*base, HOLDS, "")),
    "not_allowed": Kind((), lambda _, base: _Always(*base, FAILS, "")),
    "disputed": Kind(("readings",), _disputed),
    "gap": Kind(("about",), _gap),
    "team_is": Kind(("team",), lambda table, base: _Whose(*base, (table.choice("team", TEAMS),))),
    "level_is": Kind(("levels",), lambda table, base: _Whose(*base, table.choices("levels", LEVELS))),
    "item_is": Kind(("items",), lambda table, base: _Whose(*base, table.choices("items", ITEMS))),
}

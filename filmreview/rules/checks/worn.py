"""A thing worn as the checks look at it: its facts with their fallbacks, its team's words, its teammates."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from filmreview.colour.value import Colour
from filmreview.facts.fact import Fact, Origin
from filmreview.rules.tag import Tag

DECLARED_FOR: Mapping[str, str] = {
    "jersey": "jersey",
    "shorts": "shorts",
    "undershirt": "undershirt",
    "number": "number_colour",
}
"""Item -> the team's word that gives its colour when the tag itself tells none."""

BECOMES_PLAYER: Mapping[str, bool] = {"pre-game": False, "warm-up": False, "at table": False, "playing": True}
"""When it was found -> whether the wearer has become a player in it, unless the tag tells."""


class Mates(Protocol):
    """Teammates, for the checks that look across a team."""

    def same_colour(self, worn: Worn, fact: str, items: tuple[str, ...], within: float) -> int:
        """The answer whether everybody of the team who wears one of these items wears one colour."""

    def colours(self, worn: Worn, fact: str, items: tuple[str, ...], within: float) -> tuple[Colour, ...]:
        """One colour of each group the teammates form."""

    def numbers(self) -> frozenset[str]:
        """All numbers of the team's tags."""


@dataclass(slots=True)
class Worn:
    """One tag as the checks see it.

    facts: with fallbacks. words, opponent: declared by team word. mates: None looks at the thing alone. presuming: needed
    facts that are missing are presumed ordinary, too.
    """

    tag: Tag
    level: str
    facts: Mapping[str, Fact]
    words: Mapping[str, Fact]
    opponent: Mapping[str, Fact]
    mates: Mates | None = None
    presuming: bool = False

    def word(self, name: str) -> Fact | None:
        """What a team declared: "jersey", or "opponent.jersey"."""
        if name.startswith("opponent."):
            return self.opponent.get(name.removeprefix("opponent."))
        return self.words.get(name)

    def colours(self, key: str) -> tuple[Colour, ...] | None:
        """The colours of a fact, None when it is not known."""
        fact = self.facts.get(key)
        return fact.value if fact is not None and isinstance(fact.value, tuple) else None

    def word_colours(self, name: str) -> tuple[Colour, ...] | None:
        """The colours of a team's word, None when it was not declared."""
        fact = self.word(name)
        return fact.value if fact is not None and isinstance(fact.value, tuple) else None


def declared_word(fact: str, items: tuple[str, ...]) -> str:
    """The team's word that tells the colour of all these items; "" when none does."""
    words = {DECLARED_FOR.get(item, "") for item in items}
    return words.pop() if len(words) == 1 and fact == "colour" else ""


def with_fallbacks(tag: Tag, words: Mapping[str, Fact]) -> Mapping[str, Fact]:
    """The facts of a tag, with those that follow from the team's words, the player's number and when it was found."""
    facts = tag.facts
    extra: dict[str, Fact] = {}
    word = DECLARED_FOR.get(tag.item)
    if word is not None and "colour" not in facts and word in words:
        declared = words[word]
        extra["colour"] = Fact("colour", declared.value, declared.origin, declared.why)
    if tag.item == "number" and "number" not in facts and tag.player:  # a number that could not be read is not known
        extra["number"] = Fact("number", tag.player, Origin.SEEN)
    if "when" in facts and "in_play" not in facts:
        extra["in_play"] = Fact("in_play", BECOMES_PLAYER[str(facts["when"].value)], facts["when"].origin)
    return {**facts, **extra} if extra else facts

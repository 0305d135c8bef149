"""What the rules are asked about: a tag with its facts, and what a team declared."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from filmreview.facts.fact import Fact

TEAM_WORDS: tuple[str, ...] = ("jersey", "trim", "number_colour", "shorts", "undershirt")
"""What a team declares at set-up, each a colour or several; the jersey by its torso."""


@dataclass(frozen=True)
class Tag:
    """One thing seen on one player. team: "home" or "visitor". item: one of `items.ITEMS`. facts: by their key."""

    id: str
    team: str
    player: str
    item: str
    facts: Mapping[str, Fact] = field(default_factory=dict)


@dataclass(frozen=True)
class TeamFacts:
    """What a team wears as a whole, keyed by TEAM_WORDS; each value of a fact is a tuple of colours."""

    facts: Mapping[str, Fact] = field(default_factory=dict)

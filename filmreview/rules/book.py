"""A book as dated data: rules with editions, what a breach costs by group, gaps, sources. Values only; `reading` makes them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from filmreview.rules.checks.check import Check
from filmreview.rules.season import season_text

COSTS: tuple[str, ...] = ("none", "fix or leave", "leave", "technical foul")
FOUND: tuple[str, ...] = ("pre-game", "warm-up", "at table", "live", "dead")
"""Keys of what to do: when it was found; while playing, by the ball."""


@dataclass(frozen=True, eq=False)
class Edition:
    """What a rule says from one day on.

    kind: "checks", "no limit", "repealed", or "no text" for the time before the first edition whose text nobody here saw.
    check: all checks of the edition as one; None unless kind is "checks".
    published: the day it became known, None when not known. source: the full text of the sources.
    """

    starts: date
    reference: str
    source: str
    mark: str
    kind: str
    items: tuple[str, ...]
    group: str
    says: str
    check: Check | None = None
    published: date | None = None
    checked: date | None = None


@dataclass(frozen=True, eq=False)
class Rule:
    """One rule. before: "no text" or "no rule" for days before its first edition. levels: empty means every level.
    adoption: code of the adoption that changed or added it; waived: the adoption sets it aside."""

    code: str
    title: str
    editions: tuple[Edition, ...]
    before: str
    levels: tuple[str, ...] = ()
    adoption: str | None = None
    waived: bool = False

    def on(self, day: date) -> Edition | None:
        """The last edition whose first day is not after the day."""
        return next((edition for edition in reversed(self.editions) if edition.starts <= day), None)


@dataclass(frozen=True, eq=False)
class Reading:
    """A dispute about a consequence: when it arises, and the readings."""

    when: Check
    readings: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class Cost:
    """What a breach of a group costs from one day on. trigger: the yes-or-no fact that must be yes for `costs`; until then
    `otherwise`. kind, per, charged_to, free_throws, coaching_box, then: of the penalty, when there is one. says: in words, ""
    where those of the group hold."""

    starts: date
    reference: str
    source: str
    mark: str
    costs: str
    trigger: str | None = None
    otherwise: str = "none"
    kind: str | None = None
    per: str = "team"
    charged_to: str = ""
    free_throws: int = 0
    coaching_box: str | None = None
    then: str = ""
    todo: Mapping[str, str] = field(default_factory=dict)
    disputed: tuple[Reading, ...] = ()
    published: date | None = None
    checked: date | None = None
    says: str = ""


@dataclass(frozen=True, eq=False)
class Group:
    """Rules whose breach costs the same. adoption: the one that changed it."""

    code: str
    title: str
    says: str
    costs: tuple[Cost, ...]
    adoption: str | None = None

    def on(self, day: date) -> Cost | None:
        """The last edition whose first day is not after the day."""
        return next((cost for cost in reversed(self.costs) if cost.starts <= day), None)

    def says_of(self, cost: Cost) -> str:
        """What the breach costs in words, as of this edition of the group."""
        return cost.says or self.says


@dataclass(frozen=True)
class Gap:
    """Items or a topic the book here has no text for."""

    items: tuple[str, ...]
    says: str


@dataclass(frozen=True)
class Unseen:
    """From this day on nobody here saw the text: the last value known is carried on."""

    starts: date
    says: str


@dataclass(frozen=True, eq=False)
class Book:
    """A publisher's rules over time. Two books are the same only when they are one object, so that what is in force on a
    day can be kept."""

    code: str
    title: str
    publisher: str
    first_day: date
    season_starts: tuple[int, int]
    level: str
    rules: tuple[Rule, ...]
    groups: Mapping[str, Group]
    sources: Mapping[str, str]
    gaps: tuple[Gap, ...] = ()
    unseen: tuple[Unseen, ...] = ()

    def season(self, day: date) -> str:
        """The season of a day: "2023-24"."""
        return season_text(day, self.season_starts)

    def unseen_on(self, day: date) -> Unseen | None:
        """The note on a season whose text was not seen, if the day is in one."""
        return next((unseen for unseen in reversed(self.unseen) if unseen.starts <= day), None)

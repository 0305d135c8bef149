"""What every check is, and how a kind of check is built from the table that names it in a book."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, ClassVar, NamedTuple

from filmreview.errors import FilmReviewError, unknown
from filmreview.facts.fact import Value
from filmreview.facts.keys import KEYS
from filmreview.facts.keys import Kind as FactKind
from filmreview.rules.checks.answer import PRESUMED, UNKNOWN
from filmreview.rules.checks.worn import Worn
from filmreview.rules.strict import Table

Answers = Mapping[str, Value]
"""Words of an answer -> the value of the fact it stands for."""


class Bound(NamedTuple):
    """A limit of an amount. least: the amount must be at least the limit; else at most."""

    limit: float
    least: bool


@dataclass(frozen=True, eq=False)
class Check:
    """One check with its parameters. A subclass gives `run`, `say` and `answers`.

    is_named: the name in the book. id: for adoptions; the name when the book gives none. needed: a missing fact is asked
    rather than presumed. spec: as the book wrote it, for adoptions that change a parameter.
    items: what its rule is about.
    """

    is_named: str
    id: str
    needed: bool
    spec: Mapping[str, Any] = field(repr=False)
    items: tuple[str, ...] = field(repr=False)

    across: ClassVar[bool] = False
    only_whose: ClassVar[bool] = False
    """Whether it asks only whose the thing is, at which level, or which item: known without any fact."""

    @property
    def facts(self) -> tuple[str, ...]:
        """Keys of the facts it reads."""
        return ()

    @property
    def team_words(self) -> tuple[str, ...]:
        """Team words it reads."""
        return ()

    @property
    def excuses(self) -> bool:
        """Whether it may fail while one of its facts is missing, so that the breach is not the last word."""
        return False

    def missing(self, worn: Worn) -> int:
        """The answer when its fact is missing."""
        return UNKNOWN if self.needed and not worn.presuming else PRESUMED

    def run(self, worn: Worn) -> int:
        """One of the answers of `answer`."""
        raise NotImplementedError

    def say(self, worn: Worn) -> str:
        """A clause: what is seen and what the book asks."""
        raise NotImplementedError

    def answers(self, fact: str, worn: Worn) -> Answers:
        """For a fact or team word it reads: an answer of every kind that makes a difference to this check."""
        raise NotImplementedError

    @property
    def bound(self) -> Bound | None:
        """The limit of an amount, for a check that has one."""
        return None

    def concerns(self, worn: Worn) -> bool:
        """Whether the tag tells something that this check looks at."""
        return any(key in worn.tag.facts for key in self.facts)

    def waits(self, worn: Worn) -> bool:  # noqa: ARG002 - a plain check waits for nobody
        """Whether told facts make it apply and it is open: then it is not for presuming."""
        return False

    def covers(self, other: Check, worn: Worn) -> bool:  # noqa: ARG002 - most checks say something of their own
        """Whether, where both hold, what it says makes what the other says needless."""
        return False

    def leaves(self) -> tuple[Check, ...]:
        """This check, or the checks it combines."""
        return (self,)


def words_of(key: str) -> str:
    """How a fact is called in a sentence, what a team declared as "trim of the team" or "jersey of the other team"."""
    if key in KEYS:
        return KEYS[key].words
    side, _, part = key.rpartition(".")
    return f"{part.replace('_', ' ')} of the {'other team' if side == 'opponent' else 'team'}"


class Base(NamedTuple):
    """The fields every check has, in their order."""

    is_named: str
    id: str
    needed: bool
    spec: Mapping[str, Any]
    items: tuple[str, ...]


Build = Callable[[Table, Base], Check]


@dataclass(frozen=True)
class Kind:
    """A kind of check: the parameters it may have, how it is built, whether its missing fact is asked by default."""

    parameters: tuple[str, ...]
    build: Build
    needed: bool = False


def fact_of(table: Table, default: str | None, kinds: tuple[FactKind, ...]) -> str:
    """The fact a check reads; refused when there is no such fact or it holds something else."""
    name = table.text("fact") if default is None or "fact" in table else default
    if name not in KEYS:
        raise unknown("fact", name, KEYS, where=table.at("fact"))
    if KEYS[name].kind not in kinds:
        holds = " or ".join(kinds)
        raise FilmReviewError(f'"{name}" holds {KEYS[name].kind}', where=table.at("fact"), todo=f"name one that holds {holds}")
    return name

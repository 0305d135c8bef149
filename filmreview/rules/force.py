"""What is in force: a book, laid over by an adoption, on one day at one level, made ready so that judging a tag is quick."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from filmreview.facts.items import ITEMS
from filmreview.rules.adoption import Adoption
from filmreview.rules.book import Book, Cost, Edition, Group, Rule
from filmreview.rules.checks.across import SameAcrossTeam
from filmreview.rules.checks.answer import DISPUTED, HOLDS
from filmreview.rules.checks.check import Check

_FIXED: Mapping[str, int] = {"no limit": HOLDS, "repealed": HOLDS, "no rule": HOLDS, "waived": HOLDS, "no text": DISPUTED}


@dataclass(frozen=True, eq=False)
class Standing:
    """One rule as it stands that day.

    kind: that of the edition, or "no text", "no rule" (before the first edition), "waived". check: only of kind "checks".
    fixed: the answer of any other kind. own: keys of the facts it is about; main: those of them that are needed; tells:
    those that say something here, none of a rule that sets no limit.
    across: its checks that look across the team.
    """

    rule: Rule
    edition: Edition
    kind: str
    check: Check | None
    fixed: int
    own: frozenset[str]
    tells: frozenset[str]
    main: frozenset[str]
    across: tuple[SameAcrossTeam, ...]
    group: Group
    cost: Cost


@dataclass(frozen=True, eq=False)
class Later:
    """An edition known that day that starts later."""

    rule: Rule
    edition: Edition


@dataclass(frozen=True, eq=False)
class Force:
    """Everything in force. items: item -> its rules. later: item -> editions known ahead. begun: False before the book's
    first day."""

    book: Book
    day: date
    level: str
    adoption: Adoption | None
    season: str
    items: Mapping[str, tuple[Standing, ...]]
    later: Mapping[str, tuple[Later, ...]]
    begun: bool
    unseen: str | None


@lru_cache(maxsize=512)
def in_force(book: Book, day: date, level: str | None = None, adoption: Adoption | None = None) -> Force:
    """What is in force; kept, since a book never changes once read. level: None means the book's own."""
    at = level or book.level
    begun = day >= book.first_day
    rules = adoption.rules_of(book, day, at) if adoption else book.rules
    standings = [standing for rule in rules if begun and (standing := _standing(rule, book, day, at, adoption))]
    later = [one for rule in rules if begun and not rule.waived for one in _later(rule, day, at)]
    unseen = book.unseen_on(day)
    return Force(
        book=book,
        day=day,
        level=at,
        adoption=adoption if adoption and adoption.counts(day, at) else None,
        season=book.season(day),
        items={item: tuple(one for one in standings if item in one.edition.items) for item in ITEMS},
        later={item: tuple(one for one in later if item in one.edition.items) for item in ITEMS},
        begun=begun,
        unseen=unseen.says if unseen else None,
    )


def _standing(rule: Rule, book: Book, day: date, level: str, adoption: Adoption | None) -> Standing | None:
    if rule.levels and level not in rule.levels:
        return None
    edition = rule.on(day)
    kind = "waived" if rule.waived else edition.kind if edition else rule.before
    edition = edition or rule.editions[0]
    check = edition.check if kind == "checks" else None
    group = book.groups[edition.group]
    if adoption:
        group = adoption.group_of(group, day, level)
    cost = group.on(day)
    assert cost is not None, "the reader demands a cost from the book's first day"
    leaves = check.leaves() if check else ()
    own = frozenset(check.facts if check else (key for one in rule.editions if one.check for key in one.check.facts))
    return Standing(
        rule=rule,
        edition=edition,
        kind=kind,
        check=check,
        fixed=_FIXED.get(kind, HOLDS),
        own=own,
        tells=own if kind in ("checks", "no text") else frozenset(),
        main=frozenset(key for leaf in leaves if leaf.needed for key in leaf.facts),
        across=tuple(leaf for leaf in leaves if isinstance(leaf, SameAcrossTeam)),
        group=group,
        cost=cost,
    )


def _later(rule: Rule, day: date, level: str) -> list[Later]:
    if rule.levels and level not in rule.levels:
        return []
    known = [one for one in rule.editions if one.starts > day and one.published is not None and one.published <= day]
    return [Later(rule, edition) for edition in known]

"""The handbook: what a book says on a day, in our own words, with what changed since the last season and what is ahead."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from filmreview.rules.adopted import Adopted, adopted_in_costs, adopted_in_rule
from filmreview.rules.adoption import Adoption
from filmreview.rules.book import Book, Edition, Group, Rule


@dataclass(frozen=True)
class Entry:
    """One rule as it stands on a day.

    edition: what is in force; None when the book here begins later or the rule was not there yet. before: the edition it
    replaced in this season, None when it is older. ahead: the next edition when it was known by that day. All are the book's
    own. adopted: what the adoption changes in it. rule: with the adoption laid over it.
    """

    rule: Rule
    edition: Edition | None
    before: Edition | None
    changed: bool
    ahead: Edition | None
    adopted: tuple[Adopted, ...] = ()


@dataclass(frozen=True)
class Handbook:
    """A book on a day. entries: the rules in force, by title, and those that an adoption sets aside. groups: what a breach
    costs by the book. unseen: a note on a season whose text was not seen. gaps: what the book here has no text for.
    adoption: the one laid over it; counts: whether it is in force that day at the level. adopted_costs: what it changes in what
    a breach costs, by group."""

    book: Book
    day: date
    season: str
    entries: tuple[Entry, ...]
    groups: tuple[Group, ...]
    unseen: str
    gaps: tuple[str, ...]
    adoption: Adoption | None = None
    counts: bool = False
    adopted_costs: Mapping[str, tuple[Adopted, ...]] = field(default_factory=dict)


def handbook(
    book: Book, day: date, item: str | None = None, adoption: Adoption | None = None, level: str | None = None
) -> Handbook:
    """The rules in force on a day at a level, all of them or those about one item, an adoption laid over them."""
    played_at = level or book.level
    rules = adoption.rules_of(book, day, played_at) if adoption else book.rules
    own = {rule.code: rule for rule in book.rules}
    entries = [
        entry
        for rule in rules
        if not rule.levels or played_at in rule.levels
        for entry in [_entry(book, own.get(rule.code, rule), day)]
        if _tells(entry) and (item is None or item in _items(entry))
    ]
    if adoption is not None:
        laid = {rule.code: rule for rule in rules}
        entries = [
            replace(one, rule=laid[one.rule.code], adopted=adopted_in_rule(one.rule, adoption, day, played_at))
            for one in entries
        ]
    entries.sort(key=lambda entry: entry.rule.title)
    unseen = book.unseen_on(day)
    gaps = tuple(f"{', '.join(gap.items)}: {gap.says}" for gap in book.gaps if item is None or item in gap.items)
    groups = tuple(book.groups.values())
    return Handbook(
        book, day, book.season(day), tuple(entries), groups, unseen.says if unseen else "", gaps,
        adoption, adoption is not None and adoption.counts(day, played_at),
        {one.code: adopted_in_costs(one, adoption, day, played_at) for one in groups} if adoption else {},
    )  # fmt: skip


def _entry(book: Book, rule: Rule, day: date) -> Entry:
    now = rule.on(day)
    earlier = [edition for edition in rule.editions if now is not None and edition.starts < now.starts]
    later = [edition for edition in rule.editions if edition.starts > day]
    changed = now is not None and book.season(now.starts) == book.season(day) and now.starts > book.first_day
    known = later[0] if later and later[0].published is not None and later[0].published <= day else None
    return Entry(rule, now, earlier[-1] if changed and earlier else None, changed, known)


def _tells(entry: Entry) -> bool:
    """Whether there is anything to say of the rule: it is in force, ended this season, or comes."""
    in_force = entry.edition is not None and entry.edition.kind != "repealed"
    return in_force or entry.changed or entry.ahead is not None


def _items(entry: Entry) -> tuple[str, ...]:
    edition = entry.edition or entry.ahead
    return edition.items if edition else ()

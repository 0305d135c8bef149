"""What an adoption changes in a rule or in what a breach costs, said beside the book's own text and never in its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from filmreview.rules.adoption import Adoption, Change
from filmreview.rules.book import Cost, Edition, Group, Rule
from filmreview.rules.checks.check import Check, words_of

_ALLOWED: Mapping[tuple[str, str], str] = {
    ("one_of_colours", "colours"): "allowed colours",
    ("one_of_colours", "team"): "allowed colours of the team",
    ("is_one_of", "values"): "allowed",
    ("is_none_of", "values"): "not allowed",
    ("at_most", "limit"): "at most",
    ("count_at_most", "limit"): "at most",
    ("at_least", "limit"): "at least",
}
"""What a parameter of a kind of check is called; others by their name in a book."""
_MOST_NAMED = 12


@dataclass(frozen=True)
class Adopted:
    """One change. what: what the adoption does, with what the book has: "adds this rule", "changes width at most: 2 (in the
    book: 3)". source, mark: of the change itself."""

    what: str
    source: str
    mark: str


def adopted_in_rule(rule: Rule, adoption: Adoption, day: date, level: str) -> tuple[Adopted, ...]:
    """What the adoption changes on the day in a rule of the book (as the book has it) or in one of its own."""
    if not adoption.counts(day, level):
        return ()
    if rule in adoption.rules:
        return (Adopted("adds this rule", adoption.source, adoption.mark),)
    mine = [one for one in adoption.changes if one.rule == rule.code and one.counts(day, level)]
    aside = next((one for one in mine if one.waive), None)
    if aside is not None:
        return (Adopted("sets this rule aside", aside.source, aside.mark),)
    edition = rule.on(day)
    return tuple(one for change in mine if edition is not None for one in _in_edition(edition, change))


def adopted_limits(adoption: Adoption) -> str:
    """The limits of its own for colours, which count in every rule that gives none; "" without any."""
    return ", ".join(f"{name} {limit:g}" for name, limit in adoption.limits.items())


def adopted_in_costs(group: Group, adoption: Adoption, day: date, level: str) -> tuple[Adopted, ...]:
    """What the adoption changes on the day in what a breach of a group costs (the group as the book has it)."""
    cost = group.on(day)
    if cost is None or not adoption.counts(day, level):
        return ()
    mine = [one for one in adoption.changes if one.group == group.code and one.counts(day, level)]
    return tuple(Adopted(_cost_words(cost, one.values), one.source, one.mark) for one in mine)


def _in_edition(edition: Edition, change: Change) -> Iterator[Adopted]:
    leaves = edition.check.leaves() if edition.check is not None else ()
    leaf = next((one for one in leaves if one.id == change.check), None)
    if leaf is not None:
        said = "; ".join(_parameter(leaf, key, value) for key, value in change.values.items())
        yield Adopted(f"changes {said}", change.source, change.mark)


def _parameter(leaf: Check, key: str, value: Any) -> str:
    words = _ALLOWED.get((leaf.is_named, key), key.replace("_", " "))
    about = f"{words_of(leaf.facts[0])} " if key == "limit" and leaf.facts else ""
    before = leaf.spec.get(key)
    return f"{about}{words}: {_value(value)} (in the book: {'nothing' if before is None else _value(before)})"


def _cost_words(cost: Cost, values: Mapping[str, Any]) -> str:
    """Readings in dispute in full; what a value was in the book beside it."""
    changed, disputed = [], []
    for key, value in values.items():
        if key == "disputed":
            disputed += [reading for one in value for reading in one.get("readings", ())]
        else:
            before = getattr(cost, key, None)
            changed.append(f"{key.replace('_', ' ')}: {_value(value)} (in the book: {_value(before) or 'nothing'})")
    changes = f"changes {'; '.join(changed)}" if changed else ""
    leaves = f"leaves open which reading counts: {'; or: '.join(disputed)}" if disputed else ""
    return "; ".join(filter(None, (changes, leaves)))


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Mapping):
        return ", ".join(f"{key} {_value(one)}" for key, one in value.items())
    if isinstance(value, Sequence) and not isinstance(value, str):
        named = [_value(one) for one in value]
        return ", ".join(named) if len(named) <= _MOST_NAMED else f"{', '.join(named[:6])} ... {named[-1]}"
    return "" if value is None else f"{value:g}" if isinstance(value, float) else str(value)

"""What a state, league or event changed in a book: a small file laid over it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from filmreview.errors import FilmReviewError, unknown
from filmreview.facts.items import LEVELS
from filmreview.rules.book import Book, Cost, Edition, Group, Rule
from filmreview.rules.checks.check import Check
from filmreview.rules.checks.listed import build_all
from filmreview.rules.reading import read_rule
from filmreview.rules.reading_costs import COST_KEYS, read_cost
from filmreview.rules.strict import MARKS, Table, read_toml

_KEYS = ("code", "title", "book", "source", "mark", "checked", "from", "until", "levels", "limits", "change", "rule")
_CHANGE_KEYS = ("rule", "group", "waive", "check", "set", "levels", "from", "until", "source", "reference", "mark")
_LIMITS = ("same", "lightness", "difference")
_LIMIT_OF: Mapping[str, tuple[tuple[str, str], ...]] = {
    "one_of_colours": (("within", "same"),),
    "same_as": (("within", "same"),),
    "similar_to": (("within", "same"),),
    "differs_from": (("within", "same"),),
    "same_across_team": (("within", "same"),),
    "contrasts_with": (("lightness", "lightness"), ("difference", "difference")),
}
"""Check -> its parameter and the limit of the colour words that it takes when the book gives none."""


@dataclass(frozen=True)
class Change:
    """One change of a rule or of a group's cost, for some levels and days. check: id of the check whose parameters `set`
    replaces; None when the rule is waived or a group is changed. where: its place in the file, for messages."""

    where: str
    rule: str | None
    group: str | None
    waive: bool
    check: str | None
    values: Mapping[str, Any]
    levels: tuple[str, ...]
    starts: date
    ends: date | None
    source: str
    reference: str | None
    mark: str

    def counts(self, day: date, level: str) -> bool:
        """Whether it is in force on the day at the level."""
        ended = self.ends is not None and day >= self.ends
        return self.starts <= day and not ended and (not self.levels or level in self.levels)


@dataclass(frozen=True, eq=False)
class Adoption:
    """A file of changes. limits: of the colour words. rules: added ones."""

    code: str
    title: str
    book: str
    source: str
    mark: str
    starts: date
    ends: date | None
    levels: tuple[str, ...]
    limits: Mapping[str, float]
    changes: tuple[Change, ...]
    rules: tuple[Rule, ...]

    def counts(self, day: date, level: str) -> bool:
        """Whether the adoption as a whole is in force."""
        ended = self.ends is not None and day >= self.ends
        return self.starts <= day and not ended and (not self.levels or level in self.levels)

    def rules_of(self, book: Book, day: date, level: str) -> tuple[Rule, ...]:
        """The book's rules as they stand under it, with those it adds."""
        if not self.counts(day, level):
            return book.rules
        return tuple(self._rule(rule, day, level) for rule in book.rules) + self.rules

    def group_of(self, group: Group, day: date, level: str) -> Group:
        """The group as it stands under it."""
        changes = [one for one in self.changes if one.group == group.code and one.counts(day, level)]
        if not changes or not self.counts(day, level):
            return group
        costs = group.costs
        for change in changes:
            costs = tuple(_changed_cost(cost, change) for cost in costs)
        return replace(group, costs=costs, adoption=self.code)

    def _rule(self, rule: Rule, day: date, level: str) -> Rule:
        changes = [one for one in self.changes if one.rule == rule.code and one.counts(day, level)]
        if any(change.waive for change in changes):
            return replace(rule, adoption=self.code, waived=True)
        editions = rule.editions
        for change in changes:
            editions = tuple(_changed_edition(edition, change) for edition in editions)
        if self.limits:
            editions = tuple(_with_limits(edition, self.limits) for edition in editions)
        touched = self.code if changes or any(a is not b for a, b in zip(editions, rule.editions, strict=True)) else None
        return replace(rule, editions=editions, adoption=touched)


def read_adoption(path: Path, book: Book) -> Adoption:
    """An adoption of this book; raises FilmReviewError in words for whatever is not right."""
    table = Table(read_toml(path), path.name, _KEYS)
    named = table.text("book")
    if named != book.code:
        raise FilmReviewError(
            f'changes the book "{named}", not "{book.code}"', where=table.at("book"), todo="choose the adoption of this book"
        )
    levels = table.choices("levels", LEVELS) if "levels" in table else ()
    table.day("checked")
    limits = Table(table.table("limits"), table.at("limits"), _LIMITS)
    changes = tuple(
        _change(raw, f"{path.name}, change {place}", table, book) for place, raw in enumerate(table.tables("change"), 1)
    )
    adoption = Adoption(
        code=table.text("code"),
        title=table.text("title"),
        book=named,
        source=table.text("source"),
        mark=table.choice("mark", MARKS),
        starts=table.day("from"),
        ends=table.day_or_none("until"),
        levels=levels,
        limits={key: limits.number(key) for key in _LIMITS if key in limits},
        changes=changes,
        rules=_added(table, book),
    )
    _try_out(adoption, book)
    return adoption


def book_of_adoption(path: Path) -> str:
    """The code of the book an adoption changes."""
    return Table(read_toml(path), path.name, _KEYS).text("book")


def _try_out(adoption: Adoption, book: Book) -> None:
    """Lay every change over the book once, so that what does not fit is refused on reading."""
    for change in adoption.changes:
        if change.rule and change.check:
            rule = next(rule for rule in book.rules if rule.code == change.rule)
            if all(_changed_edition(edition, change) is edition for edition in rule.editions):
                known = [check.id for edition in rule.editions if edition.check for check in edition.check.leaves()]
                raise unknown("check", change.check, dict.fromkeys(known), where=f"{change.where}, check")
        for group in book.groups.values():
            if change.group == group.code:
                for cost in group.costs:
                    _changed_cost(cost, change)


def _added(table: Table, book: Book) -> tuple[Rule, ...]:
    rules: list[Rule] = []
    for place, raw in enumerate(table.tables("rule"), 1):
        where = f"{table.where}, rule {place}"
        rule = replace(read_rule(raw, where, None, book.groups, book.first_day), adoption=table.text("code"))
        if rule.code in {one.code for one in (*book.rules, *rules)}:
            raise FilmReviewError(f'a second rule "{rule.code}"', where=f"{where}, code", todo="give it a code of its own")
        rules.append(rule)
    return tuple(rules)


def _change(raw: Mapping[str, Any], where: str, adoption: Table, book: Book) -> Change:
    table = Table(raw, where, _CHANGE_KEYS)
    if ("rule" in table) == ("group" in table):
        raise FilmReviewError("must name a rule or a group", where=where, todo='write rule = "..." or group = "..."')
    waive = table.yes_no("waive", False)
    if waive == ("set" in table):
        raise FilmReviewError("must either waive or set", where=where, todo="write waive = true, or set = { ... }")
    rule = table.choice("rule", tuple(rule.code for rule in book.rules)) if "rule" in table else None
    if rule and "set" in table:
        table.need("check")
    return Change(
        where=where,
        rule=rule,
        group=table.choice("group", tuple(book.groups)) if "group" in table else None,
        waive=waive,
        check=table.text("check") if "check" in table else None,
        values=table.table("set"),
        levels=table.choices("levels", LEVELS) if "levels" in table else (),
        starts=table.day("from") if "from" in table else adoption.day("from"),
        ends=table.day_or_none("until"),
        source=table.text_or("source", adoption.text("source")),
        reference=table.text("reference") if "reference" in table else None,
        mark=table.choice("mark", MARKS) if "mark" in table else adoption.choice("mark", MARKS),
    )


def _changed_edition(edition: Edition, change: Change) -> Edition:
    """The edition with the parameters of one check replaced; the edition itself when it has no such check."""
    if edition.check is None or change.check not in {check.id for check in edition.check.leaves()}:
        return edition

    def with_values(spec: Mapping[str, Any]) -> Mapping[str, Any]:
        own = spec.get("id", spec.get("is"))
        return {**spec, **change.values} if own == change.check else spec

    check = _rebuilt(edition.check, edition, with_values, f"{change.where}, set")
    return replace(
        edition,
        check=check,
        source=change.source,
        reference=change.reference or edition.reference,
        mark=change.mark,
    )


def _with_limits(edition: Edition, limits: Mapping[str, float]) -> Edition:
    if edition.check is None or not any(leaf.is_named in _LIMIT_OF for leaf in edition.check.leaves()):
        return edition

    def with_values(spec: Mapping[str, Any]) -> Mapping[str, Any]:
        wanted = _LIMIT_OF.get(spec.get("is", ""), ())
        return {**{key: limits[limit] for key, limit in wanted if limit in limits}, **spec}

    return replace(edition, check=_rebuilt(edition.check, edition, with_values, "limits"))


def _rebuilt(check: Check, edition: Edition, change: Any, where: str) -> Check:
    """The same checks from their tables, each table passed through `change`."""

    def walk(spec: Any) -> Any:
        if not isinstance(spec, Mapping):
            return spec
        inner = {
            key: walk(value) if key == "when" else [walk(one) for one in value] if key in ("all", "any") else value
            for key, value in spec.items()
        }
        return change(inner)

    return build_all([walk(spec) for spec in check.spec["all"]], where, edition.items)


def _changed_cost(cost: Cost, change: Change) -> Cost:
    """The cost with the values of the change, checked like one of a book."""
    raw = {key: value for key, value in change.values.items() if key in COST_KEYS}
    for key in change.values:
        if key not in COST_KEYS:
            raise unknown("key", key, COST_KEYS, where=f"{change.where}, set")
    if "costs" in raw and raw["costs"] == "technical foul" and cost.kind is None:
        raw = {"kind": "technical foul", "per": "team", "charged_to": "head coach", "free_throws": 2, **raw}
    foul = raw.get("costs", cost.costs) == "technical foul"
    kept = {
        "costs": cost.costs, "otherwise": cost.otherwise, "trigger": cost.trigger, "then": cost.then if foul else None,
        "todo": dict(cost.todo), "says": cost.says,
        **({"kind": cost.kind, "per": cost.per, "charged_to": cost.charged_to, "free_throws": cost.free_throws,
            "coaching_box": cost.coaching_box} if foul else {}),
        "from": cost.starts, "checked": cost.checked or cost.starts, "source": change.source, "mark": change.mark,
        "reference": change.reference or cost.reference,
    }  # fmt: skip
    whole = {key: value for key, value in {**kept, **raw}.items() if value not in (None, "")}
    changed = read_cost(whole, f"{change.where}, set", None)
    return changed if "disputed" in raw else replace(changed, disputed=cost.disputed)

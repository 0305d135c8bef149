"""All checks by name, and building one from the table that names it in a book."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from filmreview.errors import FilmReviewError, unknown
from filmreview.rules.checks import across, amounts, colours, plain, words
from filmreview.rules.checks.check import Base, Check, Kind
from filmreview.rules.checks.combine import All, AnyOf, When
from filmreview.rules.strict import Table

CHECKS: Mapping[str, Kind] = {**colours.KINDS, **amounts.KINDS, **words.KINDS, **across.KINDS, **plain.KINDS}
_EVERY = ("is", "id", "needed", "when")
_DEEPEST = 20


def build_all(raw: Sequence[Mapping[str, Any]], where: str, items: tuple[str, ...]) -> All:
    """The checks of an edition as one; each refused in words when it is not right."""
    parts = tuple(build(one, f"{where}, check {place}", items) for place, one in enumerate(raw, 1))
    return All("all", "all", False, {"all": list(raw)}, items, parts)


def build(raw: object, where: str, items: tuple[str, ...], depth: int = 0) -> Check:
    """One check or combination."""
    if not isinstance(raw, Mapping):
        raise FilmReviewError("is not a check", where=where, todo='write { is = "...", ... }')
    if depth > _DEEPEST:
        raise FilmReviewError("checks stand too deep inside each other", where=where, todo="write it flatter")
    check = _unconditional(raw, where, items, depth)
    if "when" not in raw:
        return check
    condition = build(raw["when"], f"{where}, when", items, depth + 1)
    return When("when", check.id, False, raw, items, (condition, check))


def _unconditional(raw: Mapping[str, Any], where: str, items: tuple[str, ...], depth: int) -> Check:
    if "is" in raw:
        return _named(raw, where, items)
    if "any" not in raw and "all" not in raw:
        todo = 'name the check, is = "..."; or write any = [...] or all = [...]'
        raise FilmReviewError('"is" is missing', where=where, todo=todo)
    table = Table(raw, where, ("all", "any", "when"))
    if "any" in table:
        return AnyOf("any", "any", False, raw, items, _parts(table, "any", items, depth))
    return All("all", "all", False, raw, items, _parts(table, "all", items, depth))


def _parts(table: Table, key: str, items: tuple[str, ...], depth: int) -> tuple[Check, ...]:
    if len([name for name in ("all", "any") if name in table]) > 1:
        raise FilmReviewError("all and any stand side by side", where=table.where, todo="put one inside the other")
    parts = tuple(
        build(one, f"{table.where}, {key} {place}", items, depth + 1) for place, one in enumerate(table.tables(key), 1)
    )
    if not parts:
        raise FilmReviewError("holds no check", where=table.at(key), todo="name at least one")
    return parts


def _named(raw: Mapping[str, Any], where: str, items: tuple[str, ...]) -> Check:
    name = raw["is"]
    if not isinstance(name, str) or name not in CHECKS:
        raise unknown("check", str(name), CHECKS, where=where)
    kind = CHECKS[name]
    table = Table(raw, f"{where} ({name})", (*_EVERY, *kind.parameters))
    base = Base(name, table.text_or("id", name), table.yes_no("needed", kind.needed), raw, items)
    return kind.build(table, base)

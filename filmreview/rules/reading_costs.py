"""Reading what a breach costs: the groups of `consequences.toml`."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from filmreview.errors import FilmReviewError
from filmreview.facts.keys import KEYS, Kind
from filmreview.rules.book import COSTS, FOUND, Cost, Group, Reading
from filmreview.rules.checks.listed import build
from filmreview.rules.dated import in_order, published, source_text
from filmreview.rules.penalty import KINDS
from filmreview.rules.strict import MARKS, Table

COST_KEYS = (
    "from", "published", "reference", "source", "mark", "checked", "costs", "trigger", "otherwise", "kind", "per", "charged_to",
    "free_throws", "coaching_box", "then", "todo", "disputed", "says",
)  # fmt: skip
_PENALTY_KEYS = ("kind", "per", "charged_to", "free_throws", "coaching_box", "then")
"""Keys that only stand where the cost is a technical foul."""


def read_group(raw: Mapping[str, Any], where: str, sources: Mapping[str, str], first_day: date) -> Group:
    """One group with its editions; its first edition starts on the book's first day."""
    table = Table(raw, where, ("code", "title", "says", "edition"))
    costs = tuple(read_cost(one, f"{where}, edition {place}", sources) for place, one in enumerate(table.tables("edition"), 1))
    if not costs:
        raise FilmReviewError("has no edition", where=where, todo="write a [[group.edition]]")
    if costs[0].starts != first_day:
        raise FilmReviewError(
            "does not start on the book's first day", where=f"{where}, edition 1, from", todo=f"write from = {first_day}"
        )
    in_order(costs, where)
    return Group(table.text("code"), table.text("title"), table.text("says"), costs)


def read_cost(raw: Mapping[str, Any], where: str, sources: Mapping[str, str] | None) -> Cost:
    """One edition of a group. sources: as in `reading.read_rule`."""
    table = Table(raw, where, COST_KEYS)
    starts = table.day("from")
    costs = table.choice("costs", COSTS)
    foul = costs == "technical foul"
    for key in _PENALTY_KEYS:
        if key in table and not foul:
            raise FilmReviewError("only a technical foul has this", where=table.at(key), todo="leave it out")
    return Cost(
        starts=starts,
        reference=table.text("reference"),
        source=source_text(table, sources),
        mark=table.choice("mark", MARKS),
        costs=costs,
        trigger=_trigger(table),
        otherwise=table.choice("otherwise", COSTS) if "otherwise" in table else "none",
        kind=table.choice("kind", KINDS) if foul else None,
        per=table.choice("per", ("team", "player")) if foul else "team",
        charged_to=table.text("charged_to") if foul else "",
        free_throws=table.whole("free_throws") if foul else 0,
        coaching_box=table.choice("coaching_box", ("lost", "kept")) if "coaching_box" in table else None,
        then=table.text_or("then", ""),
        todo=_todo(table),
        disputed=tuple(_reading(one, f"{where}, disputed {place}") for place, one in enumerate(table.tables("disputed"), 1)),
        published=published(table, starts),
        checked=table.day("checked"),
        says=table.text_or("says", ""),
    )


def _trigger(table: Table) -> str | None:
    if "trigger" not in table:
        return None
    return table.choice("trigger", tuple(key for key, one in KEYS.items() if one.kind is Kind.YES_NO))


def _todo(table: Table) -> Mapping[str, str]:
    inner = Table(table.table("todo"), table.at("todo"), FOUND)
    return {key: inner.text(key) for key in FOUND if key in inner}


def _reading(raw: Mapping[str, Any], where: str) -> Reading:
    table = Table(raw, where, ("when", "readings"))
    readings = table.texts("readings")
    if len(readings) < 2:
        raise FilmReviewError("a dispute has two readings", where=table.at("readings"), todo="name both")
    return Reading(build(table.need("when"), table.at("when"), ()), readings)

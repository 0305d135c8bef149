"""Cases of a book: small situations with what must come out, on both sides of each change, each with its source."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from filmreview.errors import FilmReviewError
from filmreview.facts.items import LEVELS
from filmreview.rules.adoption import Adoption
from filmreview.rules.book import Book
from filmreview.rules.library import adoption_named
from filmreview.rules.setting import SETTING_KEYS, Setting, read_expect, read_setting
from filmreview.rules.situation_compare import differences
from filmreview.rules.situation_ruling import Ruled, rule_setting
from filmreview.rules.strict import Table, read_toml

_KEYS = ("title", "source", "level", "adoption", "day", "on", *SETTING_KEYS)


@dataclass(frozen=True)
class Case:
    """One case on one day. adoption: as written. where: file and place, for messages."""

    where: str
    title: str
    source: str
    day: date
    level: str | None
    adoption: str | None
    setting: Setting


def read_cases(path: Path, sources: Mapping[str, str] | None = None) -> tuple[Case, ...]:
    """All cases of a file; one written for several days counts as several. sources: codes that are written out in full."""
    table = Table(read_toml(path), path.name, ("case",))
    cases = [
        case
        for place, raw in enumerate(table.tables("case"), 1)
        for case in _cases(Table(raw, f"{path.name}, case {place}", _KEYS), sources or {})
    ]
    return tuple(cases)


def run_case(case: Case, book: Book, folders: Sequence[Path] = ()) -> tuple[Ruled, list[str]]:
    """What comes out, and one line for everything that is not as expected."""
    adoption: Adoption | None = None
    if case.adoption is not None:
        adoption = adoption_named(case.adoption, book, folders, case.where)
    ruled = rule_setting(case.setting, book, case.day, adoption, case.level)
    return ruled, differences(case.setting.expects, ruled)


def _cases(table: Table, sources: Mapping[str, str]) -> list[Case]:
    setting = read_setting(table)
    if ("on" in table) == ("day" in table):
        raise FilmReviewError("needs either day or on", where=table.where, todo="write day = 2024-07-01, or on = [ ... ]")
    if "day" in table:
        if not setting.expects:
            raise FilmReviewError("expects nothing", where=table.where, todo="write an [[case.expect]]")
        return [_case(table, sources, table.day("day"), setting)]
    days = table.tables("on")
    if "expect" in table or not days or not setting.tags:
        raise FilmReviewError("on goes with things seen and without expect", where=table.where, todo="write day and expect")
    return [_dated(table, sources, raw, place, setting) for place, raw in enumerate(days, 1)]


def _dated(table: Table, sources: Mapping[str, str], raw: Mapping[str, Any], place: int, setting: Setting) -> Case:
    where = f"{table.where}, on {place}"
    about = setting.tags[0].id
    inner = {key: value for key, value in raw.items() if key != "day"}
    expect = read_expect({"about": about, **inner}, where, [tag.id for tag in setting.tags])
    day = Table({key: raw[key] for key in raw if key == "day"}, where, ("day",)).day("day")
    return replace(_case(table, sources, day, replace(setting, expects=(expect,))), where=where)


def _case(table: Table, sources: Mapping[str, str], day: date, setting: Setting) -> Case:
    return Case(
        where=table.where,
        title=table.text("title"),
        source="; ".join(sources.get(code, code) for code in table.texts("source")),
        day=day,
        level=table.choice("level", LEVELS) if "level" in table else None,
        adoption=table.text("adoption") if "adoption" in table else None,
        setting=setting,
    )

"""Reading a book from its folder, strictly: see `book.toml`, `sources.toml`, `consequences.toml` and one file a rule.

Anything not understood is refused in one line: file and place, what is wrong, what to write instead.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any

from filmreview.errors import FilmReviewError
from filmreview.facts.items import ITEMS, LEVELS
from filmreview.rules.book import Book, Edition, Gap, Group, Rule, Unseen
from filmreview.rules.checks.check import Check
from filmreview.rules.checks.listed import build_all
from filmreview.rules.dated import in_order, published, source_text
from filmreview.rules.reading_costs import read_group
from filmreview.rules.strict import MARKS, Table, read_toml

CASES = ".cases.toml"
_NOT_RULES = ("book.toml", "sources.toml", "consequences.toml")
_RULE_KEYS = ("code", "title", "items", "group", "says", "before", "levels", "edition")
_EDITION_KEYS = (
    "from", "published", "reference", "source", "mark", "checked", "items", "group", "says",
    "check", "as_before", "no_limit", "repealed",
)  # fmt: skip
_WAYS = ("check", "as_before", "no_limit", "repealed")


def read_book(folder: Path) -> Book:
    """The book of a folder; raises FilmReviewError in words for whatever is not right."""
    if not folder.is_dir():
        raise FilmReviewError("is not a folder with a book", where=str(folder), todo="name a folder that holds book.toml")
    about = Table(
        read_toml(folder / "book.toml"), "book.toml",
        ("code", "title", "publisher", "first_day", "season_starts", "level", "unseen", "gap"),
    )  # fmt: skip
    first_day = about.day("first_day")
    sources = _sources(folder / "sources.toml")
    groups = _groups(folder / "consequences.toml", sources, first_day)
    paths = sorted(path for path in folder.glob("*.toml") if path.name not in _NOT_RULES and not path.name.endswith(CASES))
    rules = tuple(_rule_file(path, sources, groups, first_day) for path in paths)
    if about.text("code") != folder.name:
        raise FilmReviewError(
            f'the code "{about.text("code")}" is not the folder\'s name', where=about.at("code"), todo=f'write "{folder.name}"'
        )
    return Book(
        code=about.text("code"),
        title=about.text("title"),
        publisher=about.text("publisher"),
        first_day=first_day,
        season_starts=_month_day(about),
        level=about.choice("level", LEVELS),
        rules=rules,
        groups=groups,
        sources=sources,
        gaps=tuple(_gap(raw, place) for place, raw in enumerate(about.tables("gap"), 1)),
        unseen=_unseen(about),
    )


def read_rule(
    raw: Mapping[str, Any], where: str, sources: Mapping[str, str] | None, groups: Mapping[str, Group], first_day: date
) -> Rule:
    """One rule from its table. sources: code -> text; None when sources are written out in full (in an adoption)."""
    table = Table(raw, where, _RULE_KEYS)
    items = table.choices("items", ITEMS)
    reader = _Editions(where, sources, groups)
    editions = reader.read(table, items)
    if editions[0].starts < first_day:
        raise FilmReviewError(
            "starts before the book's first day", where=f"{where}, edition 1, from", todo=f"write from = {first_day}"
        )
    before = "no rule"
    if editions[0].starts > first_day:
        before = {"gap": "no text", "no rule": "no rule"}[table.choice("before", ("gap", "no rule"))]
    elif "before" in table:
        raise FilmReviewError(
            "says what was before, but the first edition starts on the book's first day",
            where=table.at("before"), todo="leave it out",
        )  # fmt: skip
    levels = table.choices("levels", LEVELS) if "levels" in table else ()
    return Rule(table.text("code"), table.text("title"), editions, before, levels)


class _Editions:
    """Reads the editions of one rule, each of which may lean on the one before."""

    def __init__(self, where: str, sources: Mapping[str, str] | None, groups: Mapping[str, Group]) -> None:
        self.where, self.sources, self.groups = where, sources, groups

    def read(self, rule: Table, items: tuple[str, ...]) -> tuple[Edition, ...]:
        """All editions of the rule, in order."""
        editions: list[Edition] = []
        before: Edition | None = None
        for place, raw in enumerate(rule.tables("edition"), 1):
            before = self._edition(Table(raw, f"{self.where}, edition {place}", _EDITION_KEYS), rule, items, before)
            editions.append(before)
        if not editions:
            raise FilmReviewError("has no edition", where=self.where, todo="write an [[edition]]")
        in_order(editions, self.where)
        return tuple(editions)

    def _edition(self, table: Table, rule: Table, items: tuple[str, ...], before: Edition | None) -> Edition:
        starts = table.day("from")
        items = table.choices("items", ITEMS) if "items" in table else before.items if before else items
        kind, check = self._checks(table, items, before)
        return Edition(
            starts=starts,
            reference=table.text("reference"),
            source=source_text(table, self.sources),
            mark=table.choice("mark", MARKS),
            kind=kind,
            items=items,
            group=self._group(table if "group" in table else rule),
            says=table.text("says") if "says" in table else rule.text("says"),
            check=check,
            published=published(table, starts),
            checked=table.day("checked"),
        )

    def _group(self, table: Table) -> str:
        return table.choice("group", tuple(self.groups))

    def _checks(self, table: Table, items: tuple[str, ...], before: Edition | None) -> tuple[str, Check | None]:
        ways = [way for way in _WAYS if way in table]
        if len(ways) != 1:
            raise FilmReviewError(
                "must have exactly one of check, as_before, no_limit, repealed",
                where=table.where, todo="write [[edition.check]] blocks, or one of the others = true",
            )  # fmt: skip
        if ways[0] == "check":
            return "checks", build_all(table.tables("check"), table.where, items)
        if not table.yes_no(ways[0]):
            raise FilmReviewError("can only be true", where=table.at(ways[0]), todo="leave it out")
        if ways[0] != "as_before":
            return ("no limit" if ways[0] == "no_limit" else "repealed"), None
        if before is None:
            raise FilmReviewError("there is no edition before", where=table.at("as_before"), todo="write its checks")
        return before.kind, before.check


def _rule_file(path: Path, sources: Mapping[str, str], groups: Mapping[str, Group], first_day: date) -> Rule:
    rule = read_rule(read_toml(path), path.name, sources, groups, first_day)
    if rule.code != path.name.removesuffix(".toml"):
        raise FilmReviewError(
            f'the code "{rule.code}" is not the file\'s name',
            where=f"{path.name}, code",
            todo=f'rename the file or write "{path.stem}"',
        )
    return rule


def _sources(path: Path) -> Mapping[str, str]:
    raw = read_toml(path)
    table = Table(raw, path.name, tuple(raw))
    return {code: table.text(code) for code in raw}


def _groups(path: Path, sources: Mapping[str, str], first_day: date) -> Mapping[str, Group]:
    table = Table(read_toml(path), path.name, ("group",))
    groups: dict[str, Group] = {}
    for place, raw in enumerate(table.tables("group"), 1):
        group = read_group(raw, f"{path.name}, group {place}", sources, first_day)
        if group.code in groups:
            raise FilmReviewError(f'a second group "{group.code}"', where=f"{path.name}, group {place}, code", todo="rename it")
        groups[group.code] = group
    return groups


def _gap(raw: Mapping[str, Any], place: int) -> Gap:
    table = Table(raw, f"book.toml, gap {place}", ("items", "says"))
    return Gap(table.choices("items", ITEMS) if "items" in table else (), table.text("says"))


def _unseen(about: Table) -> tuple[Unseen, ...]:
    found = []
    for place, raw in enumerate(about.tables("unseen"), 1):
        table = Table(raw, f"book.toml, unseen {place}", ("from", "says"))
        found.append(Unseen(table.day("from"), table.text("says")))
    in_order(found, "book.toml, unseen")
    return tuple(found)


def _month_day(about: Table) -> tuple[int, int]:
    text = about.text("season_starts")
    try:
        day = date.fromisoformat(f"2000-{text}")
    except ValueError:
        raise FilmReviewError(
            f'"{text}" is not a month and day', where=about.at("season_starts"), todo='write "07-01"'
        ) from None
    return (day.month, day.day)

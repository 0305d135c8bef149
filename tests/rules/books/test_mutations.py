"""Any single value of a rule or a cost, changed a little, makes at least one case fail (or the plain table of numbers).

Changed are: dates by a day, limits, entries of lists, whether a missing fact is asked, checks left out, costs. Not changed:
words, references, sources and marks; the first day of a rule that begins with its book, moved earlier (no game is ruled
before the book); the day a change was published where the cases tell nothing ahead.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Fact
from filmreview.rules.book import COSTS, Book
from filmreview.rules.cases import Case, read_cases, run_case
from filmreview.rules.judge import judge
from filmreview.rules.library import BOOKS_FOLDER, book_named, book_names
from filmreview.rules.reading import CASES, read_rule
from filmreview.rules.reading_costs import read_group
from filmreview.rules.strict import read_toml
from filmreview.rules.tag import Tag

DAY = timedelta(days=1)
WORDS = ("code", "title", "says", "before", "reference", "source", "mark", "checked", "is", "id", "about", "readings", "group")
WORDS += (
    "kind",
    "charged_to",
    "then",
    "todo",
    "disputed",
    "coaching_box",
    "trigger",
    "otherwise",
    "per",
    "fact",
    "other",
    "levels",
)
NUMBERS = ("00", *(str(number) for number in range(100)))


@dataclass(frozen=True)
class Changed:
    """One value changed. file: the rule's code, or the group's of a cost. path: where in the file's table; value: None = left
    out."""

    book: str
    file: str
    cost: bool
    path: tuple[Any, ...]
    value: Any
    words: str

    def __str__(self) -> str:
        return f"{self.book}/{self.file} {'.'.join(map(str, self.path))} {self.words}"


def changes_of(node: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[tuple[Any, ...], Any, str]]:
    """Every value under a table with what it is changed to."""
    items = node.items() if isinstance(node, dict) else enumerate(node)
    for key, value in items:
        here = (*path, key)
        if key in WORDS:
            continue
        if isinstance(value, bool):
            if key == "needed":
                yield here, not value, f"-> {not value}"
        elif isinstance(value, date):
            yield from ((here, value + by * DAY, f"{by:+d} day") for by in (-1, 1))
        elif isinstance(value, int | float):
            step = 1 if isinstance(value, int) and value <= 2 and key != "limit" else max(abs(value) * 0.04, 0.01)
            step = 1 if key == "limit" and value in (0, 1) else step
            yield from (
                (here, value + by * step, f"{value} -> {value + by * step:g}") for by in (-1, 1) if value + by * step >= 0
            )
        elif isinstance(value, list) and value and all(isinstance(one, str) for one in value):
            if len(value) > 1:
                yield from ((here, [one for one in value if one != gone], f"without {gone}") for gone in value)
        elif isinstance(value, list | dict):
            yield from changes_of(value, here)


def left_out(raw: dict[str, Any]) -> Iterator[tuple[tuple[Any, ...], Any, str]]:
    for place, edition in enumerate(raw["edition"]):
        checks = edition.get("check", [])
        if len(checks) > 1:
            yield from ((("edition", place, "check", one), None, "left out") for one in range(len(checks)))


def put(raw: dict[str, Any], path: tuple[Any, ...], value: Any) -> dict[str, Any]:
    new = copy.deepcopy(raw)
    node: Any = new
    for key in path[:-1]:
        node = node[key]
    if value is None:
        del node[path[-1]]
    else:
        node[path[-1]] = value
    return new


@cache
def cases_of(name: str) -> dict[str, tuple[Case, ...]]:
    book = book_named(name)
    paths = sorted((BOOKS_FOLDER / name).glob(f"*{CASES}"))
    read = {path.name.removesuffix(CASES): read_cases(path, book.sources) for path in paths}
    return {code: tuple(case for case in cases if case.adoption is None) for code, cases in read.items()}


def tells_ahead(cases: tuple[Case, ...]) -> bool:
    return any(expect.values.get("ahead") for case in cases for expect in case.setting.expects)


def not_counted(book: Book, file: str, path: tuple[Any, ...], words: str, editions: list[dict[str, Any]]) -> bool:
    if path[-1] == "published":
        return not tells_ahead(cases_of(book.code).get(file, ()))
    if path == ("items",):
        return "items" in editions[0]  # the first edition names its own
    starts = path[-1] == "from" and words == "-1 day"
    return starts and editions[path[1]]["from"] == book.first_day


def always_disputed(edition: dict[str, Any]) -> bool:
    """What it costs is read two ways whatever is worn: no figure of it comes out."""
    return any(one["when"] == {"is": "allowed"} for one in edition.get("disputed", ()))


def rule_changes(book: Book) -> Iterator[Changed]:
    for rule in book.rules:
        raw = read_toml(BOOKS_FOLDER / book.code / f"{rule.code}.toml")
        for path, value, words in (*changes_of(raw), *left_out(raw)):
            if not not_counted(book, rule.code, path, words, raw["edition"]):
                yield Changed(book.code, rule.code, False, path, value, words)


def cost_changes(book: Book) -> Iterator[Changed]:
    for raw in read_toml(BOOKS_FOLDER / book.code / "consequences.toml")["group"]:
        editions = raw["edition"]
        for path, value, words in changes_of(raw):
            quiet = path[-1] == "free_throws" and always_disputed(editions[path[1]])
            if not quiet and not not_counted(book, "consequences", path, words, editions):
                yield Changed(book.code, raw["code"], True, path, value, words)
        for place, edition in enumerate(editions):
            if always_disputed(edition):
                continue
            for cost in COSTS:
                if cost != edition["costs"] and "technical foul" not in (cost, edition["costs"]):
                    yield Changed(book.code, raw["code"], True, ("edition", place, "costs"), cost, f"-> {cost}")
            for key, values in (("per", ("team", "player")), ("charged_to", ("team", "head coach"))):
                if key in edition:
                    other = values[0] if edition[key] != values[0] else values[1]
                    yield Changed(book.code, raw["code"], True, ("edition", place, key), other, f"-> {other}")


def rebuilt(changed: Changed, book: Book) -> Book | None:
    """The book with the change; None when the reader refuses it or the value says the same."""
    try:
        if not changed.cost:
            rule = next(rule for rule in book.rules if rule.code == changed.file)
            raw = read_toml(BOOKS_FOLDER / book.code / f"{rule.code}.toml")
            new = read_rule(put(raw, changed.path, changed.value), rule.code, book.sources, book.groups, book.first_day)
            return replace(book, rules=tuple(new if one is rule else one for one in book.rules))
        raws = read_toml(BOOKS_FOLDER / book.code / "consequences.toml")["group"]
        raw = next(raw for raw in raws if raw["code"] == changed.file)
        group = read_group(put(raw, changed.path, changed.value), changed.file, book.sources, book.first_day)
        return replace(book, groups={**book.groups, group.code: group})
    except FilmReviewError:
        return None


def legal_by_table(name: str, day: date) -> set[str]:
    """The legal numbers by plain Python: no digit over 5 and at most two digits with the tens up to 5, or all, or 4 to 15."""
    if name == "fiba":
        return {str(number) for number in range(4, 16)} if day < date(2014, 10, 1) else set(NUMBERS)
    if name != "nfhs" and day >= date(2023, 7, 1):
        return set(NUMBERS)
    return {number for number in NUMBERS if all(digit <= "5" for digit in number)}


def numbers_wrong(book: Book, day: date) -> bool:
    tags = [Tag(number, "home", number, "number", {"number": Fact("number", number)}) for number in NUMBERS]
    rules = tuple(rule for rule in book.rules if rule.code == "number-list")
    rulings = judge(tags, {}, replace(book, rules=rules), day).rulings
    return {ruling.id for ruling in rulings if ruling.ruling == "legal"} != legal_by_table(book.code, day)


def only_for(book: Book, cases: tuple[Case, ...]) -> Book:
    """The book with the rules on the items of these cases: the same rulings, quicker."""
    items = {tag.item for case in cases for tag in case.setting.tags}
    rules = tuple(rule for rule in book.rules if any(items & set(edition.items) for edition in rule.editions))
    return replace(book, rules=rules)


def noticed(changed: Changed, book: Book) -> bool:
    cases = cases_of(book.code)
    own = cases["consequences" if changed.cost else changed.file]
    small = only_for(book, own)
    if any(run_case(case, small)[1] for case in own):
        return True
    if changed.file == "number-list":
        return any(numbers_wrong(book, day) for day in (date(2014, 1, 14), date(2023, 12, 5)))
    rest = (case for code, those in cases.items() if code != changed.file for case in those)
    return any(run_case(case, book)[1] for case in rest)


@pytest.mark.parametrize("name", book_names())
def test_numbers_are_those_of_the_plain_table(name: str) -> None:
    # nfhs: the 37 numbers without a digit over 5; ncaa: those, all from 2023-24; fiba: 4 to 15, then all
    for day in (date(2012, 12, 4), date(2014, 1, 14), date(2014, 12, 2), date(2023, 1, 10), date(2023, 12, 5)):
        assert not numbers_wrong(book_named(name), day)


@pytest.mark.parametrize("name", book_names())
def test_every_value_changed_makes_a_case_fail(name: str) -> None:
    book = book_named(name)
    tried, survivors = 0, []
    for changed in (*rule_changes(book), *cost_changes(book)):
        other = rebuilt(changed, book)
        if other is None:
            continue
        tried += 1
        if not noticed(changed, other):
            survivors.append(str(changed))
    assert tried > 100
    assert not survivors, "\n".join(survivors)


def test_the_cases_stand_beside_the_books() -> None:
    assert Path(BOOKS_FOLDER).name == "books"
    assert all(cases_of(name) for name in book_names())

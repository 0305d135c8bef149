"""By hand: change every single value of every book and adoption a little, and list the changes that no case notices.

`pytest -q -s tests/bench/test_books_mutation.py -k nfhs`. The suite runs a coarser one: tests/rules/books/test_mutations.py. A
change the reader refuses is not counted. The changes that cannot show are named with the reason, and no others are left out.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from filmreview.errors import FilmReviewError
from filmreview.rules.adoption import book_of_adoption, read_adoption
from filmreview.rules.book import Book
from filmreview.rules.cases import Case, read_cases, run_case
from filmreview.rules.library import ADOPTIONS_FOLDER, BOOKS_FOLDER, adoption_names, book_named, book_names
from filmreview.rules.reading import CASES, read_rule
from filmreview.rules.reading_costs import read_group
from filmreview.rules.situation_compare import differences
from filmreview.rules.situation_ruling import rule_setting
from filmreview.rules.strict import read_toml
from tests.bench.book_changes import DAY, LEFT_OUT, Change, as_toml, changes, put


@dataclass(frozen=True, eq=False)
class Mutant:
    """A book with one value changed. file: the rule, "consequences" or "book"; items: those it may touch."""

    file: str
    words: str
    book: Book
    items: frozenset[str]


def spoken(raw: Any, change: Change) -> str:
    """Where the change is, with the first day of the edition it is in."""
    path, _, words = change
    said, node = [], raw
    for key in path:
        node = node[key] if isinstance(node, dict | list) and (not isinstance(node, dict) or key in node) else {}
        said.append(f"{node['from']}" if isinstance(key, int) and isinstance(node, dict) and "from" in node else str(key))
    return f"{'.'.join(said)} {words}"


def rule_mutants(book: Book) -> Iterator[Mutant]:
    for rule in book.rules:
        raw = read_toml(BOOKS_FOLDER / book.code / f"{rule.code}.toml")
        for change in changes(raw, tuple(book.groups)):
            if cannot_show(book, rule.code, raw["edition"], change):
                continue
            try:
                new = read_rule(put(raw, change), rule.code, book.sources, book.groups, book.first_day)
            except FilmReviewError:
                continue
            rules = tuple(new if one is rule else one for one in book.rules)
            items = frozenset(item for one in (rule, new) for edition in one.editions for item in edition.items)
            yield Mutant(rule.code, spoken(raw, change), replace(book, rules=rules), items)


def cost_mutants(book: Book) -> Iterator[Mutant]:
    for raw in read_toml(BOOKS_FOLDER / book.code / "consequences.toml")["group"]:
        items = frozenset(
            item for rule in book.rules for edition in rule.editions if edition.group == raw["code"] for item in edition.items
        )
        for change in changes(raw, ()):
            if cost_cannot_show(raw["edition"], change):
                continue
            try:
                new = read_group(put(raw, change), raw["code"], book.sources, book.first_day)
            except FilmReviewError:
                continue
            words = f"{raw['code']} {spoken(raw, change)}"
            yield Mutant("consequences", words, replace(book, groups={**book.groups, new.code: new}), items)


def about_mutants(book: Book) -> Iterator[Mutant]:
    """Of book.toml: its first day and those of the seasons nobody saw."""
    every = frozenset(item for rule in book.rules for edition in rule.editions for item in edition.items)
    yield Mutant("book", "first_day +1", replace(book, first_day=book.first_day + DAY), every)  # a day earlier is refused
    for by in (-1, 1):
        for place, unseen in enumerate(book.unseen):
            moved = (*book.unseen[:place], replace(unseen, starts=unseen.starts + by * DAY), *book.unseen[place + 1 :])
            yield Mutant("book", f"unseen from {unseen.starts} {by:+d}", replace(book, unseen=moved), every)


ALLOWS_MORE = "it only allows more, so nothing legal before turns illegal and no ruling tells it ahead"
LEAVES_OPEN = "it turns a limit into an open question, and only what becomes illegal is told ahead"
QUIET: Mapping[tuple[str, str, date], str] = {
    ("nfhs", "above-number", date(2024, 7, 1)): ALLOWS_MORE,
    ("nfhs", "hair-ribbon", date(2022, 7, 1)): LEAVES_OPEN,
    ("nfhs", "hair-tie-colour", date(2019, 7, 1)): ALLOWS_MORE,
    ("nfhs", "headband-size", date(2019, 7, 1)): ALLOWS_MORE,
    ("nfhs", "mouthguard", date(2019, 7, 1)): "it recommends, and sets no limit before or after",
    ("nfhs", "shorts-logo", date(2019, 7, 1)): "only its source is new, the limit is as before",
    ("nfhs", "shorts-waist", date(2019, 7, 1)): ALLOWS_MORE,
    ("nfhs", "undershirt-logo", date(2016, 7, 1)): ALLOWS_MORE,
    ("ncaa-men", "head-covering", date(2023, 7, 1)): ALLOWS_MORE,
    ("ncaa-men", "name-lettering", date(2023, 7, 1)): LEAVES_OPEN,
    ("ncaa-men", "number-list", date(2023, 7, 1)): ALLOWS_MORE,
    ("ncaa-women", "head-covering", date(2023, 7, 1)): ALLOWS_MORE,
    ("ncaa-women", "number-list", date(2023, 7, 1)): ALLOWS_MORE,
    ("fiba", "head-covering", date(2017, 10, 1)): "none was legal before",
}
"""Editions whose day of publication cannot show, and why. That none of them shows is checked below."""
NEVER_FAIL = ("gap", "disputed", "allowed")
"""Checks that leave it open or hold: a rule of only these costs nothing, whatever its group."""


def never_fails(check: Mapping[str, Any]) -> bool:
    """Whether a check leaves it open or holds whatever is worn."""
    if "any" in check:
        return any(never_fails(part) for part in check["any"])
    if "all" in check:
        return all(never_fails(part) for part in check["all"])
    return check["is"] in NEVER_FAIL


def cannot_show(book: Book, code: str, editions: list[dict[str, Any]], change: Change) -> bool:
    """Changes of a rule that nothing ruled can tell."""
    path, _, _ = change
    if path[-1] == "published":
        return (book.code, code, editions[int(path[1])]["from"]) in QUIET
    if path == ("group",):
        return all(never_fails(check) for edition in editions for check in edition.get("check", ()))
    return path == ("items",) and "items" in editions[0]  # the first edition names its own: the rule's list is never used


def cost_cannot_show(editions: list[dict[str, Any]], change: Change) -> bool:
    """Changes of a cost that nothing ruled can tell: the day it was published tells nothing ahead (only rules do; it stands in
    the handbook); what an always disputed cost would be is never ruled."""
    path, _, _ = change
    if path[-1] == "published":
        return True
    if path[0] != "edition":
        return False
    disputed = editions[int(path[1])].get("disputed", ())
    always = any(one["when"] == {"is": "allowed"} for one in disputed)
    return always and path[-1] in ("costs", "free_throws", "charged_to", "per", "coaching_box", "kind")


def adoption_cannot_show(raw: Mapping[str, Any], book: Book, change: Change) -> bool:
    """Changes of an adoption that nothing ruled can tell: a day of one that changes nothing (it records that a state held to
    the book); a first day before the book's; in a rule it adds, what was before the adoption's own first day."""
    path, value, _ = change
    if not raw.get("change") and not raw.get("rule"):
        return path[-1] in ("from", "until")
    if path == ("from",):
        return bool(value < book.first_day)
    if path[0] == "rule" and path[-1] in ("from", "before"):
        first = raw["rule"][int(path[1])]["edition"][0]["from"]
        return bool(first == raw["from"] and (path[-1] == "before" or value < first))
    return False


def noticed(mutant: Mutant, cases: Iterable[tuple[str, Case]]) -> bool:
    return any(run_case(case, mutant.book)[1] for case in in_turn(mutant, cases))


def in_turn(mutant: Mutant, cases: Iterable[tuple[str, Case]]) -> list[Case]:
    """The cases that the change may touch, those of its own file first."""
    mine = [(file, case) for file, case in cases if any(tag.item in mutant.items for tag in case.setting.tags)]
    return [case for _, case in sorted(mine, key=lambda one: one[0] != mutant.file)]


@pytest.mark.parametrize("name", book_names())
def test_every_change_of_a_book_makes_a_case_fail(name: str) -> None:
    book = book_named(name)
    paths = sorted((BOOKS_FOLDER / name).glob(f"*{CASES}"))
    cases = [(path.name.removesuffix(CASES), case) for path in paths for case in read_cases(path, book.sources)]
    cases = [(file, case) for file, case in cases if case.adoption is None]
    tried, survivors = 0, []
    for mutant in (*rule_mutants(book), *cost_mutants(book), *about_mutants(book)):
        tried += 1
        if not noticed(mutant, cases):
            survivors.append(f"{mutant.file}: {mutant.words}")
    assert tried > 200
    show(name, tried, survivors)


@pytest.mark.parametrize("name", adoption_names())
def test_every_change_of_an_adoption_makes_a_case_fail(name: str, tmp_path: Path) -> None:
    raw = read_toml(ADOPTIONS_FOLDER / f"{name}.toml")
    book = book_named(book_of_adoption(ADOPTIONS_FOLDER / f"{name}.toml"))
    cases = read_cases(ADOPTIONS_FOLDER / f"{name}{CASES}")
    tried, survivors = 0, []
    for change in changes(raw, tuple(book.groups)):
        if change[0][-1] in ("rule", "group") and change[1] is not LEFT_OUT and change[0][0] == "change":
            continue  # it would name another rule or group
        if adoption_cannot_show(raw, book, change):
            continue
        path = tmp_path / f"{name}.toml"
        path.write_text("".join(f"{key} = {as_toml(value)}\n" for key, value in put(raw, change).items()), encoding="utf-8")
        try:
            adoption = read_adoption(path, book)
        except FilmReviewError:
            continue
        tried += 1
        ruled = ((case, rule_setting(case.setting, book, case.day, adoption, case.level)) for case in cases)
        if not any(differences(case.setting.expects, one) for case, one in ruled):
            survivors.append(spoken(raw, change))
    show(name, tried, survivors)


@pytest.mark.parametrize(("name", "code", "starts"), QUIET, ids=[" ".join(map(str, one)) for one in QUIET])
def test_a_quiet_change_is_told_ahead_of_nothing_in_any_case(name: str, code: str, starts: date) -> None:
    book = book_named(name)
    rule = next(rule for rule in book.rules if rule.code == code)
    edition = next(edition for edition in rule.editions if edition.starts == starts)
    assert edition.published is not None
    tried = 0
    for path in sorted((BOOKS_FOLDER / name).glob(f"*{CASES}")):
        for case in read_cases(path, book.sources):
            if any(tag.item in edition.items for tag in case.setting.tags):
                ruled = rule_setting(case.setting, book, starts - DAY, None, case.level)
                assert all(code not in [one.rule for one in ruling.ahead] for ruling in ruled.rulings.rulings)
                tried += 1
    assert tried > 5


def show(name: str, tried: int, survivors: list[str]) -> None:
    print(f"\n{name}: {tried} changes, {len(survivors)} survive")
    print("\n".join(f"  {one}" for one in survivors))
    assert survivors == []

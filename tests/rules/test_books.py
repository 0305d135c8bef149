"""Every case of every book and adoption that ships, and what is demanded of the cases."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest

from filmreview.facts.items import ITEMS
from filmreview.rules.book import Book
from filmreview.rules.cases import Case, read_cases, run_case
from filmreview.rules.library import ADOPTIONS_FOLDER, BOOKS_FOLDER, adoption_names, book_named, book_names
from filmreview.rules.reading import CASES


def all_cases() -> Iterator[tuple[str, Case]]:
    for name in book_names():
        for path in sorted((BOOKS_FOLDER / name).glob(f"*{CASES}")):
            for case in read_cases(path, book_named(name).sources):
                yield name, case


def cases_of(path: Path) -> tuple[Case, ...]:
    return read_cases(path) if path.is_file() else ()


ALL = list(all_cases())
EDITIONS = [
    (name, rule.code, edition.starts) for name in book_names() for rule in book_named(name).rules for edition in rule.editions
]
COSTS = [
    (name, group.code, cost.starts)
    for name in book_names()
    for group in book_named(name).groups.values()
    for cost in group.costs
]


@pytest.mark.parametrize(("name", "case"), ALL, ids=[f"{name}: {case.where} {case.title} {case.day}" for name, case in ALL])
def test_case(name: str, case: Case) -> None:
    _, differences = run_case(case, book_named(name))
    assert differences == []


@pytest.mark.parametrize(("name", "code", "starts"), EDITIONS, ids=[f"{one[0]} {one[1]} {one[2]}" for one in EDITIONS])
def test_an_edition_has_a_case_on_its_first_day_and_on_the_eve(name: str, code: str, starts: object) -> None:
    days = {case.day for case in cases_of(BOOKS_FOLDER / name / f"{code}{CASES}")}
    assert starts in days
    assert starts - timedelta(days=1) in days  # type: ignore[operator]


@pytest.mark.parametrize(("name", "code", "starts"), COSTS, ids=[f"{one[0]} {one[1]} {one[2]}" for one in COSTS])
def test_a_cost_has_a_case_on_its_first_day_and_on_the_eve(name: str, code: str, starts: object) -> None:
    book = book_named(name)
    seen: set[object] = set()
    for case in cases_of(BOOKS_FOLDER / name / f"consequences{CASES}"):
        ruled, _ = run_case(case, book)
        groups = {rule.code: edition.group for rule in book.rules for edition in rule.editions}
        touched = {groups[one.rule] for ruling in ruled.rulings.rulings for one in ruling.rules}
        if code in touched or case.day < book.first_day:
            seen.add(case.day)
    assert starts in seen
    assert starts - timedelta(days=1) in seen  # type: ignore[operator]


@pytest.mark.parametrize("name", book_names())
def test_every_kind_of_ruling_comes_up(name: str) -> None:
    rulings = {
        expect.values.get("ruling") for book, case in ALL if book == name for expect in case.setting.expects if expect.about
    }
    assert {"legal", "illegal", "cannot be told"} <= rulings


@pytest.mark.parametrize("name", book_names())
def test_every_source_is_named(name: str) -> None:
    book = book_named(name)
    assert all(text.strip() for text in book.sources.values())
    assert all(edition.source and edition.checked for rule in book.rules for edition in rule.editions)
    assert all(cost.source and cost.checked for group in book.groups.values() for cost in group.costs)


@pytest.mark.parametrize("name", book_names())
def test_every_item_has_a_rule_or_a_gap_that_says_so(name: str) -> None:
    book: Book = book_named(name)
    ruled = {item for rule in book.rules for edition in rule.editions for item in edition.items}
    gaps = {item for gap in book.gaps for item in gap.items}
    assert set(ITEMS) - ruled - gaps == set()


@pytest.mark.parametrize("name", adoption_names())
def test_an_adoption_has_cases_that_name_it(name: str) -> None:
    cases = cases_of(ADOPTIONS_FOLDER / f"{name}{CASES}")
    assert any(case.adoption == name for case in cases)

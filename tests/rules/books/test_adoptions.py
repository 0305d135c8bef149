"""Every case of every adoption that ships; and that each adoption decides something, on its own days and at its own levels."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from filmreview.rules.adoption import book_of_adoption
from filmreview.rules.cases import Case, read_cases, run_case
from filmreview.rules.library import ADOPTIONS_FOLDER, adoption_named, adoption_names, book_named
from filmreview.rules.reading import CASES

CHANGES_NOTHING = ("arizona-home-white-enforced",)  # it records that the state held to the book


def cases_of(name: str) -> tuple[Case, ...]:
    return read_cases(ADOPTIONS_FOLDER / f"{name}{CASES}")


ALL = [(name, case) for name in adoption_names() for case in cases_of(name)]


@pytest.mark.parametrize(("name", "case"), ALL, ids=[f"{name}: {case.title} {case.day}" for name, case in ALL])
def test_case(name: str, case: Case) -> None:
    book = book_named(book_of_adoption(ADOPTIONS_FOLDER / f"{name}.toml"))
    assert case.adoption == name
    assert run_case(case, book)[1] == []


@pytest.mark.parametrize("name", [name for name in adoption_names() if name not in CHANGES_NOTHING])
def test_without_the_adoption_a_case_comes_out_otherwise(name: str) -> None:
    book = book_named(book_of_adoption(ADOPTIONS_FOLDER / f"{name}.toml"))
    assert any(run_case(replace(case, adoption=None), book)[1] for case in cases_of(name))


@pytest.mark.parametrize("name", adoption_names())
def test_an_adoption_ends_and_begins_on_its_days(name: str) -> None:
    adoption = adoption_named(name, book_named(book_of_adoption(ADOPTIONS_FOLDER / f"{name}.toml")))
    level = adoption.levels[0] if adoption.levels else "varsity"
    assert adoption.counts(adoption.starts, level)
    assert not adoption.counts(adoption.starts - timedelta(days=1), level)
    if adoption.ends is not None:
        assert adoption.counts(adoption.ends - timedelta(days=1), level)
        assert not adoption.counts(adoption.ends, level)
    if adoption.levels:
        assert not adoption.counts(adoption.starts, "college")

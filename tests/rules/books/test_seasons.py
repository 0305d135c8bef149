"""A day's season, on the first day of a season and on its eve."""

from __future__ import annotations

from datetime import date

import pytest

from filmreview.rules.library import book_named


# school books by school year, 1 July here (deduced); FIBA editions take effect on 1 October (published)
@pytest.mark.parametrize(("name", "month"), [("nfhs", 7), ("ncaa-men", 7), ("ncaa-women", 7), ("fiba", 10)])
def test_a_season_starts_on_the_first_of_its_month(name: str, month: int) -> None:
    book = book_named(name)
    assert book.season(date(2023, month, 1)) == "2023-24"
    assert book.season(date(2023, month - 1, 30)) == "2022-23"

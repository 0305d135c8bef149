"""Every cost of every shipped book says what to do whenever the fault is found."""

from __future__ import annotations

import pytest

from filmreview.rules.library import book_named, book_names

FOUND = {"pre-game", "warm-up", "at table", "live", "dead"}


@pytest.mark.parametrize("book", book_names(()))
def test_no_moment_is_left_out(book: str) -> None:
    left_out = {
        (group.code, cost.starts.isoformat()): FOUND - set(cost.todo)
        for group in book_named(book).groups.values()
        for cost in group.costs
        if FOUND - set(cost.todo)
    }
    assert left_out == {}

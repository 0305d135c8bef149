"""Rulings as lines: every procedure named, missing things in words, what follows of an illegal thing, the safety words."""

from typing import Any

import pytest

from filmreview.cautions import SAFETY
from filmreview.commandline.ruling_lines import behind_ruling, lines_of
from filmreview.rules.procedures.result import Missing, ProcedureResult


def _document(names: tuple[str, ...], *missing: Missing) -> dict[str, Any]:
    result = ProcedureResult(names[0], names, "", (), missing, "2023-24", "3-4-15", "made for this test", "published")
    return {
        "book": "nfhs", "edition": "2023-24", "day": "2023-12-05", "rulings": [], "procedure": result.to_json(),
    }  # fmt: skip


def test_every_procedure_followed_is_named_and_blood_among_them_brings_the_safety_words() -> None:
    told = lines_of(_document(("illegal uniform found", "blood")))
    titles = "An illegal uniform, found before, during or after; Blood on a player or the uniform"
    assert f"  procedure {titles}: 0 departures" in told
    assert f"  {SAFETY}" in told
    assert f"  {SAFETY}" not in lines_of(_document(("illegal uniform found",)))


def test_a_procedure_is_called_by_its_title_which_says_nothing_of_the_ball() -> None:
    """The name of the procedure for kit speaks of a live ball, which may have been dead; its title does not."""
    told = lines_of(_document(("illegal equipment found during live ball",)))
    assert "  procedure Illegal equipment or apparel: 0 departures" in told


@pytest.mark.parametrize(
    ("event", "words"),
    [
        ("in_play", "why it is asked (has become a player wearing it)"),
        ("length", "why it is asked (length of the time-out)"),
        ("put right", "why it is asked (put right)"),
        ("the book's text", "why it is asked"),
    ],
)
def test_what_is_missing_is_told_in_words(event: str, words: str) -> None:
    assert f"      not known: {words}" in lines_of(_document(("time-out",), Missing(event, "why it is asked")))


@pytest.mark.parametrize(
    ("ruling", "consequence", "words"),
    [
        ("illegal", "cannot be told", ", what follows cannot be told"),
        ("illegal", "fix or leave", ", fix or leave"),
        ("illegal", "none", ""),
        ("illegal", "leave", ", leave the game"),
        ("cannot be told", "cannot be told", ""),
        ("legal", None, ""),
    ],
)
def test_what_follows(ruling: str, consequence: str | None, words: str) -> None:
    assert behind_ruling(ruling, consequence) == words

"""A missing thing is told in words, never by a name of the code."""

import re
from pathlib import Path

import pytest

import filmreview.rules.procedures as room
from filmreview.rules.procedures.missing_words import missing_words
from filmreview.rules.procedures.result import Missing

_NAMED = re.compile(r'Missing\(\s*"([^"]+)"')
EVENTS = sorted({one for file in Path(room.__file__).parent.glob("*.py") for one in _NAMED.findall(file.read_text("utf-8"))})


@pytest.mark.parametrize(
    ("event", "words"),
    [
        ("put right", "why (put right)"),
        ("in_play", "why (has become a player wearing it)"),
        ("length", "why (length of the time-out)"),
        ("at", "why (film time)"),
        ("the book's text", "why"),
    ],
)
def test_words(event: str, words: str) -> None:
    assert missing_words(Missing(event, "why")) == words


@pytest.mark.parametrize("event", EVENTS)
def test_nothing_that_can_be_missing_is_told_by_its_key(event: str) -> None:
    assert "_" not in missing_words(Missing(event, "why"))


def test_the_kinds_are_found() -> None:
    assert {"in_play", "left_floor", "length", "put right"} <= set(EVENTS)

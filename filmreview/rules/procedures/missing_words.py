"""A missing thing of a procedure in words, the same on every screen and sheet."""

from __future__ import annotations

from collections.abc import Mapping

from filmreview.facts.keys import KEYS
from filmreview.rules.procedures.result import Missing

_NAMED: Mapping[str, str] = {"at": "film time", "length": "length of the time-out", "the book's text": ""}
"""What is missing, where it is no event word and no fact of a tag."""


def missing_words(one: Missing) -> str:
    """What would have to be known, and by which event or fact: "whether it came off before play went on (put right)"."""
    by = KEYS[one.event].words if one.event in KEYS else _NAMED.get(one.event, one.event)
    return f"{one.why} ({by})" if by else one.why

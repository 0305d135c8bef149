"""Words written from right to left, for what draws letters one after the other from the left."""

from __future__ import annotations

import re
import unicodedata

_LETTERS = "\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc"
_WORDS = re.compile(f"[{_LETTERS}]+(?:[ ,.-]+[{_LETTERS}]+)*")


def laid(text: str) -> str:
    """The text in the order in which it is drawn; what belongs to a letter stays on it."""
    return _WORDS.sub(lambda found: "".join(reversed(_with_marks(found[0]))), text)


def _with_marks(word: str) -> list[str]:
    parts: list[str] = []
    for letter in word:
        if parts and unicodedata.combining(letter):
            parts[-1] += letter
        else:
            parts.append(letter)
    return parts

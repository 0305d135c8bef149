"""The answers of a check, in an order that makes "all" the least and "any" the greatest.

HOLDS and FAILS are sure. PRESUMED: nothing is known that speaks against it, and the book's ordinary case is that it holds.
UNKNOWN: a fact is missing that is truly needed, or one is too uncertain. DISPUTED: the text can be read two ways, or the
book here has no text; no fact helps.
"""

from __future__ import annotations

from typing import Final

FAILS: Final = 0
DISPUTED: Final = 1
UNKNOWN: Final = 2
PRESUMED: Final = 3
HOLDS: Final = 4

SURE: Final = 0.95
"""A check against a limit answers yes from this probability on, no from 1 - SURE down: a guard band decision in the sense
of JCGM 106:2012."""


def decide(chance: float) -> int:
    """HOLDS, FAILS or UNKNOWN for a probability that it holds."""
    if chance >= SURE:
        return HOLDS
    return FAILS if chance <= 1.0 - SURE + 1e-12 else UNKNOWN


def holds(answer: int) -> bool | None:
    """True, False, or None when it cannot be told."""
    if answer >= PRESUMED:
        return True
    return False if answer == FAILS else None

"""The books' colour words, since no book gives a number: same, contrasting, a name. Limits are project defaults.

same, similar, predominant: dE00 under 10 (every ISCC-NBS centroid has another within 10.1).
contrasting: yes from a difference of L* of 30 on (UEFA Equipment Regulations 2022, 54.04); no when that is missed and dE00
is under 20; between, when hue differs but lightness does not, the reviewer's eye decides.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache

from filmreview.colour.chance import Pair, chance_lightness_apart, chance_named, chance_within
from filmreview.colour.palette import PALETTE, colour_named
from filmreview.colour.value import Colour
from filmreview.rules.checks.answer import FAILS, HOLDS, SURE, UNKNOWN, decide

LIGHTNESS_LIMIT = 30.0
DIFFERENCE_LIMIT = 20.0


@lru_cache(maxsize=65536)
def same(a: Colour, b: Colour, within: float) -> int:
    """Whether two colours are the same in the book's sense: P(dE00 < within)."""
    return decide(chance_within(a, b, within, Pair.TWO_PLAYERS))


@lru_cache(maxsize=65536)
def named(colour: Colour, name: str) -> float:
    """The chance that a colour may go by this name of the palette."""
    return chance_named(colour, name)


@lru_cache(maxsize=65536)
def same_chance(a: Colour, b: Colour, within: float) -> float:
    """P(dE00 < within) between a thing and what its team declared."""
    return chance_within(a, b, within, Pair.TWO_PLAYERS)


@lru_cache(maxsize=65536)
def stands_out(a: Colour, b: Colour, lightness: float, difference: float) -> int:
    """Whether one colour contrasts with another; UNKNOWN between the limits, where the eye decides."""
    apart = chance_lightness_apart(a, b, lightness, Pair.ONE_PLAYER)
    if apart >= SURE:
        return HOLDS
    near = chance_within(a, b, difference, Pair.ONE_PLAYER)
    return FAILS if near >= SURE and apart <= 1.0 - SURE + 1e-12 else UNKNOWN


def any_of(chances: Iterable[float]) -> int:
    """Whether a colour is one of several: HOLDS when one is sure, FAILS when all together are not likely."""
    total = 0.0
    for chance in chances:
        if chance >= SURE:
            return HOLDS
        total += chance
    return FAILS if total <= 1.0 - SURE + 1e-12 else UNKNOWN


def anything_but(*others: Colour) -> dict[str, tuple[Colour, ...]]:
    """The answer "another colour", with one that is far from all of these."""
    far = _another(*others)
    return {f"another colour, like {far.name}": (far,)}


@lru_cache(maxsize=4096)
def _another(*others: Colour) -> Colour:
    """A colour of the palette as far as can be from all of these."""

    def distance(name: str) -> float:
        mine = PALETTE[name]
        return min((sum((x - y) ** 2 for x, y in zip(mine, other.lab, strict=True)) for other in others), default=0.0)

    return colour_named(max(PALETTE, key=distance))


def list_words(words: Sequence[str], last: str = "or") -> str:
    """ "black, white or beige"."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"

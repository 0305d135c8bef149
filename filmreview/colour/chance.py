"""The chance that two colours, each exact or measured, keep a limit.

Exact colours answer 0 or 1 at once. Measured ones are drawn 4,000 times: CIEDE2000 is skewed near 0, first-order formulas
fail there. Two regions of one film share most of their error (light, film, reference); `Pair` says how much.
"""

from __future__ import annotations

from enum import Enum
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from filmreview.colour.difference import ciede2000
from filmreview.colour.draws import DRAWS, draws
from filmreview.colour.palette import PALETTE, colour_named, in_region
from filmreview.colour.value import Colour

Floats = NDArray[np.float64]

SAME_LIMIT = 10.0
"""dE00 under which two colours count as the same: every ISCC-NBS centroid has another within 10.1. Project default."""


class Shared(NamedTuple):
    """Standard uncertainty of the difference of two measured colours, as a share of that of two independent ones."""

    lightness: float
    a: float
    b: float


class Pair(Enum):
    """Where two measured colours come from. The shares are about those found on made gym scenes (tests/bench/test_gym_bench.py
    prints them anew: of the four kinds, lightness 0.5 to 0.8 on one player, 0.5 to 0.9 on two); for two players those of
    pairs of nearly one colour, which is what the rules ask about."""

    ONE_PLAYER = Shared(0.52, 0.77, 0.67)
    TWO_PLAYERS = Shared(0.70, 0.62, 0.68)
    UNRELATED = Shared(1.0, 1.0, 1.0)


@lru_cache(maxsize=65536)
def chance_within(a: Colour, b: Colour, limit: float, pair: Pair = Pair.UNRELATED) -> float:
    """P(dE00 between the true colours < limit). pair counts only when both are measured. Symmetric in a and b."""
    if a.covariance is None and b.covariance is None:
        return float(ciede2000(a.lab, b.lab) < limit)
    first, second = _drawn_pair(a, b, pair)
    return float(np.mean(ciede2000(first, second) < limit))


@lru_cache(maxsize=65536)
def chance_lightness_apart(a: Colour, b: Colour, limit: float, pair: Pair = Pair.UNRELATED) -> float:
    """P(the true L* differ by at least limit)."""
    if a.covariance is None and b.covariance is None:
        return float(abs(a.lab[0] - b.lab[0]) >= limit)
    first, second = _drawn_pair(a, b, pair)
    return float(np.mean(np.abs(first[:, 0] - second[:, 0]) >= limit))


@lru_cache(maxsize=65536)
def chance_named(a: Colour, name: str) -> float:
    """P(the colour may be called by this palette name): in the region of white, black or beige; for any other name dE00 to
    its centre under 10. Raises FilmReviewError for a name that is not on the palette."""
    centre = colour_named(name)
    labs = np.array([a.lab]) if a.covariance is None else draws(a.lab, a.covariance)
    if centre.name in ("white", "black", "beige"):
        return float(np.mean(in_region(centre.name, labs)))
    return float(np.mean(ciede2000(labs, PALETTE[centre.name]) < SAME_LIMIT))


def _drawn_pair(a: Colour, b: Colour, pair: Pair) -> tuple[Floats, Floats]:
    """Draws (n, 3) of both: the difference has the covariance of the pair, dealt out by how uncertain each one is."""
    if (b.lab, b.covariance or ()) < (a.lab, a.covariance or ()):
        second, first = _drawn_pair(b, a, pair)  # the same draws whichever comes first
        return first, second
    spread_a, spread_b = _spread(a), _spread(b)
    total = spread_a + spread_b
    if a.measured and b.measured:
        share = np.array(pair.value)
        total = total * np.outer(share, share)
    middle = np.array(a.lab) - np.array(b.lab)
    errors = draws(middle, total, DRAWS) - middle
    part = np.trace(spread_a) / max(np.trace(spread_a) + np.trace(spread_b), 1e-12)
    return np.array(a.lab) + part * errors, np.array(b.lab) - (1.0 - part) * errors


def _spread(colour: Colour) -> Floats:
    return np.zeros((3, 3)) if colour.covariance is None else np.array(colour.covariance)

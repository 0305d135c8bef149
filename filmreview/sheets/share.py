"""A share with its interval: how sure a count of a few makes us."""

from __future__ import annotations

import math
from dataclasses import dataclass

Z_95 = 1.959963984540054  # the standard normal quantile at 0.975


@dataclass(frozen=True)
class Share:
    """count of total. low, high: the 95 % interval of the share, 0 to 1."""

    count: int
    total: int
    low: float
    high: float


def share_of(count: int, total: int) -> Share:
    """The share with its score interval without continuity correction (Wilson 1927; method 3 of Newcombe 1998, Statistics in
    Medicine 17, 857-872). A total of 0 says nothing: the interval is all of 0 to 1."""
    if not 0 <= count <= total:
        raise ValueError(f"{count} of {total} is no share")
    if total == 0:
        return Share(0, 0, 0.0, 1.0)
    part, weight = count / total, Z_95**2 / total
    middle = part + weight / 2
    half = Z_95 * math.sqrt(part * (1 - part) / total + weight / (4 * total))
    low, high = (middle - half) / (1 + weight), (middle + half) / (1 + weight)
    return Share(count, total, 0.0 if count == 0 else low, 1.0 if count == total else high)


def share_words(share: Share) -> str:
    """ "60%, likely between 23% and 88%"; "0 of 0" when there is nothing to count."""
    if share.total == 0:
        return "0 of 0"
    return f"{share.count / share.total:.0%}, likely between {share.low:.0%} and {share.high:.0%}"

"""How a returned workbook's rows are known again: a key that names the finding, and one that shows whether its words changed.

Neither tells anything of a player: the number is no part of them.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable

from filmreview.review.model import FilmRef, PlacedTag

_LENGTH = 12  # hexadecimal digits: two findings of one sheet have the same with a chance below 1 in a million million


def finding_key(film: FilmRef, tag: PlacedTag) -> str:
    """The tag's id and a digest of where it lies: film, moment, team, item. Another review's t3 has another."""
    return f"{tag.id} {_digest((film.digest, str(tag.moment.pts), str(tag.moment.time_base), tag.team, tag.item))}"


def row_key(finding: str, words: Iterable[str]) -> str:
    """The finding's key with a digest of the words that stand in its row."""
    return f"{finding} {_digest(' '.join(one.split()) for one in words)}"


def _digest(parts: Iterable[str]) -> str:
    return hashlib.sha256("\x1f".join(parts).encode("utf-8", errors="surrogatepass")).hexdigest()[:_LENGTH]

"""What is drawn over the picture: the region being worked on, the white reference, the marks of kept tags."""

from __future__ import annotations

from dataclasses import dataclass

from filmreview.facts.region import Box


@dataclass(frozen=True)
class Mark:
    """A kept tag as it stands in the picture. ruling: "legal", "illegal" or "cannot be told". words: shown beside it."""

    tag: str
    box: Box
    ruling: str
    ahead: bool = False
    words: str = ""

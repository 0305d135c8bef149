"""What a change will do: its edits and its words for the history."""

from __future__ import annotations

from dataclasses import dataclass

from filmreview.review.edits import Edit
from filmreview.review.model import PlacedTag, Review, Thing


@dataclass(frozen=True)
class Plan:
    """What a change will do. words: one line for the history."""

    edits: tuple[Edit, ...]
    words: str


def unless_same(before: Thing | None, after: Thing) -> tuple[Edit, ...]:
    """The edit from one value to the other; none when nothing differs."""
    return () if before == after else (Edit(before, after),)


def tag_words(review: Review, tag: PlacedTag) -> str:
    """A tag for the history: "t3: visitor 14, wristband at 0:21.000"."""
    who = f"{tag.team} {tag.player}" if tag.player is not None else f"{tag.team}, number not read"
    return f"{tag.id}: {who}, {tag.item} at {review.time_text(tag.film, tag.moment)}"

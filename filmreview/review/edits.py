"""What a change does to a review, as a list of edits that can be walked forward and back.

Pure: a review and edits in, a new review out. The store writes the same edits to the file.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from filmreview.review.model import Game, Review, Thing
from filmreview.review.rows import from_row, id_of, part_of, to_row

LETTERS: Mapping[str, str] = {
    "film": "f", "tag": "t", "event": "e", "reference": "r", "official": "o", "reply": "a", "letter": "l", "stoppage": "s",
    "common": "c", "own_call": "w", "blur": "b", "face_choice": "h", "lesson": "n",
}  # fmt: skip
"""The letter that the ids of each part begin with."""
FIELDS: Mapping[str, str] = {part: f"{part}s" if part != "reply" else "replies" for part in LETTERS}
"""Where a review keeps the values of each part."""


@dataclass(frozen=True)
class Edit:
    """One value before and after; None where it does not exist."""

    before: Thing | None
    after: Thing | None

    @property
    def part(self) -> str:
        """The table it belongs to: game, film, tag ..."""
        return part_of(self._either())

    @property
    def id(self) -> str:
        """The id of the value."""
        return id_of(self._either())

    def turned(self) -> Edit:
        """The edit that takes this one back."""
        return Edit(self.after, self.before)

    def _either(self) -> Thing:
        thing = self.after if self.after is not None else self.before
        assert thing is not None, "an edit has a side"
        return thing


class Ids:
    """Hands out ids that are never used twice in one review, not even after an undo: t1, t2 ... by kind of value."""

    def __init__(self, last: Mapping[str, int]) -> None:
        self.last = dict(last)

    def next(self, part: str) -> str:
        """The next id for a value of that part."""
        letter = LETTERS[part]
        self.last[letter] = self.last.get(letter, 0) + 1
        return f"{letter}{self.last[letter]}"


def edit_to_json(edit: Edit) -> dict[str, Any]:
    """{"part": , "before": row or null, "after": row or null}: the form kept in the history."""
    sides = {"before": edit.before, "after": edit.after}
    return {"part": edit.part, **{side: None if thing is None else dict(to_row(thing)) for side, thing in sides.items()}}


def edit_from_json(data: Mapping[str, Any]) -> Edit:
    """The inverse of `edit_to_json`."""
    before, after = (None if data[side] is None else from_row(data["part"], data[side]) for side in ("before", "after"))
    return Edit(before, after)


def with_edits(review: Review, edits: Iterable[Edit]) -> Review:
    """The review after the edits, in order."""
    game = review.game
    parts: dict[str, dict[str, Any]] = {
        part: {thing.id: thing for thing in getattr(review, field)} for part, field in FIELDS.items()
    }
    for edit in edits:
        if isinstance(edit.after, Game):
            game = edit.after
        elif edit.after is None:
            parts[edit.part].pop(edit.id)
        else:
            parts[edit.part][edit.id] = edit.after
    return assembled(review, game, parts)


def assembled(review: Review, game: Game, parts: Mapping[str, Mapping[str, Any]]) -> Review:
    """A review of these values, each part in the order of its ids."""
    fields: Any = {field: _in_order(parts[part]) for part, field in FIELDS.items()}
    return replace(review, game=game, **fields)


def _in_order(things: Mapping[str, Any]) -> tuple[Any, ...]:
    return tuple(things[one] for one in sorted(things, key=lambda one: int(one[1:])))

"""The rulings kept in a review: derived, one for a tag and a version of the program.

They are there so that an old review still reads right: where a newer program rules the same facts otherwise, both are shown.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import replace

import filmreview
from filmreview.review.model import KeptRuling, PlacedTag, Review
from filmreview.review.rows import to_row
from filmreview.review.schema import now_text
from filmreview.rules.ruling import Ruling


def renewed(review: Review, rulings: Mapping[str, Ruling]) -> tuple[list[KeptRuling], list[KeptRuling]]:
    """What to write and what to drop so that the review keeps these rulings (by tag).

    A ruling kept by another version stays as long as its tag and the set-up are as they were then.
    """
    inputs = {tag.id: digest_of_inputs(review, tag) for tag in review.tags}
    dropped = [one for one in review.ruled if inputs.get(one.tag) != one.inputs]
    present = {(one.tag, one.program): one for one in review.ruled if one not in dropped}
    fresh = [_kept(review, tag, ruling, inputs[tag]) for tag, ruling in rulings.items()]
    return [one for one in fresh if not _says_the_same(present.get((one.tag, one.program)), one)], dropped


def earlier(review: Review, tag: PlacedTag, ruling: Ruling) -> KeptRuling | None:
    """What the newest other version of the program ruled of the same facts, when that differs; else None."""
    others = [one for one in review.ruled if one.tag == tag.id and one.program != filmreview.__version__]
    if not others:
        return None
    inputs = digest_of_inputs(review, tag)
    last = max((one for one in others if one.inputs == inputs), key=lambda one: one.at, default=None)
    if last is None or (last.ruling, last.consequence, last.rule) == (ruling.ruling, ruling.consequence, ruling.rule):
        return None
    return last


def digest_of_inputs(review: Review, tag: PlacedTag) -> str:
    """Of everything that the tag and the set-up give to the rules, but not of what stands beside (note, crew, time, names)."""
    game, row = to_row(review.game), to_row(tag)
    setup = {column: game[column] for column in ("day", "level", "book", "adoption")}
    kit = {side: json.loads(game[side])["facts"] for side in ("home", "visitor")}
    own = {column: row[column] for column in ("team", "player", "item", "facts")}
    return hashlib.sha256(json.dumps([setup, kit, own], sort_keys=True).encode()).hexdigest()[:16]


def _kept(review: Review, tag: str, ruling: Ruling, inputs: str) -> KeptRuling:
    return KeptRuling(
        tag, filmreview.__version__, inputs, now_text(), review.game.book, ruling.edition, ruling.ruling, ruling.consequence,
        ruling.rule, ruling.reference, tuple(ruling.reasons),
    )  # fmt: skip


def _says_the_same(known: KeptRuling | None, new: KeptRuling) -> bool:
    return known is not None and replace(new, at=known.at) == known

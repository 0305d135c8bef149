"""The changes about the officials: whose finding a tag is, what they replied, what the observer writes to them.

These lie beside the tags, not in them, so that a tag that is put down anew keeps them. `changes` is the whole closed set.
"""

from __future__ import annotations

from dataclasses import dataclass

from filmreview.errors import FilmReviewError, unknown
from filmreview.review.edits import Edit, Ids
from filmreview.review.model import LONGEST_WORDS, REPLIES, Letter, Reply, Review, TagOfficial, Thing
from filmreview.review.plan import Plan, unless_same


@dataclass(frozen=True)
class SetOfficial:
    """Whose finding a tag is, by position; None makes it the whole crew's."""

    tag: str
    position: str | None

    def plan(self, review: Review, ids: Ids) -> Plan:
        """Edits that tie the tag; raises FilmReviewError for a position that nobody of the crew has."""
        tag, before = review.tag(self.tag), review.official_of(self.tag)
        if self.position is None:
            return Plan(_gone(before), f"{tag.id}, whose finding it is: the whole crew")
        check_position(review, self.position)
        after = TagOfficial(before.id if before else ids.next("official"), tag.id, self.position)
        return Plan(unless_same(before, after), f"{tag.id}, whose finding it is: {self.position}")


@dataclass(frozen=True)
class SetReply:
    """What a reader of the sheet answered to a finding, in place of an earlier reply of the same reader. Fields as in
    `model.Reply`."""

    tag: str
    by: str
    answer: str
    words: str = ""

    def plan(self, review: Review, ids: Ids) -> Plan:
        """Edits that keep the reply; raises FilmReviewError for one that says nothing, an unknown answer or too many words."""
        tag = review.tag(self.tag)
        if self.by:
            check_position(review, self.by)
        if self.answer and self.answer not in REPLIES:
            raise unknown("reply", self.answer, REPLIES, where=tag.id)
        if not self.answer and not self.words.strip():
            raise FilmReviewError("the reply says nothing", where=tag.id)
        check_length(self.words, tag.id)
        before = next((one for one in review.replies_to(tag.id) if one.by == self.by), None)
        after = Reply(before.id if before else ids.next("reply"), tag.id, self.by, self.answer, self.words)
        return Plan(unless_same(before, after), f"reply to {tag.id}: {self.answer or 'in words'}")


@dataclass(frozen=True)
class RemoveReply:
    """The reply goes."""

    tag: str
    by: str

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that take the reply out; none when there is none."""
        before = next((one for one in review.replies_to(review.tag(self.tag).id) if one.by == self.by), None)
        return Plan(_gone(before), f"remove the reply to {self.tag}")


@dataclass(frozen=True)
class SetLetter:
    """What the observer writes to the official at a position; "" leaves it to the sheet again."""

    position: str
    words: str

    def plan(self, review: Review, ids: Ids) -> Plan:
        """Edits that keep the letter; raises FilmReviewError for an unknown position or too many words."""
        check_position(review, self.position)
        check_length(self.words, self.position)
        before = review.letter_to(self.position)
        if not self.words.strip():
            return Plan(_gone(before), f"letter to {self.position}: as the sheet builds it")
        after = Letter(before.id if before else ids.next("letter"), self.position, self.words)
        return Plan(unless_same(before, after), f"letter to {self.position}: own words")


def check_position(review: Review, position: str) -> str:
    """The position as it is; raises FilmReviewError with the nearest one of the crew."""
    positions = [one.position for one in review.game.crew]
    if not positions:
        raise FilmReviewError("the review names no crew", where=position, todo="give the crew at set-up: POSITION=NAME")
    if position not in positions:
        raise unknown("position", position, positions)
    return position


def one_line(words: str, where: str) -> str:
    """The words on one line, line breaks folded to a space; FilmReviewError when too many."""
    return check_length(" ".join(filter(None, map(str.strip, words.splitlines()))), where)


def check_length(words: str, where: str) -> str:
    """The words as they are; raises FilmReviewError when they are too many."""
    if len(words) > LONGEST_WORDS:
        raise FilmReviewError(f"{len(words)} characters are too many", where=where, todo=f"write at most {LONGEST_WORDS}")
    return words


def _gone(before: Thing | None) -> tuple[Edit, ...]:
    return () if before is None else (Edit(before, None),)

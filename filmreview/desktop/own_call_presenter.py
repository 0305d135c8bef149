"""The own calls of an official who reviews himself, without a screen: what waits for his call, and how his calls compare.

In: a call on a tag, hiding or showing the rulings. Out: rows for the list, the score, and changes to the review.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.ledger_presenter import who_words
from filmreview.desktop.ruling_words import consequence_words, reason_words, source_words
from filmreview.film.moment import format_time
from filmreview.review.changes import EditGame
from filmreview.review.lesson_changes import RemoveOwnCall, SetOwnCall
from filmreview.review.model import OwnCall, PlacedTag, Review
from filmreview.review.own_calls import HIDDEN, Score, outcome_of, score, shown, waiting
from filmreview.rules.ruling import Ruling

NO_CALL = "no call yet"
BEING_RULED = "being ruled"


@dataclass(frozen=True)
class OwnCallRow:
    """One tag. call: mine, "" for none. book: the book's ruling, "" while hidden or being ruled. outcome: how they compare, ""
    until both are there."""

    tag: str
    time: str
    who: str
    item: str
    call: str
    book: str
    book_words: str
    outcome: str

    @property
    def waits(self) -> bool:
        """Whether there is no call on it yet."""
        return not self.call


class OwnCallPresenter:
    """The own calls of the open review."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk

    @property
    def review_path(self) -> Path | None:
        """Which review is open."""
        return self._desk.review.path if self._desk.review is not None else None

    @property
    def wanted(self) -> bool:
        """Whether the review has to do with own calls at all."""
        review = self._desk.review
        return review is not None and (review.game.rulings_hidden or bool(review.own_calls))

    @property
    def hidden(self) -> bool:
        """Whether rulings are hidden until the own call."""
        review = self._desk.review
        return review is not None and review.game.rulings_hidden

    def rows(self) -> tuple[OwnCallRow, ...]:
        """One row a tag, in the order of film and time."""
        review = self._desk.review
        if review is None:
            return ()
        rulings = self._rulings()
        order = {film.id: place for place, film in enumerate(review.films)}
        tags = sorted(review.tags, key=lambda tag: (order[tag.film], _seconds(review, tag)))
        calls = {call.tag: call for call in review.own_calls}
        return tuple(_row(review, tag, rulings.get(tag.id), calls.get(tag.id)) for tag in tags)

    def call_on(self, tag_id: str) -> OwnCall | None:
        """My call on a tag."""
        review = self._desk.review
        return review.own_call_on(tag_id) if review is not None else None

    def book_words(self, tag_id: str) -> str:
        """What the book says of a tag, in a few sentences; that it is hidden while it is."""
        review = self._desk.review
        if review is None or not shown(review, tag_id):
            return f"The book's ruling is {HIDDEN}."
        ruling = self._rulings().get(tag_id)
        if ruling is None:
            return f"The book: {BEING_RULED}."
        parts = (f"The book: {ruling.ruling}", consequence_words(ruling), reason_words(ruling), source_words(ruling))
        return ". ".join(part[:1].upper() + part[1:].rstrip(".") for part in parts if part) + "."

    def summary(self) -> str:
        """One line: how many tags wait, and how the calls came out."""
        review = self._desk.review
        if review is None:
            return ""
        left = len(review.tags) - len(review.own_calls)
        head = "every tag has your call" if left == 0 else f"{left} tag{'' if left == 1 else 's'} without your call"
        told = self.score()
        return f"{head}; {told.whole.words}" if told is not None and told.called else head

    def score(self) -> Score | None:
        """The score of the calls so far; None while nothing is ruled."""
        found = self._desk.findings
        return score(found) if found is not None else None

    def give(self, tag_id: str, ruling: str, consequence: str = "", words: str = "") -> bool:
        """My call on a tag. True when it was taken."""
        return self._desk.try_change(
            SetOwnCall(tag_id, ruling, consequence, words.strip()),
            lambda _ids: self._desk.message(f"your call is kept: {ruling}"),
        )

    def take_back(self, tag_id: str) -> bool:
        """No call on the tag any more; its ruling is hidden again where rulings are."""
        return self._desk.try_change(RemoveOwnCall(tag_id))

    def set_hidden(self, on: bool) -> None:
        """Hide rulings until my call, or show all of them."""
        review = self._desk.review
        if review is None or review.game.rulings_hidden == on:
            return
        self._desk.try_change(
            EditGame(replace(review.game, rulings_hidden=on)), lambda _ids: self._desk.message(self._hidden_words())
        )

    def next_waiting(self, after: str) -> str:
        """The next tag without a call, from this one on and round; "" when there is none."""
        rows = self.rows()
        place = next((number for number, row in enumerate(rows) if row.tag == after), -1)
        return next((row.tag for row in (*rows[place + 1 :], *rows[: place + 1]) if row.waits), "")

    def not_given_words(self, tags: Sequence[str]) -> str:
        """That calls on these tags are typed and not given; "" for no tag."""
        rows = [row for row in self.rows() if row.tag in tags]
        if not rows:
            return ""
        on = f"{rows[0].who} ({rows[0].item}, at {rows[0].time})"
        if not rows[1:]:
            return f"Your own call on {on} is typed but not given yet."
        others = "another tag" if len(rows) == 2 else f"{len(rows) - 1} other tags"
        return f"Your own calls on {on} and {others} are typed but not given yet."

    def _hidden_words(self) -> str:
        review = self._desk.review
        if review is None or not review.game.rulings_hidden:
            return "rulings are shown again"
        return f"rulings are hidden until your own call: {len(waiting(review))} to give under Own calls"

    def _rulings(self) -> Mapping[str, Ruling]:
        found = self._desk.findings
        return {one.tag.id: one.ruling for one in found} if found else {}


def _row(review: Review, tag: PlacedTag, ruling: Ruling | None, call: OwnCall | None) -> OwnCallRow:
    see = call is not None or not review.game.rulings_hidden
    book = ruling if see else None
    waiting_words = BEING_RULED if see else HIDDEN
    return OwnCallRow(
        tag=tag.id,
        time=format_time(_seconds(review, tag)),
        who=who_words(review, tag),
        item=tag.item,
        call=_call_words(call.ruling, call.consequence) if call else "",
        book=book.ruling if book else "",
        book_words=_call_words(book.ruling, book.consequence) if book else waiting_words,
        outcome=outcome_of(call, book) if call is not None and book is not None else "",
    )


def _call_words(ruling: str, consequence: str) -> str:
    return f"{ruling}, {consequence}" if consequence and consequence != "none" else ruling


def _seconds(review: Review, tag: PlacedTag) -> Fraction:
    return review.film(tag.film).seconds_of(tag.moment)

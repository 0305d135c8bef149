"""Stoppages without a screen: set by hand with one key, edited, removed, gone to; and those that were proposed looked over.

A stoppage that the program proposes comes into the review as `AddStoppage(..., origin="proposed")`, whoever made it; here a
person keeps it, changes it or removes it. A changed one is the person's own from then on.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.events import Events
from filmreview.errors import FilmReviewError
from filmreview.film.moment import Moment
from filmreview.review.changes import Change, Together
from filmreview.review.model import STOPPAGE_KINDS, Review, Stoppage
from filmreview.review.stretch_changes import AddStoppage, EditStoppage, RemoveStoppage

NOT_TOLD = "kind not told"
KINDS = (NOT_TOLD, *STOPPAGE_KINDS)
PROPOSED = "proposed"
BY_HAND = "by hand"
Place = tuple[str, Moment]
"""A film's id and a moment of it."""


@dataclass(frozen=True)
class StoppageRow:
    """One stoppage. start, end: seconds from the start of its film. film_words: "" while the game has one film."""

    stoppage: str
    film: str
    film_words: str
    start: Fraction
    end: Fraction
    start_time: str
    end_time: str
    kind: str
    note: str
    proposed: bool

    @property
    def length(self) -> Fraction:
        """Seconds."""
        return self.end - self.start

    @property
    def words(self) -> str:
        """For the film strip: "free throws", "stoppage, proposed"."""
        parts = [self.kind if self.kind != NOT_TOLD else "stoppage", PROPOSED if self.proposed else "", self.note]
        return ", ".join(part for part in parts if part)


class StoppagePresenter:
    """The stoppages of the open review. Events: "stoppages" when they, or the one begun, have changed."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self.events = Events("stoppages")
        self.begun: Place | None = None
        self.last = ""
        """The stoppage put down last."""
        desk.events.on("review", self._review_changed)

    def rows(self) -> tuple[StoppageRow, ...]:
        """The stoppages in the order of film and time."""
        review = self._desk.review
        if review is None:
            return ()
        order = {film.id: place for place, film in enumerate(review.films)}
        rows = [_row(review, one) for one in review.stoppages]
        return tuple(sorted(rows, key=lambda row: (order[row.film], row.start, row.end)))

    def on_film(self, film_id: str | None) -> tuple[StoppageRow, ...]:
        """Those of one film."""
        return tuple(row for row in self.rows() if row.film == film_id)

    def summary(self) -> str:
        """How many, how long in all, how many of them nobody has looked over."""
        rows = self.rows()
        if not rows:
            return f"No stoppage yet: {self._desk.key('stoppage')} on the film begins one, the same again ends it."
        proposed = sum(row.proposed for row in rows)
        total = float(sum(row.length for row in rows))
        head = f"{len(rows)} stoppage{'s' if len(rows) != 1 else ''}, {total:.1f} s"
        return head + (f"; {proposed} proposed, to be looked over" if proposed else "")

    # One key begins and ends

    @property
    def mark_key(self) -> str:
        """The key that does."""
        return self._desk.key("stoppage")

    def mark(self, place: Place | None) -> None:
        """Begin a stoppage at this film and moment; the next time, end it there and keep it."""
        if place is None:
            self._desk.message("no film stands on the picture: a stoppage needs its moments")
        elif self.begun is None or self.begun[0] != place[0]:
            self.begun = place
            self._desk.message(f"a stoppage begins at {self._time(place)}: {self._desk.key('stoppage')} again ends it")
            self.events.tell("stoppages")
        else:
            self._end(self.begun, place)

    def drop(self) -> None:
        """Forget the one begun; nothing is changed."""
        if self.begun is not None:
            self.begun = None
            self._desk.message("the stoppage begun was dropped")
            self.events.tell("stoppages")

    def _end(self, begun: Place, place: Place) -> None:
        if begun[1] == place[1]:
            self._desk.message("the stoppage would have no length: go on, then end it")
            return
        start, end = sorted((begun[1], place[1]), key=lambda moment: moment.seconds)

        def kept(ids: tuple[str, ...]) -> None:
            self.last = ids[0]
            times = f"from {self._time((begun[0], start))} to {self._time((begun[0], end))}"
            self._desk.message(f"a stoppage {times}; {self._desk.key('stoppage_kind')} says its kind")

        store = self._desk.store

        def refused(error: FilmReviewError) -> None:
            if self.begun is None and self._desk.store is store:
                self.begun = begun  # its end can be tried again
                self.events.tell("stoppages")
            self._desk.message(str(error))

        self.begun = None
        if self._desk.change(AddStoppage(begun[0], start, end), kept, refused):
            self.events.tell("stoppages")

    # Going from one to the next

    def following(self, place: Place) -> StoppageRow | None:
        """The first stoppage that begins after this moment, on this film or a later one."""
        return next((row for row in self.rows() if self._key(row) > self._key_of(place)), None)

    def preceding(self, place: Place) -> StoppageRow | None:
        """The last stoppage that began before this moment, on this film or an earlier one."""
        return next((row for row in reversed(self.rows()) if self._key(row) < self._key_of(place)), None)

    def at(self, place: Place) -> StoppageRow | None:
        """The stoppage that this moment lies in."""
        seconds = self._key_of(place)[1]
        return next((row for row in self.on_film(place[0]) if row.start <= seconds < row.end), None)

    def place(self, stoppage_id: str, end: bool = False) -> Place | None:
        """Film and moment where it starts, or ends; None when it has gone."""
        one = self._stoppage(stoppage_id)
        return None if one is None else (one.film, one.end if end else one.start)

    # Changes

    def set_kind(self, ids: Sequence[str], kind: str) -> bool:
        """The kind chosen for these, as one change."""
        return self._edit(ids, lambda one: replace(one, kind="" if kind == NOT_TOLD else kind, origin=BY_HAND))

    def set_note(self, stoppage_id: str, note: str) -> bool:
        """The note typed for one."""
        return self._edit((stoppage_id,), lambda one: replace(one, note=note, origin=BY_HAND))

    def set_edge(self, stoppage_id: str, place: Place | None, end: bool) -> bool:
        """It starts, or ends, at this moment of its film."""
        one = self._stoppage(stoppage_id)
        if one is None or place is None:
            return False
        if place[0] != one.film:
            self._desk.message("the picture shows another film than the stoppage is on")
            return False
        start, ends = (one.start, place[1]) if end else (place[1], one.end)
        return self._edit((stoppage_id,), lambda one: replace(one, origin=BY_HAND, start=start, end=ends))

    def accept(self, ids: Sequence[str]) -> bool:
        """Proposed ones are right as they are: they are kept as if put down by hand, as one change."""
        return self._edit(ids, lambda one: replace(one, origin=BY_HAND), "kept as right")

    def remove(self, ids: Sequence[str]) -> bool:
        """Take these out, as one change."""
        back = "it" if len(ids) == 1 else "them"
        done = f"removed; undo brings {back} back"
        return self._change([RemoveStoppage(one) for one in ids], f"remove {len(ids)} stoppages", done)

    def _edit(self, ids: Sequence[str], edit: Callable[[Stoppage], Stoppage], done: str = "") -> bool:
        found = [one for stoppage_id in ids if (one := self._stoppage(stoppage_id)) is not None]
        return self._change([EditStoppage(edit(one)) for one in found], f"change {len(found)} stoppages", done)

    def _change(self, changes: Sequence[Change], words: str, done: str = "") -> bool:
        """Make them one change. done: what to say of it, "" for nothing."""
        if not changes:
            return False

        def told(_ids: tuple[str, ...]) -> None:
            if done:
                self._desk.message(f"{len(changes)} stoppage{'s' if len(changes) != 1 else ''} {done}")

        return self._desk.try_change(changes[0] if len(changes) == 1 else Together(tuple(changes), words), told)

    def _stoppage(self, stoppage_id: str) -> Stoppage | None:
        stoppages = self._desk.review.stoppages if self._desk.review else ()
        return next((one for one in stoppages if one.id == stoppage_id), None)

    def _key(self, row: StoppageRow) -> tuple[int, Fraction]:
        return self._order(row.film), row.start

    def _key_of(self, place: Place) -> tuple[int, Fraction]:
        return self._order(place[0]), self._desk.seconds_of(*place)

    def _order(self, film_id: str) -> int:
        films = self._desk.review.films if self._desk.review else ()
        return next((number for number, film in enumerate(films) if film.id == film_id), -1)

    def _time(self, place: Place) -> str:
        review = self._desk.review
        return review.time_text(*place) if review else ""

    def _review_changed(self) -> None:
        review = self._desk.review
        if self.begun is not None and (review is None or self._order(self.begun[0]) < 0):
            self.begun = None
        self.events.tell("stoppages")


def _row(review: Review, one: Stoppage) -> StoppageRow:
    film = review.film(one.film)
    words = (film.what or film.id) if len(review.films) > 1 else ""
    times = (film.seconds_of(one.start), film.seconds_of(one.end), film.time_text(one.start), film.time_text(one.end))
    return StoppageRow(one.id, one.film, words, *times, one.kind or NOT_TOLD, one.note, one.origin == PROPOSED)

"""The desk without a screen: the review that is open, its film, its findings, and the changes that are made to it.

In: intentions of the window and its places. Out: events that say what changed ("review", "findings", "film", "message"); every
view redraws its own part. Slow work goes through `start` and comes back on the caller's thread. A change goes its way to the
disk in turn; the review here is what is on the disk, and `then` is called when the change is in it.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any, Protocol

from filmreview.desktop.events import Events
from filmreview.desktop.known_films import KnownFilms
from filmreview.desktop.measuring import Measuring, White, sharpest_of
from filmreview.desktop.turns import Failed, InTurn
from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Origin
from filmreview.facts.region import Box, Region
from filmreview.film.film import Film
from filmreview.film.frame import Frame
from filmreview.film.moment import Moment
from filmreview.measure.colour import MeasuredColour
from filmreview.measure.reference import Reference
from filmreview.progress import Progress
from filmreview.review.changes import Change, SetReference
from filmreview.review.model import PlacedReference, PlacedTag, Review
from filmreview.review.own_calls import HIDDEN, shown, veiled
from filmreview.review.ruled import Findings, findings, keep
from filmreview.review.store import Store
from filmreview.rules.ruling import Ruling

Touched = Callable[[tuple[str, ...]], None]
Push = Callable[[Change, Touched, Failed], None]
"""How a change is made undoable: then gets the ids it touched, failed its fault."""


def _nothing(_given: object) -> None:
    pass


class Start(Protocol):
    """How work is started; `jobs.Jobs.start` is one."""

    def __call__(
        self,
        work: Callable[[Progress], Any],
        then: Callable[[Any], None] = ...,
        failed: Failed | None = None,
        only: str | None = None,
    ) -> object:
        """Start work; then gets its answer, failed its fault. A newer job named the same in `only` replaces the older one."""


class Desk:
    """What is open. start: starts slow work. in_turn: the same for work on the review's file, one after another. forget: drops
    the answer of work named. push: makes a change undoable."""

    def __init__(self, start: Start, in_turn: InTurn, forget: Callable[..., None], push: Push) -> None:
        self.events = Events("review", "findings", "film", "message")
        self.start = start
        self.in_turn = in_turn
        self.forget = forget
        self._push = push
        self._store: Store | None = None
        self._review: Review | None = None
        self._measuring = Measuring()
        self.films = KnownFilms()
        self.film: Film | None = None
        self.film_id: str | None = None
        self.findings: Findings | None = None
        self.key: Callable[[str], str] = str
        """The key of a deed, by its name, for words that tell of it; the window, which has the keys, gives it."""
        self.last_message = ""
        self.trouble = ""

    @property
    def review(self) -> Review | None:
        """The review as it is on the disk; None while nothing is open."""
        return self._review

    @property
    def store(self) -> Store | None:
        """The open store."""
        return self._store

    @property
    def rosters(self) -> Mapping[str, Sequence[str]]:
        """The numbers of both teams, as set up."""
        review = self.review
        return {"home": review.game.home.roster, "visitor": review.game.visitor.roster} if review else {}

    def message(self, words: str) -> None:
        """Tell the person something in one line."""
        self.last_message = words
        self.events.tell("message")

    def take_store(self, store: Store | None) -> None:
        """Work on this review from now on; the one before is closed."""
        self._let_go()
        another = self._review is not None and store is not None
        self._store, self.findings = store, None
        if another:
            self.take_review(None)  # what was begun on the one before is not of this one, though its films have the same ids
        if store is not None:
            own = threading.get_ident()
            # A change made in turn comes back by `take_review`; one made here and now is taken here and now.
            store.subscribe(lambda changed: self._changed_here(store, changed) if threading.get_ident() == own else None)
        self.take_review(store.review if store else None)

    def take_review(self, review: Review | None) -> None:
        """The review is this from now on: something was changed, undone or redone."""
        self._review = review
        self._review_changed()

    def _changed_here(self, store: Store, changed: frozenset[str]) -> None:
        if store is self._store and changed != {"ruled"}:
            self.take_review(store.review)

    def close(self) -> None:
        """Let the review go without telling anybody: the window closes."""
        self._let_go()
        self._store = self._review = None

    def _let_go(self) -> None:
        store, found, review = self._store, self.findings, self._review
        if store is None or review is None:
            return
        ruled = found is not None and (found.review.tags, found.review.game) == (review.tags, review.game)
        # What was ruled can be worked out again; the tags are safe already.
        self.in_turn(lambda _progress: _close(store, found if ruled else None), failed=lambda error: self.message(str(error)))

    def take_film(self, film_id: str | None, film: Film | None) -> None:
        """This film is on the picture from now on. The player closes the one before."""
        self.film_id, self.film = film_id, film
        self._measuring.take_film(film)
        self.forget("sharpness")
        if film is not None:
            self.start(lambda progress: sharpest_of(film, progress), self._take_sharpest, self._no_sharpest, "sharpness")
        self.events.tell("film")

    def _take_sharpest(self, sharpest: float) -> None:
        self._measuring.sharpest = sharpest
        whites = self.whites
        if whites:
            self.start(lambda progress: self._measuring.look_at(whites, progress), only="sharpness")

    def _no_sharpest(self, _error: FilmReviewError) -> None:
        """The view grade then goes without sharpness; a film that cannot be read is told when its frames are asked for."""

    def change(self, change: Change, then: Touched, failed: Failed) -> bool:
        """Put a change on its way to the disk. then: gets the ids it touched, once it is there. failed: told why it cannot be;
        nothing has changed then. False when it was refused already."""
        refused: list[FilmReviewError] = []

        def refuse(error: FilmReviewError) -> None:
            refused.append(error)
            failed(error)

        self._push(change, then, refuse)
        return not refused

    def try_change(self, change: Change, then: Touched = _nothing) -> bool:
        """The same; what stands in the way is told as a message."""
        return self.change(change, then, lambda error: self.message(str(error)))

    def seconds_of(self, film_id: str, moment: Moment) -> Fraction:
        """Seconds from the start of a film of the review."""
        review = self.review
        assert review is not None, "a review is open"
        return review.film(film_id).seconds_of(moment)

    def rule_with(self, tag: PlacedTag, then: Callable[[Ruling | None], None], failed: Failed) -> None:
        """Rule this tag among the others of the review (in place of the one of its id); team rules look at them all."""
        review = self.review
        if review is None:
            return
        if not shown(review, tag.id):
            self.forget("rule")
            failed(FilmReviewError(f"the ruling is {HIDDEN}", todo="keep the tag, then give your call under Own calls"))
            return
        others = tuple(one for one in review.tags if one.id != tag.id)
        asked = replace(review, tags=(*others, tag))

        def work(progress: Progress) -> Ruling | None:
            ruling = findings(asked).of(tag.id).ruling
            progress(0.5, "putting the ruling into words")  # the slower half; not for a draft that has moved on
            return _in_words(ruling)

        self.start(work, then, failed, "rule")

    @property
    def sharpest(self) -> float | None:
        """The film's own best sharpness, None until it is known."""
        return self._measuring.sharpest

    def measure(self, frame: Frame, region: Region, progress: Progress) -> MeasuredColour:
        """The colour of a region, corrected by the white nearest to it in its camera view. Slow: for a job."""
        return self._measuring.measure(frame, region, self.whites, progress)

    def reference_near(self, frame: Frame, region: Region, progress: Progress) -> Reference | None:
        """What `measure` corrects by; None without a white. Slow: for a job. Raises FilmReviewError for one that cannot serve
        and a film of high dynamic range."""
        return self._measuring.reference_near(frame, region, self.whites, progress)

    def white_of(self, moment: Moment, region: Region) -> White | None:
        """The white that this region was measured against last; None when that was none."""
        return self._measuring.white_of(moment, region)

    @property
    def whites(self) -> tuple[PlacedReference, ...]:
        """The whites and other known colours pointed at on this film."""
        review = self.review
        return tuple(one for one in review.references if one.film == self.film_id) if review else ()

    def white_on(self, moment: Moment) -> PlacedReference | None:
        """The one pointed at on this very frame."""
        return next((one for one in self.whites if one.moment == moment), None)

    def set_white(self, frame: Frame, box: Box, change: SetReference, refused: Callable[[], None]) -> None:
        """Keep a white that was pointed at, once it is known to serve; why it does not is told as a message, then refused."""

        def work(progress: Progress) -> Reference:
            progress(0.0, "looking at the white")
            return self._measuring.try_white(frame, box, change.colour)

        def then(_reference: Reference) -> None:
            said = "kept as a white; colours of this view are measured against the white nearest to them"
            if self._has_colours():
                said += "; tags kept before stay as measured"
            self.change(change, lambda _ids: self.message(said), failed)

        def failed(error: FilmReviewError) -> None:
            self.message(str(error))
            refused()

        self.start(work, then, failed, "white")

    def _has_colours(self) -> bool:
        """Whether a tag kept on this film carries a colour measured from its region."""
        tags = self.review.tags if self.review else ()
        facts = (fact for tag in tags if tag.film == self.film_id for fact in tag.facts)
        return any(fact.key == "colour" and fact.origin is Origin.MEASURED for fact in facts)

    def _review_changed(self) -> None:
        self.events.tell("review")
        review = self.review
        if review is None:
            self._take_findings(None)
            return

        def work(_progress: Progress) -> Findings:
            found = findings(review)
            for one in found:
                _ = one.ruling.ahead  # made when first asked for: here, not while the ledger is drawn
            return found

        self.start(work, self._take_findings, self._not_judged, "findings")

    def _take_findings(self, found: Findings | None) -> None:
        self.findings, self.trouble = veiled(found) if found is not None else None, ""
        self.events.tell("findings")

    def _not_judged(self, error: FilmReviewError) -> None:
        self.findings, self.trouble = None, str(error)
        self.message(str(error))
        self.events.tell("findings")


def _close(store: Store, found: Findings | None) -> None:
    """Keep what was ruled, then let the file go."""
    try:
        if found is not None:
            keep(store, found)
    finally:
        store.close()


def _in_words(ruling: Ruling) -> Ruling:
    """The same, with its words made now: they are made when first asked for, and that must not be while a screen is drawn."""
    _ = (ruling.reasons, ruling.needs, ruling.ahead, ruling.todo)
    return ruling

"""Measuring a length on the paused picture, without a screen: first what its size is known by, then the item's two ends.

In: points as they are placed, choices, another frame. Out: "asked" when other points are wanted of the picture, "measured" when
figures or words changed, "put" when the measured fact is on the card. Blur and draws are worked out as jobs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.events import Events
from filmreview.desktop.length_step import OWN_SIZE, THE_FLOOR, Asked, Placed, Step
from filmreview.desktop.length_words import LengthTexts, texts_of
from filmreview.errors import FilmReviewError
from filmreview.facts.keys import KEYS
from filmreview.film.frame import Frame
from filmreview.film.moment import Moment
from filmreview.measure.courts import court_of
from filmreview.measure.decision import Limit, parse_limit
from filmreview.measure.ends import Ends, Point
from filmreview.measure.floor import floor_from
from filmreview.measure.known import known, known_in, known_size
from filmreview.measure.length import ByFloor, ByKnown, SeenLength, see_length
from filmreview.measure.motion import blur_on_film
from filmreview.measure.size import Drawn, summed_up
from filmreview.measure.view import frame_sharpness
from filmreview.progress import Progress
from filmreview.review.line_words import USUAL_SIZE

_CORNERS = (
    "left lane at end line, near", "left lane at free-throw line, near", "left lane at free-throw line, far",
    "left lane at end line, far",
)  # fmt: skip

_LEAST_CORNERS = 4


@dataclass(frozen=True)
class Look:
    """How a length is seen. of: on which frame, between which ends. blur: of motion along it in px, None when not known.
    sharpness_share: of the frame, against the film's sharpest, None when not known."""

    of: tuple[Moment, Ends] | None = None
    blur: float | None = None
    sharpness_share: float | None = None


class LengthPresenter:
    """One length at a time. on: whether one is being measured. frame: it is measured on, None while the film plays."""

    def __init__(self, desk: Desk, card: CardPresenter) -> None:
        self.events = Events("asked", "measured", "put")
        self._desk, self._card = desk, card
        self.on = False
        self.frame: Frame | None = None
        self.step = Step.KNOWN
        self.against = ""
        self.key = "width_in"
        self.court = ""
        self.corners: tuple[str, ...] = _CORNERS
        self.depth, self.lean = 2.0, 0.0
        self.own_size = ""
        self.seen: SeenLength | None = None
        self.drawn: Drawn | None = None
        self.fault = ""
        self._limit = ""
        self._stale: set[Step] = set()
        self._at: dict[Step, Placed] = {}
        self._look: Look | None = None

    @property
    def choices(self) -> tuple[str, ...]:
        """What a size can be known by in a game under this book, the best first."""
        return (*(thing.name for thing in known_in(self._book)), OWN_SIZE, THE_FLOOR)

    @property
    def asked(self) -> Asked | None:
        """The points wanted now; None when none are."""
        if not self.on or self.frame is None:
            return None
        item = KEYS[self.key].words
        if self.step is Step.ITEM:
            names: tuple[str, ...] = (f"{item}: one end", f"{item}: other end")
        else:
            names = self.corners if self.by_floor else (f"{self.thing}: one end", f"{self.thing}: other end")
        return Asked(names, self._at.get(self.step, ()), self.step is Step.KNOWN and self.by_floor)

    @property
    def texts(self) -> LengthTexts:
        """All that is said of it."""
        return texts_of(self)

    @property
    def limit(self) -> Limit | None:
        """The limit asked about; None when there is none or it cannot be read."""
        try:
            return parse_limit(self._limit) if self._limit.strip() else None
        except FilmReviewError:
            return None

    @property
    def limit_fault(self) -> str:
        """Why the limit cannot be read, "" when it can."""
        return "" if self.limit is not None or not self._limit.strip() else 'write "at most 3", "at least 6" or "2 to 4"'

    @property
    def thing(self) -> str:
        """What the size is known by, in a few words."""
        return "known thing" if self.against == OWN_SIZE else self.against

    @property
    def other_frame(self) -> bool:
        """Whether the points asked for were placed on another frame, and lie where they lay in its picture."""
        return self.step in self._stale

    @property
    def by_floor(self) -> bool:
        """Whether court points are used."""
        return self.against == THE_FLOOR

    def begin(self, frame: Frame) -> None:
        """Measure a length on this frame."""
        draft = self._card.draft
        if self.against not in self.choices:
            self.against, self.court = self.choices[0], court_of(self._book)
        if draft is not None and draft.understood.item is not None:
            self.key = USUAL_SIZE.get(draft.understood.item, "width_in")
        self.on, self.frame, self._at, self._stale = True, frame, {}, set()
        self._again(Step.KNOWN)

    def stop(self) -> None:
        """Nothing is to be measured any more."""
        self.on, self.frame, self._at = False, None, {}
        self._desk.forget("length look", "length draws")
        self._again(Step.KNOWN)

    def stand(self, frame: Frame | None) -> None:
        """Another frame is on the picture, or none while the film plays: the known thing is to be looked at again there."""
        if not self.on:
            return
        if (frame and frame.moment) != (self.frame and self.frame.moment):
            self.frame, self._stale = frame, {step for step, at in self._at.items() if any(at)}
            self._again(Step.KNOWN)

    def place(self, points: Sequence[Point | None]) -> None:
        """The points asked for were placed, moved or taken away."""
        self._at[self.step] = tuple(points)
        self._stale.discard(self.step)
        self._measure()

    def go_on(self) -> None:
        """The points are where they belong: on to the item, or with the length onto the card."""
        if not self.on or self.frame is None:
            return
        if self.step is Step.ITEM:
            self._put()
        elif self._against() is not None:
            self._stale.discard(Step.KNOWN)
            self._again(Step.ITEM)
        else:
            self.events.tell("measured")

    def back(self) -> None:
        """Look at the known thing once more."""
        self._again(Step.KNOWN)

    def choose_against(self, name: str) -> None:
        """Another known thing, or the floor."""
        if name != self.against:
            self.against = name
            self._at.pop(Step.KNOWN, None)
            self._again(Step.KNOWN)

    def set_own_size(self, text: str) -> None:
        """The size that the person knows, as typed."""
        self.own_size = text
        self._measure()

    def choose_court(self, name: str) -> None:
        """Another court."""
        self.court = name
        self._again(Step.KNOWN)

    def choose_corner(self, number: int, name: str) -> None:
        """Another court point as the one of this number; one that is used already changes places with it. A number past the
        last one adds a point; no name takes one away, down to four."""
        names = list(self.corners)
        if not name:
            names = names[: max(number, _LEAST_CORNERS)]
        elif number >= len(names):
            names += [name] if name not in names else []
        else:
            if name in names:
                names[names.index(name)] = names[number]
            names[number] = name
        self._at[Step.KNOWN] = self._at.get(Step.KNOWN, ())[: len(names)]
        self.corners = tuple(names)
        self._again(Step.KNOWN)

    def choose_key(self, name: str) -> None:
        """What the length is: width, height ..."""
        self.key = name
        self.events.tell("asked", "measured")

    def set_depth(self, percent: float) -> None:
        """By how many parts of a hundred the item may be nearer or farther than the known thing."""
        self.depth = percent
        self._measure()

    def set_lean(self, degrees: float) -> None:
        """By how many degrees the item may lean away."""
        self.lean = degrees
        self._measure()

    def set_limit(self, text: str) -> None:
        """The limit to be asked about, as typed."""
        self._limit = text
        self.events.tell("measured")

    def draw(self) -> None:
        """Work the length out by drawing every cause at random, too."""
        seen, limit = self.seen, self.limit
        if seen is None:
            return

        def work(progress: Progress) -> Drawn:
            progress(0.0, "drawing lengths")
            return summed_up(seen.draws(), limit)

        self._desk.start(work, self._take_drawn, self._failed, "length draws")

    @property
    def _book(self) -> str | None:
        review = self._desk.review
        return review.game.book if review is not None else None

    def _again(self, step: Step) -> None:
        self.step = step
        self._measure()
        self.events.tell("asked")

    def _against(self) -> ByKnown | ByFloor | None:
        """What the placed points say of the scale; None, and why, when nothing yet."""
        at = self._at.get(Step.KNOWN, ())
        points = [point for point in at if point is not None]
        if len(points) < len(at) or not points or self.frame is None:
            return None
        try:
            if self.by_floor:
                if len(points) < len(self.corners):
                    return None
                clicked = dict(zip(self.corners, points, strict=True))
                return ByFloor(floor_from(self.court, clicked), self.corners)
            ends = Ends(points[0], points[1])
            ends.check(self.frame.width, self.frame.height)
            return ByKnown(
                known_size(self.own_size) if self.against == OWN_SIZE else known(self.against),
                ends,
                self.depth / 100.0,
                self.lean,
            )
        except FilmReviewError as error:
            self.fault = str(error)
            return None

    def _measure(self) -> None:
        """Figures of what is placed now."""
        self.seen, self.drawn, self.fault = None, None, ""
        against = self._against()
        points, frame = [point for point in self._at.get(Step.ITEM, ()) if point is not None], self.frame
        if self.step is Step.ITEM and against is not None and frame is not None and len(points) == 2:
            ends = Ends(points[0], points[1])
            try:
                ends.check(frame.width, frame.height)
                look = self._look_of(ends)
                self.seen = see_length(ends, against, look.blur, look.sharpness_share)
            except FilmReviewError as error:
                self.fault = str(error)
        self.events.tell("measured")

    def _look_of(self, ends: Ends) -> Look:
        """Blur and sharpness there as far as they are known; they are looked for when they are not."""
        film, frame, known, best = self._desk.film, self.frame, self._look, self._desk.sharpest
        if frame is not None and known is not None and known.of == (frame.moment, ends):
            return known
        if film is not None and frame is not None:

            def work(progress: Progress) -> Look:
                progress(0.0, "looking for motion blur")
                share = frame_sharpness(frame.picture()) / best if best else None
                return Look((frame.moment, ends), blur_on_film(film, frame.moment, ends), share)

            self._desk.start(work, self._take_look, self._failed, "length look")
            known = self._look  # where work is done at once it is there already
            if known is not None and known.of == (frame.moment, ends):
                return known
        return Look()

    def _take_look(self, found: Look) -> None:
        self._look = found
        if self.seen is not None and self.frame is not None and found.of == (self.frame.moment, self.seen.ends):
            self._measure()

    def _take_drawn(self, drawn: Drawn) -> None:
        self.drawn = drawn
        self.events.tell("measured")

    def _failed(self, error: FilmReviewError) -> None:
        self._desk.message(str(error))

    def _put(self) -> None:
        seen, frame = self.seen, self.frame
        if seen is None or frame is None:
            self.events.tell("measured")
            return
        fact = seen.length.fact(self.key)
        if fact is None:
            self._desk.message(f"not put on the card: {seen.length.why_not}")
            return
        if self._card.put(frame, fact):
            self._desk.message(f"on the card: {KEYS[self.key].words} {fact.why}")
            self.stop()
            self.events.tell("put")

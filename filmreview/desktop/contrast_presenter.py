"""How the number in the card's region stands out from its jersey, without a screen; the jersey may have a region of its own.

In: the card's region, four corners of a part of the jersey. Out: "asked" when points are wanted of the picture, "measured" when
figures changed, "put" when the number's colour is on the card as a measured fact.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from filmreview.colour.value import Colour
from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.events import Events
from filmreview.desktop.length_step import Asked, Placed
from filmreview.desktop.white_words import NO_WHITE, WHITE_ELSEWHERE, light_words
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Polygon, Region
from filmreview.film.frame import Frame
from filmreview.measure.contrast import MeasuredNumber, measure_number
from filmreview.measure.ends import Point
from filmreview.measure.reference import Reference
from filmreview.progress import Progress
from filmreview.review.model import PlacedReference

DRAW_FIRST = "draw a region close around the number first; {} puts one in the middle"
_CORNERS = ("jersey 1", "jersey 2", "jersey 3", "jersey 4")


class ContrastPresenter:
    """One number at a time. on: whether one is being measured. found: what came of it, None until it is known."""

    def __init__(self, desk: Desk, card: CardPresenter) -> None:
        self.events = Events("asked", "measured", "put")
        self._desk, self._card = desk, card
        self.on = False
        self.frame: Frame | None = None
        self.found: MeasuredNumber | None = None
        self.fault = ""
        self._light = NO_WHITE
        self._asks = False
        self._corners: Placed = ()
        self._measured_of: tuple[Region | None, Region | None, tuple[PlacedReference, ...]] | None = None
        card.events.on("measured", self._card_changed)
        card.events.on("open", self._card_changed)

    @property
    def asked(self) -> Asked | None:
        """The corners wanted of the picture; None when none are."""
        return Asked(_CORNERS, self._corners, closed=True) if self.on and self._asks and self.frame is not None else None

    @property
    def has_jersey(self) -> bool:
        """Whether the jersey has a region of its own."""
        return self._jersey() is not None

    @property
    def value(self) -> str:
        """Whether it stands out, in words."""
        if self.fault:
            return self.fault
        if self.found is None:
            return "measuring the number ..."
        contrast = self.found.contrast
        if contrast is None:
            return f"stands out from the jersey: cannot be told: {self.found.why_not}"
        return f"stands out from the jersey: {contrast.answer}; {contrast.reason}"

    @property
    def behind(self) -> str:
        """The figures behind it."""
        found = self.found
        if found is None or found.contrast is None:
            return ""
        apart = ", ".join(f"{deficiency} {value:.0f}" for deficiency, value in found.contrast.seen_apart)
        lines = [f"number {_told(found.number)}, jersey {_told(found.jersey)}; {found.contrast.figures}"]
        return "\n".join([*lines, f"dE00 to colour-deficient eyes: {apart}; view {found.view}; {self._light}"])

    @property
    def todo(self) -> str:
        """What to do now."""
        if not self.on:
            return ""
        if self._asks and self._jersey() is None:
            return "place four corners on the jersey, beside the number"
        if self.found is not None and self.found.facts():
            return "Enter puts the number's colour on the card" if self._asks else "put the number's colour on the card"
        return "the eye decides: answer on the card" if self.found is not None else ""

    def begin(self, frame: Frame) -> None:
        """Measure the number in the card's region of this frame."""
        draft = self._card.draft
        here = draft is not None and (draft.film, draft.moment) == (self._desk.film_id, frame.moment)
        if draft is None or draft.region is None or not here:
            self._desk.message(DRAW_FIRST.format(self._desk.key("place_region")))
            return
        self.on, self.frame, self._asks, self._corners, self._measured_of = True, frame, False, (), None
        self._measure()
        self.events.tell("asked")

    def stop(self) -> None:
        """Nothing is to be measured any more."""
        self.on, self.frame, self.found, self.fault, self._asks = False, None, None, "", False
        self._desk.forget("contrast")
        self.events.tell("asked", "measured")

    def stand(self, frame: Frame | None) -> None:
        """Another frame is on the picture, or none: the number was measured on its own."""
        if self.on and (frame is None or self.frame is None or frame.moment != self.frame.moment):
            self.stop()

    def show_jersey(self) -> None:
        """The jersey is to have a region of its own; its corners are asked for."""
        if self.on:
            self._asks = True
            self.events.tell("asked", "measured")

    def place(self, points: Sequence[Point | None]) -> None:
        """Corners of the jersey's region were placed, moved or taken away."""
        self._corners = tuple(points)
        self._measure()

    def go_on(self) -> None:
        """Onto the card with the number's colour."""
        found, frame = self.found, self.frame
        facts = found.facts() if found is not None else ()
        if frame is None or found is None:
            return
        if not facts:
            why = found.why_not or (found.contrast.reason if found.contrast else "")
            self._desk.message(f"the number's colour is not put on the card: {why}")
            return
        fact = facts[0]
        if self._light == WHITE_ELSEWHERE:
            fact = replace(fact, why=f"{fact.why}; {WHITE_ELSEWHERE}")
        if self._card.put(frame, fact):
            self._desk.message(f"on the card: the number's colour; {fact.why}")
            self.stop()
            self.events.tell("put")

    def _jersey(self) -> Polygon | None:
        points = [point for point in self._corners if point is not None]
        return Polygon(tuple(points)) if len(points) == len(_CORNERS) else None

    def _card_changed(self) -> None:
        """The number's region was moved, or the card closed."""
        if not self.on:
            return
        draft = self._card.draft
        if draft is None or draft.region is None or self.frame is None or draft.moment != self.frame.moment:
            self.stop()
        else:
            self._measure()

    def _measure(self) -> None:
        draft, frame = self._card.draft, self.frame
        if draft is None or draft.region is None or frame is None or self._desk.film is None:
            return
        region, jersey = draft.region, self._jersey()
        asked = (region, jersey, self._desk.whites)
        if self._measured_of == asked:
            self.events.tell("measured")
            return
        self._measured_of, self.found, self.fault = asked, None, ""

        def work(progress: Progress) -> tuple[MeasuredNumber, Reference | None]:
            progress(0.0, "measuring the number")
            white = self._desk.reference_near(frame, region, progress)
            return measure_number(frame.exact_picture(), region, white, jersey), white

        self._desk.start(work, self._take, self._failed, "contrast")
        self.events.tell("measured")

    def _take(self, answer: tuple[MeasuredNumber, Reference | None]) -> None:
        self.found, white = answer
        self._light = light_words(white is not None, white is not None and white.elsewhere)
        self.events.tell("measured")

    def _failed(self, error: FilmReviewError) -> None:
        self.fault = str(error)
        self.events.tell("measured")


def _told(colour: Colour | None) -> str:
    return "not told" if colour is None else colour.name

"""The region on the picture and the tag on the card: what is drawn goes to the card, what the card has is shown, each on the
exact frame it belongs to. No Qt but the canvas's signals."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.picture import PictureCanvas
from filmreview.desktop.region_history import RegionHistory, Stand
from filmreview.facts.region import Region
from filmreview.film.frame import Frame
from filmreview.film.moment import Moment


class Standing(Protocol):
    """Where the film stands; `film_place.FilmPlace` is one."""

    @property
    def frame(self) -> Frame | None:
        """The exact frame on the picture, None while there is none."""

    def on_frame(self, do: Callable[[Frame], None]) -> None:
        """Do it with the exact frame, now or as soon as it is found."""

    def go_to(self, film_id: str, moment: Moment) -> None:
        """Stand on this moment."""


class RegionWork:
    """Joins one canvas with one card. to_card: called when a region was drawn, the card takes the keys then."""

    def __init__(
        self, canvas: PictureCanvas, desk: Desk, card: CardPresenter, place: Standing, to_card: Callable[[], None]
    ) -> None:
        self._canvas, self._desk, self._card, self._place, self._to_card = canvas, desk, card, place, to_card
        self.history = RegionHistory(card, self._apply)
        canvas.region_drawn.connect(self._drawn)
        canvas.region_changed.connect(self._changed)
        canvas.region_dropped.connect(lambda: self._changed(None))
        card.events.on("open", self.show)
        card.events.on("refused", self.show)  # what was drawn meanwhile is let go
        desk.events.on("film", self.history.begin_anew)

    def back(self) -> str:
        """Undo the last step of the region; its words, "" when there is none and something else is to be undone."""
        words = self.history.back()
        if not words:
            self.history.forget_undone()
        return words

    def show(self) -> None:
        """Show the card's region while its frame is on the picture."""
        draft, frame = self._card.draft, self._place.frame
        here = draft is not None and frame is not None and (draft.film, draft.moment) == (self._desk.film_id, frame.moment)
        self._canvas.set_region(draft.region if here and draft is not None else None)

    def _drawn(self, region: Region) -> None:
        def begin(frame: Frame) -> None:
            if self._card.waits(lambda: begin(frame)):  # no step before it is known which tag it is of
                self._to_card()
                return
            before = self._stand(frame)
            if self._card.draw(frame, region):
                self.history.note(before, Stand(frame, region))
            else:
                self.show()
            self._to_card()

        self._place.on_frame(begin)

    def _changed(self, region: Region | None) -> None:
        draft = self._card.draft
        if draft is None and region is None:
            return
        if draft is not None and region is None and not draft.line.strip():
            frame = self._place.frame
            if frame is not None:
                self.history.note(self._stand(frame), Stand(None, None))
            self.history.keeping(self._card.drop)
            return

        def change(frame: Frame) -> None:
            if self._card.waits(lambda: change(frame)):
                return
            before = self._stand(frame)
            self._card.set_region(frame, region)
            self.history.note(before, Stand(frame, region))

        self._place.on_frame(change)

    def _stand(self, frame: Frame) -> Stand:
        """The card's region before a change. frame: the one on the picture; a region on another frame counts as none."""
        draft = self._card.draft
        here = draft is not None and draft.region is not None and draft.moment == frame.moment
        return Stand(frame, draft.region) if here and draft is not None else Stand(None, None)

    def _apply(self, stand: Stand) -> None:
        draft, frame = self._card.draft, stand.frame or self._place.frame
        if draft is not None and stand.region is None and not draft.line.strip():
            self._card.drop()
        elif frame is not None:
            self._card.set_region(frame, stand.region)
            film_id = self._desk.film_id
            if film_id is not None and self._place.frame != frame:
                self._place.go_to(film_id, frame.moment)
        self.show()

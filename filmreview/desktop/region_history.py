"""The regions that the tag on the card has had: drawing, moving and reshaping are undone before the tag is kept. No Qt."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.events import Events
from filmreview.facts.region import Region
from filmreview.film.frame import Frame

_MOST = 50  # steps kept; each holds a frame that stays decoded


@dataclass(frozen=True)
class Stand:
    """Where the region was. frame: the frame it is on, None before anything was drawn. region: None for none."""

    frame: Frame | None
    region: Region | None


@dataclass(frozen=True)
class RegionStep:
    """One step. words: what it did."""

    before: Stand
    after: Stand
    words: str


class RegionHistory:
    """The steps of one tag on the card; another tag, or the card closed, begins anew.

    apply: gives the card a region on a frame (or none). events: "steps", when what can be undone or redone is different now.
    """

    def __init__(self, card: CardPresenter, apply: Callable[[Stand], None]) -> None:
        self.events = Events("steps")
        self._card, self._apply = card, apply
        self._steps: list[RegionStep] = []
        self._done = 0
        self._applying = False
        self._of: str | None = None
        card.events.on("open", self._card_changed)

    @property
    def undo_words(self) -> str:
        """What would be undone; "" for nothing."""
        return self._steps[self._done - 1].words if self._done else ""

    @property
    def redo_words(self) -> str:
        """What would be redone; "" for nothing."""
        return self._steps[self._done].words if self._done < len(self._steps) else ""

    def note(self, before: Stand, after: Stand) -> None:
        """The region was drawn, moved, reshaped or taken away by the person; what was undone cannot be redone any more."""
        if before == after:
            return
        step = RegionStep(before, after, _words(before.region, after.region))
        self._steps = [*self._steps[: self._done], step][-_MOST:]
        self._done = len(self._steps)
        self._of = self._card.draft.id if self._card.draft is not None else self._of
        self.events.tell("steps")

    def back(self) -> str:
        """Undo the last step; its words, "" for nothing."""
        words = self.undo_words
        if words:
            self._done -= 1
            self._put(self._steps[self._done].before)
        return words

    def again(self) -> str:
        """Redo the next step; its words, "" for nothing."""
        words = self.redo_words
        if words:
            self._done += 1
            self._put(self._steps[self._done - 1].after)
        return words

    def forget_undone(self) -> None:
        """What was undone here cannot be redone: something else was undone since."""
        self._steps = self._steps[: self._done]
        self.events.tell("steps")

    def keeping(self, do: Callable[[], None]) -> None:
        """Do something that closes the card, and keep the steps nevertheless."""
        self._applying = True
        do()
        self._applying = False

    def _put(self, stand: Stand) -> None:
        self.keeping(lambda: self._apply(stand))
        self.events.tell("steps")

    def _card_changed(self) -> None:
        draft = self._card.draft
        if not self._applying and self._steps and (draft is None or draft.id != self._of):
            self.begin_anew()

    def begin_anew(self) -> None:
        """Forget all steps: another tag is on the card, or another film on the picture, which their frames are not of."""
        self._steps, self._done, self._of = [], 0, None
        self.events.tell("steps")


def _words(before: Region | None, after: Region | None) -> str:
    if before is None:
        return "draw the region"
    return "take the region away" if after is None else "change the region"

"""The people's side of one window: own calls, another's review, several films, letters. Joins; decides nothing."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from filmreview.desktop.draft import NEW
from filmreview.desktop.films_in_force import FilmsInForce
from filmreview.desktop.keys_in_force import native
from filmreview.desktop.letters_in_force import LettersInForce
from filmreview.desktop.other_review_in_force import OtherReviewInForce
from filmreview.desktop.own_call_in_force import OwnCallsInForce
from filmreview.desktop.replies_reading import RepliesReading

if TYPE_CHECKING:  # the window makes it; it only needs its type
    from filmreview.desktop.window import DeskWindow


class People:
    """Made before the window's deeds, joined to them once its actions are there."""

    def __init__(self, window: DeskWindow) -> None:
        self._window = window
        self.films = FilmsInForce(window.desk, window.film_place, window.opening, self._key, window)
        self.own_calls = OwnCallsInForce(window.desk, window.below, self._meant, window)
        self.other_review = OtherReviewInForce(window.desk, window.film_place, window)
        self.own_calls.place.jump_wanted.connect(self._go_to_tag)
        self.letters = LettersInForce(window.desk, self._go_to_tag, window)
        self.replies = RepliesReading(window.desk, window, window.sheet_folder)

    def handlers(self) -> Mapping[str, Callable[[], object]]:
        """One a deed of the people's side."""
        parts = (self.films, self.own_calls, self.other_review, self.letters, self.replies)
        return {name: handler for part in parts for name, handler in part.handlers().items()}

    def join(self) -> None:
        """The window has its deeds, actions and keys."""
        self._window.desk.key = self._key
        self._window.keys.presenter.events.on("keys", self._show_keys)
        self._show_keys()
        self._window.card_presenter.events.on("kept", self._kept)
        self.own_calls.take_action(self._window.actions_by_name["hide_rulings"])

    def _kept(self) -> None:
        """Whoever reviews himself is told how he gets to his call."""
        if self.own_calls.presenter.hidden:
            self._window.desk.message(f"kept; {self._key('own_call')} gives your own call, and then shows the ruling")

    def _go_to_tag(self, tag: str) -> None:
        self._window.deeds.go_to_tag(tag)

    def _meant(self) -> str:
        """The tag that is meant now: the kept one on the card, or the row chosen in the ledger."""
        draft = self._window.card_presenter.draft
        if draft is not None and draft.id != NEW:
            return draft.id
        return next(iter(self._window.ledger.chosen()), "")

    def _key(self, name: str) -> str:
        """The key of a deed, or its words in the menu where it has none."""
        keys = self._window.keys.presenter
        given = keys.given(name).both
        return native(given[0]) if given else keys.place_of(name)

    def _show_keys(self) -> None:
        self._window.card.show_keys(*map(self._key, ("place_region", "tag_here", "keys")))
        self._window.below.stoppages.refresh()
        self._window.below.clock.refresh()

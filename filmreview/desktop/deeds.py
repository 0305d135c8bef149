"""What happens when something in the menus is chosen or a tag is gone to: one handler a deed of `actions.DEEDS`."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from PyQt6.QtCore import Qt

from filmreview.desktop.compare_place import chosen_tag
from filmreview.desktop.film_place import NO_FILM
from filmreview.desktop.help_dialogs import AboutDialog
from filmreview.desktop.lesson_making import LessonMaking
from filmreview.desktop.setup_throwing import ask_unless_kept
from filmreview.desktop.sheet_making import SheetMaking
from filmreview.desktop.unkept import Unkept
from filmreview.film.film import Film

if TYPE_CHECKING:  # the window makes its deeds; they only need its type
    from filmreview.desktop.window import DeskWindow

ZOOM_STEP = 1.25


class Deeds:
    """The handlers of one window."""

    def __init__(self, window: DeskWindow) -> None:
        self._window = window
        self._sheet = SheetMaking(window.desk, window.jobs, window.messages, window, window.sheet_folder)
        self._lesson = LessonMaking(window.desk, window.jobs, window.messages, window, window.sheet_folder)

    def handlers(self) -> Mapping[str, Callable[[], object]]:
        """One a name of `actions.DEEDS`."""
        below, people = self._window.below.handlers(), self._window.people.handlers()
        return {
            **self._review_handlers(),
            **self._tag_handlers(),
            **self._film_handlers(),
            **self._go_handlers(),
            **below,
            **people,
            **self._window.by_hand.handlers(),
            **self._window.reading.handlers(),
        }

    def go_to_tag(self, tag_id: str) -> None:
        """Stand on a tag's moment, and choose its row."""
        review = self._window.desk.review
        if review is None:
            return
        tag = review.tag(tag_id)
        self._window.ledger.choose(tag_id)
        self._window.film_place.go_to(tag.film, tag.moment)

    def change_tag(self, tag_id: str) -> None:
        """Go to a tag and open it on the card, unless that would lose what is written there."""
        card = self._window.card_presenter
        if card.unsaved and card.draft is not None and card.draft.id != tag_id:
            self._ask_to_keep_or_drop()
            return
        self.go_to_tag(tag_id)
        if card.draft is None or card.draft.id != tag_id:
            card.open_tag(tag_id)
        self._window.card.take_keys()

    def _review_handlers(self) -> Mapping[str, Callable[[], object]]:
        window, opening = self._window, self._window.opening
        return {
            "new": lambda: self._unless_unsaved(opening.ask_film),
            "open": lambda: self._unless_unsaved(opening.ask_review),
            "made_up": lambda: self._unless_unsaved(window.made_up.ask),
            "setup": opening.change_setup,
            "add_film": opening.ask_another_film,
            "find_film": opening.ask_lost_film,
            "sheet": self._sheet.ask,
            "lesson": self._lesson.ask,
            "close": self._close_review,
            "quit": self.quit,
            "settings": self._ask_settings,
            "keys": self._ask_keys,
            "about": lambda: AboutDialog(window).open(),
        }

    def _tag_handlers(self) -> Mapping[str, Callable[[], object]]:
        window, film = self._window, self._window.film_place
        return {
            "undo": lambda: self._walk("undone", film.regions.back(), window.undo.back),
            "redo": lambda: self._walk("redone", film.regions.history.again(), window.undo.again),
            "tag_here": film.tag_here,
            "place_region": self._place_region,
            "region_shape": film.next_shape,
            "point_white": film.point_at_white,
            "keep": window.card_presenter.keep,
            "drop": window.card_presenter.drop,
            "change": self._change_chosen,
            "remove": window.ledger.remove_chosen,
        }

    def _film_handlers(self) -> Mapping[str, Callable[[], object]]:
        place = self._window.film_place
        player, canvas, bar = place.player, place.canvas, place.bar
        return {
            "play": player.toggle,
            "back": lambda: player.step(-1),
            "forward": lambda: player.step(1),
            "second_back": lambda: self._window.settings.jump(-1),
            "second_forward": lambda: self._window.settings.jump(1),
            "film_start": lambda: player.jump_to(Fraction(0)),
            "film_end": self._to_end,
            "slower": lambda: bar.step_rate(-1),
            "faster": lambda: bar.step_rate(1),
            "sound": lambda: player.set_sound(not player.sound),
            "loop_from": place.loop.from_here,
            "loop_to": place.loop.to_here,
            "loop_off": place.loop.loop.off,
            "beside_here": place.hold_beside,
            "beside_tag": self._tag_beside,
            "beside_swap": place.compare.swap,
            "beside_off": place.compare.beside.off,
            "go_beside": place.compare.take_keys,
            "nearer": lambda: canvas.zoom_by(ZOOM_STEP),
            "farther": lambda: canvas.zoom_by(1 / ZOOM_STEP),
            "whole": canvas.fit,
        }

    def _go_handlers(self) -> Mapping[str, Callable[[], object]]:
        window, reason = self._window, Qt.FocusReason.ShortcutFocusReason
        return {
            "go_picture": lambda: window.film_place.canvas.setFocus(reason),
            "go_strip": lambda: window.film_place.strip.setFocus(reason),
            "go_card": window.card.take_keys,
        }

    def _walk(self, what: str, words: str, on: Callable[[Callable[[str], None]], None]) -> None:
        """A step of the region that is not kept yet was undone or redone, else one of the review is."""
        if words:
            self._say(what, words)
        else:
            on(lambda said: self._say(what, said))

    def _say(self, what: str, words: str) -> None:
        """Say what was undone or redone."""
        review = self._window.desk.review
        if review is not None:
            self._window.desk.message(f"{what}: {words}" + ("" if review.films else f"; {NO_FILM}"))

    def _ask_settings(self) -> None:
        self._window.settings.ask()

    def _ask_keys(self) -> None:
        self._window.settings.ask_keys()

    def _close_review(self) -> None:
        self._unless_unsaved(self._window.opening.close_review)

    @property
    def unkept(self) -> Unkept:
        """What the card and the own calls hold that is not kept."""
        card = self._window.card_presenter
        on_card = card.unsaved and not card.keeping
        return replace(self._window.people.own_calls.unkept(), on_card=on_card, is_change=on_card and not card.is_new)

    def quit(self) -> None:
        """Quit, once it is meant that what is typed and not kept goes."""
        unkept = self.unkept
        back = self._window.card.take_keys if unkept.on_card else self._window.people.own_calls.go_to_typed
        ask_unless_kept(self._window, unkept, self._window.close, back)

    def _unless_unsaved(self, do: Callable[[], object]) -> None:
        """Do what lets this review go, unless that would lose what is written on the card; own calls typed are asked about, and
        a letter being typed is kept."""
        if self._window.card_presenter.unsaved:
            self._ask_to_keep_or_drop()
            return

        def let_go() -> None:
            self._window.people.letters.close()
            do()

        own_calls = self._window.people.own_calls
        ask_unless_kept(self._window, own_calls.unkept(), let_go, own_calls.go_to_typed)

    def _ask_to_keep_or_drop(self) -> None:
        self._window.desk.message("keep or drop what is on the card first: Enter or Esc")
        self._window.card.take_keys()

    def _place_region(self) -> None:
        place = self._window.film_place
        place.player.pause()
        region, draft = place.canvas.place_region(), self._window.card_presenter.draft
        if region is not None and draft is not None and draft.region == region:  # not when the card refused it
            desk = self._window.desk
            desk.message(f"a region is put in the middle; {desk.key('go_picture')}, then Alt and arrows move it")

    def _change_chosen(self) -> None:
        chosen = self._window.ledger.chosen()
        if chosen:
            self.change_tag(chosen[0])
        else:
            self._window.desk.message("choose a row of the ledger first")

    def _tag_beside(self) -> None:
        tag = chosen_tag(self._window.card_presenter, self._window.ledger.chosen)
        if tag is None:
            self._window.desk.message("choose a row of the ledger, or open a tag on the card first")
        else:
            self._window.film_place.compare.hold_tag(tag)

    def _to_end(self) -> None:
        film: Film | None = self._window.desk.film
        if film is not None:
            self._window.film_place.player.jump(film.moment_of(len(film.index) - 1))

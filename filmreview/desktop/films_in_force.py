"""Several films of one game in the window: their dialog, and going to the same instant on another film."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from PyQt6.QtWidgets import QWidget

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.film_place import FilmPlace
from filmreview.desktop.films_dialog import FilmsDialog
from filmreview.desktop.films_presenter import FilmsPresenter
from filmreview.desktop.opening import Opening


class FilmsInForce:
    """The films of one window. key: how this system writes the key of a deed, "" for none."""

    def __init__(self, desk: Desk, film_place: FilmPlace, opening: Opening, key: Callable[[str], str], window: QWidget) -> None:
        self._desk, self._film_place, self._opening, self._key, self._window = desk, film_place, opening, key, window
        self.presenter = FilmsPresenter(desk)
        self._dialog: FilmsDialog | None = None
        self._wanted: tuple[str, Fraction] | None = None
        desk.events.on("review", self._refresh)
        desk.events.on("film", self._film_changed)

    def handlers(self) -> Mapping[str, Callable[[], object]]:
        """What happens for the deeds about films."""
        return {
            "films": self.ask,
            "common_instant": lambda: self.presenter.note(self._film_place.place_now()),
            "same_instant": self._go_elsewhere,
        }

    def ask(self) -> None:
        """Show the films, in one dialog however often it is asked for."""
        if self._dialog is not None:
            self._dialog.raise_()
            self._dialog.activateWindow()
            return
        note, go = self._key("common_instant"), self._key("same_instant")
        words = (
            f"Two films of one game are tied by a shared instant: stand on it on one film and press {note}, then stand on it "
            f"on the other film and press {note} again. From then on {go} goes to the same instant on the other film."
        )
        dialog = FilmsDialog(self.presenter, words, self._window)
        dialog.add_wanted.connect(self._opening.ask_another_film)
        dialog.show_wanted.connect(self._opening.show_film)
        dialog.finished.connect(self._closed)
        self._dialog = dialog
        dialog.show()

    def _go_elsewhere(self) -> None:
        there = self.presenter.elsewhere(self._film_place.place_now())
        if there is not None:
            self._wanted = there
            self._film_place.bar.film_wanted.emit(there[0])

    def _film_changed(self) -> None:
        """The film wanted is on the picture now: go on to the instant. While it is being read the wish stays."""
        wanted = self._wanted
        if wanted is not None and self._desk.film_id != wanted[0]:
            self._wanted = None
        elif wanted is not None and self._desk.film is not None:
            self._wanted = None
            self._film_place.player.jump_to(wanted[1])
        self._refresh()

    def _refresh(self) -> None:
        if self._dialog is not None:
            self._dialog.refresh()

    def _closed(self) -> None:
        if self._dialog is not None:
            self._dialog.deleteLater()
            self._dialog = None

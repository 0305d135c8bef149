"""What is measured by hand on the picture: a length, a time, a number's contrast. Joins their presenters and panels to the
picture's points, the film and the card. One of them has the points at a time."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from PyQt6.QtWidgets import QTabWidget

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.contrast_panel import ContrastPanel
from filmreview.desktop.contrast_presenter import ContrastPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.elapsed_panel import ElapsedPanel
from filmreview.desktop.elapsed_presenter import ElapsedPresenter
from filmreview.desktop.film_place import FilmPlace
from filmreview.desktop.length_page import MeasuringPage
from filmreview.desktop.length_panel import LengthPanel
from filmreview.desktop.length_presenter import LengthPresenter
from filmreview.desktop.length_step import Asked
from filmreview.film.frame import Frame

Measurer = LengthPresenter | ContrastPresenter


class ByHand:
    """The three measurers of one window. place: the picture and its film. tabs: where their panels stand."""

    def __init__(self, place: FilmPlace, tabs: QTabWidget, desk: Desk, card: CardPresenter) -> None:
        self._place, self._desk = place, desk
        self.length = LengthPresenter(desk, card)
        self.contrast = ContrastPresenter(desk, card)
        self.elapsed = ElapsedPresenter(desk, card)
        self.length_panel = LengthPanel(self.length)
        self.contrast_panel = ContrastPanel(self.contrast)
        self.elapsed_panel = ElapsedPanel(self.elapsed)
        self._shown: Asked | None = None
        self._busy = False
        self._path: Path | None = None
        self.page = MeasuringPage(
            tabs,
            (self.length_panel, self.contrast_panel, self.elapsed_panel),
            {"A length": self._begin_length, "A number": self._begin_number, "A time": self._begin_time},
        )
        self._connect()

    def handlers(self) -> Mapping[str, Callable[[], object]]:
        """One a name of `actions.DEEDS`."""
        return {
            "measure_length": self._begin_length,
            "measure_time": self._begin_time,
            "measure_number": self._begin_number,
            "measure_stop": self.stop,
            "go_measuring": self.page.take_keys,
        }

    def stop(self) -> None:
        """Nothing is to be measured any more."""
        for measurer in (self.length, self.contrast, self.elapsed):
            if measurer.on:
                measurer.stop()

    def _connect(self) -> None:
        player, points = self._place.player, self._place.canvas.points
        player.frame_shown.connect(self._stand)
        player.playing_changed.connect(lambda playing: self._stand(None) if playing else None)
        points.changed.connect(self._placed)
        points.taken.connect(self._taken)
        points.ended.connect(self._ended)
        for button in (self.length_panel.next, self.length_panel.back, self.contrast_panel.own):
            button.clicked.connect(self._to_picture)  # a choice in a list keeps the focus, a step goes on at the picture
        self.elapsed_panel.anew_wanted.connect(self._begin_time)
        self._desk.events.on("film", self._film_changed)
        self._desk.events.on("review", self._review_changed)
        for shown in (self.length, self.contrast, self.elapsed):
            shown.events.on("measured", self._show)
        for measurer in (self.length, self.contrast):
            measurer.events.on("asked", self._ask)
            measurer.events.on("put", self._place.card_wanted.emit)

    def _show(self) -> None:
        """The page comes and goes with what is measured."""
        busy = self.length.on or self.contrast.on or self.elapsed.on
        if busy and not self._busy:
            self.page.open()
        self.page.close_when_idle(busy)
        self._busy = busy

    def _to_picture(self) -> None:
        if self._place.canvas.points.active:
            self._place.canvas.setFocus()

    def _begin_length(self) -> None:
        if self._desk.film is None:
            return
        self._place.player.pause()
        self.contrast.stop()
        self._place.on_frame(self.length.begin)
        self._place.canvas.setFocus()

    def _begin_number(self) -> None:
        if self._desk.film is None:
            return
        self._place.player.pause()
        self.length.stop()
        self._place.on_frame(self.contrast.begin)

    def _begin_time(self) -> None:
        if self._desk.film is None:
            return
        self._place.player.pause()
        self._place.on_frame(self.elapsed.begin)

    def _stand(self, frame: Frame | None) -> None:
        for measurer in (self.length, self.contrast, self.elapsed):
            measurer.stand(frame)

    def _film_changed(self) -> None:
        """What was begun on one film does not go on on another; a time waits there for its own."""
        self.length.stop()
        self.contrast.stop()
        self.elapsed.stand(None)

    def _review_changed(self) -> None:
        """Another review, or none: its films are not those that something was begun on."""
        review = self._desk.review
        path = review.path if review is not None else None
        if path != self._path:
            self._path = path
            self.stop()

    @property
    def _measurer(self) -> Measurer | None:
        return next((one for one in (self.length, self.contrast) if one.asked is not None), None)

    def _ask(self) -> None:
        """Ask the picture for the points wanted now, or take them off it."""
        measurer, points = self._measurer, self._place.canvas.points
        asked = measurer.asked if measurer is not None else None
        if asked is None:
            if self._shown is not None:
                points.stop()
        elif self._shown is None or asked.names != self._shown.names or asked.at != points.at:
            points.begin(asked.names, asked.at, asked.closed)
        self._shown = asked

    def _placed(self, at: object) -> None:
        measurer = self._measurer
        if measurer is not None and isinstance(at, tuple):
            measurer.place(at)

    def _taken(self, at: object) -> None:
        measurer = self._measurer
        if measurer is not None and isinstance(at, tuple):
            measurer.place(at)
            measurer.go_on()

    def _ended(self) -> None:
        self._shown = None
        measurer = self._measurer
        if measurer is not None:
            measurer.stop()

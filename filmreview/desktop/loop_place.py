"""The loop joined to the player, the row of controls and the film strip."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.film_bar import FilmBar
from filmreview.desktop.loop_gate import LoopGate
from filmreview.desktop.loop_presenter import Loop
from filmreview.desktop.player import Player
from filmreview.desktop.region_work import Standing
from filmreview.desktop.strip import FilmStrip
from filmreview.film.moment import Moment


class LoopPlace:
    """Sets the loop's start and end at the exact frame on the picture; a film that played meanwhile plays on in the loop."""

    def __init__(self, desk: Desk, place: Standing, player: Player, bar: FilmBar, strip: FilmStrip) -> None:
        self._desk, self._place, self._player, self._bar, self._strip = desk, place, player, bar, strip
        self._play_on = False
        self.loop = Loop(desk, self._ready)
        self.loop.events.on("loop", self._show)
        bar.loop_from_here.connect(self.from_here)
        bar.loop_to_here.connect(self.to_here)
        bar.loop_off.connect(self.loop.off)
        strip.loop_end_wanted.connect(self.drag_to)
        strip.loop_end_dragged.connect(self.loop.tell_dragged)
        strip.loop_end_left.connect(self.loop.tell)
        player.playing_changed.connect(self._person_decides)

    def from_here(self) -> None:
        """The loop starts at the frame on the picture."""
        self._set(self.loop.from_here)

    def to_here(self) -> None:
        """The loop ends before the frame on the picture."""
        self._set(self.loop.to_here)

    def drag_to(self, end: bool, seconds: Fraction) -> None:
        """The loop's end, or its start, was dragged on the film strip: the same as with that frame on the picture."""
        self._set(lambda _moment: self.loop.drag_to(end, seconds))

    def _set(self, end: Callable[[Moment], None]) -> None:
        playing = self._player.playing
        self._player.pause()
        self._play_on = playing
        self._place.on_frame(lambda frame: end(frame.moment))

    def _person_decides(self, _playing: bool) -> None:
        """Whoever plays or pauses while the loop is made ready has said what he wants."""
        self._play_on = False

    def _ready(self, gate: LoopGate | None) -> None:
        self._player.set_loop(gate)
        play_on, self._play_on = self._play_on, False
        if gate is not None and play_on:
            self._player.play()

    def _show(self) -> None:
        film, loop = self._desk.film, self.loop
        self._bar.show_loop(loop.words)
        if film is None or loop.start is None:
            self._strip.set_loop(None)
            return
        end = film.time_of(loop.end) if loop.end is not None else film.info.duration
        self._strip.set_loop((film.time_of(loop.start), end))

"""The loop without a screen: its start and end on the film at hand, and making it ready for the player."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.events import Events
from filmreview.desktop.loop_gate import LoopGate, loop_gate
from filmreview.errors import FilmReviewError
from filmreview.film.moment import Moment, format_time
from filmreview.progress import Progress

JOB = "loop"


class Loop:
    """start, end: of the span that plays over and over, the end not included; None while it is not set, and for an end that is
    the film's own. play: told the loop that is ready, None when there is none any more. events: "loop"."""

    def __init__(self, desk: Desk, play: Callable[[LoopGate | None], None]) -> None:
        self.events = Events("loop")
        self._desk, self._play = desk, play
        self.start: Moment | None = None
        self.end: Moment | None = None
        desk.events.on("film", self._film_changed)

    @property
    def on(self) -> bool:
        """Whether there is a loop."""
        return self.start is not None

    @property
    def words(self) -> str:
        """The loop as a person reads it; "" for none."""
        return self._words_of(self.start, self.end)

    def from_here(self, moment: Moment) -> None:
        """The loop starts here; an end that lies before goes."""
        end = self.end if self.end is not None and self.end.seconds > moment.seconds else None
        self._set(moment, end)

    def to_here(self, moment: Moment) -> None:
        """The loop ends before this frame; without a start, or with one that lies after, it starts with the film."""
        film = self._desk.film
        if film is None:
            return
        start = self.start if self.start is not None and self.start.seconds < moment.seconds else film.start
        if moment.seconds <= start.seconds:
            self._desk.message("a loop that ends with the first frame holds none: go on a little first")
            return
        self._set(start, moment)

    def drag_to(self, end: bool, seconds: Fraction) -> None:
        """The loop's end, or its start, is the frame on screen at that time, as if that frame were on the picture; one frame at
        least stays in the loop. seconds: from the film's start."""
        dragged = self._dragged(end, seconds)
        if dragged is not None:
            self._set(*dragged)

    def tell_dragged(self, end: bool, seconds: Fraction) -> None:
        """Say what the loop would be if it were let go there."""
        dragged = self._dragged(end, seconds)
        if dragged is not None:
            self._desk.message(f"the loop: {self._words_of(*dragged)}")

    def tell(self) -> None:
        """Say again what the loop is."""
        if self.on:
            self._desk.message(f"the loop: {self.words}")

    def off(self) -> None:
        """No loop any more."""
        if self.on:
            self._clear()
            self._desk.message("the loop is off")

    def _set(self, start: Moment, end: Moment | None) -> None:
        film = self._desk.film
        if film is None:
            return
        self.start, self.end = start, end
        self.events.tell("loop")
        self.tell()

        def work(_progress: Progress) -> LoopGate:
            return loop_gate(film, start, end)

        self._desk.start(work, self._play, self._refused, JOB)

    def _words_of(self, start: Moment | None, end: Moment | None) -> str:
        film = self._desk.film
        if film is None or start is None:
            return ""
        last = format_time(film.time_of(end)) if end is not None else "the end of the film"
        return f"{format_time(film.time_of(start))} up to {last}"

    def _dragged(self, end: bool, seconds: Fraction) -> tuple[Moment, Moment | None] | None:
        """Start and end with one of them dragged to that time; None without a loop."""
        film = self._desk.film
        if film is None or self.start is None:
            return None
        frames = film.info.frames
        number = film.number_of(film.moment_at(seconds)) if seconds < film.info.duration else frames
        if end:
            number = max(number, film.number_of(self.start) + 1)
            return self.start, film.moment_of(number) if number < frames else None
        last = film.number_of(self.end) if self.end is not None else frames
        return film.moment_of(min(number, last - 1)), self.end

    def _refused(self, error: FilmReviewError) -> None:
        self._clear()
        self._desk.message(str(error))

    def _film_changed(self) -> None:
        if self.on:
            self._clear()

    def _clear(self) -> None:
        self.start = self.end = None
        self._desk.forget(JOB)
        self._play(None)
        self.events.tell("loop")

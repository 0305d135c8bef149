"""The time from a first moment to the one on the picture, without a screen."""

from __future__ import annotations

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.events import Events
from filmreview.errors import FilmReviewError
from filmreview.film.frame import Frame
from filmreview.film.moment import Moment, format_time
from filmreview.measure.decision import answer, parse_limit
from filmreview.measure.elapsed import Elapsed, chance_kept, elapsed_on

PAUSE = "pause the film: the time is told from frame to frame"


class ElapsedPresenter:
    """What is known of one stretch of time. first: its first moment, None while none is set."""

    def __init__(self, desk: Desk, card: CardPresenter) -> None:
        self.events = Events("measured")
        self._desk, self._card = desk, card
        self.first: Moment | None = None
        self.took: Elapsed | None = None
        self.fault = ""
        self._film_id: str | None = None
        self._now: Frame | None = None
        self._limit = ""

    @property
    def on(self) -> bool:
        """Whether a first moment is set."""
        return self.first is not None

    @property
    def head(self) -> str:
        """From when to when."""
        if self.first is None:
            return ""
        start = f"from {self._time(self.first)}"
        return start if self.took is None or self._now is None else f"{start} to {self._time(self._now.moment)}"

    @property
    def words(self) -> str:
        """ "1.902 ± 0.014 s, off by 0.033 s at most", or why there is none."""
        if self.took is None:
            return self.fault or PAUSE
        took = self.took
        line = f"{float(took.seconds):.3f} ± {took.amount.plus_minus:.3f} s, off by {float(took.at_most_off):.3f} s at most"
        return line + (f"; {self._decision(took)}" if self._limit.strip() else "")

    def begin(self, frame: Frame) -> None:
        """This frame is the first moment."""
        self.first, self._film_id = frame.moment, self._desk.film_id
        self.stand(frame)

    def stop(self) -> None:
        """No time is told any more."""
        self.first, self.took, self.fault = None, None, ""
        self.events.tell("measured")

    def stand(self, frame: Frame | None) -> None:
        """This frame is on the picture now; None while the film plays."""
        film = self._desk.film
        self._now, self.took, self.fault = frame, None, ""
        if self.first is None:
            return
        if self._film_id != self._desk.film_id:
            self.fault = "the first moment is on another film: set it anew on this one"
        elif frame is not None and film is not None:
            try:
                self.took = elapsed_on(film, self.first, frame.moment)
            except FilmReviewError:
                self.fault = f"the picture is before {self._time(self.first)}: go on, or set the first moment anew"
        self.events.tell("measured")

    def set_limit(self, text: str) -> None:
        """The limit in seconds to be asked about, as typed."""
        self._limit = text
        self.events.tell("measured")

    def note(self) -> None:
        """Write the time into the note of the card."""
        draft = self._card.draft
        if self.took is None:
            return
        if draft is None:
            self._desk.message("open the card first: a time stands in a tag's note")
            return
        before = draft.understood.note.strip()
        words = f"{float(self.took.seconds):.3f} ± {self.took.amount.plus_minus:.3f} s {self.head}"
        self._card.set_note(f"{before}; {words}" if before else words)

    def _decision(self, took: Elapsed) -> str:
        try:
            limit = parse_limit(self._limit)
        except FilmReviewError as error:
            return error.todo or str(error)
        chance = chance_kept(took, limit)
        return f"{limit} s: {answer(chance)} (P {chance:.2f})"

    def _time(self, moment: Moment) -> str:
        film = self._desk.film
        return format_time(film.time_of(moment)) if film is not None and self._film_id == self._desk.film_id else "then"

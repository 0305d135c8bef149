"""A second moment beside the picture, without a screen: which one it is, and opening its film.

Tags never go to it: it is only to look at. It stays while the picture goes on, on the same film or on another one of the game.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.events import Events
from filmreview.desktop.known_films import KEPT_BESIDE
from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.film.moment import Moment
from filmreview.progress import Progress
from filmreview.review.common_time import instant_on, offset
from filmreview.review.films import found_film

JOB = "film beside"


class Beside:
    """The moment beside. film_id, moment: where it is, None while there is none.

    take_film: given the film of that moment when another one is needed (who is given it closes it); None to let it go.
    stand: told the moment to show. events: "beside" when there is one, none, or another one.
    """

    def __init__(self, desk: Desk, take_film: Callable[[Film | None], None], stand: Callable[[Moment], None]) -> None:
        self.events = Events("beside")
        self._desk, self._take_film, self._stand = desk, take_film, stand
        self.film_id: str | None = None
        self.moment: Moment | None = None
        self._open: str | None = None  # the film that is open beside
        desk.events.on("review", self._review_changed)

    @property
    def on(self) -> bool:
        """Whether there is a moment beside."""
        return self.film_id is not None

    def hold(self, film_id: str, moment: Moment) -> None:
        """Have this moment beside, in place of any other."""
        self.film_id, self.moment = film_id, moment
        if self._open == film_id:
            self._desk.forget(JOB)
            self._stand(moment)
        else:
            self._fetch(film_id)
        self.events.tell("beside")

    def hold_film(self, film_id: str, now: Moment | None) -> None:
        """Have another film of the game beside: at the instant of the picture (now) where a shared instant ties the two, else
        at its start."""
        review = self._desk.review
        if review is None:
            return
        seconds = Fraction(0)
        if now is not None and self._desk.film_id not in (None, film_id):
            try:
                seconds = instant_on(review, self._desk.film_id or "", now, film_id)
            except FilmReviewError as error:
                self._desk.message(f"{error}; from its start")
        self.film_id, self.moment = film_id, None
        self._fetch(film_id, seconds)
        self.events.tell("beside")

    def hold_tag(self, tag_id: str) -> None:
        """Have a kept tag's moment beside."""
        review = self._desk.review
        if review is not None:
            tag = review.tag(tag_id)
            self.hold(tag.film, tag.moment)

    def stands_on(self, moment: Moment) -> None:
        """The picture beside was stepped to this moment."""
        self.moment = moment
        self.events.tell("beside")

    def off(self) -> None:
        """Nothing beside any more."""
        if not self.on:
            return
        self.film_id = self.moment = self._open = None
        self._desk.forget(JOB)
        self._take_film(None)
        self.events.tell("beside")

    def apart(self, moment: Moment | None) -> str:
        """How far it is from the moment on the picture, in words; "" on a film that no shared instant ties to that one."""
        review, film_id, own = self._desk.review, self.film_id, self.moment
        if review is None or moment is None or film_id is None or own is None or self._desk.film_id is None:
            return ""
        between = offset(review, film_id, self._desk.film_id)
        if between is None:
            return ""
        there = review.film(film_id).seconds_of(own) + between
        seconds = float(there - review.film(self._desk.film_id).seconds_of(moment))
        if seconds == 0:
            return "the same moment" if film_id == self._desk.film_id else "the same instant"
        return f"{abs(seconds):.3f} s {'later' if seconds > 0 else 'earlier'}"

    def _fetch(self, film_id: str, seconds: Fraction = Fraction(0)) -> None:
        review = self._desk.review
        if review is None:
            return
        self._open = None
        self._take_film(None)  # what is shown must never be of another film than it says

        def work(progress: Progress) -> Film:
            return self._desk.films.open(found_film(review, film_id), progress, kept_bytes=KEPT_BESIDE)

        def then(film: Film) -> None:
            self._open = film_id
            self._take_film(film)
            self._stand(self.moment if self.moment is not None else film.moment_at(seconds))

        self._desk.start(work, then, self._lost, JOB)

    def _lost(self, error: FilmReviewError) -> None:
        self.off()
        self._desk.message(str(error))

    def _review_changed(self) -> None:
        review = self._desk.review
        if self.on and (review is None or all(film.id != self.film_id for film in review.films)):
            self.off()

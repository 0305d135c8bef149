"""The films of one game without a screen: what each shows, how they lie to each other, and the same instant on another one."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from filmreview.desktop.desk_presenter import Desk
from filmreview.errors import FilmReviewError
from filmreview.film.moment import Moment, format_time
from filmreview.review.changes import RemoveFilm, Together
from filmreview.review.common_time import departure, departure_words, instant_on, tied, title_of
from filmreview.review.model import Review
from filmreview.review.stretch_changes import NameFilm, RemoveCommonMoment, SetCommonMoment

Place = tuple[str, Moment]
"""A film of the review and a moment on it."""
NOT_TIED = "no shared instant yet"


@dataclass(frozen=True)
class FilmRow:
    """One film. tags: how many lie on it. common: how it is tied to others, in words. here: whether it is on the picture."""

    film: str
    what: str
    name: str
    length: str
    tags: int
    common: str
    here: bool


class FilmsPresenter:
    """The films of the open review. noted: the instant that waits for its other film; None for none."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self.noted: Place | None = None
        desk.events.on("review", self._review_changed)

    def rows(self) -> tuple[FilmRow, ...]:
        """One row a film, in the order of the review."""
        review = self._desk.review
        if review is None:
            return ()
        return tuple(
            FilmRow(
                one.id,
                one.what,
                one.name,
                format_time(one.length),
                sum(tag.film == one.id for tag in review.tags),
                _common_words(review, one.id),
                one.id == self._desk.film_id,
            )
            for one in review.films
        )

    def name(self, film: str, what: str) -> bool:
        """Say what a film shows. True when it was taken."""
        return self._desk.try_change(NameFilm(film, what))

    def remove(self, film: str) -> bool:
        """Take a film out of the review; refused while anything lies on it."""
        return self._desk.try_change(RemoveFilm(film))

    def untie(self, film: str) -> bool:
        """Take away every shared instant of a film; False when it has none."""
        review = self._desk.review
        found = [one for one in review.commons if film in (one.film, one.other)] if review else []
        if not found:
            self._desk.message("this film has no shared instant with another one")
            return False
        return self._desk.try_change(Together(tuple(RemoveCommonMoment(one.id) for one in found)))

    def note(self, place: Place | None) -> None:
        """Note an instant; on another film than the one noted before, both are the same instant from now on."""
        review = self._desk.review
        if review is None or place is None:
            return
        if len(review.films) < 2:
            self._desk.message("the review has one film: add the other one first, with Review, Films of the game")
            return
        film, moment = place
        if self.noted is None or self.noted[0] == film:
            self.noted = place
            self._desk.message(
                f"noted: {review.time_text(film, moment)} of {title_of(review.film(film))}; now stand on the same instant of "
                "another film and do this again"
            )
            return
        self._tie(review, self.noted, place)

    def _tie(self, review: Review, one: Place, other: Place) -> None:
        apart = departure(review, *one, *other)
        doubt = departure_words(apart) if apart is not None else ""
        said = f"{_place_words(review, one)} and {_place_words(review, other)} are the same instant"

        def then(_ids: tuple[str, ...]) -> None:
            self.noted = None
            self._desk.message(f"{said}; {doubt}" if doubt else said)

        self._desk.try_change(SetCommonMoment(*one, *other), then)

    def elsewhere(self, place: Place | None) -> tuple[str, Fraction] | None:
        """The next film that shows the same instant, and its seconds there. None, with a message why, when none does."""
        review = self._desk.review
        if review is None or place is None:
            return None
        film, moment = place
        ids = [one.id for one in review.films]
        place_in = ids.index(film)
        round_from_here = [*ids[place_in + 1 :], *ids[:place_in]]
        known = {one.id for one in tied(review, film)}
        told = ""
        for other in (one for one in round_from_here if one in known):
            try:
                return other, instant_on(review, film, moment, other)
            except FilmReviewError as error:
                told = told or str(error)
        self._desk.message(told or _no_other(review, film))
        return None

    def _review_changed(self) -> None:
        review = self._desk.review
        if self.noted is not None and (review is None or all(one.id != self.noted[0] for one in review.films)):
            self.noted = None


def _no_other(review: Review, film: str) -> str:
    if len(review.films) < 2:
        return "the review has no other film"
    return f"{title_of(review.film(film))} has no shared instant with another film: set one first"


def _place_words(review: Review, place: Place) -> str:
    return f"{review.time_text(*place)} of {title_of(review.film(place[0]))}"


def _common_words(review: Review, film: str) -> str:
    """ "0:20.000 is 0:05.000 of end line (b.mp4)", one a tie."""
    found = []
    for other in review.films:
        common = review.common_of(film, other.id)
        if common is not None:
            there = other.time_text(common.other_moment)
            found.append(f"{review.time_text(film, common.moment)} is {there} of {title_of(other)}")
    return "; ".join(found) or NOT_TIED

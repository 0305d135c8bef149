"""One time line through all films of a game: films that are tied lie beside each other, all others one after the other.

The procedures need it: an event put down on a second angle happened when it happened, not after the first film.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from filmreview.film.moment import Moment
from filmreview.review.common_time import offset
from filmreview.review.model import FilmRef, Review


@dataclass(frozen=True)
class Laid:
    """A film on the time line of the game. begins: seconds at which it begins there."""

    film: FilmRef
    begins: Fraction

    @property
    def ends(self) -> Fraction:
        """Seconds at which it is over."""
        return self.begins + self.film.length


def time_line(review: Review) -> tuple[Laid, ...]:
    """Every film where it lies, in the order of the review. Without common moments they follow one another."""
    laid: dict[str, Laid] = {}
    over = Fraction(0)
    for film in review.films:
        if film.id in laid:
            continue
        ties = {other.id: seconds for other in review.films if (seconds := offset(review, film.id, other.id)) is not None}
        first = max(ties.values())  # the one that began earliest shows any instant at its latest time
        group = [Laid(other, over + first - ties[other.id]) for other in review.films if other.id in ties]
        laid |= {one.film.id: one for one in group}
        over = max(one.ends for one in group)
    return tuple(laid[film.id] for film in review.films)


def game_seconds(review: Review, film_id: str, moment: Moment) -> Fraction:
    """A moment of a film as seconds on the time line of the game."""
    film = review.film(film_id)
    begins = next(one.begins for one in time_line(review) if one.film.id == film_id)
    return begins + film.seconds_of(moment)


def place_at(review: Review, at: Fraction) -> tuple[FilmRef, Fraction]:
    """The first film of the review that shows a time of the game, and the seconds in it.

    A time that no film shows is told on the last film that began before it.
    """
    line = time_line(review)
    shown = next((one for one in line if one.begins <= at < one.ends), None)
    one = shown or max((one for one in line if one.begins <= at), key=lambda one: one.begins, default=line[0])
    return one.film, at - one.begins

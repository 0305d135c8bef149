"""The time of one game on its several films: where the instant seen on one film lies on another.

One common moment ties two films (`model.CommonMoment`); films tied through a third are tied too. All recordings are taken to
run at the same rate: `departure` tells how far a second common moment is from what the ties say, which is how a wrong one, a
cut or a film of another rate is noticed.
"""

from __future__ import annotations

from fractions import Fraction

from filmreview.errors import FilmReviewError
from filmreview.film.moment import Moment, format_time
from filmreview.review.model import FilmRef, Review

LARGEST_DEPARTURE = Fraction(1, 5)
"""Seconds: two instants picked by eye on two films may lie this far apart (common practice: a frame or two each at 15 to 30
frames a second); more says that something is wrong with one of them."""


def offset(review: Review, film_id: str, other_id: str) -> Fraction | None:
    """Seconds to add to a time on a film (from its start) to get the same instant on the other; None when they are not tied.

    The shortest chain of common moments is taken, so a tie of the two themselves counts before one through a third film.
    """
    review.film(film_id), review.film(other_id)
    known: dict[str, Fraction] = {film_id: Fraction(0)}
    line = [film_id]
    while line and other_id not in known:
        here = line.pop(0)
        for there, seconds in _ties(review, here):
            if there not in known:
                known[there] = known[here] + seconds
                line.append(there)
    return known.get(other_id)


def tied(review: Review, film_id: str) -> tuple[FilmRef, ...]:
    """The other films on which an instant of this one can be found, in the order of the review."""
    return tuple(one for one in review.films if one.id != film_id and offset(review, film_id, one.id) is not None)


def instant_on(review: Review, film_id: str, moment: Moment, other_id: str) -> Fraction:
    """The same instant as seconds from the start of the other film.

    Raises FilmReviewError when the two are not tied, or the other film does not show that instant.
    """
    here, there = review.film(film_id), review.film(other_id)
    seconds = offset(review, film_id, other_id)
    if seconds is None:
        raise FilmReviewError(f"{title_of(here)} and {title_of(there)} have no shared instant", todo="set one first")
    at = here.seconds_of(moment) + seconds
    if at < 0:
        raise _outside(here, there, moment, f"begins {_lasting(-at)} later")
    if at >= there.length:
        over = at - there.length
        raise _outside(here, there, moment, f"ended {_lasting(over)} before" if over else "ends at that instant")
    return at


def departure(review: Review, film_id: str, moment: Moment, other_id: str, other_moment: Moment) -> Fraction | None:
    """How many seconds a new common moment lies from what the ties so far say; None when the films are not tied yet."""
    seconds = offset(review, film_id, other_id)
    if seconds is None:
        return None
    new = review.film(other_id).seconds_of(other_moment) - review.film(film_id).seconds_of(moment)
    return new - seconds


def departure_words(seconds: Fraction) -> str:
    """What to say of a departure; "" when it is no larger than the eye may err."""
    if abs(seconds) <= LARGEST_DEPARTURE:
        return ""
    return (
        f"this is {float(abs(seconds)):.2f} s from what the earlier shared instant said: one of them is wrong, "
        "a film was cut, or the films do not run at the same rate"
    )


def title_of(film: FilmRef) -> str:
    """A film for a person: "second half (q3-q4.mp4)", or its file's name."""
    return f"{film.what} ({film.name})" if film.what else film.name


def _ties(review: Review, film_id: str) -> list[tuple[str, Fraction]]:
    found = []
    for other in review.films:
        common = review.common_of(film_id, other.id)
        if common is not None:
            there = other.seconds_of(common.other_moment)
            found.append((other.id, there - review.film(film_id).seconds_of(common.moment)))
    return found


def _outside(here: FilmRef, there: FilmRef, moment: Moment, how: str) -> FilmReviewError:
    return FilmReviewError(f"{title_of(there)} does not show {here.time_text(moment)} of {title_of(here)}: it {how}")


def _lasting(seconds: Fraction) -> str:
    return f"{float(seconds):.1f} s" if seconds < 60 else format_time(seconds)

"""Time between two moments. Something seen on a frame happened at some time during it, so each end is known to half a frame."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Amount
from filmreview.film.film import Film
from filmreview.film.moment import Moment
from filmreview.measure.decision import Limit


@dataclass(frozen=True)
class Elapsed:
    """seconds: difference of the two frame times, exact. first_frame, last_frame: how long each of the two frames stands, in
    seconds; each end is uncertain by half of that either way, each time as likely."""

    seconds: Fraction
    first_frame: Fraction
    last_frame: Fraction

    @property
    def amount(self) -> Amount:
        """Seconds with their standard uncertainty: two rectangular ends, (a^2 + b^2) / 12."""
        spread = (float(self.first_frame) ** 2 + float(self.last_frame) ** 2) / 12.0
        return Amount(float(self.seconds), spread**0.5)

    @property
    def at_most_off(self) -> Fraction:
        """Seconds the difference can be off: half of each frame."""
        return (self.first_frame + self.last_frame) / 2

    def chance_at_most(self, limit: Fraction) -> float:
        """Probability that the true time is at most the limit (a trapezoid, exact; not the normal approximation)."""
        long, short = max(self.first_frame, self.last_frame), min(self.first_frame, self.last_frame)
        late = limit - self.seconds
        if short == 0:
            return _clamped((late + long / 2) / long) if long else float(late >= 0)
        # the mean, over the shorter end's place, of the share of the longer end that keeps the limit
        edges = (_ramp_area(late + long / 2 + short / 2) - _ramp_area(late + long / 2 - short / 2)) - (
            _ramp_area(late - long / 2 + short / 2) - _ramp_area(late - long / 2 - short / 2)
        )
        return float(edges / (long * short))


def elapsed(first: Fraction, first_frame: Fraction, last: Fraction, last_frame: Fraction) -> Elapsed:
    """The time from one frame to another, all in seconds. Raises FilmReviewError when the last comes before the first."""
    if last < first:
        raise FilmReviewError("the second moment comes before the first", todo="swap them")
    return Elapsed(last - first, first_frame, last_frame)


def elapsed_on(film: Film, first: Moment, last: Moment) -> Elapsed:
    """The time between two frames of one film, from their exact times. Raises FilmReviewError when the last comes before the
    first, or for a moment at which the film has no frame."""
    return elapsed(film.time_of(first), frame_length(film, first), film.time_of(last), frame_length(film, last))


def chance_kept(took: Elapsed, limit: Limit) -> float:
    """Probability that the true time keeps a limit in seconds, its ends as exact as they are written."""
    high = took.chance_at_most(_exact(limit.high)) if limit.high in limit.ends else 1.0
    low = took.chance_at_most(_exact(limit.low)) if limit.low in limit.ends else 0.0
    return max(high - low, 0.0)


def _exact(seconds: float) -> Fraction:
    return Fraction(repr(seconds))


def frame_length(film: Film, moment: Moment) -> Fraction:
    """Seconds that the frame at a moment stands: to the next one, the last one to the film's end."""
    following = film.next(moment)
    end = film.info.duration if following is None else film.time_of(following)
    return max(end - film.time_of(moment), Fraction(0))


def _ramp_area(x: Fraction) -> Fraction:
    """Twice integrated step: x^2 / 2 from 0 on."""
    return x * x / 2 if x > 0 else Fraction(0)


def _clamped(share: Fraction) -> float:
    return float(min(max(share, Fraction(0)), Fraction(1)))

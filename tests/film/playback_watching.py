"""What the playback tests share: a listener that keeps what was handed over, and reading the number off a picture."""

import time
from collections.abc import Callable
from fractions import Fraction

from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.film.playback import Shown
from fixtures.films.burnt import read_number


class Watcher:
    """A listener that remembers."""

    def __init__(self) -> None:
        self.shown: list[Shown] = []
        self.ended = 0
        self.failed: list[FilmReviewError] = []

    def picture_due(self, shown: Shown) -> None:
        self.shown.append(shown)

    def film_ended(self) -> None:
        self.ended += 1

    def playback_failed(self, error: FilmReviewError) -> None:
        self.failed.append(error)

    def numbers(self) -> list[int | None]:
        """The burnt number of every picture handed over so far."""
        return [read_number(shown.picture) for shown in self.shown]


Wait = Callable[[Callable[[], bool], float], bool]  # waits until it holds, at most so many seconds; whether it does


def wait_asleep(until: Callable[[], bool], seconds: float) -> bool:
    end = time.monotonic() + seconds
    while not until() and time.monotonic() < end:
        time.sleep(0.002)
    return until()


def far_hint(shown: Shown, film: Film, off: Fraction) -> Shown:
    """The same picture with a time that is off by so many seconds."""
    return Shown(shown.picture, min(max(Fraction(0), shown.seconds + off), film.info.duration), Fraction(1, 5))

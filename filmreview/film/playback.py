"""Playback: one narrow interface with two sources behind it, and nothing of a screen in it.

A source plays a film with its sound and hands every picture over as it is due. What a source says about time is a hint, never
stored: on pause `playback_match.shown_frame` finds the exact frame of the picture that was handed over last.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from filmreview.errors import FilmReviewError
from filmreview.film.moment import Moment

RATES: tuple[float, ...] = (0.25, 0.5, 0.75, 1.0, 1.5, 2.0)
SOURCES: tuple[str, ...] = ("vlc", "built-in")


@dataclass(frozen=True)
class Shown:
    """A picture as a source hands it over to be painted.

    picture: (h, w, 3) upright R'G'B' of 8 bits, converted as `Frame.picture` converts. seconds: from the film's start, where
    the source takes itself to be. slack: seconds by which that may be wrong; half a frame or less for a source that knows.
    """

    picture: NDArray[np.uint8]
    seconds: Fraction
    slack: Fraction


class Listener(Protocol):
    """Who a source tells. All three are called on a thread of the source's own: be quick, and do not call the source back."""

    def picture_due(self, shown: Shown) -> None:
        """This picture is on screen from now on."""

    def film_ended(self) -> None:
        """The last picture was handed over."""

    def playback_failed(self, error: FilmReviewError) -> None:
        """The source cannot play on; nothing more comes."""


class Playback(Protocol):
    """A source playing one film. All methods are called from one thread, that of the screen.

    name: one of SOURCES. rates: those it can play at.
    """

    name: str
    rates: tuple[float, ...]

    def play(self, start: Moment) -> None:
        """Play from this moment on, paused or playing before. The first pictures may still be of where it was before. Raises
        FilmReviewError when it is known already that the film cannot be played."""

    def pause(self) -> None:
        """Stop; no picture is handed over once this has returned."""

    def set_rate(self, rate: float) -> None:
        """Play at this rate, now if playing and ever after."""

    def set_sound(self, on: bool) -> None:
        """Sound on or off, now if playing and ever after. A machine without a sound device stays silent."""

    def close(self) -> None:
        """Stop and let go of everything; a second time does nothing."""

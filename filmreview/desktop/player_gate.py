"""Keeps the picture from jerking when playing begins: sources first hand over a few pictures from where they were before."""

from __future__ import annotations

import time

import numpy as np

from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.film.playback import Shown
from filmreview.film.playback_match import difference

_FRAMES = 5  # a source may skip the first few frames
_ALIKE = 2.5  # mean difference in levels: some sources scale the picture, so it need not be equal; the eye sees no jerk
_PATIENCE = 0.4  # seconds after the first picture, after which everything is let through


def opening_pictures(film: Film, number: int) -> list[np.ndarray]:
    """The pictures one of which playing should begin with: of this frame and the few after it."""
    pictures = []
    for one in range(number, min(number + _FRAMES, film.info.frames)):
        try:
            pictures.append(film.frame(one).picture())
        except FilmReviewError:
            continue  # damaged: the source will not show it either
    return pictures


class OpeningGate:
    """Lets pictures through from the first one on that is among the expected ones. Once open, throw it away."""

    def __init__(self, pictures: list[np.ndarray]) -> None:
        self._pictures = pictures
        self._since: float | None = None

    def lets_through(self, shown: Shown) -> bool:
        """Whether this picture may be painted."""
        self._since = self._since or time.monotonic()
        if time.monotonic() - self._since > _PATIENCE:
            return True
        return any(difference(shown.picture, picture) < _ALIKE for picture in self._pictures)

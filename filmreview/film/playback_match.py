"""Which exact frame is this picture? Found by looking, because what playback sources say about time cannot be relied on.

The picture handed over is compared with the decoded frames around the time it is thought to be from, the likeliest first. A
source decodes the same bits into the same picture, so the comparison nearly always ends with an equal one; frames that
equal each other cannot be told apart by any eye, and of these the one nearest in time is taken.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.film.frame import Frame
from filmreview.film.playback import Shown

_LOOKED_THROUGH = (Fraction(2, 5), Fraction(3, 2), Fraction(5))  # seconds to either side, one after the other
_KNOWS = Fraction(1, 10)  # a source with no more slack than this tells the time with the picture: only the first is needed
_ALIKE = 1.0  # mean difference in levels below which a picture is held for the same frame, decoded a little differently


def shown_frame(film: Film, shown: Shown) -> Frame:
    """The frame that the picture handed over is of. Raises FilmReviewError when no frame around there can be decoded."""
    best: tuple[float, Frame] | None = None
    for number in _likeliest_first(film, shown):
        if number is None:
            if best is not None and best[0] < _ALIKE:
                break
            continue
        try:
            frame = film.frame(number)
        except FilmReviewError:
            continue  # a damaged frame is never the one that was seen
        apart = difference(shown.picture, frame.picture())
        if best is None or apart < best[0]:
            best = (apart, frame)
        if apart == 0.0:
            break
    if best is None:
        raise FilmReviewError("no frame here can be decoded", where=str(film.path), todo="go to another place of the film")
    return best[1]


def difference(one: NDArray[np.uint8], other: NDArray[np.uint8]) -> float:
    """Mean difference in levels of green (most of the luma) of two pictures, over every second row; infinite when they are
    of different size."""
    if one.shape != other.shape:
        return float("inf")
    a, b = one[::2, :, 1], other[::2, :, 1]
    return float(np.mean(np.maximum(a, b) - np.minimum(a, b)))


def _likeliest_first(film: Film, shown: Shown) -> Iterator[int | None]:
    """Numbers of frames from the hinted time outwards; None each time a wider ring begins."""
    time_base = film.index.time_base
    centre = film.index.number_on_screen((film.start.seconds + shown.seconds) / time_base)
    yield centre
    looked: set[int] = {centre}
    for ring in _LOOKED_THROUGH if shown.slack > _KNOWS else _LOOKED_THROUGH[:1]:
        reach = ring + shown.slack
        first = film.index.number_on_screen((film.start.seconds + shown.seconds - reach) / time_base)
        last = film.index.number_on_screen((film.start.seconds + shown.seconds + reach) / time_base)
        numbers = [number for number in range(first, last + 1) if number not in looked]
        looked.update(numbers)
        yield from sorted(numbers, key=lambda number: abs(number - centre))
        yield None

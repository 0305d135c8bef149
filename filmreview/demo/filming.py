"""Write the made-up film: pictures drawn two at a time, sound beside them."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from fractions import Fraction
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from filmreview.demo.drawing import HEIGHT, WIDTH, draw_picture
from filmreview.demo.gym_sound import SOUND_RATE, gym_sound
from filmreview.demo.play import RATE, SECONDS
from filmreview.film.writing import FilmWriter, Writing
from filmreview.progress import Progress, silent

PICTURES = SECONDS * RATE
_BITRATE = 3_500_000  # bits a second at full size
_AHEAD = 6  # pictures being drawn before they are needed
_HANDS = 2


def film_game(
    path: Path, progress: Progress = silent, pictures: int = PICTURES, size: tuple[int, int] = (WIDTH, HEIGHT)
) -> None:
    """Draw the film's first pictures and write them with their sound: H.264, 25 a second, AAC.

    size: width, height, 16:9. Raises FilmReviewError when the file cannot be written, Stopped when progress raises it.
    """
    sound = gym_sound(pictures / RATE)
    step = SOUND_RATE // RATE
    bitrate = _BITRATE * size[0] * size[1] // (WIDTH * HEIGHT)
    writing = Writing(*size, Fraction(RATE), preset="superfast", bitrate=bitrate, sound_rate=SOUND_RATE)
    with FilmWriter(path, writing) as writer:
        for number, picture in enumerate(_drawn(pictures, size)):
            writer.add_picture(picture)
            writer.add_sound(sound[number * step : (number + 1) * step])
            if number % RATE == 0:
                progress(number / pictures, "drawing the film")


def _drawn(pictures: int, size: tuple[int, int]) -> Iterator[NDArray[np.uint8]]:
    """The pictures in order; threads draw some ahead, since drawing spends its time where Python lets others run."""
    if pictures:
        draw_picture(0, size)  # makes what all pictures share once, before the threads start
    waiting: deque[Future[NDArray[np.uint8]]] = deque()
    with ThreadPoolExecutor(_HANDS) as hands:
        try:
            for number in range(pictures):
                waiting.append(hands.submit(draw_picture, number, size))
                if len(waiting) > _AHEAD:
                    yield waiting.popleft().result()
            while waiting:
                yield waiting.popleft().result()
        finally:
            hands.shutdown(cancel_futures=True)

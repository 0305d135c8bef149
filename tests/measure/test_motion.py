"""Motion blur of a length, from the frames around."""

import numpy as np
import pytest

from filmreview.film.film import open_film
from filmreview.measure.ends import Ends
from filmreview.measure.motion import blur_along, blur_on_film
from tests.measure.films import FILMS


def _frames(step: tuple[int, int]) -> list[np.ndarray]:
    """Three pictures of a speckled band on a speckled wall; the band moves by a step each frame."""
    draw = np.random.default_rng(3)
    wall = draw.integers(60, 90, (120, 160, 3), dtype=np.uint8)
    band = draw.integers(120, 240, (12, 30, 3), dtype=np.uint8)
    frames = []
    for number in (-1, 0, 1):
        picture = wall.copy()
        x, y = 60 + number * step[0], 50 + number * step[1]
        picture[y : y + 12, x : x + 30] = band
        frames.append(picture)
    return frames


@pytest.mark.parametrize(
    ("step", "ends", "blur"),
    [
        ((0, 0), Ends((60, 56), (90, 56)), 0.0),
        ((6, 0), Ends((60, 56), (90, 56)), 3.0),  # half the frame time open (common practice): half of what it moves
        ((6, 0), Ends((75, 50), (75, 62)), 0.0),  # across its motion nothing is blurred
        ((3, 4), Ends((60, 50), (66, 58)), 2.5),
    ],
)
def test_half_of_the_motion_along_the_length(step: tuple[int, int], ends: Ends, blur: float) -> None:
    assert blur_along(_frames(step), 1, ends) == pytest.approx(blur, abs=0.01)


def test_what_is_not_found_again_has_no_known_blur() -> None:
    draw = np.random.default_rng(4)
    frames = [draw.integers(0, 255, (120, 160, 3), dtype=np.uint8) for _ in range(3)]
    assert blur_along(frames, 1, Ends((60, 56), (90, 56))) is None
    assert blur_along(frames[:1], 0, Ends((60, 56), (90, 56))) is None


def test_a_still_patch_of_a_film_is_not_blurred() -> None:
    with open_film(FILMS / "colour-709-limited.mp4") as film:
        for number in (0, 3, film.info.frames - 1):
            assert blur_on_film(film, film.moment_of(number), Ends((40, 60), (120, 60))) == 0.0

"""Times between moments, each end known to half a frame."""

from fractions import Fraction

import numpy as np
import pytest

from filmreview.errors import FilmReviewError
from filmreview.film.film import open_film
from filmreview.measure.elapsed import elapsed, elapsed_on, frame_length
from tests.measure.films import FILMS

NTSC = Fraction(1001, 30000)


def test_the_difference_is_exact() -> None:
    took = elapsed(100 * NTSC, NTSC, 1900 * NTSC, NTSC)
    assert took.seconds == Fraction(1800 * 1001, 30000)
    assert took.at_most_off == NTSC
    assert took.amount.plus_minus == pytest.approx(float(NTSC) / 6**0.5)


@pytest.mark.parametrize(
    "frames", [(Fraction(1, 30), Fraction(1, 30)), (Fraction(1, 25), Fraction(1, 10)), (Fraction(1, 25), Fraction(0))]
)
def test_chances_agree_with_draws(frames: tuple[Fraction, Fraction]) -> None:
    took = elapsed(Fraction(5), frames[0], Fraction(25), frames[1])
    draw = np.random.default_rng(2)
    first = 5 + draw.uniform(-0.5, 0.5, 200_000) * float(frames[0])
    last = 25 + draw.uniform(-0.5, 0.5, 200_000) * float(frames[1])
    for late in (-0.03, -0.01, 0.0, 0.008, 0.02, 0.2):
        assert took.chance_at_most(Fraction(20) + Fraction(late)) == pytest.approx(
            np.mean(last - first <= 20 + late), abs=0.006
        )
    assert took.amount.plus_minus == pytest.approx(np.std(last - first), rel=0.01)


def test_a_limit_met_to_the_frame_cannot_be_told() -> None:
    took = elapsed(Fraction(0), Fraction(1, 30), Fraction(15), Fraction(1, 30))
    assert took.chance_at_most(Fraction(15)) == pytest.approx(0.5)
    assert took.chance_at_most(Fraction(15) + Fraction(1, 30)) == 1.0
    assert took.chance_at_most(Fraction(15) - Fraction(1, 30)) == 0.0


def test_still_pictures_have_no_error() -> None:
    took = elapsed(Fraction(1), Fraction(0), Fraction(2), Fraction(0))
    assert (took.chance_at_most(Fraction(1)), took.chance_at_most(Fraction(99, 100))) == (1.0, 0.0)


def test_moments_in_the_wrong_order() -> None:
    with pytest.raises(FilmReviewError, match="swap them"):
        elapsed(Fraction(2), NTSC, Fraction(1), NTSC)


def test_frames_of_a_film_by_their_own_times() -> None:
    """`constant.mp4` has 90 frames of 1001 ticks of 1/30000 s (its truth file)."""
    with open_film(FILMS / "constant.mp4") as film:
        took = elapsed_on(film, film.moment_of(3), film.moment_of(60))
        assert took.seconds == 57 * NTSC
        assert took.at_most_off == NTSC
        assert frame_length(film, film.moment_of(89)) == pytest.approx(NTSC)
        with pytest.raises(FilmReviewError, match="swap them"):
            elapsed_on(film, film.moment_of(60), film.moment_of(3))


def test_frames_that_stand_long_make_a_time_less_sure() -> None:
    with open_film(FILMS / "variable.mp4") as film:
        lengths = [frame_length(film, film.moment_of(number)) for number in range(film.info.frames)]
        long, short = lengths.index(max(lengths[1:-1])), 1
        took = elapsed_on(film, film.moment_of(short), film.moment_of(long))
        assert lengths[long] > lengths[short]
        assert took.at_most_off == (lengths[short] + lengths[long]) / 2

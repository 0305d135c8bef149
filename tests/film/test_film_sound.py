"""Sound of a span: the right track, the right pitch, at the right sample."""

from fractions import Fraction

import made
import numpy as np
import pytest
from drawn import tone
from footage import real_footage
from numpy.typing import NDArray

from filmreview.errors import FilmReviewError
from filmreview.film.moment import Moment, Span
from filmreview.film.sound import read_sound

TICK = Fraction(1, 90_000)


def span(start: Fraction, end: Fraction) -> Span:
    return Span(Moment(round(start / TICK), TICK), Moment(round(end / TICK), TICK))


def pitch(samples: NDArray[np.float32], rate: int) -> float:
    spectrum = np.abs(np.fft.rfft(samples * np.hanning(len(samples))))
    return float(spectrum.argmax() * rate / len(samples))


@pytest.mark.parametrize(("track", "expected"), [(0, 440), (1, 660)])
def test_tracks_are_told_apart(track: int, expected: int) -> None:
    samples, rate = read_sound(made.film("two-tracks.mp4"), span(Fraction(1, 2), Fraction(3, 2)), track)
    assert samples.shape == (48_000, 1)
    assert abs(pitch(samples[:, 0], rate) - expected) < 2


@pytest.mark.parametrize(("name", "first"), [("variable.mp4", 0), ("late-start.mp4", 5), ("transport.ts", 10)])
def test_samples_stand_where_they_were_written(name: str, first: int) -> None:
    """AAC loses a little (0.0006 here); a shift by one sample of the 440 Hz tone would leave an error of 0.008."""
    start = first + Fraction(1, 2)
    samples, rate = read_sound(made.film(name), span(start, start + Fraction(1, 4)))
    expected = tone(rate, rate // 2, rate // 4, 440)[0]
    assert np.sqrt(np.mean((samples[:, 0] - expected) ** 2)) < 0.002


def test_where_there_is_no_sound_there_is_silence() -> None:
    samples, rate = read_sound(made.film("late-start.mp4"), span(Fraction(4), Fraction(5)))
    assert np.abs(samples[: rate * 9 // 10]).max() == 0


def test_many_channels_of_real_footage() -> None:
    samples, rate = read_sound(real_footage("bigbuckbunny.mp4"), span(Fraction(1), Fraction(2)))
    assert (samples.shape, rate) == ((48_000, 6), 48_000)
    assert np.abs(samples).max() > 0.01


def test_a_track_that_is_not_there_is_refused() -> None:
    with pytest.raises(FilmReviewError, match="no sound track 2: the film has 2 sound tracks"):
        read_sound(made.film("two-tracks.mp4"), span(Fraction(0), Fraction(1)), 2)
    with pytest.raises(FilmReviewError, match="the film has no sound"):
        read_sound(made.film("constant.mp4"), span(Fraction(0), Fraction(1)))

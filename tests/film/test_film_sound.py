"""Sound of a span: the right track, the right pitch, at the right sample."""

from fractions import Fraction
from pathlib import Path

import av
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


def test_sound_that_changes_its_layout_on_the_way(tmp_path: Path) -> None:
    """A broadcast that goes from one channel to two: read as the film says at its start, at the right samples."""
    parts = []
    for number, layout in enumerate(("mono", "stereo")):
        path = tmp_path / f"{layout}.ts"
        write_part(path, layout, first=10 + number)
        parts.append(path.read_bytes())
    whole = tmp_path / "whole.ts"
    whole.write_bytes(b"".join(parts))
    start = Fraction(10 * 48_128, 48_000) + Fraction(1, 4)
    samples, rate = read_sound(whole, span(start, start + Fraction(3, 2)))
    assert samples.shape == (72_000, 1)
    expected = tone(rate, 10 * 48_128 + 12_000, 72_000, 440)[0]
    for early, late, loud in ((0, 30_000, 1.0), (42_000, 70_000, 2**0.5)):  # two alike channels add up at equal power
        away = samples[early:late, 0] - loud * expected[early:late]
        assert np.sqrt(np.mean(away**2)) < 0.002


def write_part(path: Path, layout: str, first: int) -> None:
    """One second of pictures and tone from second `first` on."""
    with av.open(str(path), "w", options={"mpegts_copyts": "1"}) as out:
        pictures = out.add_stream("mpeg2video", rate=25)
        pictures.width, pictures.height, pictures.pix_fmt = 64, 48, "yuv420p"
        sound = out.add_stream("aac", rate=48_000, layout=layout)
        sound.bit_rate = 192_000
        for number in range(25):
            frame = av.VideoFrame(64, 48, "yuv420p")
            frame.pts, frame.time_base = first * 25 + number, Fraction(1, 25)
            out.mux(pictures.encode(frame))
        for at in range(first * 48_128, (first + 1) * 48_128, 1024):
            channels = 1 if layout == "mono" else 2
            block = np.ascontiguousarray(np.repeat(tone(48_000, at, 1024, 440), channels, axis=0))
            samples = av.AudioFrame.from_ndarray(block, format="fltp", layout=layout)
            samples.sample_rate, samples.pts, samples.time_base = 48_000, at, Fraction(1, 48_000)
            out.mux(sound.encode(samples))
        out.mux(pictures.encode(None))
        out.mux(sound.encode(None))

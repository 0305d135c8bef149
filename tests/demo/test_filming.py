"""The made-up film and its sound, a short stretch at a small size."""

from pathlib import Path

import numpy as np
import pytest

from filmreview.demo.filming import film_game
from filmreview.demo.gym_sound import SOUND_RATE, gym_sound
from filmreview.demo.play import FOUL, HORN
from filmreview.errors import Stopped
from filmreview.film.film import open_film

SMALL = (320, 180)


def loudness(sound: np.ndarray, second: float, low: float, high: float) -> float:
    """How much of half a second from a second on lies between two pitches."""
    part = sound[round(second * SOUND_RATE) : round((second + 0.5) * SOUND_RATE)]
    pitches = np.fft.rfftfreq(len(part), 1 / SOUND_RATE)
    power = np.abs(np.fft.rfft(part)) ** 2
    return float(power[(pitches > low) & (pitches < high)].sum())


def test_a_short_film_reads_back(tmp_path: Path) -> None:
    film_game(tmp_path / "short.mp4", pictures=30, size=SMALL)
    with open_film(tmp_path / "short.mp4") as film:
        info = film.info
        assert (info.frames, info.width, info.height, info.rate, info.trouble) == (30, 320, 180, 25, ())
        assert (info.matrix, info.matrix_assumed, info.range) == ("bt709", False, "limited")
        assert len(info.sound) == 1
        assert film.frame(12).picture().std() > 20


def test_the_same_film_each_time(tmp_path: Path) -> None:
    for name in ("one.mp4", "two.mp4"):
        film_game(tmp_path / name, pictures=12, size=SMALL)
    assert (tmp_path / "one.mp4").read_bytes() == (tmp_path / "two.mp4").read_bytes()


def test_a_stop_leaves_nothing(tmp_path: Path) -> None:
    def stop(share: float, _: str) -> None:
        if share > 0:
            raise Stopped("stopped")

    with pytest.raises(Stopped):
        film_game(tmp_path / "short.mp4", stop, pictures=60, size=SMALL)
    assert list(tmp_path.iterdir()) == []


def test_whistle_and_horn_sound_when_they_should() -> None:
    sound = gym_sound()
    assert np.abs(sound).max() <= 1
    # a pea whistle lies between 2 and 4 kHz (common practice)
    assert loudness(sound, FOUL, 2300, 3300) > 50 * loudness(sound, FOUL - 1, 2300, 3300)
    assert loudness(sound, HORN, 225, 240) > 20 * loudness(sound, HORN - 1, 225, 240)

"""The gym's sound, made up: a crowd, bounces, whistles and a horn, at the seconds at which the play has them."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from filmreview.demo.ball import bounces
from filmreview.demo.play import FIRST_MADE, HORN, SECONDS, WHISTLES

SOUND_RATE = 48_000
Sound = NDArray[np.float32]


def _seconds(length: float) -> NDArray[np.float64]:
    return np.arange(round(length * SOUND_RATE)) / SOUND_RATE


def _crowd(dice: np.random.Generator, count: int) -> NDArray[np.float64]:
    """Noise between about 200 and 1,500 Hz that swells and falls, and swells most after the made free throw."""
    spectrum = np.fft.rfft(dice.normal(0, 1, count))
    pitch = np.fft.rfftfreq(count, 1 / SOUND_RATE)
    spectrum *= (pitch / 400) / (1 + (pitch / 400) ** 3)
    noise = np.fft.irfft(spectrum, count)
    at = np.arange(count) / SOUND_RATE
    swell = 0.5 + 0.15 * np.sin(at * 0.9) + 0.1 * np.sin(at * 2.3 + 1)
    for moment, much in ((7.6, 0.5), (FIRST_MADE + 0.4, 1.0), (31.6, 0.5)):
        swell += much * np.exp(-(((at - moment - 0.5) / 1.1) ** 2))
    result: NDArray[np.float64] = noise / np.abs(noise).max() * 0.22 * swell
    return result


def _bounce() -> NDArray[np.float64]:
    at = _seconds(0.16)
    thump: NDArray[np.float64] = 0.55 * np.sin(2 * np.pi * 92 * at) * np.exp(-at * 34)
    return thump + 0.12 * np.sin(2 * np.pi * 610 * at) * np.exp(-at * 90)


def _whistle() -> NDArray[np.float64]:
    at = _seconds(0.75)
    flutter = 1 + 0.35 * np.sign(np.sin(2 * np.pi * 31 * at))
    tone = np.sin(2 * np.pi * 2650 * at) + 0.6 * np.sin(2 * np.pi * 2890 * at)
    blow: NDArray[np.float64] = 0.16 * tone * flutter * np.clip(at / 0.02, 0, 1) * np.clip((0.75 - at) / 0.08, 0, 1)
    return blow


def _horn() -> NDArray[np.float64]:
    at = _seconds(0.9)
    tone = sum(np.sin(2 * np.pi * pitch * step * at) / step for pitch in (233, 294) for step in (1, 3, 5))
    blast: NDArray[np.float64] = 0.11 * tone * np.clip(at / 0.03, 0, 1) * np.clip((0.9 - at) / 0.1, 0, 1)
    return blast


def gym_sound(seconds: float = SECONDS) -> Sound:
    """The film's sound from its start, mono samples of -1 to 1 at `SOUND_RATE`; the same each time."""
    whole = _crowd(np.random.default_rng(19), SECONDS * SOUND_RATE)
    for at, noise in [*((second, _bounce()) for second in bounces()), *((s, _whistle()) for s in WHISTLES), (HORN, _horn())]:
        start = round(at * SOUND_RATE)
        stretch = whole[start : start + len(noise)]
        stretch += noise[: len(stretch)]
    return np.clip(whole[: round(seconds * SOUND_RATE)], -1, 1).astype(np.float32)

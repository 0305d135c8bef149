"""The gym's light: warm, uneven, and applied in linear light as real light is.

The sRGB curve (IEC 61966-2-1) is written out here once more: the truth of the film does not lean on the code that measures it.
"""

from __future__ import annotations

from functools import cache, lru_cache

import numpy as np
from numpy.typing import NDArray

_WARM = np.array([1.0, 0.86, 0.66])
_COOL = np.array([0.93, 0.88, 0.78])
_LEVEL = 0.92


def gains(x: NDArray[np.floating] | float, y: NDArray[np.floating] | float) -> NDArray[np.float64]:
    """Linear gains of R, G, B at a place on the court (feet), shape (..., 3): pools under lamps, cooler near the windows."""
    across, deep = np.asarray(x, float)[..., None], np.asarray(y, float)[..., None]
    pools = 0.88 + 0.07 * np.cos((across - 26) * 2 * np.pi / 34) + 0.05 * np.cos((deep - 24) * 2 * np.pi / 46)
    windows = np.clip((12 - across) / 40, 0.0, 1.0)
    found: NDArray[np.float64] = _LEVEL * pools * (_WARM * (1 - windows) + _COOL * windows)
    return found


def encode(linear: NDArray[np.floating]) -> NDArray[np.float64]:
    """Linear light 0..1 to sRGB 0..1."""
    clipped = np.clip(linear, 0.0, 1.0)
    coded: NDArray[np.float64] = np.where(clipped <= 0.0031308, 12.92 * clipped, 1.055 * clipped ** (1 / 2.4) - 0.055)
    return coded


@cache
def _fine_codes() -> NDArray[np.uint8]:
    codes: NDArray[np.uint8] = np.rint(255 * encode(np.arange(8192) / 8191)).astype(np.uint8)
    return codes


def encode_8bit(linear: NDArray[np.floating]) -> NDArray[np.uint8]:
    """Linear light 0..1 to 8-bit sRGB by a table of 8,192 steps: within one level at the dark end, exact elsewhere."""
    steps = (np.clip(linear, 0.0, 1.0) * 8191 + 0.5).astype(np.int16)
    coded: NDArray[np.uint8] = _fine_codes()[steps]
    return coded


def decode(coded: NDArray[np.floating]) -> NDArray[np.float64]:
    """sRGB 0..1 to linear light 0..1."""
    linear: NDArray[np.float64] = np.where(coded <= 0.04045, coded / 12.92, ((coded + 0.055) / 1.055) ** 2.4)
    return linear


@lru_cache(maxsize=512)
def table(red: int, green: int, blue: int) -> tuple[int, ...]:
    """Three 256-entry tables in a row, for `Image.point`, that put light of these gains (in 1/256) on an 8-bit sRGB picture."""
    levels = decode(np.arange(256) / 255.0)
    lit = [np.rint(255 * encode(levels * gain / 256)).astype(int) for gain in (red, green, blue)]
    return tuple(int(value) for channel in lit for value in channel)


def table_at(x: float, y: float) -> tuple[int, ...]:
    """The tables for a place on the court."""
    red, green, blue = (round(256 * float(gain)) for gain in gains(x, y))
    return table(red, green, blue)


def light_picture(
    picture: NDArray[np.uint8], x: NDArray[np.floating], y: NDArray[np.floating], dim: NDArray[np.floating] | float = 1.0
) -> NDArray[np.uint8]:
    """An 8-bit sRGB picture (h, w, 3) lit by the light at each pixel's place (h, w), times dim."""
    coded = decode(np.arange(256) / 255.0).astype(np.float32)[picture]
    coded *= (gains(x, y) * np.asarray(dim)[..., None]).astype(np.float32)
    return encode_8bit(coded)

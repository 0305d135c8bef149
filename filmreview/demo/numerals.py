"""Block numerals as on jerseys: strokes of even width with cut corners, drawn by ourselves so that their size is known."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

_W, _H, _CUT = 4.0, 6.0, 1.0  # of the middle lines of the strokes, in stroke widths
DIGIT_UNITS = _H + 1.0  # height of a digit in stroke widths
Line = tuple[tuple[float, float], ...]
_STROKES: dict[str, tuple[Line, ...]] = {
    "0": (((1, 0), (3, 0), (4, 1), (4, 5), (3, 6), (1, 6), (0, 5), (0, 1), (1, 0)),),
    "1": (((0.8, 1), (2, 0), (2, 6)), ((0.7, 6), (3.3, 6))),
    "2": (((0, 1.2), (0, 1), (1, 0), (3, 0), (4, 1), (4, 2.2), (0, 6), (4, 6)),),
    "3": (((0, 1), (1, 0), (3, 0), (4, 1), (4, 2.2), (3, 3), (1.6, 3)), ((3, 3), (4, 3.8), (4, 5), (3, 6), (1, 6), (0, 5))),
    "4": (((3, 6), (3, 0), (0, 4), (4.2, 4)),),
    "5": (((3.8, 0), (0, 0), (0, 2.6), (3, 2.6), (4, 3.6), (4, 5), (3, 6), (1, 6), (0, 5)),),
    "6": (((3.8, 0.6), (3, 0), (1, 0), (0, 1), (0, 5), (1, 6), (3, 6), (4, 5), (4, 3.8), (3, 2.8), (0, 2.8)),),
    "7": (((0, 0), (4, 0), (1.4, 6)),),
    "8": (((1, 0), (3, 0), (4, 1), (4, 5), (3, 6), (1, 6), (0, 5), (0, 1), (1, 0)), ((0, 3), (4, 3))),
    "9": (((4, 3.2), (1, 3.2), (0, 2.2), (0, 1), (1, 0), (3, 0), (4, 1), (4, 5), (3, 6), (1, 6), (0.2, 5.4)),),
}


def _strokes(draw: ImageDraw.ImageDraw, text: str, unit: float, margin: float, wide: float) -> None:
    left = margin
    for digit in text:
        for line in _STROKES[digit]:
            dots = [(left + (x + 0.5) * unit, margin + (y + 0.5) * unit) for x, y in line]
            draw.line(dots, fill=255, width=round(wide), joint="curve")
            for x, y in (dots[0], dots[-1]):
                draw.rectangle((x - wide / 2, y - wide / 2, x + wide / 2, y + wide / 2), fill=255)
        left += (_W + 2.0) * unit


@lru_cache(maxsize=256)
def numeral(text: str, height_px: int, border: float) -> tuple[NDArray[np.float32], NDArray[np.float32]]:
    """Coverage (h, w), 0 to 1, of the number and of the number with its border. height_px: of the digits, the border not
    counted. border: its width in stroke widths. Strokes are a seventh of the height wide."""
    fine = 4
    unit = height_px * fine / DIGIT_UNITS
    margin = border * unit + fine
    width = round(2 * margin + (len(text) * (_W + 2.0) - 1.0) * unit)
    size = (width + -width % fine, round(2 * margin + height_px * fine + fine))
    masks = []
    for wide in (unit, unit * (1 + 2 * border)):
        mask = Image.new("L", size, 0)
        _strokes(ImageDraw.Draw(mask), text, unit, margin, wide)
        masks.append(np.asarray(mask.reduce(fine), np.float32) / 255.0)
    return masks[0], masks[1]

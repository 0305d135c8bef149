"""The question and the ruling, written on the held frame: light words on a dark band that leaves the marked item free."""

from __future__ import annotations

import numpy as np
from PIL import Image, ImageDraw

from filmreview.facts.region import Box
from filmreview.lessons.letters import LINE, Type, draw_line, wrapped
from filmreview.lessons.planes import Picture

WORDS = (255, 255, 255)
_SHARE_KEPT = 0.2  # of the picture under the band that stays visible
_HIGHEST = 0.45  # of the picture's height that the band may take
_WIDE = 0.94
_CUT = "... (more than fits here)"
_LEAST = 9  # pixels; smaller type cannot be read


def band_of(
    width: int, height: int, question: str, ruling: tuple[str, ...], item: Box | None
) -> tuple[Box, list[tuple[str, Type]]]:
    """Where the band lies in a picture of this size and its lines; no height without words. item: what the band should not
    hide: the band lies below unless it hides less of the item above."""
    lines = _fitted(question, ruling, width, height)
    if not lines:
        return Box(0, height, width, 0), []
    high = min(height, round(sum(type_.size * LINE for _, type_ in lines) + lines[0][1].size * 0.6))
    below, above = Box(0, height - high, width, high), Box(0, 0, width, high)
    return (above if item is not None and hidden(item, above) < hidden(item, below) else below), lines


def hidden(item: Box, by: Box) -> int:
    """How many pixels of a box another one covers."""
    across = min(item.right, by.right) - max(item.x, by.x)
    down = min(item.bottom, by.bottom) - max(item.y, by.y)
    return max(0, across) * max(0, down)


def draw_band(picture: Picture, band: Box, lines: list[tuple[str, Type]]) -> Picture:
    """The picture with the band and its lines drawn on it."""
    if not lines:
        return picture
    made = picture.copy()
    part = made[band.y : band.bottom]
    part[:] = (part * _SHARE_KEPT).astype(np.uint8)
    image = Image.fromarray(made)
    drawing = ImageDraw.Draw(image)
    y = band.y + lines[0][1].size * 0.3
    for line, type_ in lines:
        draw_line(drawing, (band.width * (1 - _WIDE) / 2, y), line, type_, WORDS)
        y += type_.size * LINE
    return np.array(image)


def _fitted(question: str, ruling: tuple[str, ...], width: int, height: int) -> list[tuple[str, Type]]:
    """The lines at the largest size at which they fit; cut, and said so, where none does."""
    size, least = max(_LEAST, height // 22), max(_LEAST, height // 45)
    while True:
        lines = _set(question, ruling, size, int(width * _WIDE))
        if sum(type_.size * LINE for _, type_ in lines) <= height * _HIGHEST:
            return lines
        if size <= least:
            kept = max(1, int(height * _HIGHEST / (size * LINE)) - 1)
            return [*lines[:kept], (_CUT, Type(size))]
        size -= 1


def _set(question: str, ruling: tuple[str, ...], size: int, width: int) -> list[tuple[str, Type]]:
    """The question, strong while it stands alone; of the ruling the first line is strong."""
    parts = [(question, Type(size, not ruling))] if question.strip() else []
    parts += [(line, Type(size, place == 0)) for place, line in enumerate(ruling)]
    return [(line, type_) for text, type_ in parts for line in wrapped(text, type_, width)]

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
Lines = list[tuple[str, Type]]
_LEAST = 9  # pixels; smaller type cannot be read


def band_of(width: int, height: int, question: str, ruling: tuple[str, ...], item: Box | None) -> tuple[Box, Lines]:
    """Where the band lies in a picture of this size and its lines; no height without words.

    item: what the band should not hide. The band lies below, or above where that hides less; the type is made smaller until all
    words fit and the item is free, as far as it can still be read. Words that do not fit then are cut, and that is said.
    """
    fitting: list[tuple[int, int, Box, Lines]] = []
    for size in range(max(_LEAST, height // 22), max(_LEAST, height // 40) - 1, -1):
        lines = _set(question, ruling, size, int(width * _WIDE))
        if not lines:
            return Box(0, height, width, 0), []
        if _height(lines) <= height * _HIGHEST:
            band = _placed(_height(lines), width, height, item)
            fitting.append((0 if item is None else hidden(item, band), -size, band, lines))
            if fitting[-1][0] == 0:
                break
    if fitting:
        _, _, band, lines = min(fitting, key=lambda one: one[:2])
        return band, lines
    kept = _cut(lines, height)
    return _placed(_height(kept), width, height, item), kept


def _placed(high: int, width: int, height: int, item: Box | None) -> Box:
    """Below, unless less of the item is hidden above."""
    below, above = Box(0, height - high, width, high), Box(0, 0, width, high)
    return above if item is not None and hidden(item, above) < hidden(item, below) else below


def hidden(item: Box, by: Box) -> int:
    """How many pixels of a box another one covers."""
    across = min(item.right, by.right) - max(item.x, by.x)
    down = min(item.bottom, by.bottom) - max(item.y, by.y)
    return max(0, across) * max(0, down)


def draw_band(picture: Picture, band: Box, lines: Lines) -> Picture:
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


def _height(lines: Lines) -> int:
    return round(sum(type_.size * LINE for _, type_ in lines) + lines[0][1].size * 0.6)


def _cut(lines: Lines, height: int) -> Lines:
    """As many lines as fit, and one that says that there are more."""
    kept: Lines = []
    for line in lines:
        if _height([*kept, line, (_CUT, line[1])]) > height * _HIGHEST:
            break
        kept.append(line)
    return [*kept, (_CUT, Type(lines[-1][1].size))]


def _set(question: str, ruling: tuple[str, ...], size: int, width: int) -> Lines:
    """The question, strong while it stands alone; of the ruling the first line is strong. Paragraphs stand a little apart."""
    parts = [(question, Type(size, not ruling))] if question.strip() else []
    parts += [(line, Type(size, place == 0)) for place, line in enumerate(ruling)]
    lines: Lines = []
    for text, type_ in parts:
        if lines:
            lines.append(("", Type(max(1, size // 4))))
        lines += [(line, type_) for line in wrapped(text, type_, width)]
    return lines

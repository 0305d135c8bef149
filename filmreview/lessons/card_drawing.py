"""Title and end cards: light words on a plain dark ground."""

from __future__ import annotations

import numpy as np
from PIL import Image, ImageDraw

from filmreview.lessons.clip import Card
from filmreview.lessons.letters import LINE, Type, draw_line, wrapped
from filmreview.lessons.planes import Picture

GROUND, WORDS, QUIET = (28, 30, 34), (245, 245, 240), (205, 205, 200)
_CUT = "... (more than fits on this card)"
_WIDE = 0.86  # of the picture that lines may take
_HIGH = 0.88


def card_picture(card: Card, width: int, height: int) -> Picture:
    """The card at a size. The first line is larger; all are made smaller until they fit, and what still does not is cut, and
    that is said."""
    image = Image.new("RGB", (width, height), GROUND)
    drawing = ImageDraw.Draw(image)
    lines = _fitted(card, width, height)
    y = (height - sum(type_.size * LINE for _, type_ in lines)) / 2
    for line, type_ in lines:
        draw_line(drawing, (width * (1 - _WIDE) / 2, y), line, type_, WORDS if type_.strong else QUIET)
        y += type_.size * LINE
    return np.array(image)


def _fitted(card: Card, width: int, height: int) -> list[tuple[str, Type]]:
    size = max(9, height // 16)
    while True:
        lines = _set(card, size, int(width * _WIDE))
        if sum(type_.size * LINE for _, type_ in lines) <= height * _HIGH:
            return lines
        if size <= max(9, height // 40):
            return _cut(lines, size, height)
        size -= max(1, size // 10)


def _set(card: Card, size: int, width: int) -> list[tuple[str, Type]]:
    lines: list[tuple[str, Type]] = []
    for place, text in enumerate(card.lines):
        if lines:
            lines.append(("", Type(max(1, size // 3))))
        type_ = Type(round(size * 1.4), True) if place == 0 else Type(size)
        lines += [(line, type_) for line in wrapped(text, type_, width)]
    return lines


def _cut(lines: list[tuple[str, Type]], size: int, height: int) -> list[tuple[str, Type]]:
    kept: list[tuple[str, Type]] = []
    room = height * _HIGH - size * LINE
    for line, type_ in lines:
        room -= type_.size * LINE
        if room < 0:
            break
        kept.append((line, type_))
    return [*kept, (_CUT, Type(size))]

"""The court's floor: wood, lane and lines of a school court, in perspective."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from PIL import Image, ImageDraw

from filmreview.demo.made_up_game import Rgb
from filmreview.demo.stand import (
    BIG_HEIGHT,
    BIG_WIDTH,
    BOARD,
    END_LINE,
    FAR_LINE,
    FREE_THROW_LINE,
    LANE,
    MIDDLE,
    RING,
    floor_under,
    spot,
)  # fmt: skip

Feet = tuple[float, float]
_LINE: Rgb = (240, 240, 236)
_WOOD: Rgb = (204, 158, 104)
_DARK_WOOD: Rgb = (150, 104, 62)
_THREE = 19.75  # feet, radius of the three-point line
_STRIPS: tuple[tuple[Feet, Feet], ...] = (
    ((-20, 0), (END_LINE, 0)),
    ((-20, FAR_LINE), (END_LINE, FAR_LINE)),
    ((END_LINE, 0), (END_LINE, FAR_LINE)),
    ((0, 0), (0, FAR_LINE)),
    ((FREE_THROW_LINE, LANE[0]), (END_LINE, LANE[0])),
    ((FREE_THROW_LINE, LANE[1]), (END_LINE, LANE[1])),
    ((FREE_THROW_LINE, LANE[0]), (FREE_THROW_LINE, LANE[1])),
    ((RING[0], MIDDLE - _THREE), (END_LINE, MIDDLE - _THREE)),
    ((RING[0], MIDDLE + _THREE), (END_LINE, MIDDLE + _THREE)),
)


def _on_floor(dots: Sequence[Feet]) -> list[tuple[float, float]]:
    return [spot(x, y) for x, y in dots]


def _rectangle(left: float, near: float, right: float, far: float) -> list[Feet]:
    return [(left, near), (right, near), (right, far), (left, far)]


def _arc(x: float, y: float, radius: float, start: float, end: float) -> list[Feet]:
    turns = np.radians(np.linspace(start, end, 90))
    return [(x + radius * math.cos(turn), y + radius * math.sin(turn)) for turn in turns]


def _ring(outer: list[Feet], inner: list[Feet]) -> list[Feet]:
    return outer + inner[::-1]


def _strip(draw: ImageDraw.ImageDraw, start: Feet, end: Feet, wide: float = 1 / 6) -> None:
    """A painted line on the floor, feet; 2 in wide."""
    run, rise = end[0] - start[0], end[1] - start[1]
    long = math.hypot(run, rise)
    off_x, off_y = -rise / long * wide / 2, run / long * wide / 2
    corners = [
        (start[0] + off_x, start[1] + off_y),
        (end[0] + off_x, end[1] + off_y),
        (end[0] - off_x, end[1] - off_y),
        (start[0] - off_x, start[1] - off_y),
    ]
    draw.polygon(_on_floor(corners), fill=_LINE)


def _circle(draw: ImageDraw.ImageDraw, x: float, y: float, radius: float, start: float = 0, end: float = 360) -> None:
    """A painted arc of so many degrees, its outer edge at the radius; 2 in wide."""
    ring = _ring(_arc(x, y, radius, start, end), _arc(x, y, radius - 1 / 6, start, end))
    draw.polygon(_on_floor(ring), fill=_LINE)


def floor_picture(size: tuple[int, int]) -> Image.Image:
    """Planks along the court, in perspective: tones by plank, taken per pixel from the court place under it."""
    width, height = size
    rows, columns = np.mgrid[0:height, 0:width].astype(np.float32)
    x, y = floor_under(rows * BIG_HEIGHT / height, columns * BIG_WIDTH / width)
    dice = np.random.default_rng(11)
    tones = dice.normal(1.0, 0.035, (256, 64))
    plank = np.floor(y / 0.19).astype(int) % 256
    board = np.floor((x + 7 * (plank % 9)) / 5.5).astype(int) % 64
    tone = tones[plank, board].astype(np.float32)
    inside = (x > -99) & (x < END_LINE) & (y > 0) & (y < FAR_LINE)
    base = np.where(inside[..., None], np.array(_WOOD, np.float32), np.array(_DARK_WOOD, np.float32))
    return Image.fromarray(np.clip(base * tone[..., None], 0, 255).astype(np.uint8))


def draw_lines(draw: ImageDraw.ImageDraw) -> None:
    """Lane, circles, three-point line and marks on the floor."""
    draw.polygon(_on_floor(_rectangle(FREE_THROW_LINE, LANE[0], END_LINE, LANE[1])), fill=(52, 70, 134))
    draw.polygon(_on_floor(_arc(0, MIDDLE, 6, 0, 360)), fill=(52, 70, 134))
    for start, end in _STRIPS:
        _strip(draw, start, end)
    for y in (LANE[0] - 0.33, LANE[1] + 0.33):
        for x in (BOARD - 7, BOARD - 8, BOARD - 11.2, BOARD - 14.3):
            _strip(draw, (x, y - 0.33), (x, y + 0.33))
    _circle(draw, RING[0], MIDDLE, 19.75, 90, 270)
    _circle(draw, FREE_THROW_LINE, MIDDLE, 6)
    _circle(draw, 0, MIDDLE, 6)

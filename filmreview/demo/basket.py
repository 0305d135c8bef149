"""The basket: support, backboard with its white border, ring and net."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
from PIL import Image, ImageDraw, ImageFilter

from filmreview.demo.gym_light import table_at
from filmreview.demo.stand import BOARD, END_LINE, MIDDLE, RING, spot

At = Callable[[float, float, float], tuple[float, float]]
_BOARD_Z = (9.0, 12.5)
_BOARD_Y = (22.0, 28.0)


def basket() -> tuple[Image.Image, tuple[int, int]]:
    """Support, backboard, ring and net as a lit layer with alpha, and its place (left, top) in the big picture.

    Part of the backdrop: from this camera nobody on the floor is ever behind it."""
    corners = [spot(END_LINE + 8, 30, 14), spot(BOARD - 4, 20, 0)]
    left, top = int(min(c[0] for c in corners)) - 260, int(min(c[1] for c in corners)) - 60
    size = (int(spot(END_LINE + 8, 22, 0)[0]) - left + 60, int(spot(0, 22, 0)[1]) - top + 60)
    layer = Image.new("RGBA", size, (0, 0, 0, 0))
    draw = ImageDraw.Draw(layer)

    def at(x: float, y: float, z: float) -> tuple[float, float]:
        column, row = spot(x, y, z)
        return column - left, row - top

    _support(draw, at)
    _backboard(draw, at)
    _ring_and_net(draw, at)
    smooth = layer.filter(ImageFilter.GaussianBlur(0.7))
    lit = smooth.convert("RGB").point(table_at(BOARD, MIDDLE))
    lit.putalpha(smooth.getchannel("A"))
    return lit, (left, top)


def _support(draw: ImageDraw.ImageDraw, at: At) -> None:
    post = END_LINE + 5
    draw.line(
        [at(post, MIDDLE, 0.5), at(post, MIDDLE, 8.5), at(BOARD + 0.4, MIDDLE, 10.2)],
        fill=(84, 88, 98, 255),
        width=26,
        joint="curve",
    )
    draw.line([at(post, MIDDLE, 3.5), at(BOARD + 2.6, MIDDLE, 9.4)], fill=(104, 108, 118, 255), width=12)
    draw.rectangle((*at(post - 1.6, MIDDLE, 3.2), *at(post + 1.9, MIDDLE, 0)), fill=(48, 62, 120, 255))


def _backboard(draw: ImageDraw.ImageDraw, at: At) -> None:
    def sheet(y_from: float, y_to: float, low: float, high: float) -> list[tuple[float, float]]:
        return [at(BOARD, y_from, low), at(BOARD, y_to, low), at(BOARD, y_to, high), at(BOARD, y_from, high)]

    draw.polygon(sheet(*_BOARD_Y, *_BOARD_Z), fill=(242, 243, 244, 255))
    inner = sheet(_BOARD_Y[0] + 0.3, _BOARD_Y[1] - 0.3, _BOARD_Z[0] + 0.22, _BOARD_Z[1] - 0.22)
    draw.polygon(inner, fill=(170, 182, 190, 255))
    draw.polygon(sheet(24, 26, 10.0, 11.5), fill=(242, 243, 244, 255))
    draw.polygon(sheet(24.25, 25.75, 10.17, 11.33), fill=(170, 182, 190, 255))
    draw.line([at(BOARD, _BOARD_Y[0], 9), at(BOARD, _BOARD_Y[1], 9)], fill=(48, 62, 120, 255), width=12)


def _ring_and_net(draw: ImageDraw.ImageDraw, at: At) -> None:
    x, y, z = RING
    turns = np.linspace(0, 2 * math.pi, 41)
    for turn in turns[::3]:
        top = at(x + 0.75 * math.cos(turn), y + 0.75 * math.sin(turn), z)
        for off in (-0.5, 0.5):
            low = at(x + 0.42 * math.cos(turn + off), y + 0.42 * math.sin(turn + off), z - 1.4)
            draw.line([top, low], fill=(238, 238, 236, 220), width=2)
    dots = [at(x + 0.75 * math.cos(turn), y + 0.75 * math.sin(turn), z) for turn in turns]
    draw.line(dots, fill=(214, 84, 34, 255), width=6, joint="curve")
    draw.line([at(x + 0.75, y, z), at(BOARD, y, z)], fill=(214, 84, 34, 255), width=10)

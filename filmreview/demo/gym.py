"""The gym as the camera sees it, without people on the floor: court, table, benches, crowd, wall, basket."""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFilter, ImageFont

from filmreview.demo.basket import basket
from filmreview.demo.court import draw_lines, floor_picture
from filmreview.demo.gym_light import light_picture
from filmreview.demo.made_up_game import GAME, NAVY, Rgb
from filmreview.demo.stand import BIG_HEIGHT, BIG_WIDTH, floor_under, scale_at, spot

_WALL_Y = 66.0


def _upright(draw: ImageDraw.ImageDraw, left: float, right: float, y: float, low: float, high: float, colour: Rgb) -> None:
    """A wall-like rectangle across the camera's view at the depth y, feet."""
    draw.rectangle((*spot(left, y, high), *spot(right, y, low)), fill=colour)


def _words(draw: ImageDraw.ImageDraw, text: str, x: float, y: float, z: float, high: float, colour: Rgb) -> None:
    font = ImageFont.load_default(round(high * scale_at(y)))
    draw.text(spot(x, y, z), text, fill=colour, font=font, anchor="mm")


def _wall(draw: ImageDraw.ImageDraw) -> None:
    _upright(draw, -60, 110, _WALL_Y, 0, 60, (196, 190, 178))
    _upright(draw, -60, 110, _WALL_Y, 0, 6.5, (70, 84, 136))
    for left in range(-40, 100, 6):
        _upright(draw, left, left + 0.12, _WALL_Y, 0, 6.5, (52, 64, 108))
    for left in range(-38, 96, 15):
        _upright(draw, left, left + 9, _WALL_Y, 14, 18.6, (222, 230, 236))
        _upright(draw, left + 4.4, left + 4.6, _WALL_Y, 14, 18.6, (150, 150, 146))


def _crowd(draw: ImageDraw.ImageDraw) -> None:
    """Three benches of people behind the table, as simple heads and shoulders."""
    dice = np.random.default_rng(3)
    skins = [(224, 178, 150), (196, 144, 108), (142, 96, 68), (98, 66, 50)]
    coats = [NAVY, (236, 236, 232), (0, 126, 78), (120, 120, 124), (92, 52, 60), (60, 66, 76), (200, 186, 150)]
    for bench in (2, 1, 0):
        y, z = 57.5 + 2.4 * bench, 1.4 + 1.3 * bench
        _upright(draw, -14, 33, y, z - 1.3, z, (128, 92, 58))
        for x in np.arange(-13, 32.5, 1.75) + dice.uniform(-0.25, 0.25, 26):
            if dice.random() < 0.86:
                _onlooker(draw, float(x), y, z, coats[dice.integers(len(coats))], skins[dice.integers(4)])


def _onlooker(draw: ImageDraw.ImageDraw, x: float, y: float, z: float, coat: Rgb, skin: Rgb) -> None:
    draw.ellipse((*spot(x - 0.72, y, z + 2.3), *spot(x + 0.72, y, z - 1.2)), fill=coat)
    draw.ellipse((*spot(x - 0.36, y, z + 3.05), *spot(x + 0.36, y, z + 2.05)), fill=skin)
    draw.chord((*spot(x - 0.37, y, z + 3.12), *spot(x + 0.37, y, z + 2.05)), 180, 360, fill=(52, 40, 32))


def _table(draw: ImageDraw.ImageDraw) -> None:
    _upright(draw, -9, 4.4, 54.2, 0, 2.5, NAVY)
    _upright(draw, -9, 4.4, 54.2, 2.4, 2.5, (230, 230, 226))
    _words(draw, GAME.home.upper(), -4.6, 54.2, 1.35, 0.95, (242, 242, 242))
    for left, kit in ((7.0, "visitor"), (22.0, "home")):
        for seat in range(5):
            _onlooker(draw, left + 2 * seat, 54.6, 1.4, GAME.kits[kit].jersey, (196, 144, 108) if seat % 2 else (142, 96, 68))
        _upright(draw, left - 1, left + 9, 54.2, 0.9, 1.3, (90, 92, 98))


@cache
def backdrop() -> Image.Image:
    """The lit gym in the size of the big picture."""
    picture = floor_picture((BIG_WIDTH // 2, BIG_HEIGHT // 2)).resize((BIG_WIDTH, BIG_HEIGHT), Image.Resampling.BILINEAR)
    draw = ImageDraw.Draw(picture)
    draw_lines(draw)
    _wall(draw)
    _crowd(draw)
    _table(draw)
    lit = Image.fromarray(_lit(np.asarray(picture.filter(ImageFilter.GaussianBlur(0.8)))))
    layer, place = basket()
    lit.paste(layer, place, layer)
    return lit


def _lit(picture: NDArray[np.uint8]) -> NDArray[np.uint8]:
    rows, columns = np.mgrid[0:BIG_HEIGHT:4, 0:BIG_WIDTH:4].astype(np.float32)
    x, y = floor_under(rows, columns)
    floor = spot(0, _WALL_Y)[1]
    dim = np.interp(rows, (0, floor - 300, floor + 60), (0.62, 0.80, 1.0))
    out = np.empty_like(picture)
    for top in range(0, BIG_HEIGHT, 240):
        part = slice(top // 4, top // 4 + 60)
        wide = [np.repeat(np.repeat(field[part], 4, 0), 4, 1) for field in (x, np.minimum(y, 60.0), dim)]
        out[top : top + 240] = light_picture(picture[top : top + 240], *wide)
    return out


@cache
def far_backdrop() -> Image.Image:
    """The same at half the size, for wide shots."""
    return backdrop().reduce(2)

"""Draw any picture of the film: the gym through the camera, everybody in order of depth, the gym's light, the sensor's noise.

Every picture depends on its number alone, so the film is the same each time and parts of it can be drawn in any order.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache, lru_cache

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageChops

from filmreview.demo.ball import ball_at
from filmreview.demo.body import BODY_TALL, Place
from filmreview.demo.brush import Cel
from filmreview.demo.figure import BODY_HIGH, Sprite, sprite
from filmreview.demo.gym import backdrop, far_backdrop
from filmreview.demo.gym_light import table_at
from filmreview.demo.limbs import draw_ball
from filmreview.demo.made_up_game import GAME
from filmreview.demo.play import PEOPLE, RATE, Placement, placed
from filmreview.demo.shots import shot_at
from filmreview.demo.stand import Shot, scale_at, spot

WIDTH, HEIGHT = 1280, 720
_DETAILS = (32, 48, 64, 96, 128)  # pixels to a foot at which people are drawn, then scaled
_MOVING_DETAIL = 64  # nobody sees more of somebody who runs
_FAR = 2200  # from this width of a shot on the small backdrop serves
_NOISE = 2.3
_REACH = 2.3  # feet that a body may reach to either side of its place
_BALL_RADIUS = 0.394  # feet: 9.47 in across
_PLAIN = tuple(range(256))


@dataclass(frozen=True)
class Window:
    """Where a sprite falls in the picture: left, top (fractions of pixels), and how much it is scaled."""

    left: float
    top: float
    factor: float


def draw_picture(number: int, size: tuple[int, int] = (WIDTH, HEIGHT)) -> NDArray[np.uint8]:
    """Picture `number` of the film, (height, width, 3) R'G'B' of 8 bits. size: width, height, 16:9."""
    second = number / RATE
    shot = shot_at(second)
    picture = _gym_in(shot, size).copy()
    everybody = [placed(key, second) for key in PEOPLE]
    for person in everybody:
        _shadow(picture, shot, person.x, person.y, 1.0)
    ball = ball_at(second)
    _shadow(picture, shot, ball[0], ball[1], 0.45)
    things: list[tuple[float, Placement | Place]] = [(person.y, person) for person in everybody]
    things.append((ball[1], ball))
    for _, thing in sorted(things, key=lambda pair: -pair[0]):
        _put(picture, shot, thing)
    return np.asarray(ImageChops.add(picture, _noise(number, size), 1, -128))


@lru_cache(maxsize=8)
def _gym_in(shot: Shot, size: tuple[int, int]) -> Image.Image:
    """The backdrop in a shot; kept while the camera stands still."""
    if shot.width > _FAR:
        left, top, right, bottom = (edge / 2 for edge in shot.box)
        return far_backdrop().resize(size, Image.Resampling.BILINEAR, box=(left, top, right, bottom))
    return backdrop().resize(size, Image.Resampling.BILINEAR, box=shot.box)


def _put(picture: Image.Image, shot: Shot, thing: Placement | Place) -> None:
    if isinstance(thing, Placement):
        found = person_in(thing, shot, picture.size)
        if found:
            _paste(picture, found[0].picture, found[1], (thing.x, thing.y))
    else:
        zoom = picture.width / shot.width
        column, row = spot(*thing)
        factor = scale_at(thing[1]) * zoom / 128
        half = 64 * factor
        _paste(
            picture, _ball(), Window((column - shot.box[0]) * zoom - half, (row - shot.box[1]) * zoom - half, factor), thing[:2]
        )


def person_in(person: Placement, shot: Shot, size: tuple[int, int] = (WIDTH, HEIGHT)) -> tuple[Sprite, Window] | None:
    """The sprite of somebody in a shot, and where it falls in a picture of that size; None for somebody out of the picture."""
    zoom = size[0] / shot.width
    feet = scale_at(person.y) * zoom * GAME.person(person.key).tall / BODY_TALL
    column, row = spot(person.x, person.y)
    left, low = (column - shot.box[0]) * zoom, (row - shot.box[1]) * zoom
    if not (-_REACH * feet < left < size[0] + _REACH * feet and -feet < low < size[1] + BODY_HIGH * feet):
        return None
    finest = _MOVING_DETAIL if person.pose.startswith(("run", "walk")) else _DETAILS[-1]
    detail = min(next((step for step in _DETAILS if step >= 0.85 * feet), _DETAILS[-1]), finest)
    drawn = sprite(person.key, person.pose, person.turn, detail, person.without)
    factor = feet / detail
    return drawn, Window(left - drawn.foot[0] * factor, low - drawn.foot[1] * factor, factor)


def _paste(picture: Image.Image, layer: Image.Image, window: Window, place: tuple[float, float] | None) -> None:
    """Lay a layer with alpha over the picture, scaled, at fractions of pixels, lit by the light at its place on the court."""
    left, top = max(math.ceil(window.left), 0), max(math.ceil(window.top), 0)
    right = min(math.floor(window.left + layer.width * window.factor), picture.width)
    bottom = min(math.floor(window.top + layer.height * window.factor), picture.height)
    if left >= right or top >= bottom:
        return
    box = tuple(
        (edge - start) / window.factor
        for edge, start in zip((left, top, right, bottom), (window.left, window.top) * 2, strict=True)
    )
    box = (max(box[0], 0), max(box[1], 0), min(box[2], layer.width), min(box[3], layer.height))
    part = layer.resize((right - left, bottom - top), Image.Resampling.BILINEAR, box=box).convert("RGBA")
    if place is not None:
        part = part.point(_tables(*place))
    picture.paste(part, (left, top), part)


def _tables(x: float, y: float) -> tuple[int, ...]:
    return table_at(round(x * 2) / 2, round(y * 2) / 2) + _PLAIN


def _shadow(picture: Image.Image, shot: Shot, x: float, y: float, wide: float) -> None:
    zoom = picture.width / shot.width
    column, row = spot(x, y)
    factor = scale_at(y) * zoom / 64 * wide
    _paste(
        picture,
        _shadow_layer(),
        Window((column - shot.box[0]) * zoom - 96 * factor, (row - shot.box[1]) * zoom - 26 * factor, factor),
        None,
    )


@cache
def _shadow_layer() -> Image.Image:
    y, x = np.mgrid[0:52, 0:192].astype(np.float32)
    far = np.hypot((x - 95.5) / 96, (y - 25.5) / 26)
    alpha = 150 * np.clip(1 - far, 0, 1) ** 1.3
    layer = np.zeros((52, 192, 4), np.uint8)
    layer[..., 0], layer[..., 1], layer[..., 3] = 22, 14, alpha
    return Image.fromarray(layer, "RGBA").convert("RGBa")


@cache
def _ball() -> Image.Image:
    cel = Cel(128, 128)
    draw_ball(cel, (64.0, 64.0), _BALL_RADIUS * 128)
    return cel.picture()


@lru_cache(maxsize=2)
def _grain(width: int, height: int) -> Image.Image:
    dice = np.random.default_rng(5)
    shape = (height + 90, width + 160)
    grain = dice.normal(0, _NOISE, (*shape, 1)) + dice.normal(0, 0.5 * _NOISE, (*shape, 3))
    return Image.fromarray(np.rint(np.clip(128 + grain, 0, 255)).astype(np.uint8))


def _noise(number: int, size: tuple[int, int]) -> Image.Image:
    left, top = (number * 67) % 160, (number * 41) % 90
    return _grain(*size).crop((left, top, left + size[0], top + size[1]))

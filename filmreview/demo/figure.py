"""A person drawn in a pose and a turn: kit, number, and everything else worn; with the truth of which pixel shows what."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache, partial

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from filmreview.demo.body import POSES, joints, turned
from filmreview.demo.brush import Cel
from filmreview.demo.head import draw_head, draw_long_hair
from filmreview.demo.limbs import draw_arm, draw_leg
from filmreview.demo.made_up_game import GAME, Person
from filmreview.demo.sketch import Sketch
from filmreview.demo.trunk import draw_shorts, draw_trunk

BODY_HIGH = 8.5  # feet, with the arms up
_HALF_WIDE, _BELOW = 2.3, 0.4  # the sprite reaches so far from the spot between the feet, feet


@dataclass(frozen=True)
class Sprite:
    """A drawn person. picture: 8-bit sRGB times alpha, before the gym's light. owner: code of `sketch.OWNERS` at each pixel.
    foot: column and row of the spot on the floor between the feet. detail: pixels to one foot of a body 6.2 ft tall."""

    picture: Image.Image
    owner: NDArray[np.uint8]
    foot: tuple[float, float]
    detail: int


@lru_cache(maxsize=4096)
def sprite(key: str, pose: str, turn: int, detail: int, without: frozenset[str] = frozenset()) -> Sprite:
    """The person of that key in a pose of `body.POSES`, turned by whole degrees. without: items taken off."""
    foot = (_HALF_WIDE * detail, BODY_HIGH * detail)
    at, near = {}, {}
    for name, place in joints(POSES[pose]).items():
        right, up, towards = turned(place, turn)
        at[name] = (foot[0] + right * detail, foot[1] - up * detail)
        near[name] = towards
    cel = Cel(round((BODY_HIGH + _BELOW) * detail), round(2 * _HALF_WIDE * detail))
    _draw(Sketch(cel, _bare(GAME.person(key), without), at, near, turn, detail))
    small, left, top = cel.trimmed()
    return Sprite(small.picture(), small.owner.copy(), (foot[0] - left, foot[1] - top), detail)


def _bare(person: Person, without: frozenset[str]) -> Person:
    return dataclasses.replace(person, wears=tuple(wear for wear in person.wears if wear.item not in without))


def _draw(sketch: Sketch) -> None:
    near = sketch.near
    layers: list[tuple[float, Callable[[Sketch], None]]] = [(-0.8, draw_shorts), (0.0, draw_trunk)]
    layers.append((-0.9 if math.cos(math.radians(sketch.turn)) > 0 else 9.0, draw_long_hair))
    for side in ("left", "right"):
        layers.append(((near[f"{side} shoulder"] + near[f"{side} wrist"]) / 2, partial(draw_arm, side=side)))
        layers.append((-0.4 + 0.05 * near[f"{side} hip"], partial(draw_leg, side=side)))
    for _, layer in sorted(layers, key=lambda pair: pair[0]):
        layer(sketch)
    draw_head(sketch)

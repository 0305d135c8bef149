"""Head: hair, headband, a plain face that looks where the body is turned."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from filmreview.demo.brush import linear, shade
from filmreview.demo.limbs import tube
from filmreview.demo.sketch import Sketch, Zone, code

_WIDE, _HIGH = 0.335, 0.44
_FACE = (  # side, up of a spot on the round of the head, its size, darkening
    (0.34, 0.06, 0.105, 0.16), (-0.34, 0.06, 0.105, 0.16), (0.34, 0.22, 0.12, 0.45), (-0.34, 0.22, 0.12, 0.45),
    (0.0, -0.16, 0.13, 0.80), (0.11, -0.50, 0.11, 0.52), (-0.11, -0.50, 0.11, 0.52),
)  # fmt: skip


def draw_head(sketch: Sketch) -> None:
    """Head and hair over everything else."""
    middle_x, middle_y = sketch.at["head"]
    wide, high = _WIDE * sketch.detail, _HIGH * sketch.detail
    window = sketch.cel.window(middle_x - wide, middle_y - high, middle_x + wide, middle_y + high)
    if window is None:
        return
    y, x = np.mgrid[window].astype(np.float32)
    across, up = (x - middle_x) / wide, (middle_y - y) / high
    across = across / np.where(up < 0, 1 - 0.20 * up * up, 1.0)  # a chin
    far = np.hypot(across, up)
    cover = np.clip((1 - far) * (wide + high) / 2 + 0.5, 0, 1)
    towards = np.sqrt(np.clip(1 - across**2 - up**2, 0, 1))
    angle = math.radians(sketch.turn)
    side = across * math.cos(angle) - towards * math.sin(angle)
    front = across * math.sin(angle) + towards * math.cos(angle)
    colour, owner = _painted(sketch, side, up, front)
    light = shade(np.clip(across, -1, 1) * 0.95, np.clip(up, -1, 1) * 0.8)
    sketch.cel.lay(window, cover.astype(np.float32), colour * light[..., None], owner)


def draw_long_hair(sketch: Sketch) -> None:
    """Hair down to the shoulders, behind the neck."""
    if sketch.person.long_hair:
        x, y = sketch.at["head"]
        low = (x - 0.22 * sketch.detail * math.sin(math.radians(sketch.turn)), y + 0.62 * sketch.detail)
        tube(sketch, (x, y), low, (0.33, 0.2), [Zone(-9.0, 9.0, sketch.person.hair, "hair")])


def _painted(
    sketch: Sketch, side: NDArray[np.float32], up: NDArray[np.float32], front: NDArray[np.float32]
) -> tuple[NDArray[np.float32], NDArray[np.uint8]]:
    person = sketch.person
    colour = np.empty((*side.shape, 3), np.float32)
    owner = np.full(side.shape, code("skin"), np.uint8)
    colour[:] = linear(person.skin)
    for spot_side, spot_up, size, dark in _FACE:
        near = np.exp(-(((side - spot_side) / size) ** 2 + ((up - spot_up) / (0.42 * size + 0.02)) ** 2))
        colour *= 1 - ((1 - dark) * near * (front > 0))[..., None]
    line = 0.50 + 0.10 * side * side
    hair = (up > line) | ((front < 0.08) & (up > -0.12)) | ((front < -0.30) & (up > -0.58))
    colour[hair], owner[hair] = linear(person.hair), code("hair")
    ear = (np.abs(side) > 0.93) & (np.abs(up) < 0.22)
    colour[ear], owner[ear] = 0.85 * linear(person.skin), code("skin")
    band = sketch.worn("headband")
    if band:
        round_head = (up > band.from_share) & (up < band.to_share)
        colour[round_head], owner[round_head] = linear(band.colour), code("headband")
    return colour, owner

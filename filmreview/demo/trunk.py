"""Trunk: jersey with number, trim and side inserts, undershirt and necklace at the neckline, shorts at the hips."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from filmreview.demo.body import BODY_TALL
from filmreview.demo.brush import Field, linear, shade
from filmreview.demo.limbs import tube
from filmreview.demo.made_up_game import Rgb
from filmreview.demo.numerals import DIGIT_UNITS, numeral
from filmreview.demo.sketch import Sketch, Zone, code, folds

_WIDE, _DEEP = 0.70, 0.44  # half of it at the shoulders, feet
_DOWN, _WIDTHS = (0.0, 0.25, 0.7, 1.0), (1.0, 0.97, 0.86, 0.90)  # share of the way down, share of the width there
FRONT_HIGH_IN, BACK_HIGH_IN, BORDER_IN = 8.0, 10.0, 0.25  # numbers: heights of the digits, width of the border
_HEM = 0.22  # feet below the pelvis

Putter = Callable[[NDArray[np.bool_], Rgb, str], None]
"""Paints the pixels where the mask holds, and notes what they show."""


@dataclass(frozen=True)
class _Cloth:
    """The trunk's surface, pixel by pixel. side, front: outward direction of the body there. down: feet below the neck."""

    window: tuple[slice, slice]
    across: Field
    side: Field
    front: Field
    down: Field
    cover: Field


def draw_trunk(sketch: Sketch) -> None:
    """Neck, jersey and everything on it."""
    _neck(sketch)
    cloth = _cloth(sketch)
    if cloth is None:
        return
    colour = np.empty((*cloth.cover.shape, 3), np.float32)
    owner = np.empty(cloth.cover.shape, np.uint8)
    put = _putter(colour, owner)
    put(np.ones(cloth.cover.shape, bool), sketch.kit.jersey, "jersey")
    if sketch.in_crew:
        _stripes(cloth, put)
    else:
        _trim(sketch, cloth, put)
        _number(sketch, cloth, colour, owner)
    light = shade(cloth.across * 0.92, np.zeros_like(cloth.across)) * folds(cloth.window, sum(map(ord, sketch.person.key)))
    sketch.cel.lay(cloth.window, cloth.cover, colour * light[..., None], owner)


def _cloth(sketch: Sketch) -> _Cloth | None:
    detail, angle = sketch.detail, math.radians(sketch.turn)
    (neck_x, neck_y), (low_x, low_y) = sketch.at["neck"], sketch.at["pelvis"]
    low_y += _HEM * detail
    reach = 1.3 * detail
    window = sketch.cel.window(min(neck_x, low_x) - reach, neck_y - 0.1 * detail, max(neck_x, low_x) + reach, low_y + 2)
    if window is None:
        return None
    y, x = np.mgrid[window].astype(np.float32)
    share = np.clip((y - neck_y) / (low_y - neck_y), 0.0, 1.0)
    width = math.hypot(_WIDE * math.cos(angle), _DEEP * math.sin(angle)) * detail
    half = width * np.interp(share, _DOWN, _WIDTHS).astype(np.float32)
    away = x - (neck_x + (low_x - neck_x) * share)
    across = np.clip(away / half, -1.0, 1.0)
    towards = np.sqrt(1.0 - across * across)
    top = neck_y + 0.26 * detail * np.abs(away / width) ** 2.2
    cover = np.clip(half - np.abs(away) + 0.5, 0, 1) * np.clip(y - top + 0.5, 0, 1) * np.clip(low_y - y + 0.5, 0, 1)
    side = across * math.cos(angle) - towards * math.sin(angle)
    front = across * math.sin(angle) + towards * math.cos(angle)
    return _Cloth(window, across, side, front, (y - neck_y) / detail, cover.astype(np.float32))


def _putter(colour: Field, owner: NDArray[np.uint8]) -> Putter:
    def put(where: NDArray[np.bool_], paint: Rgb, thing: str) -> None:
        colour[where] = linear(paint)
        owner[where] = code(thing)

    return put


def _stripes(cloth: _Cloth, put: Putter) -> None:
    around = np.arctan2(cloth.side, cloth.front) / (2 * math.pi) * 22
    put((np.floor(around + 0.5) % 2).astype(bool), (30, 30, 32), "jersey")
    put((cloth.front > 0) & (np.hypot(cloth.side * _WIDE / 0.16, cloth.down / 0.2) < 1), (34, 34, 36), "jersey")


def _trim(sketch: Sketch, cloth: _Cloth, put: Putter) -> None:
    kit, person = sketch.kit, sketch.person
    shirt, chain = sketch.worn("undershirt"), sketch.worn("jewelry")
    edge = np.abs(cloth.side)
    put((edge > 0.955) & (cloth.down > 0.62), kit.trim, "trim")
    put((edge > 0.83) & (cloth.down < 0.66), kit.trim, "trim")
    under = (shirt.colour, "undershirt") if shirt else (person.skin, "skin")
    put((edge > 0.885) & (cloth.down < 0.60), *under)
    deep = np.where(cloth.front > 0, 0.36, 0.12)
    around = np.hypot(cloth.side * _WIDE / 0.27, cloth.down / deep)
    put(around < 1.22, kit.trim, "trim")
    put(around < 1.0, *under)
    put(around < (0.62 if shirt else 1.0), person.skin, "skin")
    if chain:
        put((cloth.front > 0) & (np.abs(around - 0.80) < 0.11), chain.colour, "jewelry")


def _number(sketch: Sketch, cloth: _Cloth, colour: Field, owner: NDArray[np.uint8]) -> None:
    for sign, top, high_in in ((1.0, 0.60, FRONT_HIGH_IN), (-1.0, 0.42, BACK_HIGH_IN)):
        high = high_in / 12 * sketch.detail * BODY_TALL / sketch.person.tall  # the same inches on everybody
        fill, whole = numeral(sketch.person.number, max(round(high), 7), BORDER_IN / (high_in / DIGIT_UNITS))
        column = (sign * cloth.side * _WIDE * sketch.detail + fill.shape[1] / 2).astype(np.int32)
        row = ((cloth.down - top) * sketch.detail + (fill.shape[0] - high) / 2).astype(np.int32)
        seen = (sign * cloth.front > 0.1) & (column >= 0) & (row >= 0) & (column < fill.shape[1]) & (row < fill.shape[0])
        fill_share, whole_share = np.zeros_like(cloth.cover), np.zeros_like(cloth.cover)
        fill_share[seen], whole_share[seen] = fill[row[seen], column[seen]], whole[row[seen], column[seen]]
        for share, paint in ((whole_share, sketch.kit.border), (fill_share, sketch.kit.number)):
            colour += share[..., None] * (linear(paint) - colour)
        owner[whole_share > 0.3] = code("number")


def _neck(sketch: Sketch) -> None:
    tube(sketch, sketch.at["neck"], sketch.at["chin"], (0.21, 0.18), [Zone(-9.0, 9.0, sketch.person.skin, "skin")])


def draw_shorts(sketch: Sketch) -> None:
    """The hips of the shorts; their legs belong to `limbs.draw_leg`."""
    x, y = sketch.at["pelvis"]
    angle = math.radians(sketch.turn)
    wide = math.hypot(0.62 * math.cos(angle), 0.44 * math.sin(angle)) * 0.92
    low = (x, y + 0.22 * sketch.detail)
    tube(sketch, (x, y - 0.05 * sketch.detail), low, (wide, wide), [Zone(-9.0, 9.0, sketch.kit.shorts, "shorts")])

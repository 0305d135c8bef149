"""Draw shaded, smooth-edged shapes on a small transparent picture, and remember which pixel shows which thing.

Shapes are given as distance fields, so edges are smooth without drawing larger; shading is that of round bodies lit from
above and a little from the left, in linear light. `Cel.owner` names the thing on top at each pixel: the truth about regions.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from filmreview.demo.gym_light import decode, encode_8bit
from filmreview.demo.made_up_game import Rgb

Field = NDArray[np.float32]
Point = tuple[float, float]

_AMBIENT, _DIRECT = 0.58, 0.42
_LIGHT_LEFT, _LIGHT_UP, _LIGHT_FRONT = 0.34, 0.42, 0.84


def linear(colour: Rgb) -> NDArray[np.float32]:
    """8-bit sRGB to linear light, shape (3,)."""
    return decode(np.array(colour) / 255.0).astype(np.float32)


def shade(across: Field, up: Field) -> Field:
    """Brightness of a round body whose outward direction is (across, up) in the picture; its rest points at the viewer."""
    front = np.sqrt(np.clip(1.0 - across * across - up * up, 0.0, 1.0))
    lit = np.clip(_LIGHT_FRONT * front - _LIGHT_LEFT * across + _LIGHT_UP * up, 0.0, 1.0)
    return np.asarray(_AMBIENT + _DIRECT * lit, np.float32)


@dataclass(frozen=True)
class Skin:
    """How a shape is painted. colour: linear (3,) or (h, w, 3). owner: code of the thing; 0 keeps what is there."""

    colour: NDArray[np.float32]
    owner: int | NDArray[np.uint8]


class Cel:
    """A transparent picture (height, width): linear colour times coverage, coverage, owner of each pixel."""

    def __init__(self, height: int, width: int) -> None:
        self.colour = np.zeros((height, width, 3), np.float32)
        self.cover = np.zeros((height, width), np.float32)
        self.owner = np.zeros((height, width), np.uint8)

    def window(self, left: float, top: float, right: float, bottom: float) -> tuple[slice, slice] | None:
        """Rows and columns around a shape, clipped to the picture; None when it lies outside."""
        height, width = self.cover.shape
        rows = slice(max(int(top) - 1, 0), min(int(bottom) + 2, height))
        columns = slice(max(int(left) - 1, 0), min(int(right) + 2, width))
        return (rows, columns) if rows.start < rows.stop and columns.start < columns.stop else None

    def lay(self, window: tuple[slice, slice], cover: Field, colour: Field, owner: NDArray[np.uint8] | int) -> None:
        """Put paint of this coverage (h, w) and linear colour (h, w, 3) or (3,) over what is there."""
        keep = (1.0 - cover)[..., None]
        self.colour[window] = self.colour[window] * keep + colour * cover[..., None]
        self.cover[window] = self.cover[window] * keep[..., 0] + cover
        shown = cover > 0.5
        self.owner[window] = np.where(shown, owner, self.owner[window])

    def picture(self) -> Image.Image:
        """The picture as 8-bit sRGB with alpha, the colours times alpha (Pillow's mode "RGBa", which scales as it is)."""
        coded = encode_8bit(self.colour / np.maximum(self.cover, 1e-4)[..., None])
        alpha = np.rint(255 * self.cover).astype(np.uint8)
        return Image.fromarray(np.dstack([coded, alpha]), "RGBA").convert("RGBa")

    def trimmed(self, margin: int = 3) -> tuple[Cel, int, int]:
        """Without the empty rows and columns around but for a margin, and how many columns and rows went at left and top."""
        rows, columns = np.flatnonzero(self.cover.any(1)), np.flatnonzero(self.cover.any(0))
        top, left = max(rows[0] - margin, 0), max(columns[0] - margin, 0)
        part = (slice(top, rows[-1] + margin + 1), slice(left, columns[-1] + margin + 1))
        small = Cel(0, 0)
        small.colour, small.cover, small.owner = self.colour[part], self.cover[part], self.owner[part]
        return small, int(left), int(top)


Paint = Callable[[Field, Field], tuple[Field, NDArray[np.uint8] | int]]


def limb(cel: Cel, start: Point, end: Point, radii: tuple[float, float], paint: Paint, *, cut: bool = False) -> None:
    """A tapering limb with round ends from start to end (columns, rows); radii at both ends in pixels. cut: the end is flat.

    paint gets, for every pixel, the share of the way along (0..1) and across (-1..1), and gives colour and owner.
    """
    wide = max(radii)
    window = cel.window(
        min(start[0], end[0]) - wide, min(start[1], end[1]) - wide, max(start[0], end[0]) + wide, max(start[1], end[1]) + wide
    )
    if window is None:
        return
    y, x = np.mgrid[window].astype(np.float32)
    run, rise = end[0] - start[0], end[1] - start[1]
    length = max(float(np.hypot(run, rise)), 1e-3)
    share = ((x - start[0]) * run + (y - start[1]) * rise) / (length * length)
    held = np.clip(share, 0.0, 1.0)
    radius = radii[0] + (radii[1] - radii[0]) * held
    away_x, away_y = x - start[0] - held * run, y - start[1] - held * rise
    distance = np.hypot(away_x, away_y)
    cover = np.clip(radius - distance + 0.5, 0.0, 1.0)
    if cut:
        cover *= np.clip((1.0 - share) * length + 0.5, 0.0, 1.0)
    across = np.clip((away_x * -rise + away_y * run) / length / radius, -1.0, 1.0)
    colour, owner = paint(share, across)
    light = shade(np.clip(away_x / radius, -1, 1), np.clip(-away_y / radius, -1, 1))
    cel.lay(window, cover, colour * light[..., None], owner)

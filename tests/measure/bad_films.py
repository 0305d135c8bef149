"""Made films on which measuring must say why it cannot, and on which region it must say what.

Highlights, an unlit place, a coloured wall, stripes, frames in black; and a film without colour.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import cv2
import numpy as np

from filmreview.facts.region import Box, Patch, Polygon, Region
from filmreview.film.writing import FilmWriter, Writing
from filmreview.measure.shape import patch_of

BLACK_FROM, FRAMES = 10, 20
"""The number of the first frame in black, and how many frames there are, at 25 a second."""
BLOWN, WALL, CLOTH = Box(40, 40, 64, 64), Box(200, 40, 64, 64), Box(120, 110, 64, 60)
"""All highlights, an orange wall, a blue cloth."""
UNLIT, STRIPED = Box(240, 112, 64, 60), Box(40, 112, 64, 60)
"""A place without any light, a shirt in white and black stripes."""
LIT, BLACK = 3, BLACK_FROM + 3
"""Numbers of a frame with a picture and one in black."""
SHAPES = ("box", "polygon", "patch")


def shaped(shape: str, box: Box) -> Region:
    """This box as a region of another shape."""
    if shape == "polygon":
        return Polygon(((box.x, box.y), (box.right, box.y), (box.right, box.bottom), (box.x, box.bottom)))
    return patch_of(box, np.ones((box.height, box.width), dtype=np.bool_)) if shape == "patch" else box


def inside(box: Box) -> Box:
    """The box without its edge."""
    return Box(box.x + 8, box.y + 8, box.width - 16, box.height - 16)


ONE_PIXEL = {shape: shaped(shape, Box(150, 140, 1, 1)) for shape in SHAPES}
NO_PIXEL: dict[str, Region] = {
    "box": Box(150, 140, 12, 0),
    "polygon": Polygon(((150, 140), (170, 140), (160, 140))),
    "patch": Patch(Box(150, 140, 6, 6), ((6,),) * 6),
}


@dataclass(frozen=True)
class Untold:
    """Regions whose colour cannot be told. number: of their frame. regions: by shape. why: of the colour. as_number: of the
    same as a number on a jersey."""

    number: int
    regions: dict[str, Region]
    why: str
    as_number: str


@dataclass(frozen=True)
class NoWhite:
    """A box that is no white. number: of its frame. why, todo: what its refusal says."""

    number: int
    box: Box
    why: str
    todo: str


def _all_shapes(box: Box) -> dict[str, Region]:
    return {shape: shaped(shape, box) for shape in SHAPES}


UNTOLD = {
    "no pixel": Untold(LIT, NO_PIXEL, "the region holds no pixel", "0 px across"),
    "one pixel": Untold(LIT, ONE_PIXEL, "1 px across, 6 are needed", "1 px across"),
    "highlights": Untold(LIT, _all_shapes(inside(BLOWN)), "100% of the pixels are clipped", "100% of the pixels are clipped"),
    "black": Untold(BLACK, _all_shapes(CLOTH), "the picture is black", "the picture is black"),
}
_NO_LAMP = "no lamp makes white look like that: beside its green, red is "
_NO_WALL = "point at something that is white all over, not at a coloured wall"
NO_WHITE = {
    "orange wall": NoWhite(LIT, inside(WALL), _NO_LAMP, _NO_WALL),
    "blue cloth": NoWhite(LIT, inside(CLOTH), _NO_LAMP, _NO_WALL),
    "stripes": NoWhite(
        LIT, STRIPED, "only 50% of it is of one colour, 75% are needed", "keep the region within one thing of one colour",
    ),
    "highlights": NoWhite(LIT, inside(BLOWN), "100% of its pixels are clipped (2% at most)", "point at a place less bright"),
    "unlit": NoWhite(LIT, inside(UNLIT), "it is too dark", "point at something white in the light"),
    "one pixel": NoWhite(LIT, Box(150, 140, 1, 1), "it is 1 px across", "mark 6 px across or more"),
    "black": NoWhite(BLACK, CLOTH, "the picture is black", "take a frame with a picture in colour"),
}  # fmt: skip


def _scene() -> np.ndarray:
    hall = np.random.default_rng(7).uniform(40, 190, (6, 10, 3))
    picture = np.clip(cv2.resize(hall, (320, 180), interpolation=cv2.INTER_CUBIC), 30, 200)
    for box, colour in ((BLOWN, 255), (WALL, (200, 110, 50)), (CLOTH, (40, 60, 170)), (UNLIT, 0), (STRIPED, 25)):
        picture[box.y : box.bottom, box.x : box.right] = colour
    for x in range(STRIPED.x, STRIPED.right, 16):
        picture[STRIPED.y : STRIPED.bottom, x : x + 8] = 215
    return picture.astype(np.uint8)


def write_bad(path: Path) -> Path:
    """A film in colour that turns black, H.264."""
    return _write(path, [_scene() if number < BLACK_FROM else np.zeros((180, 320, 3), np.uint8) for number in range(FRAMES)])


def write_monochrome(path: Path) -> Path:
    """The same scene in shades of grey, H.264."""
    grey = cv2.cvtColor(_scene(), cv2.COLOR_RGB2GRAY)
    return _write(path, [np.repeat(grey[:, :, None], 3, axis=2)] * BLACK_FROM)


def _write(path: Path, pictures: list[np.ndarray]) -> Path:
    with FilmWriter(path, Writing(320, 180, Fraction(25), crf=12, key_every=10)) as writer:
        for picture in pictures:
            writer.add_picture(picture)
    return path

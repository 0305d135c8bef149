"""Made films on which measuring must say why it cannot: highlights, a coloured wall, frames in black, a film without colour."""

from __future__ import annotations

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


def _scene() -> np.ndarray:
    hall = np.random.default_rng(7).uniform(40, 190, (6, 10, 3))
    picture = np.clip(cv2.resize(hall, (320, 180), interpolation=cv2.INTER_CUBIC), 30, 200)
    for box, colour in ((BLOWN, 255), (WALL, (200, 110, 50)), (CLOTH, (40, 60, 170))):
        picture[box.y : box.bottom, box.x : box.right] = colour
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

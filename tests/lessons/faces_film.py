"""A made film of faces under a moving camera, with where every face is in every frame.

Each face carries two digits across it, in the dots of the made films, so that whether it can still be read can be measured. The
camera pans, zooms and shakes; two faces walk. Drawn from a wide picture, so nothing is stored.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import numpy as np
from burnt import DIGITS
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFilter

from filmreview.film.writing import FilmWriter, Writing

WIDTH, HEIGHT, FRAMES, RATE = 320, 180, 48, 25
_WIDE, _HIGH = 1600, 900  # of the ground the camera moves over
_SKINS = ((224, 186, 160), (120, 82, 60), (190, 140, 108))
_HAIR = ((60, 40, 30), (20, 18, 18), (150, 110, 60))
CODES = (47, 19, 83)
Box4 = tuple[float, float, float, float]


@dataclass(frozen=True)
class Face:
    """middle: where it starts on the ground; walk: pixels of the ground a frame; width: on the ground. code: its two digits."""

    middle: tuple[float, float]
    walk: tuple[float, float]
    width: float
    code: int


FACES = (
    Face((640, 420), (1.2, 0.3), 84, CODES[0]),
    Face((830, 330), (-0.9, 0.5), 74, CODES[1]),
    Face((900, 520), (0.0, 0.0), 90, CODES[2]),
)


def view(frame: int) -> Box4:
    """What the camera sees of the ground: left, top, width, height. It pans ever faster, zooms in and out, and shakes."""
    part = frame / (FRAMES - 1)
    width = 640 - 190 * np.sin(np.pi * part) + 3 * np.sin(frame * 1.3)
    middle_x = 720 + 130 * part**2 + 4 * np.sin(frame * 0.9)
    middle_y = 430 + 25 * np.sin(2 * np.pi * part) + 3 * np.cos(frame * 1.7)
    height = width * HEIGHT / WIDTH
    return middle_x - width / 2, middle_y - height / 2, width, height


def box_of(face: Face, frame: int) -> Box4:
    """Where the face is in the picture: left, top, width, height."""
    left, top, width, height = view(frame)
    x, y = (at + step * frame for at, step in zip(face.middle, face.walk, strict=True))
    tall = face.width * 1.25
    across, down = WIDTH / width, HEIGHT / height
    return (x - face.width / 2 - left) * across, (y - tall / 2 - top) * down, face.width * across, tall * down


def picture(frame: int) -> NDArray[np.uint8]:
    """The picture of a frame, R'G'B'."""
    ground = _ground().copy()
    for number, face in enumerate(FACES):
        drawn = _head(number, face)
        x, y = (at + step * frame for at, step in zip(face.middle, face.walk, strict=True))
        ground.paste(drawn, (round(x - drawn.width / 2), round(y - drawn.height / 2)), drawn)
    left, top, width, height = view(frame)
    seen = ground.transform(
        (2 * WIDTH, 2 * HEIGHT), Image.Transform.AFFINE,
        (width / WIDTH / 2, 0, left, 0, height / HEIGHT / 2, top), Image.Resampling.BICUBIC,
    )  # fmt: skip
    return np.asarray(seen.resize((WIDTH, HEIGHT), Image.Resampling.BOX))


def film_faces(path: Path) -> Path:
    """Write the film."""
    with FilmWriter(path, Writing(WIDTH, HEIGHT, Fraction(RATE), preset="veryfast", crf=14)) as writer:
        for frame in range(FRAMES):
            writer.add_picture(picture(frame))
    return path


def read_code(picture_: NDArray[np.uint8], box: Box4) -> tuple[int, float]:
    """Which of all codes from 10 to 99 the face in a box looks most like, and how much: the correlation of what is in the box
    with what such a face would show there."""
    side = 40
    left, top, width, height = box
    seen = (
        Image.fromarray(picture_)
        .convert("L")
        .transform(
            (side, side), Image.Transform.AFFINE, (width / side, 0, left, 0, height / side, top), Image.Resampling.BILINEAR
        )
    )
    values = _flat(np.asarray(seen, np.float64))
    likeness = [float((values * other).sum()) for other in _all_codes(side)]
    best = int(np.argmax(likeness))
    return best + 10, likeness[best]


def _flat(values: NDArray[np.float64]) -> NDArray[np.float64]:
    """The part of the face with the digits, without its mean, of length 1."""
    part = values[12:28, 4:36]
    part = part - part.mean()
    flat: NDArray[np.float64] = part / max(float(np.linalg.norm(part)), 1e-9)
    return flat


def _all_codes(side: int) -> list[NDArray[np.float64]]:
    if not _CODES_DRAWN:
        for code in range(10, 100):
            face = Face((0, 0), (0, 0), 84, code)
            drawn = Image.new("RGB", (84, 105), _SKINS[0])
            _draw_face(drawn, 0, face)
            _CODES_DRAWN.append(_flat(np.asarray(drawn.convert("L").resize((side, side), Image.Resampling.BOX), np.float64)))
    return _CODES_DRAWN


_CODES_DRAWN: list[NDArray[np.float64]] = []
_GROUNDS: list[Image.Image] = []
_HEADS: dict[int, Image.Image] = {}


def _ground() -> Image.Image:
    """A wall with soft blotches, lines and boxes, the same each time."""
    if not _GROUNDS:
        dice = np.random.default_rng(7)
        small = dice.integers(60, 190, (_HIGH // 18, _WIDE // 18, 3), np.uint8)
        ground = Image.fromarray(small).resize((_WIDE, _HIGH), Image.Resampling.BICUBIC).filter(ImageFilter.GaussianBlur(3))
        drawing = ImageDraw.Draw(ground)
        for _ in range(120):
            x, y = int(dice.integers(0, _WIDE)), int(dice.integers(0, _HIGH))
            drawing.rectangle(
                (x, y, x + int(dice.integers(10, 60)), y + int(dice.integers(10, 60))),
                fill=tuple(dice.integers(30, 220, 3).tolist()),
            )
        _GROUNDS.append(ground)
    return _GROUNDS[0]


def _head(number: int, face: Face) -> Image.Image:
    if number not in _HEADS:
        width, height = round(face.width), round(face.width * 1.25)
        image = Image.new("RGBA", (width, height), (0, 0, 0, 0))
        mask = Image.new("L", (width, height), 0)
        ImageDraw.Draw(mask).ellipse((0, 0, width - 1, height - 1), fill=255)
        drawn = Image.new("RGB", (width, height), _SKINS[number])
        _draw_face(drawn, number, face)
        image.paste(drawn, (0, 0), mask)
        _HEADS[number] = image
    return _HEADS[number]


def _draw_face(image: Image.Image, number: int, face: Face) -> None:
    drawing = ImageDraw.Draw(image)
    width, height = image.size
    drawing.rectangle((0, 0, width, height * 0.18), fill=_HAIR[number])
    for middle in (0.32, 0.68):
        drawing.ellipse((width * (middle - 0.07), height * 0.2, width * (middle + 0.07), height * 0.28), fill=(245, 245, 245))
        drawing.ellipse((width * (middle - 0.03), height * 0.21, width * (middle + 0.03), height * 0.27), fill=(20, 20, 20))
    drawing.rectangle((width * 0.35, height * 0.8, width * 0.65, height * 0.85), fill=(130, 40, 40))
    dot = width * 0.8 / 7
    for place, digit in enumerate(str(face.code)):
        for row, dots in enumerate(DIGITS[digit]):
            for column in range(3):
                if int(dots) >> (2 - column) & 1:
                    x, y = width * 0.1 + (4 * place + column) * dot, height * 0.32 + row * height * 0.075
                    drawing.rectangle((x, y, x + dot - 1, y + height * 0.075 - 1), fill=(15, 15, 15))

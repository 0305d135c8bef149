"""A made film of two camera views, lit unevenly: two whites in the first view, one in the second, and a grey item in both."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import cv2
import numpy as np

from filmreview.facts.region import Box
from filmreview.film.writing import FilmWriter, Writing

SECOND_VIEW, FRAMES = 20, 40
"""The number of the second view's first frame, and how many frames there are, at 25 a second."""
NEAR = {"left": (2, Box(60, 160, 50, 50)), "right": (10, Box(560, 160, 50, 50))}
"""The whites of the first view: the frame each is pointed at on, and where."""
OTHER_VIEW = {"other": (SECOND_VIEW + 1, Box(480, 240, 50, 50))}
"""The white of the second view."""
ITEM = Box(490, 170, 50, 50)
"""A grey item, in the middle of the light of the right white, in both views."""

_WHITE, _GREY = 235.0, 128.0
_LEFT, _RIGHT = np.array([0.95, 0.8, 0.62]), np.array([0.72, 0.78, 0.8])
"""The light at the left and right edge of the picture: warm and cold, as a share of each of R', G', B'."""


def picture_of(number: int) -> np.ndarray:
    """A frame, uint8 (360, 640, 3): a hall of its own in each view, players that stand elsewhere in each frame."""
    second = number >= SECOND_VIEW
    hall = np.random.default_rng(2 if second else 1).uniform(40, 200, (9, 16, 3))
    picture = np.clip(cv2.resize(hall, (640, 360), interpolation=cv2.INTER_CUBIC), 30, 210)
    across = np.linspace(0, 1, 640)[None, :, None]
    picture *= _LEFT + across * (_RIGHT - _LEFT)
    draw = np.random.default_rng(number)
    for _ in range(4):
        x = int(draw.integers(0, 600))
        picture[260:340, x : x + 24] = draw.integers(30, 220, 3)
    whites = OTHER_VIEW if second else NEAR
    for box, level in [*((box, _WHITE) for _, box in whites.values()), (ITEM, _GREY)]:
        light = (_LEFT + across * (_RIGHT - _LEFT))[:, box.x : box.right]
        picture[box.y : box.bottom, box.x : box.right] = level * light
    return picture.astype(np.uint8)


def write_two_views(path: Path) -> Path:
    """Write the film, H.264."""
    with FilmWriter(path, Writing(640, 360, Fraction(25), crf=14, key_every=10)) as writer:
        for number in range(FRAMES):
            writer.add_picture(picture_of(number))
    return path

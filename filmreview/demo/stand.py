"""Where the camera stands, and how feet on the court become pixels of the big picture that the shots are cut from.

Court coordinates in feet: x from the division line (0) to the end line (42), y from the near side line (0) to the far one
(50), z up. The image plane is upright, so upright things stay upright and only their scale changes with depth. Dimensions of
a school court: 84 x 50 ft, lane 12 ft wide, free-throw line 15 ft from the plane of the backboard, board 4 ft inside the end
line, ring 18 in wide and 10 ft up.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

END_LINE = 42.0
FAR_LINE = 50.0
MIDDLE = 25.0
BOARD = END_LINE - 4.0
RING = (BOARD - 1.25, MIDDLE, 10.0)
FREE_THROW_LINE = BOARD - 15.0
LANE = (19.0, 31.0)

BIG_WIDTH, BIG_HEIGHT = 3840, 2160
_CAMERA_X, _CAMERA_BACK, _CAMERA_UP = 24.0, 48.0, 15.0
_FOCAL = 4833.0
_HORIZON = 430.0


def scale_at(y: float) -> float:
    """Pixels of the big picture to one foot at the depth y."""
    return _FOCAL / (y + _CAMERA_BACK)


def spot(x: float, y: float, z: float = 0.0) -> tuple[float, float]:
    """Column and row in the big picture of a point of the gym, feet."""
    scale = scale_at(y)
    return BIG_WIDTH / 2 + (x - _CAMERA_X) * scale, _HORIZON - (z - _CAMERA_UP) * scale


def floor_under(rows: NDArray[np.float32], columns: NDArray[np.float32]) -> tuple[NDArray[np.float32], NDArray[np.float32]]:
    """Court x and y under pixels of the big picture that show the floor; above the horizon a far depth is returned."""
    depth = _FOCAL * _CAMERA_UP / np.maximum(rows - _HORIZON, 250.0)
    return _CAMERA_X + (columns - BIG_WIDTH / 2) * depth / _FOCAL, depth - _CAMERA_BACK


@dataclass(frozen=True)
class Shot:
    """The part of the big picture that fills the film's picture: its middle and its width, in big pixels; 16:9."""

    x: float
    y: float
    width: float

    @property
    def height(self) -> float:
        """Height in big pixels."""
        return self.width * 9 / 16

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom, kept inside the big picture."""
        left = min(max(self.x - self.width / 2, 0.0), BIG_WIDTH - self.width)
        top = min(max(self.y - self.height / 2, 0.0), BIG_HEIGHT - self.height)
        return left, top, left + self.width, top + self.height

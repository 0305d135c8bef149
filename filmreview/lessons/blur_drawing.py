"""Faces made unreadable, in the planes themselves: what is written never held the face.

Each box is brought down to a few coarse cells along its longer side, whatever its size in pixels, rounded to a few levels and
drawn again smoothly. Four cells across are below the 7 x 10 at which familiar faces are still known (Sinha, Balas, Ostrovsky,
Russell 2006, "Face recognition by humans: nineteen results", result 1; value from memory).
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from PIL import Image

from filmreview.facts.region import Box
from filmreview.lessons.planes import Plane, Planes

CELLS = 4
"""Along the longer side of a blurred box."""
LEVELS = 16
"""How many levels a cell may have: all that is left of a box is CELLS x CELLS cells of so many levels in each plane."""


def blur(planes: Planes, boxes: Iterable[Box]) -> Planes:
    """The picture with the boxes blurred, in new planes. boxes: inside the picture."""
    boxes = tuple(boxes)
    if not boxes:
        return planes
    luma, blue, red = (plane.copy() for plane in planes)
    for box in boxes:
        _blur_part(luma, box.x, box.y, box.right, box.bottom)
        for chroma in (blue, red):  # a chroma sample belongs to two pixels each way: outwards to whole ones
            _blur_part(chroma, box.x // 2, box.y // 2, -(-box.right // 2), -(-box.bottom // 2))
    return Planes(luma, blue, red)


def _blur_part(plane: Plane, left: int, top: int, right: int, bottom: int) -> None:
    part = plane[top:bottom, left:right]
    height, width = part.shape
    longer = max(height, width)
    across, down = (max(1, round(CELLS * side / longer)) for side in (width, height))
    cells = np.asarray(Image.fromarray(np.ascontiguousarray(part)).resize((across, down), Image.Resampling.BOX))
    step = 256 // LEVELS
    coarse = Image.fromarray((cells // step * step + step // 2).astype(np.uint8))
    part[:] = np.asarray(coarse.resize((width, height), Image.Resampling.BILINEAR))

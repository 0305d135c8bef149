"""Pictures for the crew: nobody in them is to be known by the face.

Everything outside the marked region is brought down to a few coarse cells. The region stays sharp, as it is what the finding is
about, unless the item is worn on the head: then it is coarse too, and shows colour and place only. What is gone is gone: the
picture is made from the coarse cells.
"""

from __future__ import annotations

import numpy as np
from PIL import Image

from filmreview.facts.region import Box, Region
from filmreview.measure.shape import mask_of
from filmreview.sheets.marking import Picture

ROWS = 18  # cells from top to bottom of the picture: a face a third of it high is left with six
CELLS_ACROSS = 6  # of the region of an item on the head, along its longer side
ON_THE_HEAD = frozenset(
    {
        "headband", "hair tie", "hair item", "hair ribbon", "pre-wrap", "head covering", "face mask", "eyewear", "mouthguard",
        "jewelry", "earbuds", "blood",
    }
)  # fmt: skip


def blurred(picture: Picture, region: Region | None, item: str) -> Picture:
    """The picture with all but the region blurred, uint8 (height, width, 3) as it came.

    Raises FilmReviewError when the region reaches outside the picture.
    """
    height, width = picture.shape[:2]
    made = _coarse(picture, round(width * ROWS / height), ROWS)
    if region is None:
        return made
    box, mask = mask_of(region, width, height)
    place = (slice(box.y, box.bottom), slice(box.x, box.right))
    kept = picture[place]
    if item in ON_THE_HEAD:
        kept = _coarse(kept, *_cells(box))
    made[place] = np.where(mask[..., None], kept, made[place])
    return made


def _cells(box: Box) -> tuple[int, int]:
    longer = max(box.width, box.height)
    return round(CELLS_ACROSS * box.width / longer), round(CELLS_ACROSS * box.height / longer)


def _coarse(picture: Picture, across: int, down: int) -> Picture:
    """The picture through that many cells, smoothly drawn again."""
    height, width = picture.shape[:2]
    image = Image.fromarray(np.ascontiguousarray(picture))
    cells = image.resize((max(1, min(across, width)), max(1, min(down, height))), Image.Resampling.BOX)
    return np.array(cells.resize((width, height), Image.Resampling.BICUBIC))

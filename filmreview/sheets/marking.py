"""One picture of a finding: the whole frame with the region marked, and beside it a close crop of the region.

In: an upright picture, uint8 (height, width, 3) R'G'B', and a region. Out: a JPEG. The mark is a dark line around a light
one, so that it shows on any picture without relying on a colour.
"""

from __future__ import annotations

import io
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageChops, ImageFilter

from filmreview.facts.region import Box, Region
from filmreview.measure.shape import Mask, mask_of

Picture = NDArray[np.uint8]

HEIGHT = 330  # pixels of both parts; twice what is shown, for sharp paper
GAP = 10
QUALITY = 82
_DARK, _LIGHT = (0, 0, 0), (255, 255, 255)
_WIDEST = 6
_RINGS = ((_WIDEST, _DARK), (4, _LIGHT), (2, _DARK))  # how far out each reaches, the widest first
_CONTEXT = 0.6  # of the region's longer side, shown around it in the close crop
_FEWEST = 24  # pixels across the close crop at least: below that only blocks are seen


@dataclass(frozen=True)
class Marked:
    """A picture ready to be put on a sheet. jpeg: the file. width, height: pixels. frame_width: of the whole frame in it; the
    close crop begins GAP after that."""

    jpeg: bytes
    width: int
    height: int
    frame_width: int


def marked(picture: Picture, region: Region | None) -> Marked:
    """The frame with the region marked and the close crop beside it; without a region the frame alone.

    Raises FilmReviewError when the region reaches outside the picture.
    """
    height, width = picture.shape[:2]
    whole = Image.fromarray(picture)
    size = (max(1, round(width * HEIGHT / height)), HEIGHT)
    frame = whole.resize(size, Image.Resampling.LANCZOS)
    if region is None:
        return _saved(frame, frame.width)
    box, mask = mask_of(region, width, height)
    _draw_mark(frame, Box(0, 0, width, height), box, mask)
    sheet = Image.new("RGB", (frame.width + GAP + HEIGHT, HEIGHT), _LIGHT)
    sheet.paste(frame, (0, 0))
    crop = close_crop(box, width, height)
    close = whole.crop((crop.x, crop.y, crop.right, crop.bottom)).resize((HEIGHT, HEIGHT), Image.Resampling.BICUBIC)
    _draw_mark(close, crop, box, mask)
    sheet.paste(close, (frame.width + GAP, 0))
    return _saved(sheet, frame.width)


def close_crop(region: Box, width: int, height: int) -> Box:
    """The square around a region that the close crop shows, moved to lie inside a picture of this width and height."""
    longer = max(region.width, region.height)
    side = min(max(round(longer * (1 + 2 * _CONTEXT)), _FEWEST), width, height)
    side = max(side, min(longer, width, height))
    x = min(max(region.x + region.width // 2 - side // 2, 0), width - side)
    y = min(max(region.y + region.height // 2 - side // 2, 0), height - side)
    return Box(x, y, side, side)


def _draw_mark(image: Image.Image, shown: Box, box: Box, mask: Mask) -> None:
    """Draw the rings around a region on an image of the part `shown` of the picture. mask: the region's pixels in its box."""
    scale_x, scale_y = image.width / shown.width, image.height / shown.height
    room = _WIDEST + 1
    left, top = round((box.x - shown.x) * scale_x), round((box.y - shown.y) * scale_y)
    size = (max(1, round(box.width * scale_x)), max(1, round(box.height * scale_y)))
    inside = Image.new("L", (size[0] + 2 * room, size[1] + 2 * room), 0)
    inside.paste(Image.fromarray(mask).convert("L").resize(size, Image.Resampling.NEAREST), (room, room))
    for out, shade in _RINGS:
        ring = ImageChops.subtract(inside.filter(ImageFilter.MaxFilter(2 * out + 1)), inside)
        image.paste(shade, (left - room, top - room), ring)


def _saved(image: Image.Image, frame_width: int) -> Marked:
    data = io.BytesIO()
    image.save(data, "JPEG", quality=QUALITY, subsampling=0)
    return Marked(data.getvalue(), image.width, image.height, frame_width)

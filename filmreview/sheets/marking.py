"""One picture of a finding: the whole frame with the region marked, and beside it a close crop of the region.

In: an upright picture, uint8 (height, width, 3) R'G'B', and a region. Out: a JPEG. The mark is a dark line around a light
one, so that it shows on any picture without relying on a colour.
"""

from __future__ import annotations

import io
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from filmreview.facts.region import Box

Picture = NDArray[np.uint8]

HEIGHT = 330  # pixels of both parts; twice what is shown, for sharp paper
GAP = 10
QUALITY = 82
_DARK, _LIGHT = (0, 0, 0), (255, 255, 255)
_RINGS = ((6, _DARK), (5, _DARK), (4, _LIGHT), (3, _LIGHT), (2, _DARK), (1, _DARK))
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


def marked(picture: Picture, region: Box | None) -> Marked:
    """The frame with the region marked and the close crop beside it; without a region the frame alone.

    Raises FilmReviewError when the region reaches outside the picture.
    """
    height, width = picture.shape[:2]
    whole = Image.fromarray(picture)
    frame = whole.resize((max(1, round(width * HEIGHT / height)), HEIGHT), Image.Resampling.LANCZOS)
    if region is None:
        return _saved(frame, frame.width)
    region.check_inside(width, height)
    scale = HEIGHT / height
    _draw_mark(frame, (region.x * scale, region.y * scale, region.right * scale, region.bottom * scale))
    sheet = Image.new("RGB", (frame.width + GAP + HEIGHT, HEIGHT), _LIGHT)
    sheet.paste(frame, (0, 0))
    sheet.paste(_close(whole, region), (frame.width + GAP, 0))
    return _saved(sheet, frame.width)


def close_crop(region: Box, width: int, height: int) -> Box:
    """The square around a region that the close crop shows, moved to lie inside a picture of this width and height."""
    longer = max(region.width, region.height)
    side = min(max(round(longer * (1 + 2 * _CONTEXT)), _FEWEST), width, height)
    side = max(side, min(longer, width, height))
    x = min(max(region.x + region.width // 2 - side // 2, 0), width - side)
    y = min(max(region.y + region.height // 2 - side // 2, 0), height - side)
    return Box(x, y, side, side)


def _close(whole: Image.Image, region: Box) -> Image.Image:
    crop = close_crop(region, whole.width, whole.height)
    part = whole.crop((crop.x, crop.y, crop.right, crop.bottom)).resize((HEIGHT, HEIGHT), Image.Resampling.BICUBIC)
    scale = HEIGHT / crop.width
    corners = (region.x - crop.x, region.y - crop.y, region.right - crop.x, region.bottom - crop.y)
    _draw_mark(part, tuple(corner * scale for corner in corners))
    return part


def _draw_mark(image: Image.Image, corners: tuple[float, ...]) -> None:
    left, top, right, bottom = corners
    draw = ImageDraw.Draw(image)
    for out, shade in _RINGS:
        draw.rectangle((left - out, top - out, right - 1 + out, bottom - 1 + out), outline=shade)


def _saved(image: Image.Image, frame_width: int) -> Marked:
    data = io.BytesIO()
    image.save(data, "JPEG", quality=QUALITY, subsampling=0)
    return Marked(data.getvalue(), image.width, image.height, frame_width)

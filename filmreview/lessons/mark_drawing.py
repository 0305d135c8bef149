"""The item marked on the held frame: everything else dimmed, or a line around it; and the item enlarged beside it.

A line is dark, light and dark again, so that it shows on any picture without relying on a colour.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageChops, ImageFilter

from filmreview.facts.region import Box, Region
from filmreview.lessons.caption_drawing import hidden
from filmreview.lessons.planes import Picture
from filmreview.measure.shape import mask_of
from filmreview.sheets.marking import close_crop

_DIMMED = 0.35  # of the light that is left around the item
_DARK, _LIGHT = 0, 255
_INSET = 0.42  # of the picture's height
_EDGE = 3


def item_mask(region: Region, size: tuple[int, int], shown: tuple[int, int]) -> NDArray[np.bool_]:
    """Which pixels belong to the item, in a picture shown at another size. size, shown: width and height of the upright frame
    and of what is shown of it. Raises FilmReviewError when the region reaches outside the frame."""
    box, mask = mask_of(region, *size)
    whole = np.zeros((size[1], size[0]), np.uint8)
    whole[box.y : box.bottom, box.x : box.right] = mask * 255
    return np.asarray(Image.fromarray(whole).resize(shown, Image.Resampling.BOX)) > 127


def dimmed(picture: Picture, mask: NDArray[np.bool_]) -> Picture:
    """All but the item darkened."""
    return np.where(mask[..., None], picture, (picture * _DIMMED).astype(np.uint8))


def outlined(picture: Picture, mask: NDArray[np.bool_]) -> Picture:
    """A line around the item, outside it."""
    made = picture.copy()
    thick = max(1, picture.shape[0] // 360)
    inside = Image.fromarray(mask.astype(np.uint8) * 255)
    for out, shade in ((4 * thick, _DARK), (3 * thick, _LIGHT), (thick, _DARK)):
        ring = np.asarray(ImageChops.subtract(inside.filter(ImageFilter.MaxFilter(2 * out + 1)), inside)) > 0
        made[ring] = shade
    return made


def with_inset(picture: Picture, frame: Picture, item: Box, placed: Box, taken: Box) -> Picture:
    """The picture with the item enlarged in the corner where that hides least. frame: the whole frame, full size. item: in it.
    placed: where the frame lies in the picture. taken: the band with words."""
    crop = close_crop(item, frame.shape[1], frame.shape[0])
    height, width = picture.shape[:2]
    side = min(round(height * _INSET), height - taken.height - 4 * _EDGE, width // 2)
    if side < 2 * _EDGE + 8:
        return picture  # no room beside the words
    corner = _corner(side, width, height, shown_item(item, frame, placed), taken)
    close = Image.fromarray(np.ascontiguousarray(frame[crop.y : crop.bottom, crop.x : crop.right]))
    made = picture.copy()
    for shade, edge in ((_DARK, 0), (_LIGHT, 1), (_DARK, _EDGE - 1)):
        made[corner.y + edge : corner.bottom - edge, corner.x + edge : corner.right - edge] = shade
    inner = side - 2 * _EDGE
    made[corner.y + _EDGE : corner.bottom - _EDGE, corner.x + _EDGE : corner.right - _EDGE] = np.asarray(
        close.resize((inner, inner), Image.Resampling.BICUBIC)
    )
    return made


def shown_item(item: Box, frame: Picture, placed: Box) -> Box:
    """Where a box of the frame lies in the picture. placed: where the frame lies in it."""
    across, down = placed.width / frame.shape[1], placed.height / frame.shape[0]
    return Box(
        placed.x + int(item.x * across), placed.y + int(item.y * down),
        max(1, round(item.width * across)), max(1, round(item.height * down)),
    )  # fmt: skip


def _corner(side: int, width: int, height: int, item: Box, taken: Box) -> Box:
    """Free of the words, and of the four the one that hides least of the item; the upper ones first."""
    top = taken.bottom + 2 * _EDGE if taken.height and taken.y == 0 else 2 * _EDGE
    bottom = (taken.y if taken.height and taken.y > 0 else height) - side - 2 * _EDGE
    corners = [Box(x, y, side, side) for y in (top, max(top, bottom)) for x in (width - side - 2 * _EDGE, 2 * _EDGE)]
    return min(corners, key=lambda corner: hidden(item, corner))

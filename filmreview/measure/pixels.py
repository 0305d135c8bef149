"""The pixels of a region that may be measured, and their mean in linear light.

Method: full-size float R'G'B', eroded edge, linear light (IEC 61966-2-1), the darkest quarter and the brightest tenth by
luminance and clipped pixels dropped, mean of the rest.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from filmreview.colour.spaces import picture_to_linear
from filmreview.facts.region import Region
from filmreview.measure.edge import mixed_share
from filmreview.measure.shape import Eroded, erode, mask_of, surroundings

Floats = NDArray[np.float64]
Picture = NDArray[Any]

CLIPPED_FROM = 0.985
"""R', G' or B' from which a pixel counts as clipped: 1.0 less what compression adds or takes away."""
LOWEST_SHARE, HIGHEST_SHARE = 0.25, 0.90
BLACK_PICTURE = "the picture is black"
_BLACK = 0.03
"""R', G' and B' under which a pixel has no light: lit black cloth lies above it on made gym scenes of four kinds."""
_LUMINANCE = np.array([0.2126, 0.7152, 0.0722])
_DARKEST, _VEILED, _MOST_VEIL = 0.002, 0.7, 0.012
"""Share of the picture that is taken as its darkest; the part of its light that is no item's own but flare, haze and the
camera's lift; linear light beyond which the picture simply holds nothing dark. Found on made gym scenes, of two kinds alike."""
_BRIGHTEST = 0.99
_BLOCK = 4


@dataclass(frozen=True)
class Pixels:
    """A region's pixels. values: nonlinear R'G'B' (n, 3). linear: linear R, G, B (n, 3). clipped: (n,). shape: what was
    left after eroding. around: linear R, G, B (m, 3) of the pixels next to the region. uneven: standard deviation of the
    luminance of its blocks of 4 x 4 px, as a share of their mean: folds and shading. mixed: share of the surroundings' light in
    its mean (`edge.mixed_share`)."""

    values: Floats
    linear: Floats
    clipped: NDArray[np.bool_]
    shape: Eroded
    around: Floats
    uneven: float = 0.0
    mixed: float = 0.0

    @property
    def clipped_share(self) -> float:
        """Share of clipped pixels, 0 to 1."""
        return float(self.clipped.mean()) if len(self.clipped) else 0.0

    @property
    def dark_share(self) -> float:
        """Share of pixels that have no light, 0 to 1: at the dark end of what a film can show."""
        return dark_share(self.values)

    @property
    def left(self) -> int:
        """How many pixels trimming leaves for a mean: none when all of its band are clipped."""
        return int((_band(self.linear) & ~self.clipped).sum()) if len(self.linear) else 0


def pixels_in(picture: Picture, region: Region, by: int) -> Pixels:
    """The pixels of a region of a float picture (height, width, 3), its edge eroded by up to `by` px. Raises
    FilmReviewError when the region reaches outside the picture."""
    box, mask = mask_of(region, picture.shape[1], picture.shape[0])
    shape = erode(box, mask, by)
    cut = picture[box.y : box.bottom, box.x : box.right]
    values = cut[shape.mask].astype(np.float64)
    linear = picture_to_linear(cut[shape.mask]).astype(np.float64)
    highest = np.maximum(np.maximum(values[:, 0], values[:, 1]), values[:, 2])  # far faster than a maximum along the axis
    clipped: NDArray[np.bool_] = highest >= CLIPPED_FROM
    place, ring = surroundings(shape, mask, picture.shape[1], picture.shape[0])
    around = picture_to_linear(picture[place.y : place.bottom, place.x : place.right][ring]).astype(np.float64)
    mixed = mixed_share(linear, shape.mask, around, shape.by)
    return Pixels(values, linear, clipped, shape, around, _unevenness(linear, shape.mask), mixed)


def _unevenness(linear: Floats, mask: NDArray[np.bool_]) -> float:
    """Of whole blocks only; a region narrower than a block has blocks as wide as itself."""
    rows, columns = np.flatnonzero(mask.any(axis=1)), np.flatnonzero(mask.any(axis=0))
    if not len(rows):
        return 0.0
    inner = mask[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
    luminance = np.zeros(inner.shape)
    luminance[inner] = linear @ _LUMINANCE
    high, wide = (min(_BLOCK, size) for size in inner.shape)
    place = (inner.shape[0] // high, high, inner.shape[1] // wide, wide)
    shape = (place[0] * high, place[2] * wide)
    whole = inner[: shape[0], : shape[1]].reshape(place).all(axis=(1, 3))
    means = luminance[: shape[0], : shape[1]].reshape(place).mean(axis=(1, 3))[whole]
    return float(means.std() / max(float(means.mean()), 1e-4)) if len(means) > 1 else 0.0


def trimmed_mean(linear: Floats, clipped: NDArray[np.bool_]) -> tuple[Floats, int]:
    """Mean linear R, G, B of the pixels (n, 3), one or more, between the 25th and 90th percentile of luminance that are not
    clipped, and how many these are. Falls back to all pixels of that band when every one is clipped."""
    band = _band(linear)
    kept = band & ~clipped
    if not kept.any():
        kept = band
    return linear[kept].mean(axis=0), int(kept.sum())


def _band(linear: Floats) -> NDArray[np.bool_]:
    luminance = linear @ _LUMINANCE
    low, high = np.quantile(luminance, [LOWEST_SHARE, HIGHEST_SHARE])
    band: NDArray[np.bool_] = (luminance >= low) & (luminance <= high)
    return band if band.any() else np.ones_like(band)  # of two pixels neither lies between


def dark_share(values: Floats) -> float:
    """Share of pixels nonlinear R'G'B' (n, 3) that have no light, 0 to 1; 0 of none."""
    return float((values.max(axis=1) < _BLACK).mean()) if len(values) else 0.0


def black_of(picture: Picture) -> float:
    """Linear light that lies over the whole of a float picture (height, width, 3), judged by its darkest blocks of 4 x 4 px:
    what is to be taken away before a dark colour is believed."""
    blocks = _blocks(picture)
    if not len(blocks):
        return 0.0
    darkest = np.quantile(picture_to_linear(blocks), _DARKEST, axis=0)
    return _VEILED * min(float(darkest.min()), _MOST_VEIL)


def bright_of(picture: Picture) -> float:
    """Luminance of the brightest hundredth of a float picture (height, width, 3) that is not clipped, in linear light: about
    what white has where it is well lit. 0 when all is clipped."""
    blocks = _blocks(picture)
    kept = blocks[blocks.max(axis=1) < CLIPPED_FROM] if len(blocks) else blocks
    return float(np.quantile(picture_to_linear(kept) @ _LUMINANCE, _BRIGHTEST)) if len(kept) else 0.0


def _blocks(picture: Picture) -> NDArray[np.float32]:
    """Means R'G'B' (n, 3) of blocks of 4 x 4 px, of one row of blocks in six."""
    high, wide = picture.shape[0] // (6 * _BLOCK), picture.shape[1] // _BLOCK
    if not high or not wide:
        return np.zeros((0, 3), dtype=np.float32)
    rows = picture[: high * 6 * _BLOCK].reshape(high, 6 * _BLOCK, -1, 3)[:, :_BLOCK, : wide * _BLOCK]
    blocks: NDArray[np.float32] = rows.reshape(high, _BLOCK, wide, _BLOCK, 3).mean(axis=(1, 3), dtype=np.float32)
    return blocks.reshape(-1, 3)


def film_trouble(picture: Picture) -> str:
    """Why no colour can be measured anywhere in this picture: black, or monochrome. Empty when there is none."""
    step = max(1, min(picture.shape[:2]) // 90)
    sample = picture[::step, ::step].reshape(-1, 3).astype(np.float64)
    if not len(sample) or np.quantile(sample.max(axis=1), 0.99) < _BLACK:
        return BLACK_PICTURE
    spread = sample.max(axis=1) - sample.min(axis=1)
    return "the film is monochrome" if np.quantile(spread, 0.995) < 0.02 else ""

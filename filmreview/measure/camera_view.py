"""Whether two frames show the same camera view: a white is a reference for the view it stands in.

Two frames are compared by what is left of them at 64 x 36 blocks, at every place that a slow pan may have moved them by.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from filmreview.measure.reference import Reference

Floats = NDArray[np.float64]

_WIDE, _HIGH = 64, 36
_PANNED = 24
"""Blocks that a frame may be moved sideways: three eighths of the picture."""
_ALIKE = 0.6
"""Correlation from which two frames are one view; players that move and noise take little of it, another camera most."""


@dataclass(frozen=True, eq=False)
class Look:
    """What is kept of a picture to tell its view by, 18 kB. size: its height and width in px. blocks: (36, 64)."""

    size: tuple[int, int]
    blocks: Floats


def look_of(picture: NDArray[Any]) -> Look:
    """The look of a picture (height, width, 3), uint8 or float."""
    return Look((picture.shape[0], picture.shape[1]), _coarse(picture))


def alike(one: Look, other: Look) -> bool:
    """Whether two pictures of one film, known by their looks, show the same view, panned a little perhaps."""
    if one.size != other.size:
        return False
    shifts = range(-_PANNED, _PANNED + 1)
    return max(_correlation(*_overlap(one.blocks, other.blocks, shift)) for shift in shifts) >= _ALIKE


def same_view(one: NDArray[Any], other: NDArray[Any]) -> bool:
    """Whether two pictures (height, width, 3) of one film, uint8 or float, show the same view, panned a little perhaps."""
    return alike(look_of(one), look_of(other))


def seen_from(reference: Reference, there: NDArray[Any], here: NDArray[Any]) -> Reference:
    """The reference of the picture `there` as it counts for the picture `here`: from another view it tells the light no better
    than one a picture's width away."""
    return reference if same_view(there, here) else replace(reference, elsewhere=True)


def _coarse(picture: NDArray[Any]) -> Floats:
    """Green, which is most of luma, at the middles of blocks, each the mean of 4 x 4 px or fewer."""
    rows = np.linspace(0, max(picture.shape[0] - 4, 0), _HIGH).astype(int)
    columns = np.linspace(0, max(picture.shape[1] - 4, 0), _WIDE).astype(int)
    total = np.zeros((_HIGH, _WIDE))
    for down in range(min(4, picture.shape[0])):
        for right in range(min(4, picture.shape[1])):
            total += picture[(rows + down)[:, None], (columns + right)[None, :], 1]
    return total


def _overlap(first: Floats, second: Floats, shift: int) -> tuple[Floats, Floats]:
    if shift >= 0:
        return first[:, shift:], second[:, : _WIDE - shift]
    return first[:, :shift], second[:, -shift:]


def _correlation(first: Floats, second: Floats) -> float:
    one, two = first - first.mean(), second - second.mean()
    size = float(np.sqrt((one * one).sum() * (two * two).sum()))
    return float((one * two).sum()) / size if size > 1e-9 else 1.0

"""The nearest of a fixed set of colours by CIEDE2000, for many colours at once.

DIN99d (Cui, Luo, Rigg, Roesler and Witt, Color Res. Appl. 27 (2002) 282-290, without its change to X) is a space in which plain
distances come close to CIEDE2000. It picks a few candidates for each colour; CIEDE2000 itself decides between these.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from filmreview.colour.difference import ciede2000

Floats = NDArray[np.float64]

_CANDIDATES = 5
_PIECE = 256  # distances of a piece stay in the processor's cache
_COS_50, _SIN_50 = np.cos(np.radians(50.0)), np.sin(np.radians(50.0))


class Points:
    """A fixed set of colours. labs: their L*, a*, b*, (m, 3)."""

    def __init__(self, labs: Floats) -> None:
        self.labs = labs
        self._even = din99d(labs)

    def nearest(self, labs: Floats) -> NDArray[np.intp]:
        """For each colour (n, 3) the number of the nearest of the set by CIEDE2000."""
        even = din99d(labs)
        within = self._within_reach(even)
        candidates = np.empty((len(labs), min(_CANDIDATES, len(within))), dtype=np.intp)
        for start in range(0, len(labs), _PIECE):
            part = slice(start, start + _PIECE)
            candidates[part] = within[_closest(even[part], self._even[within], candidates.shape[1])]
        best = np.argmin(ciede2000(labs[:, None, :], self.labs[candidates]), axis=1)
        result: NDArray[np.intp] = candidates[np.arange(len(labs)), best]
        return result

    def _within_reach(self, even: Floats) -> NDArray[np.intp]:
        """Those of the set that can be among the candidates of any of these: a cloud of draws needs few of them."""
        middle = even.mean(axis=0)
        reach = float(np.linalg.norm(even - middle, axis=1).max())
        apart = np.linalg.norm(self._even - middle, axis=1)
        farthest = np.sort(apart)[min(_CANDIDATES, len(apart)) - 1]
        return np.flatnonzero(apart <= farthest + 2.0 * reach)


def _closest(points: Floats, among: Floats, count: int) -> NDArray[np.intp]:
    """Numbers of the `count` closest by plain distance, closest first, (n, count)."""
    distances = points @ (-2.0 * among.T)
    distances += (among**2).sum(axis=1)
    rows = np.arange(len(points))
    found = np.empty((len(points), count), dtype=np.intp)
    for place in range(count):
        found[:, place] = np.argmin(distances, axis=1)
        distances[rows, found[:, place]] = np.inf
    return found


def din99d(labs: Floats) -> Floats:
    """L*, a*, b* (..., 3) to L99d, a99d, b99d (..., 3)."""
    lightness, a, b = labs[..., 0], labs[..., 1], labs[..., 2]
    red, yellow = a * _COS_50 + b * _SIN_50, 1.14 * (b * _COS_50 - a * _SIN_50)
    size = np.hypot(red, yellow)
    chroma = 22.5 * np.log1p(0.06 * size) / np.maximum(size, 1e-12)
    turned = chroma * (red * _COS_50 - yellow * _SIN_50), chroma * (red * _SIN_50 + yellow * _COS_50)
    return np.stack([325.22 * np.log1p(0.0036 * np.maximum(lightness, 0.0)), *turned], axis=-1)

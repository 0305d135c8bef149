"""How many colours a region has: pixels split in two again and again while the two parts are truly apart.

Folds and shading make one colour spread mostly along lightness, evenly; two colours leave a gap. So lightness counts for
less, and a split is kept only when the middles are far apart against the scatter within the parts.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from filmreview.colour.difference import ciede2000
from filmreview.colour.value import Lab

Floats = NDArray[np.float64]

SOLID_SHARE = 0.9
"""A region is solid when one cluster holds this share of it (project default)."""
_LEAST_SHARE = 0.04
_LEAST_APART = 12.0
"""dE00 between two clusters. More than the 10 that counts as the same colour, since folds shift hue a little too."""
_LEAST_GAP = 4.2
"""Distance of the middles in standard deviations within; an even spread cut in half has 3.5."""
_LIGHTNESS_WEIGHT = 0.6
_MOST = 5
_MOST_PIXELS = 4000


@dataclass(frozen=True)
class Cluster:
    """One colour of a region. lab: its mean L*, a*, b*. share: of the region's pixels, 0 to 1."""

    lab: Lab
    share: float


def clusters_of(labs: Floats) -> tuple[tuple[Cluster, ...], NDArray[np.intp]]:
    """The clusters of pixels (n, 3), largest first, and for each pixel the number of its cluster."""
    parts = [np.arange(len(labs))]
    done: list[NDArray[np.intp]] = []
    while parts:
        part = parts.pop()
        halves = _split(labs, part, len(labs)) if len(parts) + len(done) + 1 < _MOST else None
        if halves is None:
            done.append(part)
        else:
            parts.extend(halves)
    done = _merged(labs, done)
    done.sort(key=len, reverse=True)
    numbers = np.empty(len(labs), dtype=np.intp)
    for number, part in enumerate(done):
        numbers[part] = number
    return tuple(_cluster(labs[part], len(labs)) for part in done), numbers


def sample_of(count: int) -> NDArray[np.intp]:
    """Which of so many pixels to look at: all, or of many a regular sample of 4000 and more."""
    return np.arange(0, count, max(1, count // _MOST_PIXELS))


def one_cluster(labs: Floats) -> tuple[tuple[Cluster, ...], NDArray[np.intp]]:
    """All pixels (n, 3) as one, in the form of `clusters_of`."""
    return (_cluster(labs, len(labs)),), np.zeros(len(labs), dtype=np.intp)


def _cluster(labs: Floats, total: int) -> Cluster:
    middle = labs.mean(axis=0)
    return Cluster((float(middle[0]), float(middle[1]), float(middle[2])), len(labs) / total)


def _split(labs: Floats, part: NDArray[np.intp], total: int) -> tuple[NDArray[np.intp], NDArray[np.intp]] | None:
    points = labs[part] * np.array([_LIGHTNESS_WEIGHT, 1.0, 1.0])
    if len(part) < max(2 * _LEAST_SHARE * total, 8):
        return None
    axis = np.linalg.eigh(np.cov(points.T))[1][:, -1]
    along = points @ axis
    low, high = np.quantile(along, [0.02, 0.98])
    second = _two_means(points, points[np.argmin(np.abs(along - low))], points[np.argmin(np.abs(along - high))])
    shares = np.array([np.sum(~second), np.sum(second)]) / total
    if shares.min() < _LEAST_SHARE or not _truly_apart(labs[part], points, second):
        return None
    return part[~second], part[second]


def _two_means(points: Floats, one: Floats, two: Floats) -> NDArray[np.bool_]:
    second = np.zeros(len(points), dtype=np.bool_)
    for _ in range(12):
        nearer = points @ (two - one) > 0.5 * (two @ two - one @ one)
        if np.array_equal(nearer, second) or nearer.all() or not nearer.any():
            break
        second = nearer
        one, two = points[~second].mean(axis=0), points[second].mean(axis=0)
    return second


def _truly_apart(labs: Floats, points: Floats, second: NDArray[np.bool_]) -> bool:
    if float(ciede2000(labs[~second].mean(axis=0), labs[second].mean(axis=0))) < _LEAST_APART:
        return False
    line = points[second].mean(axis=0) - points[~second].mean(axis=0)
    along = points @ (line / np.linalg.norm(line))
    within = np.sqrt(0.5 * (along[second].var() + along[~second].var()))
    return bool(np.linalg.norm(line) > _LEAST_GAP * max(within, 1e-6))


def _merged(labs: Floats, parts: list[NDArray[np.intp]]) -> list[NDArray[np.intp]]:
    """Parts of different branches can meet again: join those that are one colour."""
    joined: list[NDArray[np.intp]] = []
    for part in sorted(parts, key=len, reverse=True):
        for number, other in enumerate(joined):
            if float(ciede2000(labs[part].mean(axis=0), labs[other].mean(axis=0))) < _LEAST_APART:
                joined[number] = np.concatenate([other, part])
                break
        else:
            joined.append(part)
    return joined

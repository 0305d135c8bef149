"""The colour difference CIEDE2000 (ISO/CIE 11664-6), after Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21-30.

Worked in unit vectors instead of angles: one arc tangent for each pair instead of two, and pieces that stay in the
processor's cache. Symmetric in its arguments, also where the two hues lie opposite.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

_PIECE = 8192
_25_TO_7 = 25.0**7
_COS_30, _SIN_30 = np.cos(np.radians(30.0)), np.sin(np.radians(30.0))
_COS_6, _SIN_6 = np.cos(np.radians(6.0)), np.sin(np.radians(6.0))
_COS_63, _SIN_63 = np.cos(np.radians(63.0)), np.sin(np.radians(63.0))


def ciede2000(lab1: ArrayLike, lab2: ArrayLike) -> Floats:
    """CIEDE2000 between L*, a*, b* arrays (..., 3) that broadcast against each other; kL = kC = kH = 1. Shape (...)."""
    first, second = np.broadcast_arrays(np.asarray(lab1, dtype=np.float64), np.asarray(lab2, dtype=np.float64))
    shape = first.shape[:-1]
    first, second = first.reshape(-1, 3), second.reshape(-1, 3)
    result = np.empty(len(first))
    for start in range(0, len(first), _PIECE):
        part = slice(start, start + _PIECE)
        result[part] = _piece(first[part].T, second[part].T)
    return result.reshape(shape)


def _piece(first: Floats, second: Floats) -> Floats:
    """first, second: (3, n)."""
    (l1, a1, b1), (l2, a2, b2) = first.copy(), second.copy()  # copies: one run of memory for each coordinate
    stretch = 1.0 + 0.5 * (1.0 - _share(0.5 * (np.sqrt(a1 * a1 + b1 * b1) + np.sqrt(a2 * a2 + b2 * b2))))
    a1 *= stretch
    a2 *= stretch
    c1, c2 = np.sqrt(a1 * a1 + b1 * b1), np.sqrt(a2 * a2 + b2 * b2)
    mean_c = 0.5 * (c1 + c2)
    dh = _hue_difference(a1, b1, c1, a2, b2, c2)
    cos_h, sin_h = _mean_hue(a1, b1, c1, a2, b2, c2)
    weight_l = (0.5 * (l1 + l2) - 50.0) ** 2
    term_l = (l2 - l1) / (1.0 + 0.015 * weight_l / np.sqrt(20.0 + weight_l))
    term_c = (c2 - c1) / (1.0 + 0.045 * mean_c)
    term_h = dh / (1.0 + 0.015 * mean_c * _hue_weight(cos_h, sin_h))
    total = term_l * term_l + term_c * term_c + term_h * term_h
    total += _rotation(cos_h, sin_h, mean_c) * term_c * term_h
    difference: Floats = np.sqrt(np.maximum(total, 0.0))
    return difference


def _share(chroma: Floats) -> Floats:
    """The root of C^7 / (C^7 + 25^7)."""
    square = chroma * chroma
    seventh = square * square * square * chroma
    share: Floats = np.sqrt(seventh / (seventh + _25_TO_7))
    return share


def _hue_difference(a1: Floats, b1: Floats, c1: Floats, a2: Floats, b2: Floats, c2: Floats) -> Floats:
    """dH' = 2 sqrt(C1' C2') sin(dh'/2) without angles: |dH'|^2 = da^2 + db^2 - dC^2; the sign is that of the turn."""
    da, db, dc = a2 - a1, b2 - b1, c2 - c1
    size = np.sqrt(np.maximum(da * da + db * db - dc * dc, 0.0))
    return np.where(a1 * b2 - a2 * b1 < 0.0, -size, size)


def _mean_hue(a1: Floats, b1: Floats, c1: Floats, a2: Floats, b2: Floats, c2: Floats) -> tuple[Floats, Floats]:
    """Cosine and sine of the mean hue: the direction of the sum of the two unit vectors. A grey counts for nothing."""
    x, y = a1 * c2 + a2 * c1, b1 * c2 + b2 * c1
    grey = (c1 == 0.0) | (c2 == 0.0)
    if grey.any():
        x, y = np.where(grey, a1 + a2, x), np.where(grey, b1 + b2, y)
    length = np.sqrt(x * x + y * y)
    opposite = length <= 1e-12 * (c1 * c2)
    safe = np.where(length > 0.0, length, 1.0)
    cos_h, sin_h = np.where(length > 0.0, x / safe, 1.0), y / safe
    if (opposite & ~grey).any():  # exactly opposite hues: the mean of the two angles in 0..360, as Sharma's formula (14)
        h1, h2 = np.arctan2(b1, a1) % (2 * np.pi), np.arctan2(b2, a2) % (2 * np.pi)
        mean = 0.5 * (h1 + h2)
        cos_h, sin_h = np.where(opposite & ~grey, np.cos(mean), cos_h), np.where(opposite & ~grey, np.sin(mean), sin_h)
    return cos_h, sin_h


def _hue_weight(cos_h: Floats, sin_h: Floats) -> Floats:
    """T = 1 - 0.17 cos(h - 30) + 0.24 cos 2h + 0.32 cos(3h + 6) - 0.20 cos(4h - 63), by the sums of angles."""
    cos2, sin2 = cos_h * cos_h - sin_h * sin_h, 2.0 * cos_h * sin_h
    cos3, sin3 = cos2 * cos_h - sin2 * sin_h, sin2 * cos_h + cos2 * sin_h
    cos4, sin4 = cos2 * cos2 - sin2 * sin2, 2.0 * cos2 * sin2
    weight: Floats = 1.0 - 0.17 * (_COS_30 * cos_h + _SIN_30 * sin_h) + 0.24 * cos2
    weight += 0.32 * (_COS_6 * cos3 - _SIN_6 * sin3) - 0.20 * (_COS_63 * cos4 + _SIN_63 * sin4)
    return weight


def _rotation(cos_h: Floats, sin_h: Floats, mean_c: Floats) -> Floats:
    """RT: only blue hues (around 275 degrees) have one."""
    degrees = np.degrees(np.arctan2(sin_h, cos_h)) % 360.0
    turn = np.radians(60.0) * np.exp(-(((degrees - 275.0) / 25.0) ** 2))
    rotation: Floats = -2.0 * _share(mean_c) * np.sin(turn)
    return rotation

"""sRGB, linear light, CIE XYZ and CIE L*a*b* for D65, exact for a few values and through tables for many pixels.

sRGB: IEC 61966-2-1:1999 with its matrix and constants. L*a*b*: ISO/CIE 11664-4. The white is that of the sRGB matrix itself
(the XYZ of R=G=B=1), so that neutral pixels have a* = b* = 0 exactly. Bradford adaptation: Lam 1985, as in ICC.1 annex E.
"""

from __future__ import annotations

from functools import cache
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

RGB_TO_XYZ: Floats = np.array(
    [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]],  # IEC 61966-2-1, 5.2
)
XYZ_TO_RGB: Floats = np.linalg.inv(RGB_TO_XYZ).astype(np.float64)
WHITE: Floats = RGB_TO_XYZ.sum(axis=1)
D50: Floats = np.array([0.9642, 1.0, 0.8249])  # ICC.1:2010, profile connection space
BRADFORD: Floats = np.array([[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]])

_CUT = (6.0 / 29.0) ** 3
_STEPS = 65535
_ROOT_STEPS = 2**16
_LAB_OF_ROOTS = np.array([[0, 500, 0], [116, -500, 200], [0, 0, -200]], dtype=np.float32)


def srgb_to_linear(rgb: ArrayLike) -> Floats:
    """Nonlinear R'G'B' in 0..1 to linear light, any shape (IEC 61966-2-1, 5.2)."""
    values = np.asarray(rgb, dtype=np.float64)
    return np.where(values <= 0.04045, values / 12.92, ((np.maximum(values, 0.0) + 0.055) / 1.055) ** 2.4)


def linear_to_srgb(linear: ArrayLike) -> Floats:
    """Linear light to nonlinear R'G'B', any shape; values outside 0..1 are carried on, not clipped."""
    values = np.asarray(linear, dtype=np.float64)
    return np.where(values <= 0.0031308, values * 12.92, 1.055 * np.maximum(values, 0.0) ** (1.0 / 2.4) - 0.055)


def linear_to_lab(linear: ArrayLike) -> Floats:
    """Linear R, G, B (..., 3) to L*, a*, b* (..., 3)."""
    return xyz_to_lab(np.asarray(linear, dtype=np.float64) @ RGB_TO_XYZ.T)


def lab_to_linear(lab: ArrayLike) -> Floats:
    """L*, a*, b* (..., 3) to linear R, G, B (..., 3), unclipped: a value outside 0..1 is outside what sRGB can show."""
    return lab_to_xyz(lab) @ XYZ_TO_RGB.T


def srgb_to_lab(rgb: ArrayLike) -> Floats:
    """Nonlinear R'G'B' in 0..1 (..., 3) to L*, a*, b* (..., 3), exact. For whole pictures use `picture_to_lab`."""
    return linear_to_lab(srgb_to_linear(rgb))


def lab_to_srgb(lab: ArrayLike) -> Floats:
    """L*, a*, b* (..., 3) to nonlinear R'G'B' (..., 3), unclipped."""
    return linear_to_srgb(lab_to_linear(lab))


def xyz_to_lab(xyz: ArrayLike, white: ArrayLike = WHITE) -> Floats:
    """X, Y, Z (..., 3) to L*, a*, b* (..., 3) for a reference white X, Y, Z."""
    ratio = np.asarray(xyz, dtype=np.float64) / np.asarray(white, dtype=np.float64)
    return _lab_of(np.where(ratio > _CUT, np.cbrt(ratio), ratio / (3 * (6.0 / 29.0) ** 2) + 4.0 / 29.0))


def lab_to_xyz(lab: ArrayLike, white: ArrayLike = WHITE) -> Floats:
    """The inverse of `xyz_to_lab`."""
    values = np.asarray(lab, dtype=np.float64)
    y = (values[..., 0] + 16.0) / 116.0
    f = np.stack([y + values[..., 1] / 500.0, y, y - values[..., 2] / 200.0], axis=-1)
    ratio = np.where(f > 6.0 / 29.0, f**3, 3 * (6.0 / 29.0) ** 2 * (f - 4.0 / 29.0))
    return ratio * np.asarray(white, dtype=np.float64)


def adapt(xyz: ArrayLike, white_from: ArrayLike, white_to: ArrayLike) -> Floats:
    """Bradford chromatic adaptation of X, Y, Z (..., 3) from one white to another."""
    cones_from = BRADFORD @ np.asarray(white_from, dtype=np.float64)
    cones_to = BRADFORD @ np.asarray(white_to, dtype=np.float64)
    change = np.linalg.inv(BRADFORD) @ np.diag(cones_to / cones_from) @ BRADFORD
    return np.asarray(xyz, dtype=np.float64) @ change.T


def picture_to_linear(picture: NDArray[Any]) -> NDArray[np.float32]:
    """Many pixels to linear light through a table: uint8, uint16, or float in 0..1 taken to 16 bits. Within 2e-5."""
    if picture.dtype == np.uint8:
        return np.take(_linear_table(255), picture)
    return np.take(_linear_table(_STEPS), _indices(picture))


def picture_to_lab(picture: NDArray[Any]) -> NDArray[np.float32]:
    """Many pixels (..., 3) to L*, a*, b* float32 through tables: uint8, uint16 or float in 0..1. Within 0.02 dE00 of exact."""
    pixels = picture.reshape(-1, 3)
    lab = np.empty(pixels.shape, dtype=np.float32)
    matrix = (RGB_TO_XYZ / WHITE[:, None]).T.astype(np.float32)
    roots = _root_table()
    for start in range(0, len(pixels), 16384):  # pieces that stay in the processor's cache
        part = slice(start, start + 16384)
        ratio = picture_to_linear(pixels[part]) @ matrix
        np.sqrt(ratio, out=ratio)
        ratio *= np.float32(_ROOT_STEPS)
        ratio += np.float32(0.5)
        np.matmul(np.take(roots, ratio.astype(np.int32)), _LAB_OF_ROOTS, out=lab[part])
    lab[:, 0] -= 16
    return lab.reshape(picture.shape)


def _indices(picture: NDArray[Any]) -> NDArray[Any]:
    if picture.dtype == np.uint16:
        return picture
    steps: NDArray[np.float32] = np.multiply(picture, np.float32(_STEPS), dtype=np.float32)
    steps += np.float32(0.5)
    np.clip(steps, 0.0, _STEPS, out=steps)
    indices: NDArray[np.int32] = steps.astype(np.int32)
    return indices


@cache
def _linear_table(top: int) -> NDArray[np.float32]:
    return srgb_to_linear(np.arange(top + 1) / top).astype(np.float32)


@cache
def _root_table() -> NDArray[np.float32]:
    """The function of ISO/CIE 11664-4 at the squares of even steps: fine near black, where it is steep, and still small."""
    ratio = (np.arange(_ROOT_STEPS + 64) / _ROOT_STEPS) ** 2
    return np.where(ratio > _CUT, np.cbrt(ratio), ratio / (3 * (6.0 / 29.0) ** 2) + 4.0 / 29.0).astype(np.float32)


def _lab_of(f: Floats) -> Floats:
    return np.stack(
        [116.0 * f[..., 1] - 16.0, 500.0 * (f[..., 0] - f[..., 1]), 200.0 * (f[..., 1] - f[..., 2])],
        axis=-1,
    )

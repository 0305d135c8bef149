"""Y'CbCr and R'G'B' by ITU-R BT.601-7 (2.5.1) and BT.709-6 (3.2, 3.3): what one matrix read as the other does to a colour.

Films are decoded in the film room; this serves the uncertainty of an assumed matrix and the tests.
"""

from __future__ import annotations

from enum import StrEnum

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


class Matrix(StrEnum):
    """The luma coefficients of a film."""

    BT601 = "bt601"
    BT709 = "bt709"


_KR_KB = {Matrix.BT601: (0.299, 0.114), Matrix.BT709: (0.2126, 0.0722)}


def rgb_to_ycbcr(rgb: ArrayLike, matrix: Matrix) -> Floats:
    """Nonlinear R'G'B' in 0..1 (..., 3) to Y' in 0..1 and Cb, Cr in -0.5..0.5."""
    red, blue = _KR_KB[matrix]
    values = np.asarray(rgb, dtype=np.float64)
    luma = values @ np.array([red, 1.0 - red - blue, blue])
    cb = (values[..., 2] - luma) / (2.0 * (1.0 - blue))
    cr = (values[..., 0] - luma) / (2.0 * (1.0 - red))
    return np.stack([luma, cb, cr], axis=-1)


def ycbcr_to_rgb(ycbcr: ArrayLike, matrix: Matrix) -> Floats:
    """The inverse of `rgb_to_ycbcr`, unclipped."""
    red, blue = _KR_KB[matrix]
    values = np.asarray(ycbcr, dtype=np.float64)
    luma = values[..., 0]
    r, b = luma + 2.0 * (1.0 - red) * values[..., 2], luma + 2.0 * (1.0 - blue) * values[..., 1]
    return np.stack([r, (luma - red * r - blue * b) / (1.0 - red - blue), b], axis=-1)


def limited_codes(ycbcr: ArrayLike) -> Floats:
    """Y', Cb, Cr to 8-bit codes of the limited range, not rounded: 16 + 219 Y', 128 + 224 C (BT.709-6, 3.4)."""
    values = np.asarray(ycbcr, dtype=np.float64)
    codes: Floats = values * np.array([219.0, 224.0, 224.0]) + np.array([16.0, 128.0, 128.0])
    return codes


def read_as_other(rgb: ArrayLike, matrix: Matrix) -> Floats:
    """What R'G'B' (..., 3) read with this matrix would be, had the film been read with the other one."""
    other = Matrix.BT601 if matrix is Matrix.BT709 else Matrix.BT709
    return ycbcr_to_rgb(rgb_to_ycbcr(rgb, matrix), other)

"""Contrast ratio of WCAG 2.x, shown beside the checks; the ratio 3:1 is WCAG's limit for large text and graphics."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from filmreview.colour.spaces import srgb_to_linear

LARGE_TEXT = 3.0
"""WCAG 2.1, success criteria 1.4.3 (large text) and 1.4.11."""


def relative_luminance(rgb: ArrayLike) -> NDArray[np.float64]:
    """Relative luminance of nonlinear R'G'B' in 0..1 (..., 3) as WCAG 2.x defines it. Shape (...)."""
    luminance: NDArray[np.float64] = srgb_to_linear(rgb) @ np.array([0.2126, 0.7152, 0.0722])
    return luminance


def wcag_ratio(rgb1: ArrayLike, rgb2: ArrayLike) -> float:
    """Contrast ratio, 1 to 21, of two nonlinear R'G'B' colours in 0..1, whichever is the lighter."""
    first, second = float(relative_luminance(rgb1)), float(relative_luminance(rgb2))
    return (max(first, second) + 0.05) / (min(first, second) + 0.05)

"""What a colour looks like with a colour-vision deficiency: Machado, Oliveira and Fernandes, IEEE Trans. Visualization and
Computer Graphics 15 (2009) 1291-1298, its matrices for severity 1.0, applied in linear light."""

from __future__ import annotations

from enum import StrEnum

import numpy as np
from numpy.typing import ArrayLike, NDArray

from filmreview.colour.difference import ciede2000
from filmreview.colour.spaces import linear_to_lab, linear_to_srgb, srgb_to_linear


class Deficiency(StrEnum):
    """The cone type that is missing: for long, middle or short waves."""

    PROTAN = "protan"
    DEUTAN = "deutan"
    TRITAN = "tritan"


MATRICES = {
    Deficiency.PROTAN: np.array(
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]]
    ),
    Deficiency.DEUTAN: np.array(
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]]
    ),
    Deficiency.TRITAN: np.array(
        [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]]
    ),
}


def seen_by(deficiency: Deficiency, rgb: ArrayLike) -> NDArray[np.float64]:
    """Nonlinear R'G'B' in 0..1 (..., 3) as somebody with that deficiency sees it, clipped to 0..1."""
    return linear_to_srgb(_linear_seen(deficiency, rgb))


def lowest_difference(rgb1: ArrayLike, rgb2: ArrayLike) -> tuple[float, Deficiency]:
    """The lowest dE00 of two nonlinear R'G'B' colours over the three deficiencies, and the deficiency it is for."""
    found = []
    for deficiency in Deficiency:
        first, second = (linear_to_lab(_linear_seen(deficiency, rgb)) for rgb in (rgb1, rgb2))
        found.append((float(ciede2000(first, second)), deficiency))
    return min(found, key=lambda pair: pair[0])


def _linear_seen(deficiency: Deficiency, rgb: ArrayLike) -> NDArray[np.float64]:
    seen: NDArray[np.float64] = np.clip(srgb_to_linear(rgb) @ MATRICES[deficiency].T, 0.0, 1.0)
    return seen

"""How far a measured colour may be from the true one: its parts, each a covariance of L*, a*, b*.

*light*: the error all pixels of a region share - light at the item against light at the reference, folds, the camera
(`light`). It does not shrink with more pixels or more frames.
*edge*: light of what lies around the region. *coding*: what compression makes of a colour, most where only a few pixels are
left. *pixels*: noise and texture, neighbours taken as alike over 4 x 4. *reference*: of the reference's own pixels. *frames*:
between frames, when given. *matrix*: when the film's colour matrix is assumed, a share of what the other one would change.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from filmreview.colour.spaces import RGB_TO_XYZ, WHITE, linear_to_lab, srgb_to_linear
from filmreview.colour.value import Covariance, Lab
from filmreview.colour.video import Matrix, read_as_other, rgb_to_ycbcr, ycbcr_to_rgb
from filmreview.measure.light import LightError, Shown, light_covariance

Floats = NDArray[np.float64]

WITH_REFERENCE = LightError(
    brightness=0.14,
    by_unevenness=0.35,
    brightness_apart=0.30,
    by_dimness=0.35,
    red=0.02,
    blue=0.03,
    colour_apart=0.13,
    warm=0.015,
    rendition=0.075,
    crosstalk=0.014,
    tone=0.05,
    veil=0.45,
    stray=0.0015,
    floor=(0.3, 0.3, 0.3),
)
WITHOUT_REFERENCE = LightError(
    brightness=0.5,
    by_unevenness=0.35,
    brightness_apart=0.0,
    by_dimness=0.0,
    red=0.09,
    blue=0.09,
    colour_apart=0.0,
    warm=0.15,
    rendition=0.075,
    crosstalk=0.014,
    tone=0.05,
    veil=0.3,
    stray=0.0015,
    floor=(0.3, 0.3, 0.3),
)
"""Fitted on made gym scenes (tests/bench/fit_uncertainty.py), then set by hand so that the 95 % of every garment at every
distance hold on the first and the second kind of gym together. Nothing was set by the third and the fourth."""
EDGE_SHARE, EDGE_FALL, EDGE_MIXED = 0.5, 2.0, 3.5
"""Standard uncertainty of the share of a neighbour's light in an item's mean, without erosion, its fall for each px eroded, and
for each 1 of the share that the edge told and that was taken away (`edge`): where it tells of some, there may be far more."""
LUMA_CODED, CHROMA_CODED, CHROMA_THIN = 0.002, 0.0025, 0.006
"""Standard uncertainties of Y' and of Cb and Cr of a region's mean after H.264 at 2 Mbit/s, 720p; the last is added where less
than 4 px could be eroded. Measured as coded against uncoded pictures of made gyms (tests/bench/fit_uncertainty.py); the last as
0.008, with far-out ones that the edge explains."""
USUAL_BITS, CODED_FALL, UNKNOWN_BITS = 2e6 / (1280 * 720 * 30), 0.6, 0.05
"""Bits a pixel of 2 Mbit/s at 720p; the error of coding goes with bits to the power of -0.6; bits taken when not known."""
OTHER_MATRIX = 0.5
"""Standard uncertainty of a guessed matrix, as a share of what the other one would change: a half when both are as likely."""


@dataclass(frozen=True)
class Part:
    """One part of the uncertainty. name: light, edge, coding, pixels, reference, frames or matrix."""

    name: str
    covariance: Covariance

    @property
    def sds(self) -> Lab:
        """Standard uncertainties of L*, a*, b*."""
        root = np.sqrt(np.maximum(np.diag(np.array(self.covariance)), 0.0))
        return (float(root[0]), float(root[1]), float(root[2]))


def light_part(linear: ArrayLike, error: LightError, shown: Shown | None = None) -> Part:
    """The light part at a corrected linear R, G, B (3,). shown: what the film shows of the light."""
    return Part("light", plain(light_covariance(linear, error, shown or Shown(np.ones(3)))))


def edge_part(linear: ArrayLike, around: Floats, by: int, mixed: float) -> Part:
    """The edge part: light of the neighbours (corrected linear (m, 3)) that blur and a region drawn a pixel too wide carry over
    an edge of which `by` px were eroded, at a corrected linear R, G, B (3,). mixed: the share already taken away."""
    values = np.asarray(linear, dtype=np.float64)
    share = np.hypot(EDGE_SHARE * np.exp(-EDGE_FALL * by), EDGE_MIXED * mixed)
    apart = around - values
    spread = share**2 * (apart.T @ apart) / max(len(apart), 1)
    slope = lab_slope(values)
    return Part("edge", plain(slope @ spread @ slope.T))


def coding_part(values: ArrayLike, gains: Floats, black: float, by: int, bits: float | None = None) -> Part:
    """The coding part at a nonlinear R'G'B' (3,) as decoded. by: px eroded. bits: of the film for each pixel of a frame."""
    coarse = (USUAL_BITS / (bits or UNKNOWN_BITS)) ** CODED_FALL
    thin = CHROMA_THIN * (0.0 if by >= 4 else 0.7 if by == 3 else 1.0)
    chroma = float(np.hypot(CHROMA_CODED, thin))
    middle = rgb_to_ycbcr(np.asarray(values, dtype=np.float64), Matrix.BT709)
    steps = coarse * np.diag([LUMA_CODED, chroma, chroma])
    labs = [_lab_of_coded(rows, gains, black) for rows in (middle[None], middle + steps, middle - steps)]
    offsets = np.concatenate([labs[1], labs[2]]) - labs[0]
    return Part("coding", plain(0.5 * offsets.T @ offsets))


def _lab_of_coded(ycbcr: Floats, gains: Floats, black: float) -> Floats:
    rgb = np.clip(ycbcr_to_rgb(ycbcr, Matrix.BT709), 0.0, 1.2)
    return linear_to_lab(np.maximum((srgb_to_linear(rgb) - black) * gains, 8e-4))


def pixels_part(linear: Floats, gains: Floats) -> Part:
    """The pixels part from the kept pixels (n, 3), 16 of which count as one independent look."""
    looks = max(len(linear) / 16.0, 1.0)
    spread = np.cov(linear.T) if len(linear) > 1 else np.zeros((3, 3))
    slope = lab_slope(linear.mean(axis=0) * gains) * gains
    return Part("pixels", plain(slope @ spread @ slope.T / looks))


def reference_part(linear: ArrayLike, gain_share: float) -> Part:
    """The reference part: a standard uncertainty `gain_share` of each gain by itself, as a share."""
    values = np.asarray(linear, dtype=np.float64)
    slope = lab_slope(values)
    return Part("reference", plain(slope @ np.diag(np.square(values * gain_share)) @ slope.T))


def matrix_part(values: ArrayLike, gains: Floats, matrix: Matrix) -> Part:
    """The matrix part at a nonlinear R'G'B' (3,): a share of the change that the other matrix would make."""
    rgb = np.asarray(values, dtype=np.float64)
    other = np.clip(read_as_other(rgb, matrix), 0.0, 1.0)
    change = OTHER_MATRIX * (linear_to_lab(srgb_to_linear(other) * gains) - linear_to_lab(srgb_to_linear(rgb) * gains))
    return Part("matrix", plain(np.outer(change, change)))


def frames_part(between: Covariance) -> Part:
    """The frames part: the covariance between the frames of one shot, never divided by their number."""
    return Part("frames", between)


def total(parts: tuple[Part, ...]) -> Covariance:
    """The sum of the parts: they are independent of each other."""
    return plain(sum((np.array(part.covariance) for part in parts), np.zeros((3, 3))))


def lab_slope(linear: ArrayLike) -> Floats:
    """Derivative of L*, a*, b* by linear R, G, B at a colour (3,): (3, 3)."""
    ratio_of = RGB_TO_XYZ / WHITE[:, None]
    ratio = np.maximum(ratio_of @ np.asarray(linear, dtype=np.float64), 0.0)
    steep = 1.0 / (3.0 * (6.0 / 29.0) ** 2)
    root_slope = np.where(ratio > (6.0 / 29.0) ** 3, np.cbrt(np.maximum(ratio, 1e-9)) ** -2 / 3.0, steep)
    lab_of = np.array([[0.0, 116.0, 0.0], [500.0, -500.0, 0.0], [0.0, 200.0, -200.0]])
    slope: Floats = (lab_of * root_slope) @ ratio_of
    return slope


def plain(covariance: ArrayLike) -> Covariance:
    """A 3x3 array as plain numbers."""
    rows = np.asarray(covariance, dtype=np.float64)
    first, second, third = ((float(row[0]), float(row[1]), float(row[2])) for row in rows)
    return (first, second, third)


def sds_of(parts: tuple[Part, ...]) -> Mapping[str, Lab]:
    """Standard uncertainties of L*, a*, b* by part, and the total."""
    found = {part.name: part.sds for part in parts}
    return {**found, "total": Part("total", total(parts)).sds}

"""How far a measured colour may be from the true one: its parts, each a covariance of L*, a*, b*.

*light*: the error all pixels of a region share - light at the item against light at the reference, folds, the camera. It is
modelled where it arises, as errors of linear light (brightness, red and blue against green, stray light), and carried to
L*, a*, b* at the measured colour: a black sleeve is wrong by little else than stray light, a white one by little else than
brightness. It does not shrink with more pixels or more frames.
*edge*: light of what lies around the region. *pixels*: noise and texture, neighbours taken as alike over 4 x 4. *reference*: of
the reference's own pixels. *frames*: between frames, when given. *matrix*: when the film's colour matrix is assumed, half of
what the other one would change.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from filmreview.colour.spaces import RGB_TO_XYZ, WHITE, linear_to_lab, srgb_to_linear
from filmreview.colour.value import Covariance, Lab
from filmreview.colour.video import Matrix, read_as_other

Floats = NDArray[np.float64]

_LUMINANCE = np.array([0.2126, 0.7152, 0.0722])


@dataclass(frozen=True)
class LightError:
    """Standard uncertainties of linear light. brightness: of all channels, as a share. red, blue: of R and B against G, as a
    share. stray: added to each channel by itself, with 1 for white; veil: added
    to all alike. floor: of L*, a*, b* each, for what the rest leaves out.
    rendition: of the camera's colourfulness, as a share. tone: of the exponent of its tone curve.
    brightness_apart, colour_apart: what brightness, red and blue grow by over one picture width to the reference."""

    brightness: float
    red: float
    blue: float
    stray: float
    floor: Lab
    rendition: float = 0.0
    tone: float = 0.0
    veil: float = 0.0
    brightness_apart: float = 0.0
    colour_apart: float = 0.0


WITH_REFERENCE = LightError(
    0.082,
    0.028,
    0.032,
    0.0014,
    (0.6, 0.6, 0.64),
    rendition=0.057,
    tone=0.040,
    veil=0.0035,
    brightness_apart=0.49,
    colour_apart=0.13,
)
WITHOUT_REFERENCE = LightError(0.36, 0.078, 0.141, 0.0014, (0.6, 0.6, 1.8), rendition=0.047, tone=0.073, veil=0.0035)
"""Fitted on made gym scenes 0 to 39 of three distances (1,404 garments with a reference), scaled so that 95.5 % of them lie in
the 95 % ellipsoid; of 684 garments of scenes 1000 to 1019 95.2 % do (tests/bench/fit_uncertainty.py). Stray light is 0.0014
instead of 0.001 by hand: scenes 2000 to 2019 had held too few dark garments. Over all garments that is about 3.1, 2.5, 3.5 in
L*, a*, b* with a reference. tests/bench/test_gym_bench.py tells on scenes that nothing was fitted on."""
EDGE_SHARE, EDGE_FALL = 0.10, 0.73
"""Standard uncertainty of the share of a neighbour's light in an item's mean, without erosion, and its fall for each px."""
THIN = 2.6
"""Standard uncertainty of a* and b* of an item so thin that only 2 px could be eroded: compression smooths its colour away."""


@dataclass(frozen=True)
class Part:
    """One part of the uncertainty. name: light, edge, pixels, reference, frames or matrix."""

    name: str
    covariance: Covariance

    @property
    def sds(self) -> Lab:
        """Standard uncertainties of L*, a*, b*."""
        root = np.sqrt(np.maximum(np.diag(np.array(self.covariance)), 0.0))
        return (float(root[0]), float(root[1]), float(root[2]))


def light_part(linear: ArrayLike, error: LightError, distance: float = 0.0) -> Part:
    """The light part at a corrected linear R, G, B (3,). distance: from item to reference, in widths of the picture."""
    values = np.maximum(np.asarray(linear, dtype=np.float64), 0.0)
    brightness = math.hypot(error.brightness, error.brightness_apart * distance)
    red, blue = (math.hypot(share, error.colour_apart * distance) for share in (error.red, error.blue))
    relative = np.array([[brightness] * 3, [red, 0.0, 0.0], [0.0, 0.0, blue]]) * values
    camera = [error.rendition * (values - values @ _LUMINANCE), error.tone * values * np.log(np.maximum(values, 1e-4))]
    causes = np.vstack(
        [relative, camera, np.eye(3) * error.stray, np.full(3, error.veil)]
    )  # a row for each independent cause, in linear R, G, B
    spread = causes.T @ causes
    slope = lab_slope(values)
    return Part("light", plain(slope @ spread @ slope.T + np.diag(np.square(error.floor))))


def edge_part(linear: ArrayLike, around: Floats, by: int) -> Part:
    """The edge part: light of the neighbours (corrected linear (m, 3)) that blur and 4:2:0 colour carry over an edge of which
    `by` px were eroded, at a corrected linear R, G, B (3,)."""
    values = np.asarray(linear, dtype=np.float64)
    share = EDGE_SHARE * np.exp(-EDGE_FALL * by)
    apart = around - values
    spread = share**2 * (apart.T @ apart) / max(len(apart), 1)
    slope = lab_slope(values)
    thin = THIN * max(0.0, (4 - by) / 2)
    return Part("edge", plain(slope @ spread @ slope.T + np.diag([0.5, 1.0, 1.0]) * thin**2))


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
    """The matrix part at a nonlinear R'G'B' (3,): half the change that the other matrix would make."""
    rgb = np.asarray(values, dtype=np.float64)
    other = np.clip(read_as_other(rgb, matrix), 0.0, 1.0)
    change = 0.5 * (linear_to_lab(srgb_to_linear(other) * gains) - linear_to_lab(srgb_to_linear(rgb) * gains))
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

"""A reference: a thing of declared colour on the film, from which the light and the camera are judged.

The reviewer points at the home jersey at the item's depth first, then at the backboard's border, a court line last. Each of
linear R, G, B is scaled so that the reference has its declared value. A grey-world guess is worse than nothing and is not
offered.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil, floor

import numpy as np
from numpy.typing import NDArray

from filmreview.colour.spaces import lab_to_linear, linear_to_lab
from filmreview.colour.value import Colour
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Region
from filmreview.measure.cluster import clusters_of, sample_of
from filmreview.measure.light import Shown
from filmreview.measure.pixels import LOWEST_SHARE, Picture, Pixels, black_of, bright_of, film_trouble, pixels_in, trimmed_mean
from filmreview.measure.shape import LEAST_ACROSS, apart, bounds_of

Floats = NDArray[np.float64]
Gains = tuple[float, float, float]

_MOST_CLIPPED = 0.02
_LEAST_OF_ONE_COLOUR = 1.0 - LOWEST_SHARE
"""Share of a reference's largest colour: trimming drops no more than the darkest quarter of what else is in the region."""
_LEAST_LIGHT = 0.02
"""Linear light that every channel of the declared colour and of the reading must have for a gain to mean something."""
_LOWEST_GAIN, _HIGHEST_GAIN = 0.35, 6.0
_WARMEST_RED, _WARMEST_BLUE, _COLDEST = 0.8, 1.15, 0.35
"""Octaves that red or blue may be off green: from a lamp of 3,500 K before a camera set for 6,500 K (a wooden floor is more),
to one of 8,500 K (a pale blue wall in warm light is more)."""
_LAMP_SLOPE, _MOST_TINT = 0.63, 0.25
"""Lamps from 2,500 to 10,000 K (CIE daylight and Planckian loci, in sRGB) raise red by 0.63 octaves for one that blue falls;
the lamps of CIE 15 (FL, HP2 to 5, LED) lie within 0.21 of that line. Most coloured walls pass 0.25."""

_LUMINANCE, _WHITE_LIGHT = np.array([0.2126, 0.7152, 0.0722]), 0.89
_DIM_IS_SHADE, _MOST_DIM = 0.4, 0.4
"""How much of a reference's dimness is believed to be its own shade, which the item does not share, and the most that counts.
On made gym scenes of two kinds items came out too light by 0.6 of it."""


@dataclass(frozen=True)
class Reference:
    """A reference on one camera view. region: where it is. declared: its colour. gains: what linear R, G, B are multiplied by.
    share: standard uncertainty of each gain as a share. unfit: why the film is unfit for colour, empty when it is not.
    uneven: of its own light, as of a region's pixels. dim: natural logarithm of how much darker it is than the brightest of the
    picture lets expect, 0 to 0.4. elsewhere: whether it stands in another camera view than the item."""

    region: Region
    declared: Colour
    gains: Gains
    share: float
    unfit: str = ""
    uneven: float = 0.0
    dim: float = 0.0
    elsewhere: bool = False


def reference_from(picture: Picture, region: Region, declared: Colour, erode: int = 4) -> Reference:
    """The reference at a region of an exact picture float (height, width, 3), nonlinear R'G'B' in 0..1.

    Raises FilmReviewError when it cannot serve: too small, over 2 % of its pixels clipped, of several colours, too dark, a
    declared colour without light in a channel, or no lamp and camera could make it look like that (a coloured wall).
    """
    trouble = film_trouble(picture)
    if trouble:
        raise _refused(trouble, "take a frame with a picture in colour")
    pixels = pixels_in(picture, region, erode)
    _check_pixels(pixels)
    declared_linear = lab_to_linear(declared.lab)
    mean, _ = trimmed_mean(pixels.linear, pixels.clipped)
    if declared_linear.min() < _LEAST_LIGHT:
        missing = ("red", "green", "blue")[int(declared_linear.argmin())]
        raise _refused(f"{declared.name} has next to no {missing} to judge the light by", "point at something white")
    if mean.max() < _LEAST_LIGHT:
        raise _refused("it is too dark", "point at something white in the light")
    light = np.maximum(mean - black_of(picture), 1e-4)
    gains = declared_linear / light
    _check_plausible(gains, declared)
    dim = _dimness(picture, light, declared_linear)
    red, green, blue = (float(gain) for gain in gains * np.exp(-_DIM_IS_SHADE * dim))
    return Reference(region, declared, (red, green, blue), _share(pixels, mean), uneven=pixels.uneven, dim=dim)


def with_dark_item(reference: Reference, picture: Picture, region: Region, name: str, erode: int = 4) -> Reference:
    """The reference checked at an item known to be black or dark grey: when that does not read dark and neutral after
    correction, the film is unfit for colour and the reference says so."""
    pixels = pixels_in(picture, region, erode)
    if pixels.shape.across < LEAST_ACROSS:
        raise FilmReviewError("the dark item is too small to check the film by", todo=f"mark {LEAST_ACROSS} px across or more")
    mean, _ = trimmed_mean(pixels.linear, pixels.clipped)
    lightness, a, b = linear_to_lab(corrected(mean, reference, black_of(picture)))
    chroma = float(np.hypot(a, b))
    if lightness <= 35.0 and chroma <= 12.0:
        return reference
    unfit = (
        f"{name}, known to be dark and neutral, reads L* {lightness:.0f} and chroma {chroma:.0f}: the film is unfit for colour"
    )
    return replace(reference, unfit=unfit)


def _check_pixels(pixels: Pixels) -> None:
    if pixels.shape.across < LEAST_ACROSS or not pixels.shape.pixels:
        raise _refused(f"it is {pixels.shape.across} px across", f"mark {LEAST_ACROSS} px across or more")
    if pixels.clipped_share > _MOST_CLIPPED:
        clipped = f"{ceil(100 * pixels.clipped_share)}% of its pixels are clipped ({_MOST_CLIPPED:.0%} at most)"
        raise _refused(clipped, "point at a place less bright")
    share = clusters_of(linear_to_lab(pixels.linear[sample_of(len(pixels.linear))]))[0][0].share
    if share < _LEAST_OF_ONE_COLOUR:
        one = f"only {floor(100 * share)}% of it is of one colour, {_LEAST_OF_ONE_COLOUR:.0%} are needed"
        raise _refused(one, "keep the region within one thing of one colour")


def _check_plausible(gains: Floats, declared: Colour) -> None:
    red, blue = (float(np.log2(gains[place] / gains[1])) for place in (0, 2))
    tint = abs(red + _LAMP_SLOPE * blue)
    if not (-_WARMEST_RED <= red <= _COLDEST and -_COLDEST <= blue <= _WARMEST_BLUE and tint <= _MOST_TINT):
        cast = " and ".join(_off(name, 2.0**-off) for name, off in (("red", red), ("blue", blue)) if round(2.0**-off, 2) != 1)
        raise _refused(f"no lamp makes {declared.name} look like that: beside its green, {cast}",
                       f"point at something that is {declared.name} all over, not at a coloured wall")  # fmt: skip
    if not _LOWEST_GAIN <= gains[1] <= _HIGHEST_GAIN:
        light = f"{ceil(100 / gains[1])}% of the light that {declared.name} should have"
        raise _refused(f"it is too {'dark' if gains[1] > 1 else 'bright'} for {declared.name}, with {light}",
                       f"point at something that is {declared.name}, lit as the item is")  # fmt: skip


def _off(name: str, share: float) -> str:
    """How far red or blue is off, for a reader. share: of what it should be beside green."""
    return f"{name} is {abs(share - 1.0):.0%} too {'strong' if share > 1.0 else 'weak'}"


def _dimness(picture: Picture, light: Floats, declared_linear: Floats) -> float:
    """A white that is dimmer than the brightest of the picture stands in shade or is turned away, more often than not."""
    as_white = float(light @ _LUMINANCE) * _WHITE_LIGHT / float(declared_linear @ _LUMINANCE)
    return float(np.clip(np.log(max(bright_of(picture), 1e-6) / as_white), 0.0, _MOST_DIM))


def _share(pixels: Pixels, mean: Floats) -> float:
    looks = max(len(pixels.linear) / 16.0, 1.0)
    return float(np.mean(pixels.linear.std(axis=0) / mean) / np.sqrt(looks))


def _refused(why: str, todo: str) -> FilmReviewError:
    return FilmReviewError(f"this region cannot serve: {why}", todo=todo)


def gains_of(reference: Reference | None) -> Floats:
    """The gains (3,); ones without a reference."""
    return np.ones(3) if reference is None else np.array(reference.gains)


def shown_by(picture: Picture, pixels: Pixels, reference: Reference | None) -> Shown:
    """What the film shows of the light at these pixels of an exact picture (height, width, 3)."""
    black, gains = black_of(picture), gains_of(reference)
    if reference is None:
        return Shown(gains, black, 0.0, pixels.uneven)
    distance = 1.0 if reference.elsewhere else apart(bounds_of(reference.region), pixels.shape.box) / picture.shape[1]
    return Shown(gains, black, distance, float(np.hypot(pixels.uneven, reference.uneven)), reference.dim)


def corrected(linear: Floats, reference: Reference | None, black: float) -> Floats:
    """Linear R, G, B (..., 3) without the light that lies over the picture (`pixels.black_of`), by the reference's gains."""
    result: Floats = np.maximum(linear - black, 0.0) * gains_of(reference)
    return result

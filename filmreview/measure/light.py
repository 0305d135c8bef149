"""How wrong the light of a region can be: light, cloth and camera as causes in linear light, each carried to L*, a*, b*.

A cause is moved one standard uncertainty up and down at the measured colour itself, and what comes out is taken through the
exact formulas: near black and in a channel almost without light a straight-line formula would be wrong by half. So a black
sleeve is unsure by stray light, a white one by brightness, a dark red one by what little green it has, and so on.
What the film itself shows goes in: how far the reference is away, how uneven region and reference are, how dark the darkest
of the picture is, and how much the picture was brightened.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from filmreview.colour.spaces import linear_to_lab
from filmreview.colour.value import Lab

Floats = NDArray[np.float64]

_LUMINANCE = np.array([0.2126, 0.7152, 0.0722])
_LEAST = 8e-4
"""Linear light under which no cloth lies, of 1 for white: the blackest velvet."""
_MOST_UNEVEN, _MOST_PATTERNED = 0.25, 0.15


@dataclass(frozen=True)
class LightError:
    """Standard uncertainties of linear light, as shares unless said otherwise.

    brightness: of all channels; by_unevenness, by_dimness: of all channels for each unit of unevenness or of a dim reference;
    brightness_apart: for each picture width between item and reference. red, blue: against green; colour_apart: of both for
    each picture width; warm: of blue, and 0.63 of it the other way of red, as lamps differ. rendition: of the camera's
    colourfulness. crosstalk: of what a channel takes of another. tone: of the exponent of the tone curve. veil: of light spread
    over the picture, for 1 of `Shown.black`; stray: of each channel by itself, as measured, 1 for full scale. floor: of L*, a*,
    b*, for what the rest leaves out.
    """

    brightness: float
    by_unevenness: float
    brightness_apart: float
    by_dimness: float
    red: float
    blue: float
    colour_apart: float
    warm: float
    rendition: float
    crosstalk: float
    tone: float
    veil: float
    stray: float
    floor: Lab


@dataclass(frozen=True)
class Shown:
    """What the film shows of the light. gains: what the reference multiplies R, G, B by. black: linear light over all of the
    picture. distance: to the reference in picture widths. uneven: of region and reference together. dim: natural logarithm of
    how much darker the reference is than the brightest of the picture lets expect."""

    gains: Floats
    black: float = 0.0
    distance: float = 0.0
    uneven: float = 0.0
    dim: float = 0.0


def patterned(shown: Shown) -> Shown:
    """The same for a region of several colours: most of what is uneven there is the pattern, not the light."""
    return replace(shown, uneven=min(shown.uneven, _MOST_PATTERNED))


def light_covariance(linear: ArrayLike, error: LightError, shown: Shown) -> Floats:
    """Covariance of L*, a*, b* (3, 3) at a corrected linear R, G, B (3,)."""
    values = np.maximum(np.asarray(linear, dtype=np.float64), _LEAST)
    offsets = linear_to_lab(np.maximum(moves(values, error, shown), _LEAST)) - linear_to_lab(values)
    flat = offsets.reshape(-1, 3)
    covariance: Floats = 0.5 * flat.T @ flat + np.diag(np.square(error.floor))
    return covariance


def moves(values: Floats, error: LightError, shown: Shown) -> Floats:
    """The colour (3,) with each cause moved up and down: linear R, G, B (causes, 2, 3)."""
    ups, downs = zip(*(*_added(values, error, shown), *_bent(values, error), *_multiplied(values, error, shown)), strict=True)
    return np.stack([np.array(ups), np.array(downs)], axis=1)


def _added(values: Floats, error: LightError, shown: Shown) -> list[tuple[Floats, Floats]]:
    """Light that does not come from the item, and channels that take of each other."""
    by = [error.veil * shown.black * shown.gains, *(error.stray * np.diag(shown.gains))]
    apart = np.sqrt(np.square(values[None, :] - values[:, None]).sum(axis=1))
    by += list(np.diag(error.crosstalk * apart))
    by.append(error.rendition * (values - values @ _LUMINANCE))
    return [(values + one, values - one) for one in by]


def _bent(values: Floats, error: LightError) -> list[tuple[Floats, Floats]]:
    return [(values ** (1.0 + error.tone), values ** (1.0 - error.tone))]


def _multiplied(values: Floats, error: LightError, shown: Shown) -> list[tuple[Floats, Floats]]:
    """Light and shade on the cloth, and the colour of the light."""
    uneven = error.by_unevenness * min(shown.uneven, _MOST_UNEVEN)
    alike = (error.brightness, uneven, error.brightness_apart * shown.distance, error.by_dimness * shown.dim)
    rest = [np.full(3, one) for one in alike]
    rest += [np.array([one, 0.0, 0.0]) for one in (error.red, error.colour_apart * shown.distance)]
    rest += [np.array([0.0, 0.0, one]) for one in (error.blue, error.colour_apart * shown.distance)]
    rest.append(error.warm * np.array([-0.63, 0.0, 1.0]))
    return [(values * np.exp(one), values * np.exp(-one)) for one in rest]

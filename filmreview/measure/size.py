"""From pixels to inches, by a thing of known size at the same depth.

length = item px / reference px x known size x depth / cos(lean). Uncertainty by first-order propagation (JCGM 100:2008, 5.1.2)
of independent causes; `drawn_length` gives the same by Monte Carlo (JCGM 101). Each click has a rectangular error of one
pixel either way (standard uncertainty 0.58 px).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from filmreview.errors import FilmReviewError, unknown
from filmreview.facts.fact import Amount, Fact, Origin
from filmreview.facts.keys import KEYS, Kind
from filmreview.measure.decision import Limit
from filmreview.measure.ends import Ends
from filmreview.measure.known import Known
from filmreview.measure.view import GOOD, THIN, TOO_POOR, ViewGrade

CLICK = 1.0
"""A click is within this many pixels of the true end, each place as likely."""
_LEAST_PIXELS = 5.0
_GOOD_PIXELS = 20.0
"""A length from which both clicks together are off by 4 % (one standard deviation), half of what a rule's limit leaves."""
_GOOD_SHARPNESS = 0.25
SIZE_KEYS = tuple(key.name for key in KEYS.values() if key.kind is Kind.AMOUNT and key.unit == "in")
"""The facts that are lengths: width, height, stroke, border, longest side."""
_ROOT_3 = 3.0**0.5


@dataclass(frozen=True)
class Sighting:
    """What was seen of an item and of a thing of known size beside it.

    item_px, reference_px: lengths in pixels between two clicks each. known: the thing of known size.
    depth: how much nearer or farther the item may be than the reference, as a share either way (3 ft at 43 ft: 0.07).
    lean: degrees the item may lean away from the picture plane, 0 to this, each as likely; it makes the item look shorter.
    item_blur_px, reference_blur_px: length of motion blur along the measured direction, 0 when still.
    """

    item_px: float
    reference_px: float
    known: Known
    depth: float = 0.02
    lean: float = 0.0
    item_blur_px: float = 0.0
    reference_blur_px: float = 0.0

    def __post_init__(self) -> None:
        for name, pixels in (("item", self.item_px), ("known thing", self.reference_px)):
            if not math.isfinite(pixels) or pixels <= 0:
                raise FilmReviewError(f"the {name} is {pixels} pixels long", todo="click its two ends, apart from each other")
        if not (0 <= self.depth < 1 and 0 <= self.lean < 80):
            raise FilmReviewError("depth is a share from 0 to 1, lean an angle from 0 to 80 degrees", todo="correct them")


@dataclass(frozen=True)
class Length:
    """inches: the value. plus_minus: its standard uncertainty. parts: the share of the value that each cause gives. why_not:
    why no size should be read off this, empty when it may. against: what the pixels were turned into inches by."""

    inches: float
    plus_minus: float
    parts: Mapping[str, float]
    why_not: str = ""
    against: str = ""

    @property
    def amount(self) -> Amount:
        """Value and standard uncertainty in inches."""
        return Amount(self.inches, self.plus_minus)

    @property
    def interval(self) -> tuple[float, float]:
        """The 95 % interval in inches."""
        return (self.inches - 1.96 * self.plus_minus, self.inches + 1.96 * self.plus_minus)

    def fact(self, key: str) -> Fact | None:
        """The fact under a size key such as width_in; None when no size should be read off the film.

        Raises FilmReviewError for a key that holds no length.
        """
        if key not in SIZE_KEYS:
            raise unknown("size", key, SIZE_KEYS)
        if self.why_not:
            return None
        largest = max(self.parts, key=lambda name: self.parts[name])
        low, high = self.interval
        why = f"{self.inches:.2f}±{self.plus_minus:.2f} in, 95 % {low:.2f} to {high:.2f}, most from the {largest}"
        if self.against:
            why += f", against {self.against}"
        return Fact(key, Amount(_rounded(self.inches, self.plus_minus), self.plus_minus), Origin.MEASURED, why)


def sighting(
    item: Ends, reference: Ends, known: Known, depth: float = 0.02, lean: float = 0.0, item_blur_px: float = 0.0
) -> Sighting:
    """What was seen, from the ends of both on one picture."""
    return Sighting(item.pixels, reference.pixels, known, depth, lean, item_blur_px)


def length_of(seen: Sighting) -> Length:
    """The length by first-order propagation."""
    mean, lean_sd = _lean_factor(seen.lean)
    inches = seen.item_px / seen.reference_px * seen.known.middle * mean
    parts = {
        "item's ends": math.hypot(ends_sd(), seen.item_blur_px / _ROOT_3) / seen.item_px,
        "known thing's ends": math.hypot(ends_sd(), seen.reference_blur_px / _ROOT_3) / seen.reference_px,
        "known thing's size": seen.known.sd / seen.known.middle,
        "depth": seen.depth / _ROOT_3,
        "lean": lean_sd / mean,
    }
    plus_minus = inches * math.sqrt(sum(share**2 for share in parts.values()))
    return Length(inches, plus_minus, parts, _why_not(seen), seen.known.words)


def drawn_length(seen: Sighting, seed: int = 1, count: int = 200_000) -> NDArray[np.float64]:
    """Draws of the true length in inches, (count,), for the same causes with their own distributions."""
    draw = np.random.default_rng(seed)
    pixels = [_drawn_pixels(draw, seen.item_px, seen.item_blur_px, count),
              _drawn_pixels(draw, seen.reference_px, seen.reference_blur_px, count)]  # fmt: skip
    known = draw.uniform(seen.known.low, seen.known.high, count)
    depth = 1.0 + draw.uniform(-seen.depth, seen.depth, count)
    lean = np.cos(np.radians(draw.uniform(0.0, seen.lean, count)))
    result: NDArray[np.float64] = pixels[0] / pixels[1] * known * depth / lean
    return result


@dataclass(frozen=True)
class Drawn:
    """What draws of a length say: their mean, standard deviation and the middle 95 % of them, in inches. chance: the share of
    them that keeps a limit, None when none is asked for."""

    inches: float
    plus_minus: float
    interval: tuple[float, float]
    count: int
    chance: float | None = None


def summed_up(draws: NDArray[np.float64], limit: Limit | None = None) -> Drawn:
    """Draws of a length in inches, (count,), in figures (JCGM 101:2008, 7.6 and 7.7)."""
    low, high = np.quantile(draws, (0.025, 0.975))
    chance = None if limit is None else float(np.mean((draws >= limit.low) & (draws <= limit.high)))
    return Drawn(float(draws.mean()), float(draws.std()), (float(low), float(high)), len(draws), chance)


def view_of(pixels: float, blur: float | None = None, sharpness_share: float | None = None) -> ViewGrade:
    """How well a length is seen. pixels: between its ends. blur: of motion along it, in px. sharpness_share: of the frame,
    against the film's sharpest frame."""
    bad = [f"{pixels:.0f} px long, {_LEAST_PIXELS:.0f} are needed"] if pixels < _LEAST_PIXELS else []
    thin = [f"{pixels:.0f} px long"] if _LEAST_PIXELS <= pixels < _GOOD_PIXELS else []
    figures = [("px long", pixels)]
    if sharpness_share is not None:
        figures.append(("sharpness", sharpness_share))
        thin += [f"sharpness {sharpness_share:.0%} of the film's best"] if sharpness_share < _GOOD_SHARPNESS else []
    if blur is not None:
        figures.append(("blur px", blur))
        if blur > 0.1 * pixels:
            (bad if blur > 0.5 * pixels else thin).append(f"motion blur {blur:.0f} px")
    return ViewGrade(TOO_POOR if bad else THIN if thin else GOOD, tuple(bad + thin), tuple(figures))


def callable_outside(limit: float, seen: Sighting) -> tuple[float, float]:
    """Between which two true sizes in inches a limit mostly cannot be called at this scale: an item below the first is called
    under the limit 95 times of 100, one above the second over it. seen: the reference and causes; its item_px is not used.

    At 3 px to the inch a 3 in limit on a headband is only called below 2 or above 4 in.
    """
    scale = seen.known.middle * _lean_factor(seen.lean)[0] / seen.reference_px

    def room(inches: float) -> float:
        return 2.0 * SURE_Z * length_of(replace(seen, item_px=inches / scale)).plus_minus

    below = above = limit
    for _ in range(40):
        below, above = max(limit - room(max(below, scale)), 0.0), limit + room(above)
    return below, above


SURE_Z = 1.6449
"""Standard deviations from the limit at which P = 0.95, one-sided."""


def ends_sd() -> float:
    """Standard uncertainty in pixels of a length between two clicks."""
    return CLICK / _ROOT_3 * math.sqrt(2.0)


def depth_share(apart_feet: float, camera_feet: float) -> float:
    """Half the width of the depth error: the share that things `apart_feet` apart in depth differ by in scale."""
    return abs(apart_feet) / camera_feet


def blur_inches(feet_a_second: float, shutter_seconds: float) -> float:
    """Length of motion blur in inches: 10 ft/s at 1/60 s is 2 in."""
    return feet_a_second * 12.0 * shutter_seconds


def _rounded(value: float, plus_minus: float) -> float:
    """The value to the second digit of its uncertainty, as it is told (JCGM 100:2008, 7.2.6): at most 5 % of that away."""
    return round(value, max(0, 1 - math.floor(math.log10(plus_minus))))


def _lean_factor(degrees: float) -> tuple[float, float]:
    """Mean and standard deviation of 1 / cos(lean) for a lean of 0 to `degrees`, each as likely."""
    if degrees == 0.0:
        return 1.0, 0.0
    top = math.radians(degrees)
    mean = math.log(1.0 / math.cos(top) + math.tan(top)) / top
    return mean, math.sqrt(max(math.tan(top) / top - mean**2, 0.0))


def _why_not(seen: Sighting) -> str:
    for name, pixels, blur in (
        ("item", seen.item_px, seen.item_blur_px),
        ("known thing", seen.reference_px, seen.reference_blur_px),
    ):
        if pixels < _LEAST_PIXELS:
            return f"the {name} is {pixels:.0f} px long, {_LEAST_PIXELS:.0f} are needed"
        if blur > 0.5 * pixels:
            return f"motion blurs the {name} over {blur:.0f} of its {pixels:.0f} px"
    return ""


def _drawn_pixels(draw: np.random.Generator, pixels: float, blur: float, count: int) -> NDArray[np.float64]:
    ends = draw.uniform(-CLICK, CLICK, count) - draw.uniform(-CLICK, CLICK, count)
    moved: NDArray[np.float64] = np.maximum(pixels + ends + draw.uniform(-blur, blur, count), 0.1)
    return moved

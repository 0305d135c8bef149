"""How well an item is seen: a word and the figures behind it."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from filmreview.measure.pixels import BLACK_PICTURE, HIGHEST_SHARE, LOWEST_SHARE, Picture
from filmreview.measure.shape import LEAST_ACROSS, Eroded

GOOD, THIN, TOO_POOR = "good", "thin", "too poor"
_GOOD_ACROSS = 12
_GOOD_PIXELS = 60
_GOOD_LEFT = round(_GOOD_PIXELS * (HIGHEST_SHARE - LOWEST_SHARE))
_MOST_CLIPPED_GOOD, _MOST_CLIPPED = 0.02, 0.5
_MOST_DARK_GOOD = LOWEST_SHARE
"""The darkest quarter is dropped by trimming: more than that, and what is measured has no light."""
_SHARP_GOOD = 0.25
_BAND = 32
BLUR_GOOD, _MOST_BLURRED = 3.0, 0.5
"""Length of motion blur in px up to which a view is good; share of the region from which it tells no colour."""
OPEN_SHARE = 0.5
"""Share of the frame time that a camera's shutter stands open: a half is common practice."""


@dataclass(frozen=True)
class ViewGrade:
    """word: "good", "thin" or "too poor". reasons: why it is not good. figures: what was measured, by name."""

    word: str
    reasons: tuple[str, ...] = ()
    figures: tuple[tuple[str, float], ...] = field(default=())

    def __str__(self) -> str:
        return self.word + (f" ({'; '.join(self.reasons)})" if self.reasons else "")


@dataclass(frozen=True)
class Blur:
    """Motion blur of a region. pixels: its length. share: of the region's width or height that it is, the larger of both."""

    pixels: float
    share: float


@dataclass(frozen=True)
class Exposure:
    """How a region is lit. left: pixels that trimming leaves. dark: share of its pixels without light. black: whether the whole
    picture is black."""

    left: int
    dark: float = 0.0
    black: bool = False


def sharpness(picture: Picture) -> float:
    """Variance of the 4-neighbour Laplacian of luma (BT.709 weights, 0..255) of a picture or part of one (height, width, 3)."""
    if min(picture.shape[:2]) < 3:
        return 0.0
    luma = np.asarray(picture, dtype=np.float64) @ np.array([0.2126, 0.7152, 0.0722]) * 255.0
    laplacian = luma[:-2, 1:-1] + luma[2:, 1:-1] + luma[1:-1, :-2] + luma[1:-1, 2:] - 4.0 * luma[1:-1, 1:-1]
    return float(laplacian.var())


def blur_length(moved: float, exposure: float) -> float:
    """Pixels of motion blur. moved: pixels that the item moves from frame to frame. exposure: open share of the frame time
    (common practice: a half)."""
    return moved * exposure


def frame_sharpness(picture: Picture) -> float:
    """Sharpness of a whole picture (height, width, 3), uint8 or float in 0..1, from eight bands across it."""
    height = picture.shape[0]
    tops = np.linspace(0, max(height - _BAND, 0), 8).astype(int)
    scale = 255.0 if picture.dtype == np.uint8 else 1.0
    return float(np.mean([sharpness(picture[top : top + _BAND].astype(np.float32) / scale) for top in tops]))


def grade(
    shape: Eroded,
    clipped: float,
    sharpness_share: float | None = None,
    blur: Blur | None = None,
    exposure: Exposure | None = None,
) -> ViewGrade:
    """The view grade. clipped: share of clipped pixels. sharpness_share: of the frame, against the film's sharpest frame.
    blur: by motion, None when not known. exposure: how the region is lit, beyond what is clipped."""
    bad, thin = _too_poor(shape, clipped, exposure), _thin(shape, clipped, exposure)
    figures = [("px across", float(shape.across)), ("pixels", float(shape.pixels)), ("clipped", clipped)]
    if exposure is not None:
        figures += [("dark", exposure.dark), ("pixels used", float(exposure.left))]
    if sharpness_share is not None:
        figures.append(("sharpness", sharpness_share))
        if sharpness_share < _SHARP_GOOD:
            thin.append(f"sharpness {sharpness_share:.0%} of the film's best")
    if blur is not None:
        figures.append(("blur px", blur.pixels))
        if blur.pixels > BLUR_GOOD:
            (bad if blur.share > _MOST_BLURRED else thin).append(f"motion blur {blur.pixels:.0f} px")
    word = TOO_POOR if bad else THIN if thin else GOOD
    return ViewGrade(word, tuple(bad + thin), tuple(figures))


def _too_poor(shape: Eroded, clipped: float, exposure: Exposure | None) -> list[str]:
    reasons = []
    if not shape.pixels:
        reasons.append("the region holds no pixel")
    elif shape.across < LEAST_ACROSS:
        reasons.append(f"{shape.across} px across, {LEAST_ACROSS} are needed")
    if exposure is not None and exposure.black:
        reasons.append(BLACK_PICTURE)
    if clipped > _MOST_CLIPPED:
        reasons.append(f"{clipped:.0%} of the pixels are clipped")
    return reasons


def _thin(shape: Eroded, clipped: float, exposure: Exposure | None) -> list[str]:
    reasons = []
    if LEAST_ACROSS <= shape.across < _GOOD_ACROSS:
        reasons.append(f"{shape.across} px across")
    elif shape.across >= LEAST_ACROSS and shape.pixels < _GOOD_PIXELS:
        reasons.append(f"{shape.pixels} pixels")
    if _MOST_CLIPPED_GOOD < clipped <= _MOST_CLIPPED:
        reasons.append(f"{clipped:.0%} of the pixels are clipped")
    return reasons if exposure is None else reasons + _ill_lit(shape, exposure)


def _only(count: int) -> str:
    """How few pixels, for a sentence: "only 20 pixels", "no pixel"."""
    return "no pixel" if not count else f"only {count} pixel{'s' if count > 1 else ''}"


def _ill_lit(shape: Eroded, exposure: Exposure) -> list[str]:
    reasons = []
    if exposure.left < _GOOD_LEFT and shape.pixels >= _GOOD_PIXELS:
        reasons.append(f"{_only(exposure.left)} can be used")
    if exposure.dark > _MOST_DARK_GOOD and not exposure.black:
        reasons.append(f"{exposure.dark:.0%} of the pixels have no light")
    return reasons

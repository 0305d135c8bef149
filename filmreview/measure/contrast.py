"""Whether a number stands out from its jersey, one-sided by stroke width, highlights and darkness.

4:2:0 video and blur only pull a thin stroke toward its jersey, never away from it, and so do both ends of the film's range. So
a contrast that is reached is believed at any width, and one that is missed is believed only where the strokes are 5 px wide or
more and neither the number nor the jersey is mostly clipped or mostly without light.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from filmreview.colour.chance import Pair, chance_lightness_apart, chance_within
from filmreview.colour.contrast import LARGE_TEXT, wcag_ratio
from filmreview.colour.difference import ciede2000
from filmreview.colour.palette import measured
from filmreview.colour.spaces import lab_to_srgb, linear_to_lab, srgb_to_linear
from filmreview.colour.value import Colour
from filmreview.colour.vision import Deficiency, lowest_difference, seen_by
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.region import Region
from filmreview.measure.cluster import clusters_of
from filmreview.measure.decision import SURE, Answer
from filmreview.measure.light import Shown, patterned
from filmreview.measure.pixels import Picture, Pixels, dark_share, film_trouble, pixels_in, trimmed_mean
from filmreview.measure.reference import Reference, corrected, shown_by
from filmreview.measure.shape import LEAST_ACROSS
from filmreview.measure.uncertainty import WITH_REFERENCE, WITHOUT_REFERENCE, light_part, pixels_part, total
from filmreview.measure.view import GOOD, THIN, TOO_POOR, ViewGrade

Floats = NDArray[np.float64]

CONTRAST_LIGHTNESS = 30.0
"""L* difference from which two colours contrast: UEFA Equipment Regulations 2022, 54.04; near 3:1 of WCAG. Project default."""
NO_CONTRAST = 20.0
"""dE00 under which they do not, when the lightness difference is missed too. Project default."""
WIDE_STROKE = 5.0
_LEAST_NUMBER, _LEAST_STROKE = 8, 2
_BORDER_SHARE = 0.06
_WITHIN_A_STROKE = 0.9
_MOST_CLIPPED, _MOST_DARK = 0.5, 0.5


@dataclass(frozen=True)
class Contrast:
    """How a number stands against its jersey.

    answer: yes, no or cannot be told. lightness: difference of L*. difference: dE00. ratio: WCAG's, with 3:1 beside it.
    lowest, deficiency: the lowest dE00 over three colour-vision deficiencies, and which. stroke_px: width, None when not known.
    reason: one sentence. seen_apart: the dE00 to an eye of each deficiency.
    """

    answer: Answer
    lightness: float
    difference: float
    ratio: float
    lowest: float
    deficiency: Deficiency
    stroke_px: float | None
    reason: str
    seen_apart: tuple[tuple[Deficiency, float], ...] = ()

    @property
    def figures(self) -> str:
        """The figures in a few words."""
        stroke = "" if self.stroke_px is None else f", strokes {self.stroke_px:.1f} px"
        return (
            f"L* apart {self.lightness:.0f} (30), dE00 {self.difference:.0f}, ratio {self.ratio:.1f}:1 ({LARGE_TEXT:.0f}:1), "
            f"lowest dE00 {self.lowest:.0f} to a {self.deficiency} eye{stroke}"
        )


def contrast_of(number: Colour, jersey: Colour, stroke_px: float | None = None, pair: Pair = Pair.ONE_PLAYER) -> Contrast:
    """The contrast of two colours, exact or measured. stroke_px: width of the number's strokes in the film, None for exact
    colours that no film has thinned."""
    reached = chance_lightness_apart(number, jersey, CONTRAST_LIGHTNESS, pair)
    missed = min(chance_within(number, jersey, NO_CONTRAST, pair), 1.0 - reached)
    lightness = abs(number.lab[0] - jersey.lab[0])
    word, reason = _decided(reached, missed, stroke_px, lightness)
    rgb = [np.clip(lab_to_srgb(colour.lab), 0.0, 1.0) for colour in (number, jersey)]
    lowest, deficiency = lowest_difference(*rgb)
    difference = float(ciede2000(number.lab, jersey.lab))
    seen_apart = tuple((one, _apart_to(one, *rgb)) for one in Deficiency)
    return Contrast(word, lightness, difference, wcag_ratio(*rgb), lowest, deficiency, stroke_px, reason, seen_apart)


def _apart_to(deficiency: Deficiency, one: Floats, other: Floats) -> float:
    labs = [linear_to_lab(srgb_to_linear(seen_by(deficiency, rgb))) for rgb in (one, other)]
    return float(ciede2000(*labs))


def _decided(reached: float, missed: float, stroke_px: float | None, lightness: float) -> tuple[Answer, str]:
    if reached >= SURE:
        return Answer.YES, f"the lightness differs by {CONTRAST_LIGHTNESS:.0f} or more"
    if missed < SURE and lightness >= CONTRAST_LIGHTNESS:
        return Answer.UNKNOWN, f"the lightness may differ by less than {CONTRAST_LIGHTNESS:.0f}: the eye decides"
    if missed < SURE:
        return Answer.UNKNOWN, "the contrast is near the limit, or in hue alone: the eye decides"
    if stroke_px is not None and stroke_px < WIDE_STROKE:
        return (
            Answer.UNKNOWN,
            f"strokes of {stroke_px:.1f} px are pulled toward the jersey on film ({WIDE_STROKE:.0f} px needed)",
        )
    return Answer.NO, f"the lightness differs by less than {CONTRAST_LIGHTNESS:.0f} and dE00 is under {NO_CONTRAST:.0f}"


@dataclass(frozen=True)
class MeasuredNumber:
    """A number and the jersey around it. number, jersey: None when they cannot be told, see why_not. stroke_px: width of the
    strokes. contrast: of the two. clipped, dark: shares of pixels that are clipped, that have no light, of the number or of the
    jersey, whichever is more."""

    number: Colour | None
    jersey: Colour | None
    stroke_px: float
    contrast: Contrast | None
    why_not: str = ""
    clipped: float = 0.0
    dark: float = 0.0

    @property
    def view(self) -> ViewGrade:
        """How well the strokes are seen."""
        figures = (("stroke px", self.stroke_px),)
        if self.why_not:
            return ViewGrade(TOO_POOR, (self.why_not,), figures)
        thin = []
        if self.stroke_px < WIDE_STROKE:
            thin.append(f"strokes {self.stroke_px:.1f} px, {WIDE_STROKE:.0f} are needed for a contrast missed")
        thin += _beyond(self.clipped, self.dark)
        return ViewGrade(THIN if thin else GOOD, tuple(thin), figures)

    def facts(self) -> tuple[Fact, ...]:
        """The number's colour, only when strokes and light are fit for it or it stands out in spite of them."""
        if self.number is None or self.contrast is None:
            return ()
        poor = self.stroke_px < WIDE_STROKE or bool(_beyond(self.clipped, self.dark))
        if poor and self.contrast.answer is not Answer.YES:
            return ()
        return (Fact("colour", (self.number,), Origin.MEASURED, self.contrast.figures),)


def measure_number(
    picture: Picture, region: Region, reference: Reference | None = None, jersey_region: Region | None = None
) -> MeasuredNumber:
    """Measure a number on its jersey.

    picture: exact, float (height, width, 3), nonlinear R'G'B'. region: drawn close around the number, or inside one of its
    strokes when jersey_region is given. jersey_region: a part of the jersey without the number; when None, what most of the
    region holds is the jersey. Raises FilmReviewError when a region reaches outside the picture.
    """
    pixels = pixels_in(picture, region, 0)
    ground_pixels = pixels if jersey_region is None else pixels_in(picture, jersey_region, 0)
    trouble = film_trouble(picture) or (reference.unfit if reference else "") or _too_small(pixels, ground_pixels)
    if trouble:
        return MeasuredNumber(None, None, 0.0, None, trouble)
    shown = patterned(shown_by(picture, pixels, reference))
    labs = linear_to_lab(corrected(pixels.linear, reference, shown.black))
    if jersey_region is None:
        members = clusters_of(labs)[1] == 0
        ground = labs[members].mean(axis=0)
    else:
        members = np.ones(len(ground_pixels.linear), dtype=np.bool_)
        mean, _ = trimmed_mean(ground_pixels.linear, ground_pixels.clipped)
        ground = linear_to_lab(corrected(mean, reference, shown.black))
    apart = np.linalg.norm(labs - ground, axis=1)
    inked = apart >= 0.5 * np.quantile(apart, 0.99)  # all of it where nothing differs
    core = inked & (apart >= np.quantile(apart[inked], 0.6))
    mask = np.zeros(pixels.shape.mask.shape, dtype=np.bool_)
    mask[pixels.shape.mask] = inked
    number = _colour(pixels.linear[core], pixels.clipped[core], shown, reference)
    jersey = _colour(ground_pixels.linear[members], ground_pixels.clipped[members], shown, reference)
    stroke = stroke_width(mask)
    contrast = contrast_of(number, jersey, stroke)
    clipped = max(float(pixels.clipped[core].mean()), float(ground_pixels.clipped[members].mean()))
    dark = max(dark_share(pixels.values[core]), dark_share(ground_pixels.values[members]))
    doubt = _unseen(contrast, _beyond(clipped, dark)) or _outlined(mask, stroke)
    if doubt:
        contrast = replace(contrast, answer=Answer.UNKNOWN, reason=doubt)
    return MeasuredNumber(number, jersey, stroke, contrast, clipped=clipped, dark=dark)


def _beyond(clipped: float, dark: float) -> list[str]:
    """What of a number or its jersey lies beyond the ends of what the film can show."""
    reasons = [f"{clipped:.0%} of the pixels are clipped"] if clipped > _MOST_CLIPPED else []
    return reasons + ([f"{dark:.0%} of the pixels have no light"] if dark > _MOST_DARK else [])


def _unseen(contrast: Contrast, beyond: list[str]) -> str:
    """Why a contrast that is missed cannot be told at an end of the film's range, "" when it can."""
    if contrast.answer is Answer.YES or not beyond:
        return ""
    return f"{' and '.join(beyond)}: how far the number and the jersey are apart does not show"


def _outlined(mask: NDArray[np.bool_], stroke: float) -> str:
    """Why strokes may be a border round digits of the jersey's own colour, "" when they are not. A border is 1/4 in wide; a
    stroke of 3/4 in, the least, is 6 % of the height up to numbers of 12 in (NFHS 3-4-3; such heights: from memory)."""
    if mask.mean() > _WITHIN_A_STROKE:
        return ""
    rows = np.nonzero(mask.any(axis=1))[0]
    height = int(rows[-1] - rows[0]) + 1
    if stroke >= _BORDER_SHARE * height:
        return ""
    return f"strokes of {stroke:.0f} px on a number {height} px high are as thin as a border: say the number's style"


def _too_small(pixels: Pixels, ground_pixels: Pixels) -> str:
    """A region that holds number and jersey needs 8 px, a part of a stroke 2, a part of the jersey 6."""
    if ground_pixels is pixels:
        across, least, what = pixels.shape.across, _LEAST_NUMBER, ""
    elif pixels.shape.across < _LEAST_STROKE:
        across, least, what = pixels.shape.across, _LEAST_STROKE, "the number is "
    else:
        across, least, what = ground_pixels.shape.across, LEAST_ACROSS, "the jersey is "
    return f"{what}{across} px across, {least} are needed" if across < least else ""


def stroke_width(mask: NDArray[np.bool_]) -> float:
    """Median over the pixels of a figure (height, width) of the shorter of the runs through each, along its row and column."""
    if not mask.any():
        return 0.0
    return float(np.median(np.minimum(_runs(mask), _runs(mask.T).T)[mask]))


def _runs(mask: NDArray[np.bool_]) -> NDArray[np.int64]:
    """For each pixel that is set, the length of the run in its row that it belongs to."""
    padded = np.pad(mask, ((0, 0), (1, 1))).astype(np.int8)
    changes = np.diff(padded, axis=1)
    rows, starts = np.nonzero(changes == 1)
    ends = np.nonzero(changes == -1)[1]
    lengths = np.zeros(mask.shape, dtype=np.int64)
    for row, start, end in zip(rows, starts, ends, strict=True):
        lengths[row, start:end] = end - start
    return lengths


def _colour(linear: Floats, clipped: NDArray[np.bool_], shown: Shown, reference: Reference | None) -> Colour:
    mean, _ = trimmed_mean(linear, clipped)
    value = corrected(mean, reference, shown.black)
    light = light_part(value, WITHOUT_REFERENCE if reference is None else WITH_REFERENCE, shown)
    return measured(linear_to_lab(value), total((light, pixels_part(np.maximum(linear - shown.black, 0.0), shown.gains))))

"""The colour of a region, with its uncertainty, its names, and whether it is one solid colour.

Start here: `measure_colour` takes the exact picture of a frame and a region and gives a `MeasuredColour`, whose `facts()`
go to the rules. When the film cannot tell, `colour` is None and `why_not` says why.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from filmreview.colour.palette import measured
from filmreview.colour.spaces import linear_to_lab
from filmreview.colour.value import Colour, Covariance
from filmreview.colour.video import Matrix
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.region import Region
from filmreview.measure.cluster import SOLID_SHARE, Cluster, clusters_of, one_cluster, sample_of
from filmreview.measure.decision import SURE
from filmreview.measure.edge import is_of_edge, without_surroundings
from filmreview.measure.light import Shown, patterned
from filmreview.measure.pixels import BLACK_PICTURE, Picture, Pixels, film_trouble, pixels_in, trimmed_mean
from filmreview.measure.reference import Reference, corrected, shown_by
from filmreview.measure.uncertainty import (
    WITH_REFERENCE,
    WITHOUT_REFERENCE,
    Part,
    coding_part,
    edge_part,
    frames_part,
    light_part,
    matrix_part,
    pixels_part,
    reference_part,
    sds_of,
    total,
)
from filmreview.measure.view import BLUR_GOOD, TOO_POOR, Blur, Exposure, ViewGrade, grade

Floats = NDArray[np.float64]
Numbers = NDArray[np.intp]

_SOLID_UNSURE = 0.05
_LEAST_LEFT_FOR_SOLID = 8


@dataclass(frozen=True)
class _Errors:
    between: Covariance | None
    assumed_matrix: Matrix | None
    bits: float | None
    shown: Shown


@dataclass(frozen=True)
class MeasuredColour:
    """What a region's colour is as far as the film tells.

    colour: the predominant colour, None when it cannot be told. why_not: the reason then, else empty.
    solid: whether the region is one colour, None when undecided. clusters: its colours, largest first.
    pixels: how many trimming leaves for the mean of the largest colour. clipped: share of clipped pixels. view: the view
    grade. parts: the parts of the uncertainty. reference: whether a reference was used. colours: all colours of a region
    that is not solid, largest first; else the one. elsewhere: that the reference stands in another camera view. white: that
    it is declared white.
    """

    colour: Colour | None
    why_not: str
    solid: bool | None
    clusters: tuple[Cluster, ...]
    pixels: int
    clipped: float
    view: ViewGrade
    parts: tuple[Part, ...] = ()
    reference: bool = False
    colours: tuple[Colour, ...] = ()
    elsewhere: bool = False
    white: bool = True

    def facts(self) -> tuple[Fact, ...]:
        """The facts the film supports: "colour", and "solid" when decided. None at all when the colour cannot be told."""
        if self.colour is None:
            return ()
        facts = [Fact("colour", self.colours, Origin.MEASURED, self.why)]
        if self.solid is not None:
            largest = self.clusters[0].share
            facts.append(Fact("solid", self.solid, Origin.MEASURED, f"largest colour {largest:.0%} of the region"))
        return tuple(facts)

    @property
    def told_name(self) -> str | None:
        """The palette name when the film can tell it (P of 0.95 or more), else None."""
        if self.colour is None or self.colour.names[0][1] < SURE:
            return None
        return self.colour.name

    @property
    def why(self) -> str:
        """The figures behind the colour in a few words, or the reason why there is none."""
        if self.colour is None:
            return self.why_not
        spread = sds_of(self.parts)["total"]
        lab = ", ".join(f"{value:z.0f}±{sd:.0f}" for value, sd in zip(self.colour.lab, spread, strict=True))
        names = ", ".join(f"{name} {chance:.0%}" for name, chance in self.colour.names[:3])
        return f"L*a*b* {lab}; {names}; {self.pixels} px, {self.against}, view {self.view.word}"

    @property
    def against(self) -> str:
        """What the light was judged by: "against a white", "against a known colour in another view", "without a white"."""
        if not self.reference:
            return "without a white"
        return f"against a {'white' if self.white else 'known colour'}{' in another view' if self.elsewhere else ''}"


def measure_colour(
    picture: Picture,
    region: Region,
    reference: Reference | None = None,
    erode: int = 4,
    between: Covariance | None = None,
    assumed_matrix: Matrix | None = None,
    sharpness_share: float | None = None,
    bits: float | None = None,
    blur: Blur | None = None,
) -> MeasuredColour:
    """Measure the colour of a region.

    picture: exact picture, float (height, width, 3), nonlinear R'G'B' in 0..1. reference: of the same camera view.
    erode: px taken off each edge at most. between: covariance of L*, a*, b* between frames. assumed_matrix: the film's
    matrix when it was guessed. sharpness_share: of this frame against the film's sharpest, for the grade. bits: of the film
    for each pixel of a frame, None when not known. blur: by motion, for the grade.
    Raises FilmReviewError when the region reaches outside the picture.
    """
    pixels = pixels_in(picture, region, erode)
    trouble = film_trouble(picture)
    exposure = Exposure(pixels.left, pixels.dark_share, trouble == BLACK_PICTURE)
    view = grade(pixels.shape, pixels.clipped_share, sharpness_share, blur, exposure)
    why_not = _why_not(trouble, view, reference)
    if why_not:
        return MeasuredColour(None, why_not, None, (), pixels.left, pixels.clipped_share, view)
    shown = shown_by(picture, pixels, reference)
    return _measured(pixels, view, reference, _Errors(between, assumed_matrix, bits, shown))


def _why_not(trouble: str, view: ViewGrade, reference: Reference | None) -> str:
    if view.word == TOO_POOR:
        return view.reasons[0]
    if reference is not None and reference.unfit:
        return reference.unfit
    return trouble


def _measured(pixels: Pixels, view: ViewGrade, reference: Reference | None, errors: _Errors) -> MeasuredColour:
    clusters, members = _clusters(pixels, reference, errors.shown.black)
    if len(clusters) > 1:
        errors = replace(errors, shown=patterned(errors.shown))
    solid = _solid(clusters, pixels, view)
    found = [_mean_colour(pixels, member, reference, errors) for member in members]
    colour, parts, kept = found[0]
    seen = [other[0] for other, cluster in zip(found, clusters, strict=True) if cluster.share >= 1.0 - SOLID_SHARE]
    colours = tuple(seen) if solid is False else (colour,)
    alone = MeasuredColour(colour, "", solid, clusters, kept, pixels.clipped_share, view, parts, colours=colours)
    if reference is None:
        return alone
    return replace(alone, reference=True, elsewhere=reference.elsewhere, white=reference.declared.name == "white")


def _clusters(pixels: Pixels, reference: Reference | None, black: float) -> tuple[tuple[Cluster, ...], list[Numbers]]:
    """The clusters, from a regular sample when there are many pixels, and the numbers of each one's pixels.

    One for all where what looks like a colour of its own is the edge's: surroundings that `edge` takes away and counts.
    """
    sample = sample_of(len(pixels.linear))
    labs = linear_to_lab(corrected(pixels.linear[sample], reference, black))
    clusters, numbers = clusters_of(labs)
    if len(clusters) > 1 and pixels.mixed and is_of_edge(pixels.shape.mask, sample, numbers == 0):
        clusters, numbers = one_cluster(labs)
    if len(clusters) == 1:
        return clusters, [np.arange(len(pixels.linear))]
    return clusters, [sample[numbers == number] for number in range(len(clusters))]


def _mean_colour(
    pixels: Pixels, members: Numbers, reference: Reference | None, errors: _Errors
) -> tuple[Colour, tuple[Part, ...], int]:
    shown = errors.shown
    linear = pixels.linear[members]
    mean, kept = trimmed_mean(linear, pixels.clipped[members])
    mixed = pixels.mixed if len(members) == len(pixels.linear) else 0.0  # parts of a pattern have other neighbours
    mean = without_surroundings(mean, pixels.around, mixed)
    value, values = corrected(mean, reference, shown.black), pixels.values[members].mean(axis=0)
    parts = [
        light_part(value, WITHOUT_REFERENCE if reference is None else WITH_REFERENCE, shown),
        edge_part(value, corrected(pixels.around, reference, shown.black), pixels.shape.by, mixed),
        coding_part(values, shown.gains, shown.black, pixels.shape.by, errors.bits),
        pixels_part(np.maximum(linear - shown.black, 0.0), shown.gains),
    ]
    if reference is not None:
        parts.append(reference_part(value, reference.share))
    if errors.between is not None:
        parts.append(frames_part(errors.between))
    if errors.assumed_matrix is not None:
        parts.append(matrix_part(values, shown.gains, errors.assumed_matrix))
    return measured(linear_to_lab(value), total(tuple(parts))), tuple(parts), kept


def _solid(clusters: tuple[Cluster, ...], pixels: Pixels, view: ViewGrade) -> bool | None:
    """Yes or no when the share is clear of the limit and the view is good enough for stripes to show; else undecided."""
    share = clusters[0].share
    left = pixels.shape.across - 2 * pixels.shape.by
    figures = dict(view.figures)
    if left < _LEAST_LEFT_FOR_SOLID or abs(share - SOLID_SHARE) < _SOLID_UNSURE or figures["clipped"] > _SOLID_UNSURE:
        return None
    if share >= SOLID_SHARE and figures.get("blur px", 0.0) > BLUR_GOOD:
        return None  # motion may have smeared letters or stripes into one
    return share >= SOLID_SHARE

"""Measuring on a film: from a moment and a region to a colour, with the sharpest of the frames around it.

The one way by which the command line, the desk and the made-up game measure, so that all get the same figures.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from filmreview.colour.palette import colour_named
from filmreview.colour.value import Colour
from filmreview.colour.video import Matrix
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box, Region
from filmreview.film.film import Film, Frame, Moment
from filmreview.measure.camera_view import seen_from
from filmreview.measure.colour import MeasuredColour
from filmreview.measure.reference import Reference, reference_from
from filmreview.measure.shape import bounds_of
from filmreview.measure.shot import blur_at, follow, measure_shot
from filmreview.measure.view import Blur, frame_sharpness
from filmreview.progress import Progress, silent

MOST_FRAMES = 25
_GUESSED = {matrix.value: matrix for matrix in Matrix}


@dataclass(frozen=True)
class Known:
    """A region whose true colour is known, on a frame of the same view of the same film."""

    moment: Moment
    region: Region
    colour: Colour


def white_at(moment: Moment, region: Box) -> Known:
    """A region that is white in truth."""
    return Known(moment, region, colour_named("white"))


def measure_on_film(
    film: Film, moment: Moment, region: Box, known: Known | None = None, frames: int = 1, best_sharpness: float | None = None
) -> tuple[MeasuredColour, Frame]:
    """Measure the colour of a region, and say on which frame.

    frames: how many frames around the moment to choose the sharpest from, 1 to 25; the region is followed by its motion. They
    never make the uncertainty smaller; what they differ by is added to it. best_sharpness: of the film, for the view grade.
    Raises FilmReviewError for a region outside the picture, a refused reference, or a film of high dynamic range.
    """
    if not 1 <= frames <= MOST_FRAMES:
        raise FilmReviewError(f"{frames} frames cannot be used", where="frames", todo=f"give 1 to {MOST_FRAMES}")
    if film.info.high_dynamic:
        raise FilmReviewError(
            f"the film has a high dynamic range ({film.info.high_dynamic}): its colours cannot be measured",
            where=str(film.path),
        )
    region.check_inside(film.info.width, film.info.height)
    reference = reference_on_film(film, moment, known)
    around = frames_around(film, moment, frames)
    place = _place_in(around, moment)
    assumed = _GUESSED.get(film.info.matrix) if film.info.matrix_assumed else None
    blur = blur_on_frame(film, moment, region) if len(around) == 1 else None
    shot = measure_shot(
        around, place, region, reference, assumed_matrix=assumed, best_sharpness=best_sharpness, bits=bits_of(film), blur=blur
    )
    return shot.measured, around[shot.number]


def bits_of(film: Film) -> float:
    """Bits of the file for each pixel of a frame: how coarse its compression is. Its sound is counted too."""
    return 8.0 * film.path.stat().st_size / max(film.info.frames * film.info.width * film.info.height, 1)


def best_sharpness(film: Film, samples: int = 12, progress: Progress = silent) -> float:
    """Sharpness of the sharpest of frames spread over the film: what the view grade holds a frame against. Slow: seconds."""
    best = 0.0
    for place in range(samples):
        progress(place / samples, "looking for the sharpest frame")
        number = (film.info.frames - 1) * place // max(samples - 1, 1)
        best = max(best, frame_sharpness(film.frame(number).picture()))
    return best


def frames_around(film: Film, moment: Moment, count: int) -> list[Frame]:
    """Up to count frames with the moment in the middle, fewer at the ends of the film, in order."""
    middle = film.number_of(moment)
    first = max(middle - count // 2, 0)
    return [film.frame(number) for number in range(first, min(first + count, film.info.frames))]


def pictures_beside(film: Film, moment: Moment) -> tuple[list[NDArray[np.uint8]], int]:
    """The pictures of a frame and of those before and after it, uint8 (height, width, 3), and which of them is its own."""
    around = frames_around(film, moment, 3)
    return [frame.picture() for frame in around], _place_in(around, moment)


def _place_in(around: Sequence[Frame], moment: Moment) -> int:
    return next(number for number, frame in enumerate(around) if frame.moment == moment)


def blur_on_frame(film: Film, moment: Moment, region: Region) -> Blur | None:
    """Motion blur of a region, from where it is on the frames before and after; None when it is not found there."""
    try:
        pictures, place = pictures_beside(film, moment)
    except FilmReviewError:
        return None  # a damaged frame beside this one: no reason not to measure
    return blur_at(follow(pictures, place, region), place)


def reference_on_film(film: Film, moment: Moment, known: Known | None) -> Reference | None:
    """What a known region says of the light at a moment; None without one. Raises FilmReviewError for a region outside the
    picture and one that cannot serve."""
    if known is None:
        return None
    bounds = bounds_of(known.region)
    bounds.check_inside(film.info.width, film.info.height)
    there = film.frame_at(known.moment)
    try:
        reference = reference_from(there.exact_picture(), known.region, known.colour)
    except FilmReviewError as refused:
        raise FilmReviewError(refused.what, where=f"{known.colour.name} at {bounds}", todo=refused.todo) from refused
    return reference if known.moment == moment else seen_from(reference, there.picture(), film.frame_at(moment).picture())

"""Measuring a number's contrast on a film: from a moment and one or two regions, the way in for command line and tags."""

from __future__ import annotations

from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box
from filmreview.film.film import Film, Moment
from filmreview.measure.contrast import MeasuredNumber, measure_number
from filmreview.measure.on_film import Known, reference_on_film


def number_on_film(
    film: Film, moment: Moment, region: Box, jersey: Box | None = None, known: Known | None = None
) -> MeasuredNumber:
    """Measure a number on its jersey, as `contrast.measure_number` says of the regions.

    Raises FilmReviewError for a region outside the picture, a refused reference, or a film of high dynamic range.
    """
    if film.info.high_dynamic:
        raise FilmReviewError(
            f"the film has a high dynamic range ({film.info.high_dynamic}): its colours cannot be measured",
            where=str(film.path),
        )
    for one in (region, jersey):
        if one is not None:
            one.check_inside(film.info.width, film.info.height)
    reference = reference_on_film(film, moment, known)
    return measure_number(film.frame_at(moment).exact_picture(), region, reference, jersey)

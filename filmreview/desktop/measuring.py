"""Measuring for the desk: the frame at hand against the white pointed at, the same figures as `measure.on_film` gives.

It works on frames that the player has decoded already, so that measuring does not make the player forget what it decoded
around the frame on the picture. No Qt.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from filmreview.colour.video import Matrix
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Region
from filmreview.film.film import Film
from filmreview.film.frame import Frame
from filmreview.measure.camera_view import seen_from
from filmreview.measure.colour import MeasuredColour
from filmreview.measure.on_film import best_sharpness, bits_of
from filmreview.measure.reference import Reference, reference_from
from filmreview.measure.shot import measure_shot
from filmreview.progress import Progress
from filmreview.review.model import PlacedReference

_GUESSED = {matrix.value: matrix for matrix in Matrix}


class Measuring:
    """Measures on one film. sharpest: the film's own best sharpness, None until it is known."""

    def __init__(self) -> None:
        self.film: Film | None = None
        self.sharpest: float | None = None
        self._references: dict[str, tuple[PlacedReference, Reference, NDArray[np.uint8]]] = {}

    def take_film(self, film: Film | None) -> None:
        """Measure on this film from now on."""
        self.film, self.sharpest = film, None
        self._references.clear()

    def measure(self, frame: Frame, region: Region, white: PlacedReference | None, progress: Progress) -> MeasuredColour:
        """The colour of a region of a frame. Slow: for a job.

        Raises FilmReviewError for a region outside the picture, a white that cannot serve, a film of high dynamic range.
        """
        progress(0.0, "measuring the colour")
        film = self.film
        if film is None:
            raise FilmReviewError("the film is closed")
        if film.info.high_dynamic:
            raise FilmReviewError(
                f"this film has a high dynamic range ({film.info.high_dynamic}): its colours cannot be measured"
            )
        reference = self._reference(film, frame, white)
        assumed = _GUESSED.get(film.info.matrix) if film.info.matrix_assumed else None
        shot = measure_shot(
            [frame], 0, region, reference, assumed_matrix=assumed, best_sharpness=self.sharpest, bits=bits_of(film)
        )
        return shot.measured

    def _reference(self, film: Film, frame: Frame, white: PlacedReference | None) -> Reference | None:
        if white is None:
            return None
        known = self._references.get(white.id)
        if known is None or known[0] != white:
            there = frame if frame.moment == white.moment else film.frame_at(white.moment)
            known = (white, reference_from(there.exact_picture(), white.region, white.colour), there.picture())
            self._references[white.id] = known
        return known[1] if white.moment == frame.moment else seen_from(known[1], known[2], frame.picture())


def sharpest_of(film: Film, progress: Progress) -> float:
    """The film's best sharpness, on an opening of its own that keeps nothing. Slow: seconds."""
    with film.again(kept_bytes=1) as beside:
        return best_sharpness(beside, progress=progress)

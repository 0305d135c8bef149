"""Measuring for the desk: the frame at hand against a white pointed at, the same figures as `measure.on_film` gives.

It works on frames that the player has decoded already, and looks at the frames of whites on an opening of its own, so that
measuring does not make the player forget what it decoded around the frame on the picture. No Qt.
"""

from __future__ import annotations

import threading
from collections.abc import Iterable
from dataclasses import dataclass, replace

from filmreview.colour.value import Colour
from filmreview.colour.video import Matrix
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Region
from filmreview.film.film import Film
from filmreview.film.frame import Frame
from filmreview.film.moment import Moment, format_time
from filmreview.measure.camera_view import Look, alike, look_of
from filmreview.measure.colour import MeasuredColour
from filmreview.measure.nearest_reference import Nearest, nearest_reference
from filmreview.measure.on_film import best_sharpness, bits_of, blur_on_frame
from filmreview.measure.reference import Reference, reference_from
from filmreview.measure.shot import measure_shot
from filmreview.progress import Progress
from filmreview.review.model import PlacedReference

_GUESSED = {matrix.value: matrix for matrix in Matrix}
_MOST_SEEN = 256
"""Whites whose frames are remembered: of each 18 kB and what it says of the light, 5 MB in all."""
_MOST_TAKEN = 256
"""Regions whose white is remembered: more than anybody picks for the colours of two kits."""
_REFUSED = "this region cannot serve: "
"""How `reference_from` begins; what is refused here says so itself."""

White = Nearest[PlacedReference]


class Measuring:
    """Measures on one film. sharpest: the film's own best sharpness, None until it is known."""

    def __init__(self) -> None:
        self.film: Film | None = None
        self.sharpest: float | None = None
        self._whites: _Whites | None = None
        self._lock = threading.Lock()
        self._taken: dict[tuple[Moment, Region], White | None] = {}

    def take_film(self, film: Film | None) -> None:
        """Measure on this film from now on."""
        self.film, self.sharpest, self._taken = film, None, {}
        self._whites = _Whites(film) if film is not None else None

    def measure(self, frame: Frame, region: Region, whites: Iterable[PlacedReference], progress: Progress) -> MeasuredColour:
        """The colour of a region against the nearest of these whites, as `nearest_reference` has it. Slow: for a job.

        Raises FilmReviewError for a region outside the picture, a white that cannot serve, a film of high dynamic range.
        """
        progress(0.0, "measuring the colour")
        reference = self.reference_near(frame, region, whites, progress)
        film = self.film
        if film is None:
            raise FilmReviewError("the film is closed")
        assumed = _GUESSED.get(film.info.matrix) if film.info.matrix_assumed else None
        blur = blur_on_frame(film, frame.moment, region)
        shot = measure_shot(
            [frame], 0, region, reference, assumed_matrix=assumed, best_sharpness=self.sharpest, bits=bits_of(film), blur=blur
        )
        return shot.measured

    def reference_near(
        self, frame: Frame, region: Region, whites: Iterable[PlacedReference], progress: Progress
    ) -> Reference | None:
        """What the light on a region is judged by: the nearest of these whites. Slow, and raises, as `measure` does."""
        film, seen = self.film, self._whites
        if film is None or seen is None:
            raise FilmReviewError("the film is closed")
        if film.info.high_dynamic:
            raise FilmReviewError(
                f"this film has a high dynamic range ({film.info.high_dynamic}): its colours cannot be measured"
            )
        white = seen.nearest(frame, region, whites, progress)
        self._take(frame.moment, region, white)
        if white is None:
            return None
        placed = white.reference
        there = seen.at(placed.moment, placed.region, placed.colour, frame)
        reference = _serving(there, f"the white at {format_time(film.time_of(placed.moment))} cannot serve")
        return replace(reference, elsewhere=True) if white.elsewhere else reference

    def white_of(self, moment: Moment, region: Region) -> White | None:
        """The white that this region was measured against last, None when that was none."""
        return self._taken.get((moment, region))

    def try_white(self, frame: Frame, region: Region, colour: Colour) -> Reference:
        """A region of the frame at hand as a reference, remembered. Raises FilmReviewError when it cannot serve."""
        seen = self._whites
        if seen is None:
            raise FilmReviewError("the film is closed")
        return _serving(seen.at(frame.moment, region, colour, frame), "this cannot be the white")

    def _take(self, moment: Moment, region: Region, white: White | None) -> None:
        with self._lock:
            self._taken.pop((moment, region), None)
            self._taken[moment, region] = white
            while len(self._taken) > _MOST_TAKEN:
                del self._taken[next(iter(self._taken))]

    def look_at(self, whites: Iterable[PlacedReference], progress: Progress) -> None:
        """Look at the frames of whites before they are asked for. Slow: for a job."""
        seen = self._whites
        for white in whites if seen is not None else ():
            progress(0.0, "looking at the whites")
            assert seen is not None, "a film is open"
            seen.try_at(white, None)


@dataclass(frozen=True)
class _Seen:
    """A white's frame. reference: what it says of the light, or why it cannot serve."""

    region: Region
    colour: Colour
    look: Look
    reference: Reference | FilmReviewError


class _Whites:
    """What was seen of whites on one film; each one's frame is decoded once. May be asked from several threads."""

    def __init__(self, film: Film) -> None:
        self._film = film
        self._seen: dict[Moment, _Seen] = {}  # a frame has one white at most; the one asked for last stands last
        self._lock = threading.Lock()

    def nearest(self, frame: Frame, region: Region, whites: Iterable[PlacedReference], progress: Progress) -> White | None:
        """The white nearest to a region of a frame, in its camera view if there is one."""
        here: list[Look] = []

        def in_view(white: PlacedReference) -> bool | None:
            progress(0.0, "looking for a white of this view")
            seen = self.try_at(white, frame)
            if seen is None or isinstance(seen.reference, FilmReviewError):
                return None
            if not here:
                here.append(look_of(frame.picture()))
            return alike(seen.look, here[0])

        return nearest_reference(whites, frame.moment, region, in_view)

    def try_at(self, white: PlacedReference, frame: Frame | None) -> _Seen | None:
        """The same as `at`, None where the film is damaged."""
        try:
            return self.at(white.moment, white.region, white.colour, frame)
        except FilmReviewError:
            return None

    def at(self, moment: Moment, region: Region, colour: Colour, frame: Frame | None) -> _Seen:
        """What was seen there, looked at now if it was not. frame: one at hand, which need not be decoded again.

        Raises FilmReviewError where the film is damaged.
        """
        with self._lock:
            seen = self._seen.pop(moment, None)
            if seen is not None and (seen.region, seen.colour) == (region, colour):
                self._seen[moment] = seen
                return seen
        there = frame if frame is not None and frame.moment == moment else self._decoded(moment)
        seen = _Seen(region, colour, look_of(there.picture()), _reference(there, region, colour))
        with self._lock:
            self._seen[moment] = seen
            while len(self._seen) > _MOST_SEEN:
                del self._seen[next(iter(self._seen))]
        return seen

    def _decoded(self, moment: Moment) -> Frame:
        with self._film.again(kept_bytes=1) as beside:
            return beside.frame_at(moment)


def _reference(there: Frame, region: Region, colour: Colour) -> Reference | FilmReviewError:
    try:
        return reference_from(there.exact_picture(), region, colour)
    except FilmReviewError as error:
        return error.with_traceback(None)  # which would keep the picture


def _serving(seen: _Seen, refusal: str) -> Reference:
    """The reference, or its refusal: "the white at 0:12.000 cannot serve: it is too dark"."""
    refused = seen.reference
    if isinstance(refused, FilmReviewError):
        why = refused.what.removeprefix(_REFUSED)
        raise FilmReviewError(f"{refusal}: {why}", where=refused.where, todo=refused.todo)
    return refused


def sharpest_of(film: Film, progress: Progress) -> float:
    """The film's best sharpness, on an opening of its own that keeps nothing. Slow: seconds."""
    with film.again(kept_bytes=1) as beside:
        return best_sharpness(beside, progress=progress)

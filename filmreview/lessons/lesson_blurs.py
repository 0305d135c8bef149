"""The blur list of a stretch: a face followed to both its ends, put right, and the changes that take old answers back.

A change of the list takes back the answers of every stretch it reaches into: what was confirmed is not there any more.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from filmreview.film.film import Film
from filmreview.film.moment import Moment, Span
from filmreview.lessons.follow import corrected, follow
from filmreview.lessons.lesson_faces import Stretch, ask_faces_again
from filmreview.lessons.pictures import frames_of
from filmreview.progress import Progress, silent
from filmreview.review.changes import Change, Together
from filmreview.review.lesson_changes import AddBlur
from filmreview.review.model import Blur, BlurAt, Review

BY_HAND = "by hand"
LOST = "the face was lost on the way: go to where its box stops, and put it right there"


@dataclass(frozen=True)
class Face:
    """A face as followed. add: the change that puts it on the list. lost: it could not be followed to both ends."""

    add: AddBlur
    lost: bool


def followed_face(film: Film, stretch: Stretch, at: BlurAt, progress: Progress = silent) -> Face:
    """The face in a box at a moment of a stretch, followed to both ends of it.

    Raises FilmReviewError when the film has no frame at that moment, Stopped when progress raises it.
    """
    first, after = ends_of(film, stretch.span)
    later = follow(film, at, after, progress)
    earlier = follow(film, at, first, progress)
    regions = (*earlier.regions[:-1], *later.regions)
    return Face(AddBlur(stretch.film.id, regions, later.end, BY_HAND), earlier.lost or later.lost)


def put_right(film: Film, stretch: Stretch, blur: Blur, at: BlurAt, progress: Progress = silent) -> Blur:
    """The blur with its box put right at a moment, and followed anew from there to the end of the stretch at least."""
    end = max(blur.end, stretch.span.end, key=lambda one: one.seconds)
    return corrected(replace(blur, end=end), at, film, progress)


def list_change(review: Review, stretch: Stretch, change: Change, words: str, blur: Blur | None = None) -> Change:
    """A change of the list, with all answers it takes back, as one step. blur: the one that is changed, which may reach out of
    the stretch."""
    span = stretch.span
    if blur is not None:
        start = min(span.start, blur.start, key=lambda one: one.seconds)
        span = Span(start, max(span.end, blur.end, key=lambda one: one.seconds))
    return Together((change, *ask_faces_again(review, stretch.film.id, span)), words)


def ends_of(film: Film, span: Span) -> tuple[Moment, Moment]:
    """The first frame of a span, and the first moment after it; raises FilmReviewError when it reaches outside the film."""
    first, stop = frames_of(span, film)
    after = film.moment_of(stop) if stop < len(film.index) else Moment(film.index.end, film.index.time_base)
    return film.moment_of(first), after

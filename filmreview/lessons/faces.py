"""No clip with people on it leaves the house before somebody has said what is done about their faces.

The answer (`FaceChoice`) is kept in the review and covers a stretch of a film. Without answers for the whole span of a clip
nothing is written; "blurred" needs a list of blurs in its stretch to be more than a word.
"""

from __future__ import annotations

from fractions import Fraction

from filmreview.errors import FilmReviewError
from filmreview.film.moment import Moment, format_time
from filmreview.lessons.clip import Clip
from filmreview.review.model import FACE_CHOICES, FaceChoice

BLURRED, CONSENT, NOBODY = FACE_CHOICES


def check_choice(clip: Clip, film_start: Moment | None = None) -> None:
    """Raise FilmReviewError unless somebody has answered for the faces of the clip's whole span, and blurs lie where the answer
    is "blurred". film_start: of the film, to tell times from there; else they are told on the film's own clock."""
    at, end = clip.span.start.seconds, clip.span.end.seconds
    zero = Fraction(0) if film_start is None else film_start.seconds
    for choice in sorted(clip.faces, key=lambda one: one.start.seconds):
        if choice.start.seconds <= at < choice.end.seconds:
            _check_blurs(clip, choice, zero)
            at = choice.end.seconds
    if at < end:
        raise FilmReviewError(
            f"nobody has answered yet for the faces from {format_time(at - zero)} to {format_time(end - zero)}",
            where=str(clip.film),
            todo=f"look at them and answer: {', '.join(FACE_CHOICES)}",
        )


def _check_blurs(clip: Clip, choice: FaceChoice, zero: Fraction) -> None:
    if choice.choice != BLURRED:
        return
    low = max(choice.start.seconds, clip.span.start.seconds)
    high = min(choice.end.seconds, clip.span.end.seconds)
    if not any(blur.start.seconds < high and blur.end.seconds > low for blur in clip.blurs):
        raise FilmReviewError(
            f"faces are to be blurred from {format_time(low - zero)} to {format_time(high - zero)}, but no blur lies there",
            where=str(clip.film),
            todo='add the blurs, or answer "nobody on it"',
        )


def is_blurred(clip: Clip) -> bool:
    """True when a blur lies anywhere in the clip."""
    start, end = clip.span.start.seconds, clip.span.end.seconds
    return any(blur.start.seconds < end and blur.end.seconds > start for blur in clip.blurs)

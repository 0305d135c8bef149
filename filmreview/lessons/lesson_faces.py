"""The faces of a lesson: which stretches of film it shows, and what a person answered for the faces on each.

No clip is written of a stretch before somebody has answered for it. An answer is kept in the review; it holds for the stretch
it was given for and nothing more, and a change of the blur list there takes it back.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from filmreview.errors import FilmReviewError
from filmreview.film.moment import Moment, Span
from filmreview.lessons.lesson import Lesson
from filmreview.lessons.plan import Settings
from filmreview.lessons.question import OnFilm, Question
from filmreview.review.changes import Change, Together
from filmreview.review.lesson_changes import RemoveFaceChoice, SetFaceChoice
from filmreview.review.model import Blur, FaceChoice, FilmRef, Review

BLURRED, CONSENT, NOBODY = "blurred", "consent held", "nobody on it"
OPEN = ""
"""The choice of a stretch that nobody has answered for yet."""


@dataclass(frozen=True)
class Stretch:
    """What a lesson shows of a film without a break. choice: one of the review's FACE_CHOICES, OPEN while nobody answered.
    blurs: of the review, that lie in it. questions: the ids of those that show it."""

    film: FilmRef
    span: Span
    questions: tuple[str, ...]
    choice: str = OPEN
    blurs: tuple[Blur, ...] = ()

    @property
    def words(self) -> str:
        """ "0:09.800 to 0:14.800"."""
        return f"{self.film.time_text(self.span.start)} to {self.film.time_text(self.span.end)}"


def span_of(place: OnFilm, film: FilmRef, settings: Settings) -> Span:
    """What a question shows of its film: the lead-in, the moment, and what is played on; cut at both ends of the film."""
    base, at = place.moment.time_base, place.moment.pts
    first = _ticks(film.start.seconds, base)
    last = _ticks(film.start.seconds + film.length, base)
    start = max(first, at - _ticks(settings.lead_in, base))
    end = max(at + 1, min(last, at + _ticks(settings.after, base)))
    return Span(Moment(start, base), Moment(end, base))


def stretches(lesson: Lesson) -> tuple[Stretch, ...]:
    """All stretches the lesson shows, by film and time; spans that touch are one."""
    found: list[Stretch] = []
    for film in lesson.review.films:
        for question, span in sorted(_spans(lesson, film), key=lambda one: one[1].start.seconds):
            if found and found[-1].film is film and span.start.seconds <= found[-1].span.end.seconds:
                end = max(found[-1].span.end, span.end, key=lambda one: one.seconds)
                whole = Span(found[-1].span.start, end)
                found[-1] = Stretch(film, whole, (*found[-1].questions, question.id))
            else:
                found.append(Stretch(film, span, (question.id,)))
    return tuple(_answered(lesson.review, one) for one in found)


def check_faces(lesson: Lesson, answer: str = OPEN) -> None:
    """Raise FilmReviewError unless somebody answered for the faces of everything shown, and blurred ones are listed.

    answer: one that is about to be kept for all stretches, OPEN for none.
    """
    for one in stretches(lesson):
        where = f"{one.film.name}, {one.words}"
        choice = answer or one.choice
        if choice == OPEN:
            todo = f'say "{BLURRED}", "{CONSENT}" or "{NOBODY}" for the faces (--faces, or the lesson dialog at the desk)'
            raise FilmReviewError("nobody has answered for the faces on this stretch yet", where=where, todo=todo)
        if choice == BLURRED and not one.blurs:
            raise FilmReviewError(
                "the faces are to be blurred, but no blur is listed here",
                where=where,
                todo="put them on the list: filmreview lesson faces REVIEW --blur T=BOX, or at the desk",
            )


def answer_faces(review: Review, wanted: Iterable[Stretch], choice: str) -> Change | None:
    """The change that keeps an answer for these stretches, in place of every answer that reaches into one of them; None when
    all are answered so already."""
    changes: list[Change] = []
    for one in wanted:
        if one.choice != choice:
            changes += [RemoveFaceChoice(old.id) for old in _reaching(review, one)]
            changes.append(SetFaceChoice(one.film.id, one.span.start, one.span.end, choice))
    changes = list(dict.fromkeys(changes))  # two stretches may share an older answer
    return Together(tuple(changes), f"faces of the lesson: {choice}") if changes else None


def ask_faces_again(review: Review, film_id: str, span: Span) -> tuple[Change, ...]:
    """The changes that take back every answer reaching into a span: its blur list is no longer the one that was confirmed."""
    return tuple(RemoveFaceChoice(one.id) for one in review.face_choices if one.film == film_id and _touch(one, span))


def blurs_in(review: Review, film_id: str, span: Span) -> tuple[Blur, ...]:
    """The blurs of a film that lie in a span, wholly or in part."""
    start, end = span.start.seconds, span.end.seconds
    return tuple(
        one for one in review.blurs if one.film == film_id and one.start.seconds < end and start < one.end.seconds
    )  # fmt: skip


def _spans(lesson: Lesson, film: FilmRef) -> Iterable[tuple[Question, Span]]:
    for question in lesson.questions:
        if question.place is not None and question.place.film == film.id:
            yield question, span_of(question.place, film, lesson.plan.settings)


def _answered(review: Review, one: Stretch) -> Stretch:
    """The stretch with its answer, once every part of it has one; of several the most careful counts."""
    reaching = _reaching(review, one)
    words = {choice.choice for choice in reaching}
    whole = _covered(one.span, reaching)
    choice = next((word for word in (BLURRED, CONSENT, NOBODY) if whole and word in words), OPEN)
    return Stretch(one.film, one.span, one.questions, choice, blurs_in(review, one.film.id, one.span))


def _reaching(review: Review, one: Stretch) -> tuple[FaceChoice, ...]:
    return tuple(
        choice for choice in review.face_choices if choice.film == one.film.id and _touch(choice, one.span)
    )  # fmt: skip


def _touch(choice: FaceChoice, span: Span) -> bool:
    return choice.start.seconds < span.end.seconds and span.start.seconds < choice.end.seconds


def _covered(span: Span, choices: Iterable[FaceChoice]) -> bool:
    at = span.start.seconds
    for one in sorted(choices, key=lambda one: one.start.seconds):
        if one.start.seconds > at:
            return False
        at = max(at, one.end.seconds)
    return at >= span.end.seconds


def _ticks(seconds: Fraction, base: Fraction) -> int:
    return round(seconds / base)

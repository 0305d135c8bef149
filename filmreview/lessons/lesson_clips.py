"""From the questions of a lesson to its clips: what of the film is shown, held, marked, said and blurred."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from filmreview.film.moment import Moment, Span
from filmreview.lessons.clip import Card, Clip, Hold, Mark, Slow
from filmreview.lessons.lesson import Lesson
from filmreview.lessons.lesson_faces import CONSENT, span_of, stretches
from filmreview.lessons.plan import MARKS, Settings
from filmreview.lessons.question import Answer, OnFilm, Question
from filmreview.review.films import found_film
from filmreview.review.model import Blur, FilmRef, Review
from filmreview.sheets.inert import one_line

_HALF = Fraction(1, 2)
_NO_MARK = MARKS[-1]


def clips_of(lesson: Lesson, cards: bool = True) -> tuple[Clip, ...]:
    """The clips of the questions that are seen on film, in order. cards: with the title before the first and the end after the
    last one; both are left out of the page.

    Raises FilmReviewError when a film is missing or has been changed.
    """
    asked = [one for one in lesson.questions if one.place is not None]
    films, choices = films_of(lesson), _choices(lesson)
    numbers = {one.id: number for number, one in enumerate(lesson.questions, 1)}
    return tuple(
        _with_cards(
            _clip(lesson, one, numbers[one.id], films, choices[one.id]),
            lesson,
            first=cards and one is asked[0],
            last=cards and one is asked[-1],
        )
        for one in asked
    )


def films_of(lesson: Lesson) -> Mapping[str, Path]:
    """Where the films shown are now, by their ids; raises FilmReviewError when one is missing or is another film."""
    shown = dict.fromkeys(one.place.film for one in lesson.questions if one.place is not None)
    return {film: found_film(lesson.review, film) for film in shown}


def ruling_lines(answer: Answer) -> tuple[str, ...]:
    """What is said on the held frame: the ruling, the rule, what the book asks, the deciding reason."""
    follows = "" if answer.consequence == "none" else f" - {answer.consequence_words}"
    head = f"{answer.ruling}{follows}".capitalize()
    rule = f"Rule {answer.rule}" if answer.rule else ""
    told = (head, rule, answer.todo, *answer.reasons[:1])
    return tuple(one_line(line) for line in told if line)


def _clip(lesson: Lesson, question: Question, number: int, films: Mapping[str, Path], choice: str) -> Clip:
    place, settings, review = question.place, lesson.plan.settings, lesson.review
    assert place is not None, "asked for questions on film only"
    film = review.film(place.film)
    span = span_of(place, film, settings)
    return Clip(
        film=films[place.film],
        span=span,
        name=one_line(f"{number}. {question.who}, {question.item}"),
        hold=Hold(place.moment, settings.hold, settings.answer),
        mark=_mark(place, settings),
        inset=settings.inset and place.region is not None,
        question=one_line(f"{number}. {question.asked}"),
        ruling=ruling_lines(question.answer),
        sound=settings.sound,
        slow=_slow(place, span, settings),
        blurs=_blurs(review, film, choice),
        faces=tuple(one for one in review.face_choices if one.film == film.id),
    )


def _with_cards(clip: Clip, lesson: Lesson, first: bool, last: bool) -> Clip:
    seconds = lesson.plan.settings.card
    if seconds <= 0:
        return clip
    title, end = Card((one_line(lesson.title),), seconds), Card(("To mind", one_line(lesson.end)), seconds)
    return replace(clip, title=title if first else None, end=end if last else None)


def _mark(place: OnFilm, settings: Settings) -> Mark | None:
    if place.region is None or settings.mark == _NO_MARK:
        return None
    return Mark(place.region, settings.mark)


def _slow(place: OnFilm, span: Span, settings: Settings) -> Slow | None:
    base = place.moment.time_base
    start = max(span.start.pts, place.moment.pts - round(settings.slow / base))
    if start >= place.moment.pts:
        return None
    return Slow(Span(Moment(start, base), place.moment), _HALF)


def _choices(lesson: Lesson) -> Mapping[str, str]:
    """What was answered for the faces of each question's stretch, by the id of the question."""
    return {question: one.choice for one in stretches(lesson) for question in one.questions}


def _blurs(review: Review, film: FilmRef, choice: str) -> tuple[Blur, ...]:
    """Every blur of the film, unless consent is held for all that the question shows."""
    return () if choice == CONSENT else tuple(one for one in review.blurs if one.film == film.id)

"""From the questions of a lesson to its clips: what of the film is shown, held, marked, said and blurred."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from filmreview.film.moment import Moment, Span
from filmreview.lessons.clip import Card, Clip, Hold, Mark, Piece, Said, Slow
from filmreview.lessons.lesson import Lesson
from filmreview.lessons.lesson_faces import CONSENT, span_of, stretches
from filmreview.lessons.plan import MARKS, Settings
from filmreview.lessons.question import Answer, OnFilm, Question
from filmreview.review.films import found_film
from filmreview.review.model import Blur, FilmRef, Review
from filmreview.sheets.inert import one_line

_HALF = Fraction(1, 2)
_NO_MARK = MARKS[-1]
_READ_IN_A_SECOND = 16
"""Characters; common practice for subtitles is 15 to 17."""
_LONGEST_CARD = Fraction(30)  # seconds: who reads slower stops the film; the settings allow no more either


def pieces_of(lesson: Lesson) -> tuple[Piece, ...]:
    """What the films of a lesson are made of, in order: a clip a question seen on film, cards for one without; the title stands
    before all, the end card after.

    Raises FilmReviewError when a film is missing or has been changed.
    """
    clips = {question.id: clip for question, clip in asked_on_film(lesson)}
    pieces = [clips.get(one.id) or _said(lesson, one, number) for number, one in enumerate(lesson.questions, 1)]
    return _with_cards(lesson, pieces)


def asked_on_film(lesson: Lesson) -> tuple[tuple[Question, Clip], ...]:
    """The questions seen on film with their clips, without cards; raises as `pieces_of` does."""
    films, choices = films_of(lesson), _choices(lesson)
    return tuple(
        (one, _clip(lesson, one, number, films, choices[one.id]))
        for number, one in enumerate(lesson.questions, 1)
        if one.place is not None
    )


def films_of(lesson: Lesson) -> Mapping[str, Path]:
    """Where the films shown are now, by their ids; raises FilmReviewError when one is missing or is another film."""
    shown = dict.fromkeys(one.place.film for one in lesson.questions if one.place is not None)
    return {film: found_film(lesson.review, film) for film in shown}


def ruling_lines(answer: Answer) -> tuple[str, ...]:
    """What is said on the held frame: the ruling, the rule, what the book asks, the deciding reason."""
    head = " - ".join(filter(None, (answer.ruling, answer.follows))).capitalize()
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
        name=_name(question, number),
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


def _said(lesson: Lesson, question: Question, number: int) -> Said:
    """A question without film: told on cards, for as long as others are held, with its number as others have it."""
    settings = lesson.plan.settings
    asked = (f"{number}. {question.asked}", question.setting, *question.told)
    ruling = ruling_lines(question.answer)
    answer = (f"{number}. {ruling[0]}: {question.who}, {question.item}", *ruling[1:])
    return Said(
        name=_name(question, number),
        question=Card(tuple(one_line(line) for line in asked), settings.hold),
        answer=Card(tuple(one_line(line) for line in answer), settings.answer),
    )


def _with_cards(lesson: Lesson, pieces: Sequence[Piece]) -> tuple[Piece, ...]:
    """The pieces between the title and the end card; one that is a card already gets them as pieces of their own."""
    seconds = lesson.plan.settings.card
    if seconds <= 0:
        return tuple(pieces)
    title, end = _card(seconds, one_line(lesson.title)), _card(seconds, "Cautions", one_line(lesson.end))
    made = list(pieces)
    if isinstance(made[-1], Clip):
        made[-1] = replace(made[-1], end=end)
    else:
        made.append(_alone("Cautions", end))
    if isinstance(made[0], Clip):
        made[0] = replace(made[0], title=title)
    else:
        made.insert(0, _alone(one_line(lesson.title), title))
    return tuple(made)


def _card(least: Fraction, *lines: str) -> Card:
    """A card held as long as its words take to read, but no shorter than `least` seconds and no longer than _LONGEST_CARD."""
    reading = Fraction(sum(map(len, lines)), _READ_IN_A_SECOND)
    return Card(lines, max(least, min(reading, _LONGEST_CARD)))


def _alone(name: str, card: Card) -> Said:
    """A card that asks nothing; the version that answers shows it for as long."""
    half = replace(card, seconds=card.seconds / 2)
    return Said(name, half, half)


def _name(question: Question, number: int) -> str:
    return one_line(f"{number}. {question.who}, {question.item}")


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

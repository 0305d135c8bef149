"""Faces: nothing is shown that nobody answered for; an answer holds for its stretch, and a changed list takes it back."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box
from filmreview.film.moment import Moment, Span
from filmreview.lessons.lesson import Lesson, first_plan, lesson_of
from filmreview.lessons.lesson_clips import asked_on_film
from filmreview.lessons.lesson_faces import (
    BLURRED,
    CONSENT,
    NOBODY,
    OPEN,
    answer_faces,
    ask_faces_again,
    check_faces,
    stretches,
)
from filmreview.review import store as stores
from filmreview.review.changes import Together
from filmreview.review.lesson_changes import AddBlur, SetFaceChoice
from filmreview.review.model import BlurAt
from filmreview.review.ruled import findings
from filmreview.review.store import Store
from tests.lessons.small_review import QUICK, make_review


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with stores.open(make_review(tmp_path / "game.filmreview"), "O. Vanterell") as opened:
        yield opened


def lesson_on(store: Store) -> Lesson:
    found = findings(store.review)
    return lesson_of(first_plan(found, settings=QUICK), found)


def answer(store: Store, choice: str) -> None:
    change = answer_faces(store.review, stretches(lesson_on(store)), choice)
    assert change is not None
    store.apply(change)


def a_blur(store: Store, start: int, end: int) -> AddBlur:
    film = store.review.films[0]
    at = [Moment(film.start.pts + round(Fraction(one) / film.start.time_base), film.start.time_base) for one in (start, end)]
    return AddBlur(film.id, (BlurAt(at[0], Box(10, 10, 20, 20)),), at[1])


def test_spans_that_touch_are_one_stretch(store: Store) -> None:
    found = stretches(lesson_on(store))
    assert [(one.words, one.questions) for one in found] == [
        ("0:00.468 to 0:01.168", ("t1", "t2")), ("0:01.469 to 0:02.169", ("t3", "t4")),
    ]  # fmt: skip
    longer = replace(QUICK, lead_in=Fraction(1))
    plan = replace(lesson_on(store).plan, settings=longer)
    assert len(stretches(lesson_of(plan, findings(store.review)))) == 1


def test_a_span_is_cut_at_both_ends_of_the_film(store: Store) -> None:
    plan = replace(lesson_on(store).plan, settings=replace(QUICK, lead_in=Fraction(60), after=Fraction(60)))
    (one,) = stretches(lesson_of(plan, findings(store.review)))
    assert one.words == "0:00.000 to 0:03.003"
    assert one.span.seconds == one.film.length


def test_nothing_is_shown_before_somebody_answered(store: Store) -> None:
    with pytest.raises(FilmReviewError) as told:
        check_faces(lesson_on(store))
    assert str(told.value).startswith("constant.mp4, 0:00.468 to 0:01.168: nobody has answered for the faces")
    assert all(one.choice == OPEN for one in stretches(lesson_on(store)))


@pytest.mark.parametrize("choice", [CONSENT, NOBODY])
def test_an_answer_is_kept_and_holds_for_its_stretch_alone(store: Store, choice: str) -> None:
    answer(store, choice)
    check_faces(lesson_on(store))
    assert [one.choice for one in store.review.face_choices] == [choice, choice]
    assert answer_faces(store.review, stretches(lesson_on(store)), choice) is None, "nothing to change"
    longer = replace(lesson_on(store).plan, settings=replace(QUICK, lead_in=Fraction(3, 5)))
    with pytest.raises(FilmReviewError, match="nobody has answered"):
        check_faces(lesson_of(longer, findings(store.review)))


def test_blurred_needs_a_list(store: Store) -> None:
    answer(store, BLURRED)
    with pytest.raises(FilmReviewError, match="no blur is listed here; put them on the list: filmreview lesson faces"):
        check_faces(lesson_on(store))
    store.apply(Together((a_blur(store, 0, 3),), "a face"))
    check_faces(lesson_on(store))
    assert all(len(clip.blurs) == 1 for _, clip in asked_on_film(lesson_on(store)))


def test_blurs_are_drawn_unless_consent_is_held_for_the_whole_stretch(store: Store) -> None:
    store.apply(a_blur(store, 0, 3))
    answer(store, NOBODY)
    assert all(len(clip.blurs) == 1 for _, clip in asked_on_film(lesson_on(store))), "a listed face is blurred all the same"
    answer(store, CONSENT)
    assert all(clip.blurs == () for _, clip in asked_on_film(lesson_on(store)))


def test_of_two_answers_in_one_stretch_the_more_careful_counts(store: Store) -> None:
    film, (first, _) = store.review.films[0], stretches(lesson_on(store))
    middle = Moment((first.span.start.pts + first.span.end.pts) // 2, film.start.time_base)
    store.apply(SetFaceChoice(film.id, first.span.start, middle, CONSENT))
    assert stretches(lesson_on(store))[0].choice == OPEN, "half of it is not answered"
    store.apply(SetFaceChoice(film.id, middle, first.span.end, BLURRED))
    assert stretches(lesson_on(store))[0].choice == BLURRED


def test_a_new_answer_takes_the_place_of_all_that_reach_into_the_stretch(store: Store) -> None:
    answer(store, CONSENT)
    longer = lesson_of(replace(lesson_on(store).plan, settings=replace(QUICK, lead_in=Fraction(1))), findings(store.review))
    change = answer_faces(store.review, stretches(longer), NOBODY)
    assert change is not None
    store.apply(change)
    assert [one.choice for one in store.review.face_choices] == [NOBODY]


def test_a_changed_list_takes_the_answer_back_and_undo_brings_both_back(store: Store) -> None:
    answer(store, CONSENT)
    stretch = stretches(lesson_on(store))[0]
    span = Span(stretch.span.start, stretch.span.end)
    again = ask_faces_again(store.review, stretch.film.id, span)
    store.apply(Together((a_blur(store, 1, 2), *again), "a face"))
    assert [one.choice for one in stretches(lesson_on(store))] == [OPEN, CONSENT]
    store.undo()
    assert [one.choice for one in stretches(lesson_on(store))] == [CONSENT, CONSENT]

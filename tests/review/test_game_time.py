"""One time line through the films of a game."""

from fractions import Fraction

import pytest

from filmreview.film.moment import Moment
from filmreview.review.changes import AddEvent
from filmreview.review.game_time import game_seconds, place_at, time_line
from filmreview.review.ruled import rules_event
from filmreview.review.store import Store
from filmreview.review.stretch_changes import SetCommonMoment
from tests.review.small_game import a_film, moment


@pytest.fixture
def three(kept: Store) -> Store:
    """Three films of 90, 60 and 30 seconds."""
    kept.apply(a_film(path="/films/end-line.mp4", digest="cd", length=Fraction(60)))
    kept.apply(a_film(path="/films/half-2.mp4", digest="ef", length=Fraction(30)))
    return kept


def begins(store: Store) -> list[Fraction]:
    return [one.begins for one in time_line(store.review)]


def test_without_ties_films_follow_one_another_as_the_procedures_have_it(three: Store) -> None:
    assert begins(three) == [0, 90, 150]
    for film, seconds in (("f1", "12.5"), ("f2", "3"), ("f3", "29.5")):
        three.apply(AddEvent(film, moment(seconds), "play stopped"))
    assert [rules_event(three.review, event).at for event in three.review.events] == [Fraction("12.5"), 93, Fraction("179.5")]


def test_a_second_angle_lies_beside_the_first(three: Store) -> None:
    """20 s of the one is 5 s of the other: it began 15 s later, and the second half follows when both are over."""
    three.apply(SetCommonMoment("f1", moment("20"), "f2", moment("5")))
    assert begins(three) == [0, 15, 90]
    assert game_seconds(three.review, "f1", moment("50")) == game_seconds(three.review, "f2", moment("35"))
    three.apply(AddEvent("f1", moment("50"), "play stopped"))
    three.apply(AddEvent("f2", moment("40"), "play resumes"))
    assert [rules_event(three.review, event).at for event in three.review.events] == [50, 55]


def test_an_angle_that_began_earlier_or_ends_later_makes_room(three: Store) -> None:
    three.apply(SetCommonMoment("f1", moment("5"), "f2", moment("20")))
    assert begins(three) == [15, 0, 105]
    three.apply(SetCommonMoment("f1", moment("80"), "f2", moment("5")))
    assert begins(three) == [0, 75, 135]


def test_order_and_distance_on_a_film_never_change(three: Store) -> None:
    three.apply(SetCommonMoment("f3", moment("1"), "f2", moment("40")))
    for film in ("f1", "f2", "f3"):
        early, late = (game_seconds(three.review, film, moment(at)) for at in ("2", "25.25"))
        assert late - early == Fraction("23.25")


@pytest.mark.parametrize(
    ("at", "film", "seconds"), [(0, "f1", 0), (89, "f1", 89), (95, "f2", 15), (139, "f2", 59), (500, "f3", 360)]
)
def test_a_time_is_told_on_the_first_film_that_shows_it(three: Store, at: int, film: str, seconds: int) -> None:
    three.apply(SetCommonMoment("f1", moment("85"), "f2", moment("5")))
    assert begins(three) == [0, 80, 140]
    found, there = place_at(three.review, Fraction(at))
    assert (found.id, there) == (film, seconds)


def test_there_and_back(three: Store) -> None:
    three.apply(SetCommonMoment("f1", moment("5"), "f2", moment("20")))
    third = Moment(1024 + 5120, Fraction(1, 15360))
    for film in ("f1", "f2", "f3"):
        at = game_seconds(three.review, film, third)
        shown, seconds = place_at(three.review, at)
        begins_at = next(one.begins for one in time_line(three.review) if one.film.id == shown.id)
        assert begins_at + seconds == at

"""Several films of one game, without a screen."""

from fractions import Fraction

import pytest

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.films_presenter import FilmsPresenter
from filmreview.film.film import Film, open_film
from filmreview.film.moment import Moment
from filmreview.review.films import add_film
from tests.desktop.desk_fixtures import FILMS


@pytest.fixture
def films(desk: Desk) -> FilmsPresenter:
    return FilmsPresenter(desk)


@pytest.fixture
def two(desk: Desk, films: FilmsPresenter) -> FilmsPresenter:
    """A second film of the game, with another time base."""
    assert desk.review is not None
    with open_film(FILMS / "variable.mp4") as other:
        desk.try_change(add_film(other, desk.review.path))
    return films


def on(desk: Desk, film: str, seconds: int) -> tuple[str, Moment]:
    assert desk.review is not None
    start = desk.review.film(film).start
    return film, Moment(start.pts + round(seconds / start.time_base), start.time_base)


def test_films_are_named_and_listed(desk: Desk, two: FilmsPresenter) -> None:
    assert two.name("f2", "  end line ")
    rows = two.rows()
    assert [(row.film, row.what, row.name, row.tags, row.common, row.here) for row in rows] == [
        ("f1", "", "constant.mp4", 0, "no shared instant yet", True),
        ("f2", "end line", "variable.mp4", 0, "no shared instant yet", False),
    ]
    assert desk.store is not None
    assert desk.store.next_undo == "f2 shows end line"


def test_one_instant_noted_twice_ties_two_films(desk: Desk, two: FilmsPresenter) -> None:
    two.note(on(desk, "f1", 2))
    assert desk.last_message.startswith("noted: 0:02.000 of constant.mp4; now stand on the same instant of another film")
    two.note(on(desk, "f1", 1))
    assert desk.review is not None
    assert desk.review.commons == ()
    two.note(on(desk, "f2", 0))
    assert desk.last_message == "0:01.000 of constant.mp4 and 0:00.000 of variable.mp4 are the same instant"
    assert two.noted is None
    assert [row.common for row in two.rows()] == [
        "0:01.000 is 0:00.000 of variable.mp4", "0:00.000 is 0:01.000 of constant.mp4"
    ]  # fmt: skip
    assert two.elsewhere(on(desk, "f1", 2)) == ("f2", Fraction(1))
    assert two.elsewhere(on(desk, "f2", 1)) == ("f1", Fraction(2))


def test_a_second_instant_that_does_not_fit_is_doubted(desk: Desk, two: FilmsPresenter) -> None:
    for place in (on(desk, "f1", 1), on(desk, "f2", 0), on(desk, "f1", 2), on(desk, "f2", 2)):
        two.note(place)
    assert "this is 1.00 s from what the earlier shared instant said" in desk.last_message


def test_an_instant_that_the_other_film_does_not_show_is_told(desk: Desk, two: FilmsPresenter) -> None:
    two.note(on(desk, "f1", 1))
    two.note(on(desk, "f2", 0))
    assert two.elsewhere(on(desk, "f1", 0)) is None
    assert desk.last_message == "variable.mp4 does not show 0:00.000 of constant.mp4: it begins 1.0 s later"


def test_without_a_shared_instant_or_another_film_it_is_told(desk: Desk, films: FilmsPresenter, film: Film) -> None:
    place = (desk.film_id or "", film.moment_at(0))
    assert films.elsewhere(place) is None
    assert desk.last_message == "the review has no other film"
    films.note(place)
    assert desk.last_message.startswith("the review has one film: add the other one first")
    assert desk.review is not None
    with open_film(FILMS / "variable.mp4") as other:
        desk.try_change(add_film(other, desk.review.path))
    assert films.elsewhere(place) is None
    assert desk.last_message == "constant.mp4 has no shared instant with another film: set one first"
    assert films.elsewhere(None) is None


def test_untying_and_removing(desk: Desk, two: FilmsPresenter) -> None:
    assert not two.untie("f1")
    assert desk.last_message == "this film has no shared instant with another one"
    two.note(on(desk, "f1", 1))
    two.note(on(desk, "f2", 0))
    assert two.untie("f2")
    assert desk.review is not None
    assert desk.review.commons == ()
    two.note(on(desk, "f2", 1))
    assert two.remove("f2")
    assert two.noted is None
    assert [row.film for row in two.rows()] == ["f1"]

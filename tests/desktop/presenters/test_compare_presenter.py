"""The moment beside without a screen: which one it is, how far away, and whose film is open."""

import pytest

from filmreview.desktop.compare_presenter import Beside
from filmreview.desktop.desk_presenter import Desk
from filmreview.film.film import Film, open_film
from filmreview.film.moment import Moment
from filmreview.review.changes import AddTag, MoveFilm, RemoveFilm, SetCommonMoment
from filmreview.review.films import add_film
from tests.desktop.desk_fixtures import FILMS, AtOnce


class Shown:
    """What a pane was told: the films, closed by it, and the moments to stand on."""

    def __init__(self) -> None:
        self.film: Film | None = None
        self.moments: list[Moment] = []

    def take_film(self, film: Film | None) -> None:
        if self.film is not None:
            self.film.close()
        self.film = film

    @property
    def name(self) -> str:
        return self.film.path.name if self.film is not None else ""


@pytest.fixture
def shown() -> Shown:
    return Shown()


@pytest.fixture
def beside(desk: Desk, shown: Shown) -> Beside:
    return Beside(desk, shown.take_film, shown.moments.append)


@pytest.fixture
def other(desk: Desk) -> str:
    """A second film of the game."""
    with open_film(FILMS / "variable.mp4") as film:
        desk.try_change(add_film(film, desk.store.path))
    return desk.review.films[1].id


def test_a_moment_is_held_on_a_film_of_its_own(beside: Beside, shown: Shown, film: Film) -> None:
    beside.hold("f1", film.moment_of(5))
    assert shown.name == "constant.mp4"
    assert shown.film is not film, "the picture's own film goes on undisturbed"
    assert shown.moments == [film.moment_of(5)]
    opened = shown.film
    beside.hold("f1", film.moment_of(9))
    assert shown.film is opened, "not opened again"
    assert shown.moments[-1] == film.moment_of(9)
    beside.off()
    assert (shown.film, beside.on, beside.moment) == (None, False, None)


def test_how_far_it_is_from_the_picture(beside: Beside, film: Film) -> None:
    beside.hold("f1", film.moment_of(5))
    step = float(film.moment_of(1).seconds)
    assert beside.apart(film.moment_of(5)) == "the same moment"
    assert beside.apart(film.moment_of(8)) == f"{3 * step:.3f} s earlier"
    assert beside.apart(film.moment_of(3)) == f"{2 * step:.3f} s later"
    assert beside.apart(None) == ""
    beside.stands_on(film.moment_of(8))
    assert beside.apart(film.moment_of(8)) == "the same moment"
    beside.off()


def test_a_tag_s_moment(beside: Beside, shown: Shown, desk: Desk, film: Film) -> None:
    desk.try_change(AddTag("f1", film.moment_of(12), "home", "10", "headband"))
    beside.hold_tag(desk.review.tags[0].id)
    assert shown.moments == [film.moment_of(12)]
    beside.off()


def test_another_film_stands_on_the_same_instant_where_it_is_known(
    beside: Beside, shown: Shown, desk: Desk, film: Film, other: str
) -> None:
    beside.hold_film(other, film.moment_of(6))
    assert shown.name == "variable.mp4"
    assert shown.moments[-1] == shown.film.start
    assert "no shared instant" in desk.last_message
    assert beside.apart(film.moment_of(6)) == ""
    there = shown.film.moment_of(9)
    desk.try_change(SetCommonMoment("f1", film.moment_of(6), other, there))
    beside.hold_film(other, film.moment_of(6))
    assert shown.moments[-1] == there
    beside.stands_on(there)
    assert beside.apart(film.moment_of(6)) == "the same instant"
    beside.off()


def test_while_another_film_is_opened_nothing_of_the_last_one_is_shown(
    beside: Beside, shown: Shown, film: Film, other: str, at_once: AtOnce
) -> None:
    beside.hold("f1", film.moment_of(5))
    at_once.hold = True
    beside.hold_film(other, None)
    assert shown.film is None
    at_once.let_go()
    assert shown.name == "variable.mp4"
    beside.off()


def test_a_film_that_went_away_is_said_and_nothing_is_beside(beside: Beside, shown: Shown, desk: Desk, other: str) -> None:
    desk.try_change(MoveFilm(other, "/nowhere/gone.mp4"))
    beside.hold_film(other, None)
    assert (beside.on, shown.film) == (False, None)
    assert desk.last_message


def test_a_film_taken_out_of_the_review_is_no_longer_beside(beside: Beside, desk: Desk, other: str) -> None:
    beside.hold_film(other, None)
    desk.try_change(RemoveFilm(other))
    assert not beside.on

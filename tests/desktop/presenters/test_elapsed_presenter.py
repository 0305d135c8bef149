"""The time from a first moment to now, without a screen."""

import pytest

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.elapsed_presenter import PAUSE, ElapsedPresenter
from filmreview.film.film import Film


@pytest.fixture
def card(desk: Desk) -> CardPresenter:
    return CardPresenter(desk)


@pytest.fixture
def elapsed(desk: Desk, card: CardPresenter) -> ElapsedPresenter:
    return ElapsedPresenter(desk, card)


def test_from_a_first_moment_to_now(elapsed: ElapsedPresenter, film: Film) -> None:
    """`constant.mp4`: frames of 1001/30000 s."""
    assert not elapsed.on
    elapsed.begin(film.frame(2))
    assert elapsed.words == "0.000 ± 0.014 s, off by 0.033 s at most"
    elapsed.stand(film.frame(59))
    assert elapsed.head == "from 0:00.067 to 0:01.969"
    assert elapsed.words == "1.902 ± 0.014 s, off by 0.033 s at most"
    elapsed.stand(None)
    assert elapsed.words == PAUSE
    elapsed.stop()
    assert (elapsed.on, elapsed.head) == (False, "")


def test_a_limit(elapsed: ElapsedPresenter, film: Film) -> None:
    elapsed.begin(film.frame(2))
    elapsed.stand(film.frame(59))
    for limit, told in (
        ("at most 2", "at most 2 s: yes (P 1.00)"),
        ("at most 1.9", "at most 1.9 s: cannot be told"),
        ("at least 2", "at least 2 s: no (P 0.00)"),
        ("2 s", 'write "at most 3"'),
    ):
        elapsed.set_limit(limit)
        assert told in elapsed.words


def test_a_picture_before_the_first_moment(elapsed: ElapsedPresenter, film: Film) -> None:
    elapsed.begin(film.frame(40))
    elapsed.stand(film.frame(39))
    assert elapsed.words == "the picture is before 0:01.335: go on, or set the first moment anew"
    assert elapsed.took is None


def test_another_film(elapsed: ElapsedPresenter, desk: Desk, film: Film) -> None:
    elapsed.begin(film.frame(2))
    desk.film_id = "another"
    elapsed.stand(film.frame(59))
    assert elapsed.words == "the first moment is on another film: set it anew on this one"


def test_into_the_note(elapsed: ElapsedPresenter, card: CardPresenter, desk: Desk, film: Film) -> None:
    elapsed.begin(film.frame(2))
    elapsed.stand(film.frame(59))
    elapsed.note()
    assert "open the card first" in desk.last_message
    card.open_new(film.frame(59))
    card.set_note("slow")
    elapsed.note()
    assert card.draft.understood.note == "slow; 1.902 ± 0.014 s from 0:00.067 to 0:01.969"

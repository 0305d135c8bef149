"""Fixtures: the desk without a screen, its work done at once, on a review of a small film."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from filmreview.desktop.desk_presenter import Desk, Touched
from filmreview.desktop.setup_presenter import game_of
from filmreview.desktop.turns import Failed
from filmreview.film.film import Film, open_film
from filmreview.review import store as stores
from filmreview.review.changes import Change
from filmreview.review.films import add_film
from tests.desktop.desk_fixtures import FILMS, FORM, AtOnce


@pytest.fixture
def at_once() -> AtOnce:
    return AtOnce()


@pytest.fixture
def film() -> Iterator[Film]:
    """A film of constant rate with a number burnt into every frame."""
    with open_film(FILMS / "constant.mp4") as opened:
        yield opened


@pytest.fixture
def desk(at_once: AtOnce, film: Film, tmp_path: Path) -> Iterator[Desk]:
    """The desk, without a screen, on a new review of that film."""
    store = stores.create(tmp_path / "game.filmreview", game_of(FORM), "R. Valdrune")
    film_id = store.apply(add_film(film, store.path))[0]

    def push(change: Change, then: Touched, failed: Failed) -> None:
        at_once.in_turn(lambda _progress: store.apply(change), then, failed)

    made = Desk(at_once.start, at_once.in_turn, at_once.forget, push)
    made.key = {
        "stoppage": "F5",
        "stoppage_kind": "Shift+F5",
        "note_event": "F4",
        "event_whose": "Shift+F4",
        "place_region": "Insert",
    }.__getitem__
    made.take_store(store)
    made.take_film(film_id, film)
    yield made
    made.close()

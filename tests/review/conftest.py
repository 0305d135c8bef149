"""A review of the small game, open."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from filmreview.review import store
from filmreview.review.store import Store
from tests.review.small_game import a_film, a_game


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "game.filmreview"


@pytest.fixture
def kept(path: Path) -> Iterator[Store]:
    """A review with one film, open."""
    with store.create(path, a_game(), "Ann") as opened:
        opened.apply(a_film())
        yield opened

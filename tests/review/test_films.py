"""How a film comes into a review and is found again."""

import shutil
from pathlib import Path

import pytest

from filmreview.errors import FilmReviewError
from filmreview.film.film import open_film
from filmreview.review import store
from filmreview.review.films import add_film, found_film, move_film
from tests.review.small_game import a_game, a_tag

FIXTURES = Path(__file__).parents[2] / "fixtures"


def some_film() -> Path:
    return min(FIXTURES.rglob("*.mp4"), key=lambda path: path.stat().st_size)


def test_review_and_film_move_together_or_the_film_alone(tmp_path: Path) -> None:
    before = tmp_path / "before"
    before.mkdir()
    path, film = before / "game.filmreview", before / "half.mp4"
    shutil.copy(some_film(), film)
    with store.create(path, a_game(), "Ann") as opened, open_film(film) as shown:
        assert opened.apply(add_film(shown, path)) == ("f1",)
        opened.apply(a_tag(moment=shown.start))
        assert opened.review.time_text("f1", shown.start) == "0:00.000"
        known = opened.review.film("f1")
        assert (known.width, known.height) == (shown.info.width, shown.info.height)
        assert (known.name, known.beside) == ("half.mp4", "half.mp4")
        assert found_film(opened.review, "f1") == film
        with pytest.raises(FilmReviewError, match="in the review already"):
            opened.apply(add_film(shown, path))
    after = before.rename(tmp_path / "after")
    with store.open(after / "game.filmreview", "Ann") as opened:
        assert found_film(opened.review, "f1") == after / "half.mp4"
        elsewhere = (after / "half.mp4").rename(tmp_path / "moved.mp4")
        with pytest.raises(FilmReviewError, match=r"half.mp4: the film is not there any more; put it back"):
            found_film(opened.review, "f1")
        with open_film(elsewhere) as shown:
            opened.apply(move_film(opened.review, "f1", shown))
        assert found_film(opened.review, "f1") == elsewhere
        assert opened.review.film("f1").beside == "../moved.mp4"


def test_another_film_is_not_taken_for_it(tmp_path: Path) -> None:
    path, film = tmp_path / "game.filmreview", tmp_path / "half.mp4"
    shutil.copy(some_film(), film)
    other = max(FIXTURES.rglob("*.mp4"), key=lambda path: path.stat().st_size)
    with store.create(path, a_game(), "Ann") as opened:
        with open_film(film) as shown:
            opened.apply(add_film(shown, path))
        shutil.copy(other, film)
        with pytest.raises(FilmReviewError, match="this is not the film of the review"):
            found_film(opened.review, "f1")
        with open_film(film) as shown, pytest.raises(FilmReviewError, match=r"this is another film than half.mp4"):
            move_film(opened.review, "f1", shown)

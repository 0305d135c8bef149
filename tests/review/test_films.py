"""How a film comes into a review and is found again."""

import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from filmreview.errors import FilmReviewError
from filmreview.film.film import open_film
from filmreview.review import store
from filmreview.review.changes import Together
from filmreview.review.films import ANOTHER, Whereabouts, add_film, found_film, lost_films, move_film, whereabouts
from filmreview.review.films_search import find_lost_films
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
        assert (known.name, known.path, known.beside) == ("half.mp4", "half.mp4", "half.mp4")
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


def test_a_review_handed_on_tells_no_folder_of_the_machine_its_film_lies_beside_or_below(tmp_path: Path) -> None:
    """Not in the values, and not in the steps of the history either."""
    mine = tmp_path / "folder of mine"
    (mine / "films").mkdir(parents=True)
    path, below = mine / "game.filmreview", mine / "films" / "half.mp4"
    shutil.copy(some_film(), below)
    with store.create(path, a_game(), "Ann") as opened, open_film(below) as shown:
        opened.apply(add_film(shown, path))
        assert opened.review.film("f1").path == "films/half.mp4"
        assert found_film(opened.review, "f1") == below
    moved = below.rename(mine / "renamed.mp4")
    with store.open(path, "Ann") as opened:
        assert [film.id for film in lost_films(opened.review)] == ["f1"]
        opened.apply(Together(find_lost_films(opened.review, mine)))
        assert found_film(opened.review, "f1") == moved
    assert b"folder of mine" not in path.read_bytes()


def test_a_review_made_before_keeps_the_absolute_path_it_has(tmp_path: Path) -> None:
    film = tmp_path / "films" / "half.mp4"
    film.parent.mkdir()
    shutil.copy(some_film(), film)
    path = tmp_path / "reviews" / "game.filmreview"
    path.parent.mkdir()
    with store.create(path, a_game(), "Ann") as opened, open_film(film) as shown:
        opened.apply(replace(add_film(shown, path), path=str(film), beside=""))
    with store.open(path.rename(tmp_path / "game.filmreview"), "Ann") as opened:
        assert found_film(opened.review, "f1") == film


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


def test_a_film_of_another_folder_is_found_though_another_one_lies_beside_the_review(tmp_path: Path) -> None:
    """A review kept with the absolute path, and another film that came to lie where the way from the review leads."""
    path, film = tmp_path / "games" / "game.filmreview", tmp_path / "films" / "half.mp4"
    for folder in (path.parent, film.parent):
        folder.mkdir()
    shutil.copy(some_film(), film)
    with store.create(path, a_game(), "Ann") as opened, open_film(film) as shown:
        opened.apply(replace(add_film(shown, path), path=str(film), beside="half.mp4"))
    (path.parent / "half.mp4").write_bytes(b"another")
    with store.open(path, "Ann") as opened:
        assert found_film(opened.review, "f1") == film
        film.unlink()
        assert whereabouts(opened.review, opened.review.film("f1")) == Whereabouts(ANOTHER, path.parent / "half.mp4")

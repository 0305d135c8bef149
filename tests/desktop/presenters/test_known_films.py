"""A film is indexed once, however many openings it has."""

import shutil
import threading
from pathlib import Path

import pytest

from filmreview.desktop import known_films
from filmreview.desktop.known_films import KnownFilms
from filmreview.errors import FilmReviewError, Stopped
from filmreview.film.film import Film, open_film
from fixtures.films.made import truth
from tests.desktop.desk_fixtures import FILMS

FILM = FILMS / "constant.mp4"


@pytest.fixture
def read(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """The films that were read from the beginning."""
    told: list[Path] = []

    def counted(path: Path, **given: object) -> Film:
        told.append(path)
        return open_film(path, **given)

    monkeypatch.setattr(known_films, "open_film", counted)
    return told


def test_the_second_opening_reads_nothing_anew(read: list[Path]) -> None:
    films = KnownFilms()
    with films.open(FILM) as first, films.open(FILM) as second:
        assert second.index is first.index
    with films.open(FILM):  # after both are closed
        assert read == [FILM]


def test_two_at_once_read_it_once(read: list[Path]) -> None:
    films = KnownFilms()
    opened: list[Film] = []
    threads = [threading.Thread(target=lambda: opened.append(films.open(FILM))) for _ in range(4)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    for film in opened:
        film.close()
    assert (len(opened), read) == (4, [FILM])


def test_a_file_that_changed_is_read_anew(read: list[Path], tmp_path: Path) -> None:
    path = Path(shutil.copy(FILM, tmp_path / "game.mp4"))
    films = KnownFilms()
    films.open(path).close()
    shutil.copy(FILMS / "b-frames.mp4", path)
    with films.open(path) as film:
        assert film.info.frames == truth("b-frames.mp4")["frames"]
    assert read == [path, path]


def test_who_waits_can_be_stopped(monkeypatch: pytest.MonkeyPatch) -> None:
    reading, go_on = threading.Event(), threading.Event()

    def slow(path: Path, **given: object) -> Film:
        reading.set()
        go_on.wait(5)
        return open_film(path, **given)

    def stopped(_share: float, _words: str) -> None:
        raise Stopped("stopped")

    monkeypatch.setattr(known_films, "open_film", slow)
    films = KnownFilms()
    first = threading.Thread(target=lambda: films.open(FILM).close())
    first.start()
    assert reading.wait(5)
    with pytest.raises(Stopped):
        films.open(FILM, stopped)
    go_on.set()
    first.join()


def test_a_film_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(FilmReviewError, match="no such file"):
        KnownFilms().open(tmp_path / "none.mp4")

"""Another opening of the same file takes over the index."""

import shutil
from pathlib import Path

import numpy as np
import pytest

from filmreview.errors import FilmReviewError
from filmreview.film import film as films
from filmreview.film.film import open_film
from fixtures.films.burnt import read_number
from fixtures.films.made import film, names, truth


@pytest.mark.parametrize("name", names())
def test_frames_are_the_same(name: str) -> None:
    with open_film(film(name)) as first, first.again() as beside:
        assert beside.index is first.index
        for number in dict.fromkeys((first.info.frames - 1, 0, first.info.frames // 2)):
            picture = beside.frame(number).picture()
            assert read_number(picture) == truth(name)["numbers"][number]
            assert np.array_equal(picture, first.frame(number).picture())


def test_nothing_is_read_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    with open_film(film("constant.mp4")) as first:
        monkeypatch.setattr(films, "build_index", lambda *_given: pytest.fail("the index was built again"))
        first.again().close()


def test_it_works_after_the_first_one_is_closed() -> None:
    with open_film(film("constant.mp4")) as first:
        pass
    with first.again(kept_bytes=1) as beside:
        assert read_number(beside.frame(7).picture()) == 7
    with pytest.raises(FilmReviewError, match="closed"):
        first.frame(7)


def test_another_file_in_its_place_is_refused(tmp_path: Path) -> None:
    path = Path(shutil.copy(film("constant.mp4"), tmp_path / "game.mp4"))
    with open_film(path) as first:
        shutil.copy(film("b-frames.mp4"), path)
        with pytest.raises(FilmReviewError, match="changed meanwhile"):
            first.again()
        path.unlink()
        with pytest.raises(FilmReviewError, match="no such file"):
            first.again()

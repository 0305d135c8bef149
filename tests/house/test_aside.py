"""A file is written whole or not at all."""

import os
from pathlib import Path

import pytest

from filmreview.aside import free_path, written_aside
from filmreview.errors import FilmReviewError, Stopped


def test_it_takes_the_old_one_s_place(tmp_path: Path) -> None:
    path = tmp_path / "sheet.xlsx"
    path.write_text("old")
    with written_aside(path) as aside:
        assert (aside.parent, aside.suffix) == (tmp_path, ".xlsx")
        aside.write_text("new")
        assert path.read_text() == "old"
    assert path.read_text() == "new"
    assert os.listdir(tmp_path) == ["sheet.xlsx"]
    (tmp_path / "other").touch()
    assert path.stat().st_mode == (tmp_path / "other").stat().st_mode


def write_half(path: Path, error: Exception) -> None:
    with written_aside(path) as aside:
        aside.write_text("half")
        raise error


def test_what_goes_wrong_leaves_the_old_one_and_nothing_else(tmp_path: Path) -> None:
    path = tmp_path / "sheet.xlsx"
    path.write_text("old")
    with pytest.raises(Stopped):
        write_half(path, Stopped("stopped"))
    with pytest.raises(FilmReviewError) as caught:
        write_half(path, OSError(28, "No space left on device"))
    assert str(caught.value) == f"{path}: the file was not written: no space left on device; what was there before is as it was"
    assert (path.read_text(), os.listdir(tmp_path)) == ("old", ["sheet.xlsx"])


def test_a_place_that_cannot_be_is_said(tmp_path: Path) -> None:
    with pytest.raises(FilmReviewError, match="there is no such folder; make it first"):
        write_half(tmp_path / "a" / "b.xlsx", ValueError())
    with pytest.raises(FilmReviewError, match="this is a folder"):
        write_half(tmp_path, ValueError())


def test_a_path_that_is_taken_gets_a_number(tmp_path: Path) -> None:
    path = tmp_path / "game.filmreview"
    assert free_path(path) == path
    path.touch()
    (tmp_path / "game-2.filmreview").touch()
    assert free_path(path) == tmp_path / "game-3.filmreview"

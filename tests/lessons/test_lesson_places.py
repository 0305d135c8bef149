"""What already lies where a lesson is to be written: it stays as it was when a file of the lesson cannot have its place."""

from dataclasses import replace
from pathlib import Path

import pytest

from filmreview.errors import FilmReviewError, Stopped
from filmreview.lessons.lesson_folder import write_lesson_folder
from filmreview.lessons.plan import SINGLE_FILES
from tests.lessons.small_review import FILMS, QUICK
from tests.lessons.test_lesson_folder import made

SMALL = replace(QUICK, page=False, versions=("question",))
SINGLE = replace(SMALL, layout=SINGLE_FILES)


def held(folder: Path) -> dict[str, bytes | None]:
    """Everything in a folder, by name; None for a folder."""
    return {str(one.relative_to(folder)): one.read_bytes() if one.is_file() else None for one in folder.rglob("*")}


def test_a_folder_in_the_place_of_a_file_leaves_all_as_it_was(tmp_path: Path) -> None:
    folder = tmp_path / "lesson"
    (folder / "answers.pdf").mkdir(parents=True)
    (folder / "answers.pdf" / "mine.txt").write_text("kept")
    (folder / "questions.mp4").write_bytes(b"of before")
    before = held(folder)
    with pytest.raises(FilmReviewError, match=r"answers.pdf: this is a folder; move it away, or write the lesson elsewhere"):
        write_lesson_folder(made(tmp_path, SMALL), folder)
    assert held(folder) == before


def test_a_folder_of_clips_made_for_nothing_goes(tmp_path: Path) -> None:
    folder = tmp_path / "lesson"
    (folder / "answers.pdf").mkdir(parents=True)
    with pytest.raises(FilmReviewError, match="this is a folder"):
        write_lesson_folder(made(tmp_path, SINGLE), folder)
    assert held(folder) == {"answers.pdf": None}


def test_a_file_in_the_place_of_the_clips_leaves_all_as_it_was(tmp_path: Path) -> None:
    folder = tmp_path / "lesson"
    folder.mkdir()
    (folder / "clips").write_text("mine")
    with pytest.raises(FilmReviewError, match="the lesson was not written: not a directory"):
        write_lesson_folder(made(tmp_path, SINGLE), folder)
    assert held(folder) == {"clips": b"mine"}


def test_a_film_of_the_review_is_never_written_over(tmp_path: Path) -> None:
    folder = tmp_path / "lesson"
    folder.mkdir()
    film = folder / "questions.mp4"
    film.write_bytes((FILMS / "constant.mp4").read_bytes())
    lesson, before = made(tmp_path, SMALL, film=film), held(folder)
    with pytest.raises(FilmReviewError, match=r"questions.mp4: this is a film of the review; write the lesson elsewhere"):
        write_lesson_folder(lesson, folder)
    assert held(folder) == before


def test_the_folders_above_that_were_made_for_nothing_go(tmp_path: Path) -> None:
    lesson = made(tmp_path, SMALL)
    (tmp_path / "there").mkdir()

    def stop(_share: float, _words: str) -> None:
        raise Stopped("stopped")

    with pytest.raises(Stopped):
        write_lesson_folder(lesson, tmp_path / "there" / "a" / "b", stop)
    assert held(tmp_path / "there") == {}

"""Writing a lesson: everything that it is made of, into one folder, whole or not at all.

All is written aside in the folder first and takes its place when the last piece is whole. What an earlier making of a lesson
left there and this one does not write again is taken away, so that no clip stays that was not answered for now.
"""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from filmreview.aside import aside_prefix, left_aside
from filmreview.errors import FilmReviewError
from filmreview.lessons.answers_paper import write_answers_paper
from filmreview.lessons.answers_workbook import write_answers_workbook
from filmreview.lessons.lesson import Lesson
from filmreview.lessons.lesson_faces import check_faces
from filmreview.lessons.lesson_films import CLIPS, page_clips, stills_of, write_films
from filmreview.lessons.lesson_key import NAME, key_of_lesson, key_text, read_key
from filmreview.lessons.page import write_page
from filmreview.lessons.question_paper import write_question_paper
from filmreview.progress import Progress, silent

PAGE = "lesson.html"
_BEFORE = ".before"  # in the folder aside: what stood in its places
_FILMS, _CLIPS = 0.65, 0.95  # shares of the work done after the films, and after the clips of the page


@dataclass(frozen=True)
class WrittenFile:
    """One file that was written. words: what it is and for whom. size: bytes."""

    path: Path
    words: str
    size: int


@dataclass(frozen=True)
class WrittenLesson:
    """Everything written. notes: what the films told on the way, a line each."""

    folder: Path
    files: tuple[WrittenFile, ...]
    notes: tuple[str, ...] = ()


def write_lesson_folder(lesson: Lesson, folder: Path, progress: Progress = silent) -> WrittenLesson:
    """Write a lesson to a folder, which is made when missing.

    Raises FilmReviewError in one line when nobody has answered for the faces, a film is missing or cannot be read, the folder
    cannot be written or the disk is full; lets `Stopped` of progress through. Then nothing of the lesson is left behind, and
    what lay in the folder is as it was.
    """
    lesson.plan.checked()
    check_faces(lesson)
    _check_films(lesson, folder)
    with _aside(folder) as aside:
        told, notes = _written(lesson, aside, progress)
        names = tuple(told)
        (aside / NAME).write_text(key_text(key_of_lesson(lesson, names)), encoding="utf-8")
        told[NAME] = "the key that results are read against: not for participants"
        sizes = {name: (aside / name).stat().st_size for name in told}
        _take_place(aside, folder, tuple(told))
    progress(1.0, "written")
    files = tuple(WrittenFile(folder / name, words, sizes[name]) for name, words in told.items())
    return WrittenLesson(folder, files, notes)


def _written(lesson: Lesson, aside: Path, progress: Progress) -> tuple[dict[str, str], tuple[str, ...]]:
    """Write all but the key; returns what each file is by its name, in the order people meet them, and the notes."""
    films, notes = write_films(lesson, aside, _part(progress, 0.0, _FILMS if lesson.plan.settings.page else _CLIPS))
    stills = stills_of(lesson)
    told: dict[str, str] = {}
    if lesson.plan.settings.page:
        with tempfile.TemporaryDirectory(dir=aside, prefix=".page-") as scratch:
            inside = page_clips(lesson, Path(scratch), _part(progress, _FILMS, _CLIPS))
            write_page(lesson, inside, aside / PAGE, _part(progress, _CLIPS, 0.98))
        told[PAGE] = "the page that plays, asks and answers: one file, for participants"
    told |= films
    write_question_paper(lesson, stills, aside / "questions.pdf")
    told["questions.pdf"] = "the question sheet, for participants"
    write_answers_paper(lesson, stills, aside / "answers.pdf")
    write_answers_workbook(lesson, aside / "answers.xlsx")
    told["answers.pdf"] = "the answer sheet"
    told["answers.xlsx"] = "the answer sheet as a workbook"
    return told, notes


@contextmanager
def _aside(folder: Path) -> Iterator[Path]:
    """A hidden folder in the folder; it goes in any case, and so do the folder and those above it if made for nothing."""
    made = [one for one in (folder, *folder.parents) if not one.exists()]
    try:
        if folder.exists() and not folder.is_dir():
            raise FilmReviewError("this is a file", where=str(folder), todo="give the name of a folder")
        folder.mkdir(parents=True, exist_ok=True)
        _take_away_left(folder)
        aside = Path(tempfile.mkdtemp(prefix=aside_prefix("lesson"), dir=folder))
    except OSError as error:
        _take_away(made)
        raise _told(error, folder) from error
    try:
        yield aside
    except OSError as error:
        raise _told(error, folder) from error
    finally:
        shutil.rmtree(aside, ignore_errors=True)
        _take_away(made)


def _take_away_left(folder: Path) -> None:
    """Take away what the making of a lesson left there when it was killed; one that holds what stood there before stays."""
    for left in left_aside(folder):
        if left.is_dir() and not (left / _BEFORE).exists():
            shutil.rmtree(left, ignore_errors=True)


def _take_away(made: list[Path]) -> None:
    """Take away those of the folders made, the innermost first, that hold nothing."""
    for folder in made:
        if folder.is_dir() and not any(folder.iterdir()):
            folder.rmdir()


def _take_place(aside: Path, folder: Path, names: tuple[str, ...]) -> None:
    """Give every file its place, then take away what an earlier lesson left.

    Where one cannot have its place (a folder stands there, a file is held open), all that had theirs are put back.
    """
    old = _earlier(folder)
    with ExitStack() as back:
        for name in names:
            _place(aside, folder, name, back)
        back.pop_all()  # all have their places: nothing is to be put back
    for name in old - set(names):
        path = folder / name
        path.unlink(missing_ok=True)
        if path.parent != folder and path.parent.is_dir() and not any(path.parent.iterdir()):
            path.parent.rmdir()


def _place(aside: Path, folder: Path, name: str, back: ExitStack) -> None:
    """Give one file its place. back: learns how to put back what was there."""
    place, before = folder / name, aside / _BEFORE / name
    if place.is_dir():
        raise FilmReviewError("this is a folder", where=str(place), todo="move it away, or write the lesson elsewhere")
    if not place.parent.exists():
        place.parent.mkdir()
        back.callback(place.parent.rmdir)
    if os.path.lexists(place):
        before.parent.mkdir(parents=True, exist_ok=True)
        os.replace(place, before)
        back.callback(os.replace, before, place)
    os.replace(aside / name, place)
    back.callback(place.unlink)


def _check_films(lesson: Lesson, folder: Path) -> None:
    """Raise FilmReviewError when a file of the lesson would take the place of a film of the review."""
    review, inside = lesson.review, folder.resolve()
    for film in review.films:
        for path in (Path(film.path), *([review.path.parent / film.beside] if film.beside else ())):
            if path.parent.resolve() in (inside, inside / CLIPS) and _ours(path.resolve().relative_to(inside).as_posix()):
                raise FilmReviewError("this is a film of the review", where=str(path), todo="write the lesson elsewhere")


def _earlier(folder: Path) -> set[str]:
    """What an earlier lesson wrote to the folder, by its key; nothing that could lie elsewhere."""
    if not (folder / NAME).is_file():
        return set()
    try:
        names = read_key(folder / NAME).files
    except FilmReviewError:
        return set()  # it is not ours to take away
    return {name for name in names if _ours(name)}


def _ours(name: str) -> bool:
    """Whether a name is one that a lesson gives: in the folder, or in its folder of clips."""
    parts = PurePosixPath(name).parts
    return "\\" not in name and (
        (len(parts) == 1 and parts[0] in (PAGE, "questions.pdf", "answers.pdf", "answers.xlsx", "questions.mp4", "answers.mp4",
                                          "questions.vtt", "answers.vtt"))
        or (len(parts) == 2 and parts[0] == CLIPS and parts[1].endswith((".mp4", ".vtt")))
    )  # fmt: skip


def _told(error: OSError, folder: Path) -> FilmReviewError:
    what = (error.strerror or str(error)).lower()
    return FilmReviewError(f"the lesson was not written: {what}", where=str(folder), todo="what was there before is as it was")


def _part(progress: Progress, start: float, end: float) -> Progress:
    """Progress of one step as a part of the whole."""
    return lambda share, words: progress(start + (end - start) * share, words)

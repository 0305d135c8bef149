"""A lesson written to a folder: whole, as planned, or nothing; and what an earlier one left is taken away."""

import json
import os
import subprocess
import sys
import time
import zipfile
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import av
import pytest
import webvtt
from pypdf import PdfReader

from filmreview.aside import LEFT_SECONDS, aside_prefix
from filmreview.cautions import MINORS, SAFETY, STUDY_AID
from filmreview.errors import FilmReviewError, Stopped
from filmreview.lessons import lesson_folder
from filmreview.lessons.clip import Clip
from filmreview.lessons.lesson import Lesson, first_plan, lesson_of
from filmreview.lessons.lesson_clips import pieces_of
from filmreview.lessons.lesson_faces import NOBODY, answer_faces, stretches
from filmreview.lessons.lesson_folder import write_lesson_folder
from filmreview.lessons.lesson_key import read_key
from filmreview.lessons.plan import SINGLE_FILES, Settings
from filmreview.lessons.situations_asked import situations_to_ask
from filmreview.review import store as stores
from filmreview.review.ruled import findings
from tests.lessons.small_review import FILMS, QUICK, SITUATION, make_review

FILES = {"questions.mp4", "questions.vtt", "answers.mp4", "answers.vtt", "lesson.html", "questions.pdf", "answers.pdf",
         "answers.xlsx", "lesson.json"}  # fmt: skip


def made(folder: Path, settings: Settings = QUICK, situation: bool = False, film: Path = FILMS / "constant.mp4") -> Lesson:
    """The lesson of a new review in the folder, its faces answered for."""
    path = make_review(folder / "game.filmreview", film)
    places = []
    if situation:
        places = [folder / "band.situation.toml"]
        places[0].write_text(SITUATION, encoding="utf-8")
    with stores.open(path, "O. Vanterell") as store:
        lesson = lesson_of(first_plan(findings(store.review), situations=places, settings=settings), findings(store.review))
        change = answer_faces(store.review, stretches(lesson), NOBODY)
        assert change is not None
        store.apply(change)
        return lesson_of(lesson.plan, findings(store.review))


def names(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def chapters(path: Path) -> list[str]:
    with av.open(str(path)) as film:
        return [one["metadata"]["title"] for one in film.chapters()]


def test_everything_is_written_and_told(tmp_path: Path) -> None:
    lesson = made(tmp_path, situation=True)
    written = write_lesson_folder(lesson, tmp_path / "lesson")
    assert names(tmp_path / "lesson") == FILES
    assert {one.path.name for one in written.files} == FILES
    assert all(one.size == one.path.stat().st_size > 0 for one in written.files)
    assert chapters(tmp_path / "lesson" / "questions.mp4") == [
        "1. Visitor 14, arm sleeve", "2. Home 00, headband", "3. Visitor 67, number", "4. Home, number not read, undershirt",
        "5. Home 4, headband", "6. Home 5, arm sleeve", "Cautions",
    ]  # fmt: skip


def test_captions_questions_and_answers_stay_apart(tmp_path: Path) -> None:
    lesson = made(tmp_path)
    write_lesson_folder(lesson, tmp_path / "lesson")
    asked, answered = (
        " ".join(cue.text for cue in webvtt.read(tmp_path / "lesson" / f"{name}.vtt")) for name in ("questions", "answers")
    )
    assert "what is your call" in asked
    assert "llegal" not in asked
    assert "Illegal - technical foul" in answered
    text = " ".join(page.extract_text() for page in PdfReader(tmp_path / "lesson" / "questions.pdf").pages)
    assert "1. Visitor 14, arm sleeve: what is your call" in " ".join(text.split())
    assert "3-5-3" not in text
    answers = " ".join(page.extract_text() for page in PdfReader(tmp_path / "lesson" / "answers.pdf").pages)
    assert "3-5-3" in answers


def test_the_films_say_each_card_once_with_number_and_the_cautions(tmp_path: Path) -> None:
    lesson = made(tmp_path, replace(QUICK, page=False), situation=True)
    write_lesson_folder(lesson, tmp_path / "lesson")
    places = (tmp_path / "lesson" / f"{name}.vtt" for name in ("questions", "answers"))
    asked, answered = ([cue.text for cue in webvtt.read(place)] for place in places)
    assert [text.partition(" ")[0] for text in asked[1:-1]] == [f"{number}." for number in range(1, 7)]
    assert answered[-3].startswith("6. Home 5, arm sleeve: what is your call")
    assert answered[-2].startswith("6. Legal: Home 5, arm sleeve")
    assert len(answered) == len(set(answered)), "the cautions stay on in two looks and are said once"
    for said in (asked, answered):
        assert said[-1] == "Cautions\n" + " ".join((STUDY_AID, SAFETY, MINORS))


def test_the_end_card_speaks_of_minors_only_where_film_is_shown(tmp_path: Path) -> None:
    lesson = made(tmp_path, situation=True)
    assert lesson.end.endswith(MINORS)
    told = replace(lesson, questions=tuple(one for one in lesson.questions if one.place is None))
    assert told.end == f"{STUDY_AID} {SAFETY}"
    assert replace(lesson, plan=replace(lesson.plan, end="Ask your assigner.")).end == "Ask your assigner."


def all_of(path: Path) -> str:
    """Everything in a file that can be read: its bytes, the text of its pages, what is packed in it."""
    said = path.read_bytes().decode("latin-1")
    if path.suffix == ".pdf":
        said += " ".join(page.extract_text() for page in PdfReader(path).pages)
    if path.suffix == ".xlsx":
        with zipfile.ZipFile(path) as packed:
            said += " ".join(packed.read(one).decode() for one in packed.namelist())
    return said.casefold()


def test_no_school_name_note_or_path_leaves_the_house(tmp_path: Path) -> None:
    write_lesson_folder(made(tmp_path, situation=True), tmp_path / "lesson")
    told = {path.name: all_of(path) for path in (tmp_path / "lesson").iterdir()}
    assert all("visitor 14" in told[name] for name in ("lesson.html", "questions.pdf", "answers.xlsx", "lesson.json"))
    hidden = ("thrunnockby", "ovvermire", "quillander", "mosswell", "anyone can see", "constant.mp4", "game.filmreview")
    for name, said in told.items():
        assert [one for one in (*hidden, str(tmp_path).casefold()) if one in said] == [], name


def test_single_files_of_one_version_without_the_page(tmp_path: Path) -> None:
    settings = replace(QUICK, layout=SINGLE_FILES, versions=("answer",), page=False)
    write_lesson_folder(made(tmp_path, settings), tmp_path / "lesson")
    clips = {f"clips/{number:02}-answer.{kind}" for number in (1, 2, 3, 4) for kind in ("mp4", "vtt")}
    assert names(tmp_path / "lesson") == clips | {"questions.pdf", "answers.pdf", "answers.xlsx", "lesson.json"}


def test_situations_alone_need_no_film_and_no_answer_for_faces(tmp_path: Path) -> None:
    path = make_review(tmp_path / "game.filmreview")
    place = tmp_path / "band.situation.toml"
    place.write_text(SITUATION, encoding="utf-8")
    with stores.open(path, "O. Vanterell") as store:
        found = findings(store.review)
        lesson = lesson_of(first_plan(found, situations=[place], settings=QUICK, only_situations=True), found)
    assert len(lesson.questions) == len(situations_to_ask(place)) == 2
    write_lesson_folder(lesson, tmp_path / "lesson")
    assert names(tmp_path / "lesson") == FILES
    assert chapters(tmp_path / "lesson" / "answers.mp4") == [
        "What the players wear: 2 questions", "1. Home 4, headband", "2. Home 5, arm sleeve", "Cautions",
    ]  # fmt: skip
    with av.open(str(tmp_path / "lesson" / "answers.mp4")) as film:
        title, end = (Fraction(len(said), 16) for said in (lesson.title, f"Cautions{lesson.end}"))
        whole = 2 * 2 + float(title + end)
        assert float((film.duration or 0) / av.time_base) == pytest.approx(whole, abs=0.2), "two asked for 2 s, two cards"


@pytest.mark.parametrize(
    ("title", "end", "held"),
    [
        ("Who wears what", "Ask your assigner.", (4, 4)),  # the least, as set
        ("Who wears what", "x" * 152, (4, 10)),  # 160 characters with the head
        ("A" * 120, "x" * 400, (Fraction(15, 2), Fraction(51, 2))),
        ("Who wears what", "x" * 4000, (4, 30)),  # no plan allows so many: the most
    ],
)
def test_cards_are_held_as_long_as_they_take_to_read(
    tmp_path: Path, title: str, end: str, held: tuple[Fraction, Fraction]
) -> None:
    """Common practice for subtitles: 15 to 17 characters a second; here 16."""
    lesson = made(tmp_path, Settings())
    told = replace(lesson, plan=replace(lesson.plan, title=title, end=end))
    first, *_, last = pieces_of(told)
    assert isinstance(first, Clip)
    assert isinstance(last, Clip)
    assert first.title is not None
    assert last.end is not None
    assert (first.title.seconds, last.end.seconds) == held
    usual = pieces_of(lesson)[-1]
    assert isinstance(usual, Clip)
    assert usual.end is not None
    assert 15 <= len("".join(usual.end.lines)) / usual.end.seconds <= 17, "the cautions, as they ship"


def test_what_an_earlier_lesson_left_is_taken_away_and_nothing_else(tmp_path: Path) -> None:
    lesson = made(tmp_path, replace(QUICK, layout=SINGLE_FILES, versions=("question",), page=False))
    folder = tmp_path / "lesson"
    write_lesson_folder(lesson, folder)
    (folder / "mine.txt").write_text("kept")
    (tmp_path / "outside.pdf").write_text("kept")
    key = json.loads((folder / "lesson.json").read_text())
    key["files"] += ["../outside.pdf", "mine.txt", "clips/../../outside.pdf"]
    (folder / "lesson.json").write_text(json.dumps(key))
    write_lesson_folder(lesson_of(replace(lesson.plan, settings=QUICK), findings(lesson.review)), folder)
    assert names(folder) == FILES | {"mine.txt"}
    assert (tmp_path / "outside.pdf").is_file()


@pytest.mark.parametrize("share", [0.05, 0.5, 0.8, 0.97])
def test_a_stop_leaves_nothing_half_made(tmp_path: Path, share: float) -> None:
    lesson, folder = made(tmp_path), tmp_path / "lesson"

    def stop(done: float, _words: str) -> None:
        if done >= share:
            raise Stopped("stopped")

    with pytest.raises(Stopped):
        write_lesson_folder(lesson, folder, stop)
    assert not folder.exists()


def test_a_stop_leaves_an_earlier_lesson_as_it_was(tmp_path: Path) -> None:
    lesson, folder = made(tmp_path), tmp_path / "lesson"
    write_lesson_folder(lesson, folder)
    before = {path: path.read_bytes() for path in folder.iterdir()}

    def stop(done: float, _words: str) -> None:
        if done > 0.5:
            raise Stopped("stopped")

    with pytest.raises(Stopped):
        write_lesson_folder(lesson, folder, stop)
    assert {path: path.read_bytes() for path in folder.iterdir()} == before


def test_what_a_killed_making_left_goes_unless_it_holds_what_stood_there(tmp_path: Path) -> None:
    ended = subprocess.run([sys.executable, "-c", "import os; print(os.getpid())"], capture_output=True, text=True, check=True)
    folder, mine = tmp_path / "lesson", f"-{os.getpid()}-"
    begun = aside_prefix("lesson").replace(mine, f"-{int(ended.stdout)}-")
    left, before = folder / f"{begun}aaaaaaaa", folder / f"{begun}bbbbbbbb"
    (left / "clips").mkdir(parents=True)
    (before / ".before").mkdir(parents=True)
    then = time.time() - LEFT_SECONDS - 60
    for one in (left / "clips", left, before / ".before", before):
        os.utime(one, (then, then))
    write_lesson_folder(made(tmp_path, replace(QUICK, page=False, versions=("question",))), folder)
    assert not left.exists()
    assert (before / ".before").is_dir()


def test_progress_rises_to_the_end(tmp_path: Path) -> None:
    shares: list[float] = []
    write_lesson_folder(made(tmp_path), tmp_path / "lesson", lambda share, _words: shares.append(share))
    assert shares == sorted(shares)
    assert shares[-1] == 1.0


def a_file(folder: Path) -> Path:
    folder.write_text("a file")
    return folder


def in_a_file(folder: Path) -> Path:
    """Even root cannot make a folder in a file."""
    return a_file(folder) / "lesson"


@pytest.mark.parametrize(
    ("spoil", "line"),
    [(a_file, "this is a file; give the name of a folder"), (in_a_file, "the lesson was not written: not a directory")],
)
def test_a_folder_that_cannot_be_written_is_told_in_one_line(tmp_path: Path, spoil: Callable[[Path], Path], line: str) -> None:
    lesson = made(tmp_path)
    with pytest.raises(FilmReviewError, match=line) as told:
        write_lesson_folder(lesson, spoil(tmp_path / "place"))
    assert "\n" not in str(told.value)


def test_a_full_disk_is_told_in_one_line_and_nothing_is_left(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lesson, folder = made(tmp_path, replace(QUICK, page=False)), tmp_path / "lesson"

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(lesson_folder, "write_answers_workbook", full)
    with pytest.raises(FilmReviewError, match="the lesson was not written: no space left on device"):
        write_lesson_folder(lesson, folder)
    assert not folder.exists()


def test_a_film_that_has_gone_or_changed_is_told_in_one_line(tmp_path: Path) -> None:
    film = tmp_path / "film.mp4"
    film.write_bytes((FILMS / "constant.mp4").read_bytes())
    lesson = made(tmp_path, film=film)
    film.write_bytes(film.read_bytes() + b"x")
    with pytest.raises(FilmReviewError, match="this is not the film of the review"):
        write_lesson_folder(lesson, tmp_path / "lesson")
    film.unlink()
    with pytest.raises(FilmReviewError, match="the film is not there any more"):
        write_lesson_folder(lesson, tmp_path / "lesson")
    assert not (tmp_path / "lesson").exists()


def test_without_an_answer_for_the_faces_nothing_is_written(tmp_path: Path) -> None:
    lesson = made(tmp_path)
    unanswered = replace(lesson, review=replace(lesson.review, face_choices=()))
    with pytest.raises(FilmReviewError, match="nobody has answered for the faces"):
        write_lesson_folder(unanswered, tmp_path / "lesson")
    assert not (tmp_path / "lesson").exists()


def test_the_key_says_what_the_book_says(tmp_path: Path) -> None:
    lesson = made(tmp_path, replace(QUICK, page=False, versions=("question",)))
    write_lesson_folder(lesson, tmp_path / "lesson")
    key = read_key(tmp_path / "lesson")
    assert key.lesson == lesson.key
    assert [(one.id, one.ruling, one.consequence) for one in key.questions] == [
        (one.id, one.answer.ruling, one.answer.consequence) for one in lesson.questions
    ]

"""`filmreview lesson` and `filmreview lesson results`, as typed."""

import json
from pathlib import Path
from typing import Any

import pytest

from filmreview.lessons.lesson_key import read_key
from filmreview.review.reading import read
from tests.commandline.conftest import Say
from tests.lessons.small_review import SITUATION, make_review

QUICK = ("--lead-in", "0.5", "--hold", "1", "--answer", "1", "--after", "0.2", "--card", "1", "--height", "360")
SHORT = (*QUICK, "--versions", "question", "--page", "no")


@pytest.fixture
def game(tmp_path: Path) -> Path:
    return make_review(tmp_path / "game.filmreview")


@pytest.fixture
def situation(tmp_path: Path) -> Path:
    path = tmp_path / "band.situation.toml"
    path.write_text(SITUATION, encoding="utf-8")
    return path


def test_one_command_makes_a_lesson_with_usual_settings(say: Say, game: Path, tmp_path: Path) -> None:
    made = say("lesson", game, "--to", tmp_path / "out", "--faces", "nobody on it", "--tags", "t1")
    assert made.code == 0, made.told
    assert f"{tmp_path}/out/lesson.html: the page that plays, asks and answers: one file, for participants (" in made.out
    assert made.out.count("\n") == 9
    again = say("lesson", game, "--list")
    assert again.out == "n1: What the players wear: 1 question (1 asked)\n"


def test_without_an_answer_for_the_faces_it_says_what_to_add(say: Say, game: Path, tmp_path: Path) -> None:
    refused = say("lesson", game, "--to", tmp_path / "out", *SHORT)
    assert refused.code == 2
    assert refused.line.startswith("filmreview: constant.mp4, 0:00.468 to 0:01.168: nobody has answered for the faces")
    assert '"consent held" or "nobody on it" for the faces (--faces' in refused.line
    assert not (tmp_path / "out").exists()
    assert say("lesson", game, "--list").out == "", "a lesson that was not made is not kept"
    unlisted = say("lesson", game, "--to", tmp_path / "out", *SHORT, "--faces", "blurred")
    assert "no blur is listed here" in unlisted.line
    assert read(game).face_choices == ()


def test_a_lesson_that_could_not_be_written_is_not_kept_but_the_answer_is(say: Say, game: Path, tmp_path: Path) -> None:
    (tmp_path / "out" / "answers.pdf").mkdir(parents=True)
    refused = say("lesson", game, "--to", tmp_path / "out", *SHORT, "--faces", "nobody on it", "--tags", "t1")
    assert (refused.code, "answers.pdf: this is a folder" in refused.line) == (2, True)
    kept = read(game)
    assert kept.lessons == ()
    assert {one.choice for one in kept.face_choices} == {"nobody on it"}


def test_the_answer_is_kept_and_the_lesson_made_again(say: Say, game: Path, tmp_path: Path, situation: Path) -> None:
    words = ("--faces", "consent held", "--title", "Sleeves", "--tags", "t3,t1", "--situation", situation, "--json")
    first = say("lesson", game, "--to", tmp_path / "out", *SHORT, *words)
    assert first.code == 0, first.told
    assert [one["id"] for one in first.data["questions"]][:2] == ["t3", "t1"]
    assert len(first.data["questions"]) == 4
    assert {one["choice"] for one in first.data["faces"]} == {"consent held"}
    situation.unlink()
    again = say("lesson", game, "--again", "n1", "--to", tmp_path / "again", "--json")
    assert again.code == 0, again.told
    assert (again.data["key"], again.data["title"]) == (first.data["key"], "Sleeves")
    assert say("lesson", game, "--list", "--json").data == [{"id": "n1", "title": "Sleeves", "questions": 4}]
    changed = say("lesson", game, "--again", "n1", "--to", tmp_path / "again", "--mark", "outline")
    assert changed.code == 0, changed.told
    assert len(say("lesson", game, "--list", "--json").data) == 1, "made again in its own place"


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (("--tags", "t1,t9"), 'game.filmreview: unknown tag "t9"'),
        (("--hold", "0"), "lesson: hold of 0 seconds; give 1 to 120 seconds"),
        (("--hold", "soon"), '--hold: "soon" is not a time'),
        (("--hold", "9" * 400), f'--hold: "{"9" * 40}..." is not a time; write m:ss.mmm'),
        (("--mark", "dimmed"), 'lesson: unknown mark "dimmed"; write "dim"'),
        (("--as", "one files"), '--as: unknown way to write the films "one files"'),
        (("--versions", "answers"), 'lesson: unknown version "answers"; write "answer"'),
        (("--faces", "blured"), '--faces: unknown answer for the faces "blured"; write "blurred"'),
        (("--again", "l7"), 'game.filmreview: unknown lesson "l7"'),
        (("--no-findings",), "the lesson asks nothing"),
        (("--situation", "no.situation.toml"), "no.situation.toml: cannot be read"),
    ],
)
def test_bad_input_is_one_line(say: Say, game: Path, tmp_path: Path, words: tuple[str, ...], line: str) -> None:
    refused = say("lesson", game, "--to", tmp_path / "out", *words)
    assert refused.code == 2
    assert refused.line.startswith(f"filmreview: {line}")
    assert not (tmp_path / "out").exists()


def test_an_empty_review_and_a_missing_folder_are_one_line(say: Say, review: Path, tmp_path: Path) -> None:
    assert say("lesson", review, "--to", tmp_path / "out").line == (
        "filmreview: game.filmreview: the review has no finding yet; put a tag down first"
    )
    assert say("lesson", review).line == "filmreview: lesson: no folder to write to; give --to DIR"


def test_a_film_that_has_gone_is_one_line(say: Say, tmp_path: Path, films: Path) -> None:
    film = tmp_path / "film.mp4"
    film.write_bytes((films / "constant.mp4").read_bytes())
    game = make_review(tmp_path / "game.filmreview", film)
    film.unlink()
    refused = say("lesson", game, "--to", tmp_path / "out", *SHORT, "--faces", "nobody on it")
    assert refused.code == 2
    assert "the film is not there any more; put it back" in refused.line


def result(path: Path, folder: Path, name: str, **calls: tuple[str, str]) -> Path:
    key = read_key(folder)
    data: dict[str, Any] = {
        "what": "result of a lesson", "form": 1, "lesson": key.lesson, "name": name, "ended": name,
        "calls": [{"question": one, "ruling": call[0], "consequence": call[1]} for one, call in calls.items()],
    }  # fmt: skip
    path.write_text(json.dumps(data), encoding="utf-8")
    return path


@pytest.fixture
def lesson(say: Say, game: Path, tmp_path: Path) -> Path:
    made = say("lesson", game, "--to", tmp_path / "out", *SHORT, "--faces", "nobody on it", "--tags", "t1,t3")
    assert made.code == 0, made.told
    return tmp_path / "out"


def test_results_tell_which_question_split_the_room(say: Say, lesson: Path, tmp_path: Path) -> None:
    place = tmp_path / "handed in"
    place.mkdir()
    result(place / "a.json", lesson, "A", t1=("illegal", "fix or leave"), t3=("illegal", "technical foul"))
    result(place / "b.json", lesson, "B", t1=("illegal", "fix or leave"), t3=("legal", "none"))
    told = say("lesson", "results", place, "--key", lesson, "--to", tmp_path / "table.xlsx")
    assert told.code == 0, told.told
    assert told.out == (
        "What the players wear: 2 questions: 2 participants, the hardest question first\n"
        "  2. Visitor 67, number: ILLEGAL, technical foul (3-4-3)\n"
        "      as the book says: 1 of 2 (50%, likely between 9% and 91%); split 1.00\n"
        "      called: legal 1, illegal 1\n"
        "      consequence: none 1, technical foul 1\n"
        "  1. Visitor 14, arm sleeve: ILLEGAL, fix or leave (3-5-3)\n"
        "      as the book says: 2 of 2 (100%, likely between 34% and 100%); split 0.00\n"
        "      called: illegal 2\n"
        "      consequence: fix or leave 2\n"
    )
    assert (tmp_path / "table.xlsx").stat().st_size > 1000


def test_the_key_is_found_beside_the_results(say: Say, lesson: Path) -> None:
    one = result(lesson / "a.json", lesson, "A", t1=("legal", "none"))
    assert say("lesson", "results", one, "--json").data["questions"][0]["id"] == "t1"
    assert say("lesson", "results", lesson).code == 0, "the key among them is no result"


def test_wrong_files_are_told_and_the_others_counted(say: Say, lesson: Path, tmp_path: Path) -> None:
    one = result(tmp_path / "a.json", lesson, "A", t1=("legal", "none"))
    foreign = tmp_path / "foreign.json"
    foreign.write_text(one.read_text().replace(read_key(lesson).lesson, "0123456789abcdef"))
    told = say("lesson", "results", one, foreign, lesson / "answers.pdf", "--key", lesson)
    assert told.code == 1
    assert "1 participant," in told.out
    lines = told.told.strip().split("\n")
    assert len(lines) == 2
    assert lines[0].startswith(f"filmreview: {foreign}: the result of another lesson")
    assert lines[1].startswith(f"filmreview: {lesson / 'answers.pdf'}: this is not JSON text")


def test_no_result_and_no_key_are_one_line(say: Say, lesson: Path, tmp_path: Path) -> None:
    elsewhere = tmp_path / "a" / "b" / "c.json"
    elsewhere.parent.mkdir(parents=True)
    elsewhere.write_text("{}")
    refused = say("lesson", "results", elsewhere)
    assert refused.line.startswith("filmreview: lesson results: which lesson these are of is not known; give its lesson.json")
    told = say("lesson", "results", elsewhere, "--key", lesson)
    assert told.code == 2
    assert told.told.strip().split("\n")[-1].endswith("no result of this lesson was read; give the files that the page saved")


def test_faces_are_listed_put_right_and_taken_off(say: Say, game: Path, tmp_path: Path) -> None:
    words = ("lesson", "faces", game, *QUICK, "--tags", "t1")
    assert say(*words).out == "constant.mp4, 0:00.468 to 0:01.168: not answered\n"
    added = say(*words, "--blur", "0.9=20,20,24,24", "--json")
    assert added.code == 0, added.told
    ((blur,),) = [one["blurs"] for one in added.data]
    assert (blur["id"], blur["origin"]) == ("b1", "by hand")
    assert any(one["box"] == "20,20,24,24" for one in blur["boxes"])
    right = say(*words, "--blur", "b1@1=40,40,24,24", "--json")
    assert any(one["box"] == "40,40,24,24" for one in right.data[0]["blurs"][0]["boxes"])
    made = say("lesson", game, "--to", tmp_path / "out", *SHORT, "--tags", "t1", "--faces", "blurred")
    assert made.code == 0, made.told
    assert say(*words).out.startswith("constant.mp4, 0:00.468 to 0:01.168: blurred\n  b1: ")
    removed = say(*words, "--remove", "b1")
    assert removed.out == "constant.mp4, 0:00.468 to 0:01.168: not answered\n", "asked again: the list has changed"


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (("--blur", "2=1,1,9,9"), "--blur: the lesson shows nothing at 2; give a time in one of: 0:00.468 to 0:01.168"),
        (("--blur", "0.9=1,1,9"), '--blur: "1,1,9" is not a region'),
        (("--blur", "0.9"), '--blur: "" is not a region'),
        (("--blur", "0.9=1,1,999,9"), "the region 1,1,999,9 reaches outside the picture"),
        (("--blur", "b7@0.9=1,1,9,9"), 'game.filmreview: unknown blur "b7"'),
        (("--remove", "b7"), 'game.filmreview: unknown blur "b7"'),
    ],
)
def test_a_blur_that_cannot_be_is_one_line(say: Say, game: Path, words: tuple[str, ...], line: str) -> None:
    refused = say("lesson", "faces", game, *QUICK, "--tags", "t1", *words)
    assert refused.code == 2
    assert refused.line.startswith(f"filmreview: {line}")

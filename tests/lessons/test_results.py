"""What participants hand in: read, refused in one line when it is not what the page saves, and counted."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from filmreview.errors import FilmReviewError
from filmreview.lessons.lesson_key import Keyed, key_of_lesson, key_text, read_key
from filmreview.lessons.results import count_room, room_to_json
from filmreview.lessons.results_reading import Call, Result, read_result, read_results
from filmreview.lessons.results_table import write_table
from tests.lessons.small_lesson import QUESTIONS, a_lesson

LESSON = a_lesson()
KEY = key_of_lesson(LESSON)
RIGHT = {one.id: (one.answer.ruling, one.answer.consequence) for one in QUESTIONS}


def data_of(name: str, calls: dict[str, tuple[str, str]], ended: str = "2025-01-20T10:00:00.000Z") -> dict[str, Any]:
    return {
        "what": "result of a lesson", "form": 1, "lesson": KEY.lesson, "title": KEY.title, "name": name, "started": ended,
        "ended": ended,
        "calls": [{"question": one, "ruling": call[0], "consequence": call[1], "why": ""} for one, call in calls.items()],
    }  # fmt: skip


def put(path: Path, data: object) -> Path:
    path.write_text(json.dumps(data), encoding="utf-8")
    return path


def handed_in(folder: Path) -> list[Path]:
    """Four participants: all right; two with the technical foul missed, one of these with the headband wrong; one half done."""
    wrong = {**RIGHT, "t3": ("illegal", "fix or leave")}
    return [
        put(folder / "a.json", data_of("Idrun Mosswell", RIGHT)),
        put(folder / "b.json", data_of("R. Quillander", wrong, "2025-01-20T10:05:00.000Z")),
        put(folder / "c.json", data_of("", {**wrong, "t2": ("illegal", "leave")}, "2025-01-20T10:06:00.000Z")),
        put(folder / "d.json", data_of("U. Thornvex", {"t1": ("cannot be told", "none")})),
    ]


def test_the_hardest_question_comes_first(tmp_path: Path) -> None:
    results, told = read_results(handed_in(tmp_path), KEY)
    assert told == ()
    room = count_room(results, KEY)
    assert [(one.question.id, one.as_book.count, one.answered) for one in room.questions] == [
        ("t3", 1, 3), ("t2", 2, 3), ("t1", 3, 4), ("s-1234abcd-shirt", 3, 3),
    ]  # fmt: skip
    hardest = room.questions[0]
    assert (hardest.rulings, hardest.consequences) == ({"illegal": 3}, {"fix or leave": 2, "technical foul": 1})
    assert (hardest.as_ruled.count, hardest.as_ruled.total) == (3, 3)
    assert [(one.name, one.answered, one.as_ruled, one.as_book) for one in room.people] == [
        ("Idrun Mosswell", 4, 4, 4), ("R. Quillander", 4, 4, 3), ("c", 4, 3, 2), ("U. Thornvex", 1, 0, 0),
    ]  # fmt: skip


def test_what_the_film_cannot_tell_has_no_consequence_that_is_wrong() -> None:
    open_one = Keyed("t7", 1, "Home 44, undershirt", "cannot be told", "none")
    assert [open_one.is_said_by("cannot be told", follows) for follows in ("none", "cannot be told", "leave")] == [True] * 3
    assert not open_one.is_said_by("legal", "none")
    told = Keyed("t8", 2, "Home 44, undershirt", "illegal", "leave")
    assert [told.is_said_by("illegal", follows) for follows in ("leave", "none")] == [True, False]


def test_how_split_the_room_is_follows_simpson() -> None:
    """Of three who called, one otherwise: 2 of 3 pairs differ (Simpson 1949: 1 - sum n(n-1) / N(N-1), worked by hand)."""
    results = [_result(n, call) for n, call in enumerate([("illegal", "leave"), ("legal", "none"), ("legal", "none")])]
    room = count_room(results, KEY)
    (one,) = [one for one in room.questions if one.question.id == "t2"]
    assert one.split == pytest.approx(2 / 3)
    assert all(other.split == 0 for other in room.questions if other.question.id != "t2")


def _result(number: int, call: tuple[str, str]) -> Any:
    return Result(Path(f"{number}.json"), "", str(number), {"t2": Call(*call)})


def test_a_question_nobody_answered_comes_last(tmp_path: Path) -> None:
    (result, *_), _ = read_results([put(tmp_path / "a.json", data_of("A", {"t3": ("legal", "none")}))], KEY)
    room = count_room([result], KEY)
    assert room.questions[0].question.id == "t3"
    assert [one.answered for one in room.questions] == [1, 0, 0, 0]


def test_what_a_json_reader_gets(tmp_path: Path) -> None:
    results, _ = read_results(handed_in(tmp_path), KEY)
    data = json.loads(json.dumps(room_to_json(count_room(results, KEY))))
    assert data["questions"][0] == {
        "id": "t3", "number": 4, "asked": "Visitor 67, number", "ruling": "illegal", "consequence": "technical foul",
        "reference": "3-4-3", "answered": 3, "rulings": {"illegal": 3},
        "consequences": {"fix or leave": 2, "technical foul": 1}, "as_ruled": 3, "as_book": 1, "as_book_low": 0.0615,
        "as_book_high": 0.7923, "split": 0.6667,
    }  # fmt: skip
    assert len(data["participants"]) == 4


def _with(**changes: object) -> Callable[[dict[str, Any]], object]:
    return lambda data: {**data, **changes}


def _call(**changes: object) -> Callable[[dict[str, Any]], object]:
    return lambda data: {**data, "calls": [{**data["calls"][0], **changes}]}


@pytest.mark.parametrize(
    ("spoil", "line"),
    [
        (lambda _data: [], "this is not the result of a lesson"),
        (_with(what="key of a lesson"), "this is not the result of a lesson"),
        (_with(form=2), "a result of form 2"),
        (_with(lesson="0" * 16), "the result of another lesson, or of this one before it was changed"),
        (_with(name="x" * 81), '"name" is longer than the page lets it be (81 characters)'),
        (_with(name=7), '"name" is not text'),
        (_with(calls="all right"), "the calls are not as the page saves them"),
        (_with(calls=[1]), "a call is not as the page saves it"),
        (_with(calls=[{}] * 5), "the calls are not as the page saves them"),
        (_call(question="t9"), 'unknown question "t9"'),
        (_call(ruling="ilegal"), 'unknown ruling "ilegal"; write "illegal"'),
        (_call(consequence="ejection"), 'unknown consequence "ejection"'),
        (_call(why="x" * 501), '"why" is longer than the page lets it be (501 characters)'),
        (lambda data: {**data, "calls": [data["calls"][0]] * 2}, "t1 is answered twice"),
    ],
)
def test_a_file_that_cannot_be_a_result_is_refused_in_one_line(
    tmp_path: Path, spoil: Callable[[dict[str, Any]], object], line: str
) -> None:
    path = put(tmp_path / "a.json", spoil(data_of("A", RIGHT)))
    with pytest.raises(FilmReviewError) as told:
        read_result(path, KEY)
    assert str(told.value).startswith(f"{path}: {line}")
    assert "\n" not in str(told.value)


@pytest.mark.parametrize("text", ["", "not json", "[" * 5000, '{"what": "result of a lesson"', "\x00", "1e999"])
def test_what_is_no_json_is_refused_in_one_line(tmp_path: Path, text: str) -> None:
    path = tmp_path / "a.json"
    path.write_text(text)
    with pytest.raises(FilmReviewError) as told:
        read_result(path, KEY)
    assert str(told.value).startswith(str(path))


def test_a_file_grown_beyond_what_the_page_makes_is_not_read_whole(tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    path.write_text(json.dumps(data_of("A", RIGHT)) + " " * 1_000_001)
    with pytest.raises(FilmReviewError, match="larger than 1,000,000 bytes"):
        read_result(path, KEY)


def test_the_others_are_still_counted(tmp_path: Path) -> None:
    good = handed_in(tmp_path)
    copy = put(tmp_path / "copy.json", data_of("Idrun Mosswell", RIGHT))
    second = put(tmp_path / "again.json", data_of("idrun mosswell", {**RIGHT, "t1": ("legal", "none")}))
    results, told = read_results([*good, copy, second, tmp_path / "missing.json"], KEY)
    assert [one.path for one in results] == good
    assert told == (
        f"{copy}: the same result as a.json; it is counted once",
        f"{second}: a second result of idrun mosswell, after a.json; it is not counted; give the one that counts alone",
        f"{tmp_path / 'missing.json'}: cannot be read (no such file or directory)",
    )


def test_the_key_reads_back_and_a_damaged_one_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "lesson.json"
    path.write_text(key_text(KEY), encoding="utf-8")
    assert read_key(tmp_path) == read_key(path) == KEY
    data = json.loads(key_text(KEY))
    data["questions"][0]["ruling"] = "fine"
    path.write_text(json.dumps(data), encoding="utf-8")
    with pytest.raises(FilmReviewError, match="the key of the lesson is damaged; make the lesson again"):
        read_key(path)
    with pytest.raises(FilmReviewError, match="this is not the key of a lesson; give the lesson"):
        read_key(put(tmp_path / "r.json", data_of("A", RIGHT)))


def test_the_table_reads_back(tmp_path: Path) -> None:
    results, _ = read_results(handed_in(tmp_path), KEY)
    room = count_room(results, KEY)
    write_table(room, tmp_path / "t.xlsx")
    book = openpyxl.load_workbook(tmp_path / "t.xlsx")
    rows = list(book["Questions"].iter_rows(values_only=True))
    assert rows[1][:9] == (4, "Visitor 67, number", "illegal: technical foul", "3-4-3", 3, 3, 1, "33%", "0.67")
    assert [row[0] for row in book["Participants"].iter_rows(min_row=2, values_only=True)] == [
        "Idrun Mosswell", "R. Quillander", "c", "U. Thornvex",
    ]  # fmt: skip
    write_table(room, tmp_path / "t.csv")
    lines = (tmp_path / "t.csv").read_bytes().split(b"\r\n")
    assert lines[1].startswith(b'4,"Visitor 67, number",illegal: technical foul,3-4-3,3,3,1,33%,0.67,0,3,0,0,2,0,1,0')
    with pytest.raises(FilmReviewError, match="unknown kind of table"):
        write_table(room, tmp_path / "t.txt")


def test_a_name_that_looks_like_a_formula_stays_text(tmp_path: Path) -> None:
    results, _ = read_results([put(tmp_path / "a.json", data_of("=1+1", RIGHT))], KEY)
    write_table(count_room(results, KEY), tmp_path / "t.xlsx")
    cell = openpyxl.load_workbook(tmp_path / "t.xlsx")["Participants"]["A2"]
    assert (cell.value, cell.data_type) == ("=1+1", "s")

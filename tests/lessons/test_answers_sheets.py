"""The sheets of a lesson on paper and as a workbook: what stands on them, and that no text in them acts."""

import io
from dataclasses import replace
from pathlib import Path

import openpyxl
from PIL import Image
from pypdf import PdfReader

from filmreview.cautions import ALL, MINORS
from filmreview.lessons.answers_paper import write_answers_paper
from filmreview.lessons.answers_workbook import COLUMNS, write_answers_workbook
from filmreview.lessons.lesson_paper import Still
from filmreview.lessons.question_paper import write_question_paper
from tests.lessons.small_lesson import QUESTIONS, SHIRT, a_lesson, hostile

ATTACK = "=HYPERLINK(\"http://x\") <b>&amp; <font color='red'>x</font> \u202etxet\x07"


def a_still(shade: int) -> Still:
    data = io.BytesIO()
    Image.new("RGB", (640, 360), (shade, 90, 40)).save(data, "JPEG")
    return Still(data.getvalue(), 640, 360)


STILLS = {one.id: a_still(30 * number) for number, one in enumerate(QUESTIONS) if one.place}


def words_of(path: Path) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(path).pages).split())


def test_the_question_sheet_asks_and_does_not_answer(tmp_path: Path) -> None:
    write_question_paper(a_lesson(), STILLS, tmp_path / "q.pdf")
    said = words_of(tmp_path / "q.pdf")
    for number, question in enumerate(QUESTIONS, 1):
        assert f"{number}. {question.asked}" in said
        assert all(told in said for told in question.told)
    for hidden in ("3-5-3", "technical foul charge", "as published", "not on the list", "An undershirt by poor light"):
        assert hidden not in said
    assert sum(len(page.images) for page in PdfReader(tmp_path / "q.pdf").pages) == 3
    assert all(" ".join(one.split()) in said for one in ALL)


def test_the_answer_sheet_tells_all(tmp_path: Path) -> None:
    write_answers_paper(a_lesson(), STILLS, tmp_path / "a.pdf")
    said = words_of(tmp_path / "a.pdf")
    for question in QUESTIONS:
        answer = question.answer
        assert answer.rule in said
        assert all(reason in said for reason in answer.reasons)
    for told in ("illegal: technical foul", "An undershirt by poor light", "illegal from 1 July 2026", "no film", "0:01.000"):
        assert told in said, told


def test_without_film_nobody_needs_the_caution_on_minors(tmp_path: Path) -> None:
    write_question_paper(a_lesson(SHIRT), {}, tmp_path / "q.pdf")
    assert MINORS not in words_of(tmp_path / "q.pdf")


def test_the_workbook_reads_back(tmp_path: Path) -> None:
    write_answers_workbook(a_lesson(), tmp_path / "a.xlsx")
    sheet = openpyxl.load_workbook(tmp_path / "a.xlsx")["Answers"]
    rows = list(sheet.iter_rows(values_only=True))
    assert rows[0] == tuple(column.head for column in COLUMNS)
    assert [row[2] for row in rows[1:]] == [one.asked for one in QUESTIONS]
    assert [row[4] for row in rows[1:]] == ["\u25c6 illegal", "\u25cb legal", "\u25cc cannot be told", "\u25c6 illegal"]
    assert [row[5] for row in rows[1:]] == ["fix or leave", "none", "none", "technical foul"]


def test_no_text_of_a_sheet_acts(tmp_path: Path) -> None:
    lesson = hostile(ATTACK)
    write_question_paper(lesson, STILLS, tmp_path / "q.pdf")
    write_answers_paper(lesson, STILLS, tmp_path / "a.pdf")
    write_answers_workbook(lesson, tmp_path / "a.xlsx")
    for name in ("q.pdf", "a.pdf"):
        reader = PdfReader(tmp_path / name)
        assert "<b>&amp; <font" in words_of(tmp_path / name), "readable as it was typed"
        assert [page.get("/Annots") for page in reader.pages] == [None] * len(reader.pages), "no link"
        assert "/OpenAction" not in reader.trailer["/Root"]
    book = openpyxl.load_workbook(tmp_path / "a.xlsx")
    kinds = {cell.data_type for sheet in book for row in sheet.iter_rows() for cell in row}
    assert "f" not in kinds


def test_a_long_lesson_is_laid_out(tmp_path: Path) -> None:
    count = 25
    many = [replace(QUESTIONS[number % 4], id=f"t{number}") for number in range(count)]
    write_answers_paper(a_lesson(*many), {}, tmp_path / "a.pdf")
    write_question_paper(a_lesson(*many), {}, tmp_path / "q.pdf")
    assert f"{count}. {many[-1].asked}" in words_of(tmp_path / "a.pdf")


def test_the_sheets_say_consequence_and_situation(tmp_path: Path) -> None:
    answer = replace(QUESTIONS[0].answer, case="A player comes in with a sleeve.")
    lesson = a_lesson(replace(QUESTIONS[0], answer=answer))
    write_answers_paper(lesson, STILLS, tmp_path / "answers.pdf")
    write_question_paper(lesson, STILLS, tmp_path / "questions.pdf")
    answers, questions = words_of(tmp_path / "answers.pdf"), words_of(tmp_path / "questions.pdf")
    assert "Situation" in answers
    assert "Consequence" in answers
    assert "Consequence" in questions
    assert "Consequence" in [column.head for column in COLUMNS]
    assert "What follows" not in answers + questions

"""The answer sheet on paper (.pdf): all answers at a glance, then each with its still, reasons, rule and what the book asks."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from reportlab.platypus import Flowable, KeepTogether, Paragraph, Spacer

from filmreview.cautions import STUDY_AID
from filmreview.lessons.lesson import Lesson
from filmreview.lessons.lesson_paper import (
    ASKED,
    Stills,
    cautions_block,
    setting_of,
    still_block,
    told_block,
    write_lesson_paper,
)
from filmreview.lessons.question import Answer, Question
from filmreview.sheets import paper_looks as looks
from filmreview.sheets import sheet_words as words
from filmreview.sheets.paper_text import markup


def write_answers_paper(lesson: Lesson, stills: Stills, path: Path) -> None:
    """Write the sheet, whole or not at all; raises FilmReviewError when it cannot be written."""
    write_lesson_paper(lesson, path, "answer sheet", _blocks(lesson, stills))


def _blocks(lesson: Lesson, stills: Stills) -> Iterator[Flowable]:
    yield Paragraph(markup(lesson.title), looks.TITLE)
    yield Paragraph("Answer sheet: not for participants before they have answered.", looks.FAINTER)
    yield Spacer(1, 8)
    heads = ["No", "Whose and what", "Ruling", "Consequence", "Rule", "At"]
    rows = [_row(question, number) for number, question in enumerate(lesson.questions, 1)]
    yield looks.table(heads, rows, (0.5, 3, 1.9, 1.7, 1.2, 1.2))
    shared = setting_of(lesson)
    if shared:
        yield Spacer(1, 6)
        yield Paragraph(markup(shared), looks.PLAIN)
    for number, question in enumerate(lesson.questions, 1):
        yield KeepTogether(list(_answer(question, number, stills, not shared)))
    yield from cautions_block(lesson)


def _row(question: Question, number: int) -> list[object]:
    answer = question.answer
    time = question.place.time if question.place else "no film"
    shape = looks.ruling_cell(answer.ruling)
    return [number, f"{question.who}, {question.item}", shape, answer.consequence_words, answer.reference, time]


def _answer(question: Question, number: int, stills: Stills, setting: bool) -> Iterator[Flowable]:
    answer = question.answer
    yield Spacer(1, 8)
    yield Paragraph(markup(f"{number}. {question.asked}"), ASKED)
    if setting:
        yield Paragraph(markup(question.setting), looks.FAINTER)
    yield from told_block(question)
    yield looks.band(looks.ruling_cell(answer.ruling, words.ruled_words(answer.ruling, answer.follows)))
    yield Spacer(1, 3)
    yield from still_block(question, stills)
    yield from looks.pairs((*_told(answer), ("Caution", question.caution if question.caution != STUDY_AID else "")))
    yield looks.Rule(above=6)


def _told(answer: Answer) -> Iterator[tuple[str, str]]:
    yield "Situation", answer.case
    yield "The book asks", answer.todo
    yield "Why", "\n".join(answer.reasons)
    yield "Rule", "\n".join(part for part in (answer.rule, _source(answer)) if part)
    yield "Would change it", "\n".join(answer.asks)
    yield "Ahead", "\n".join(answer.ahead)


def _source(answer: Answer) -> str:
    return f"{answer.source} ({answer.sure})" if answer.source else ""

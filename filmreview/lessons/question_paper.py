"""The question sheet for participants (.pdf): each question with its still, boxes to tick and lines to write on. No answer."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from reportlab.platypus import Flowable, KeepTogether, Paragraph, Spacer

from filmreview.lessons.lesson import Lesson
from filmreview.lessons.lesson_paper import (
    ASKED,
    Line,
    Stills,
    Ticks,
    cautions_block,
    setting_of,
    still_block,
    told_block,
    write_lesson_paper,
)
from filmreview.lessons.question import CONSEQUENCE_CHOICES, RULING_CHOICES, Question
from filmreview.sheets import paper_looks as looks
from filmreview.sheets import sheet_words as words
from filmreview.sheets.paper_text import markup

CONSEQUENCE_WORDS: tuple[str, ...] = tuple(words.CONSEQUENCES[one] for one in CONSEQUENCE_CHOICES)


def write_question_paper(lesson: Lesson, stills: Stills, path: Path) -> None:
    """Write the sheet, whole or not at all; raises FilmReviewError when it cannot be written."""
    write_lesson_paper(lesson, path, "question sheet", _blocks(lesson, stills))


def _blocks(lesson: Lesson, stills: Stills) -> Iterator[Flowable]:
    yield Paragraph(markup(lesson.title), looks.TITLE)
    yield Paragraph(
        "For each question tick one ruling and one consequence, and write down why. The answers are on another sheet.",
        looks.FAINTER,
    )
    yield Spacer(1, 8)
    yield Line("Name")
    yield Line("Day")
    shared = setting_of(lesson)
    if shared:
        yield Spacer(1, 6)
        yield Paragraph(markup(shared), looks.PLAIN)
    for number, question in enumerate(lesson.questions, 1):
        yield KeepTogether(list(_question(question, number, stills, not shared)))
    yield from cautions_block(lesson)


def _question(question: Question, number: int, stills: Stills, setting: bool) -> Iterator[Flowable]:
    yield Spacer(1, 8)
    yield Paragraph(markup(f"{number}. {question.asked}"), ASKED)
    if setting:
        yield Paragraph(markup(question.setting), looks.FAINTER)
    yield from told_block(question)
    yield from still_block(question, stills)
    yield Ticks("Ruling", RULING_CHOICES)
    yield Ticks("Consequence", CONSEQUENCE_WORDS)
    yield Line("Why")
    yield Line("")
    yield looks.Rule(above=6)

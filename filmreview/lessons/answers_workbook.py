"""The answer sheet as a workbook (.xlsx): one page of answers, one of cautions. Texts are never formulas."""

from __future__ import annotations

from pathlib import Path

from openpyxl import Workbook
from openpyxl.cell.cell import Cell
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from filmreview.aside import written_aside
from filmreview.lessons.lesson import Lesson
from filmreview.lessons.question import Question
from filmreview.sheets import sheet_words as words
from filmreview.sheets.cells import FILLS, Column, RowLook, cell_at, head_row, page, put_text, row_height, strong, title
from filmreview.sheets.inert import one_line

COLUMNS: tuple[Column, ...] = (
    Column("No", 6, centred=True), Column("Time", 11), Column("Question", 30), Column("Told with it", 24),
    Column("Ruling", 17), Column("Consequence", 16), Column("What the book asks", 30), Column("Why", 46),
    Column("Rule", 10), Column("So since", 12), Column("Adoption", 18), Column("How sure", 22), Column("Source", 36),
    Column("Ahead", 34), Column("Caution", 34), Column("Id", 24),
)  # fmt: skip
_HEADS = [column.head for column in COLUMNS]
_RULING, _PRINTED = _HEADS.index("Ruling"), _HEADS.index("Rule") + 1  # the columns after it are for the record, off the paper


def write_answers_workbook(lesson: Lesson, path: Path) -> None:
    """Write the workbook, whole or not at all; raises FilmReviewError when it cannot be written."""
    book = Workbook()
    answers, mind = book.worksheets[0], book.create_sheet("Cautions")
    answers.title = "Answers"
    book.properties.title, book.properties.creator = one_line(lesson.title), lesson.program
    _fill(answers, lesson)
    _fill_mind(mind, lesson)
    with written_aside(path) as aside:
        book.save(aside)


def row_of(question: Question, number: int) -> tuple[str | int, ...]:
    """One answer as plain values, as COLUMNS stand."""
    answer = question.answer
    return (
        number, question.place.time if question.place else "no film", question.asked, "\n".join(question.told),
        words.ruling_words(answer.ruling), answer.consequence_words, answer.todo,
        "\n".join((*answer.reasons, *answer.asks)), answer.reference, answer.edition, answer.adoption, answer.sure,
        answer.source, "\n".join(answer.ahead), question.caution, question.id,
    )  # fmt: skip


def _fill(sheet: Worksheet, lesson: Lesson) -> None:
    head_row(sheet, 1, COLUMNS)
    look = RowLook(COLUMNS)
    for number, question in enumerate(lesson.questions, 1):
        values = row_of(question, number)
        cells = [cell_at(sheet, number + 1, place) for place in range(1, len(COLUMNS) + 1)]
        _put(cells, values)
        look.dress(cells)
        strong(cells[_RULING], FILLS[question.answer.ruling])
        texts = [(str(value), column.width) for value, column in zip(values, COLUMNS, strict=True)]
        sheet.row_dimensions[number + 1].height = row_height(texts, 16)
    sheet.freeze_panes = "D2"
    sheet.print_area = f"A1:{get_column_letter(_PRINTED)}{len(lesson.questions) + 1}"
    page(sheet, 1, True, f"{lesson.title} - a study aid: the official book and officials decide")


def _put(cells: list[Cell], values: tuple[str | int, ...]) -> None:
    for cell, value in zip(cells, values, strict=True):
        if isinstance(value, int):
            cell.value = value
        else:
            put_text(cell, value)


def _fill_mind(sheet: Worksheet, lesson: Lesson) -> None:
    title(sheet, 1, lesson.title, 15)
    sheet.column_dimensions["A"].width = 110
    for row, text in enumerate((lesson.questions[0].setting, *lesson.cautions, lesson.program), 3):
        cell = cell_at(sheet, row, 1)
        put_text(cell, text)
        RowLook((Column("", 110),)).dress([cell])
        sheet.row_dimensions[row].height = row_height([(text, 110)])
    page(sheet, None, False, lesson.title)

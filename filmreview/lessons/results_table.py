"""The results of a room as a table: a workbook (.xlsx) with questions and participants, or the questions alone (.csv)."""

from __future__ import annotations

import csv
import io
from pathlib import Path

from openpyxl import Workbook
from openpyxl.worksheet.worksheet import Worksheet

from filmreview.aside import written_aside
from filmreview.errors import unknown
from filmreview.lessons.question import CONSEQUENCE_CHOICES, RULING_CHOICES
from filmreview.lessons.results import Counted, Room
from filmreview.sheets import sheet_words as words
from filmreview.sheets.cells import Column, RowLook, cell_at, head_row, page, put_text, row_height
from filmreview.sheets.csv_file import held

ENDINGS: tuple[str, ...] = (".xlsx", ".csv")
COLUMNS: tuple[Column, ...] = (
    Column("No", 6, centred=True), Column("Question", 32), Column("By the book", 24), Column("Rule", 12),
    Column("Answered", 10, centred=True), Column("Ruling as the book", 12, centred=True),
    Column("With the consequence", 13, centred=True), Column("Share", 10, centred=True), Column("Split", 9, centred=True),
    *(Column(f"Called {one}", 12, centred=True) for one in RULING_CHOICES),
    *(Column(f"Then {words.CONSEQUENCES[one]}", 12, centred=True) for one in CONSEQUENCE_CHOICES),
)  # fmt: skip
PEOPLE: tuple[Column, ...] = (
    Column("Participant", 34), Column("Answered", 10, centred=True), Column("Rulings as the book", 12, centred=True),
    Column("With the consequence", 13, centred=True),
)  # fmt: skip
Row = tuple[str | int, ...]


def check_table_ending(path: Path) -> None:
    """Raise FilmReviewError for an ending that no table has."""
    if path.suffix.casefold() not in ENDINGS:
        raise unknown("kind of table", path.suffix or path.name, ENDINGS, where=str(path))


def write_table(room: Room, path: Path) -> None:
    """Write the table, whole or not at all; raises FilmReviewError for an unknown ending or when it cannot be written."""
    check_table_ending(path)
    with written_aside(path) as aside:
        if path.suffix.casefold() == ".csv":
            aside.write_text(_csv(room), encoding="utf-8", newline="")
        else:
            _workbook(room).save(aside)


def row_of(one: Counted) -> Row:
    """One question as plain values, as COLUMNS stand."""
    question = one.question
    share = f"{one.as_book.count / one.answered:.0%}" if one.answered else "none"
    ruled = words.ruled_words(question.ruling, words.follows_words(question.ruling, question.consequence))
    return (
        question.number, question.asked, ruled, question.reference, one.answered, one.as_ruled.count,
        one.as_book.count, share, f"{one.split:.2f}",
        *(one.rulings.get(choice, 0) for choice in RULING_CHOICES),
        *(one.consequences.get(choice, 0) for choice in CONSEQUENCE_CHOICES),
    )  # fmt: skip


def _csv(room: Room) -> str:
    made = io.StringIO()
    writer = csv.writer(made, lineterminator="\r\n")
    writer.writerow([column.head for column in COLUMNS])
    for one in room.questions:
        writer.writerow([held(value) if isinstance(value, str) else value for value in row_of(one)])
    return made.getvalue()


def _workbook(room: Room) -> Workbook:
    book = Workbook()
    questions, people = book.worksheets[0], book.create_sheet("Participants")
    questions.title = "Questions"
    _fill(questions, COLUMNS, [row_of(one) for one in room.questions], room.title)
    _fill(people, PEOPLE, [(one.name, one.answered, one.as_ruled, one.as_book) for one in room.people], room.title)
    return book


def _fill(sheet: Worksheet, columns: tuple[Column, ...], rows: list[Row], title: str) -> None:
    head_row(sheet, 1, columns)
    look = RowLook(columns)
    for number, values in enumerate(rows, 2):
        cells = [cell_at(sheet, number, place) for place in range(1, len(columns) + 1)]
        for cell, value in zip(cells, values, strict=True):
            if isinstance(value, int):
                cell.value = value
            else:
                put_text(cell, value)
        look.dress(cells)
        texts = [(str(value), column.width) for value, column in zip(values, columns, strict=True)]
        sheet.row_dimensions[number].height = row_height(texts, 16)
    sheet.freeze_panes = "A2"
    page(sheet, 1, True, title)

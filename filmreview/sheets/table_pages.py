"""The plain pages: penalties, procedures, choices, ahead, and the book as cited.

Each is a table, or one sentence when there is nothing. Its columns are together about as wide as a page across, since a wider
one would be printed too small to read.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import pandas as pd
from openpyxl.cell.cell import Cell
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from filmreview.sheets import sheet_words as words
from filmreview.sheets.cells import Column, RowLook, head_row, page, row_height
from filmreview.sheets.handover import HandOver


@dataclass(frozen=True)
class TablePage:
    """One page. rows: values as the columns stand. empty: said when there are none."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str | int, ...], ...]
    empty: str

    def table(self) -> pd.DataFrame:
        """The page as plain values."""
        heads = [column.head for column in self.columns]
        if self.rows:
            return pd.DataFrame(list(self.rows), columns=heads)
        return pd.DataFrame([[self.empty] + [""] * (len(heads) - 1)], columns=heads)


def table_pages(sheet_of: HandOver) -> tuple[TablePage, ...]:
    """All plain pages, in their order."""
    return (
        _letters(sheet_of),
        _penalties(sheet_of),
        _procedures(sheet_of),
        _choices(sheet_of),
        _ahead(sheet_of),
        _book(sheet_of),
    )


def dress_table(sheet: Worksheet, one: TablePage, sheet_of: HandOver) -> None:
    """Give a page that pandas wrote its looks."""
    head_row(sheet, 1, one.columns)
    look = RowLook(one.columns)
    for row in sheet.iter_rows(min_row=2):
        cells = [cell for cell in row if isinstance(cell, Cell)]
        look.dress(cells)
        texts = [(str(cell.value or ""), column.width) for cell, column in zip(cells, one.columns, strict=True)]
        sheet.row_dimensions[cells[0].row].height = row_height(texts if one.rows else texts[1:], 16)
    if not one.rows:
        sheet.merge_cells(start_row=2, start_column=1, end_row=2, end_column=len(one.columns))
    sheet.freeze_panes = "A2"
    if one.rows:
        sheet.auto_filter.ref = f"A1:{get_column_letter(len(one.columns))}{len(one.rows) + 1}"
    page(sheet, 1, True, sheet_of.footer)


def _letters(sheet_of: HandOver) -> TablePage:
    columns = (Column("To", 26), Column("In words", 110), Column("Written by", 22))
    rows = tuple(
        (f"{one.name}, {one.position}", one.words, "built from the findings" if one.built else "the observer")
        for one in sheet_of.letters
    )
    return TablePage("Letters", columns, rows, "The review names no crew.")


def _penalties(sheet_of: HandOver) -> TablePage:
    columns = (
        Column("Team", 16), Column("Foul", 17), Column("How many", 7, centred=True), Column("Charged to", 12),
        Column("Free throws each", 12, centred=True), Column("Coaching box", 11), Column("Then", 24), Column("Brought by", 13),
        Column("Rule", 9), Column("How sure", 13), Column("Source", 27),
    )  # fmt: skip
    rows = tuple(
        (one.team, one.kind, one.count, one.charged_to, one.free_throws, one.coaching_box or "the book here does not say",
         one.then, _numbers(one.players), one.reference, words.MARKS.get(one.mark, one.mark), one.source)
        for one in sheet_of.charges
    )  # fmt: skip
    uncharged = tuple((one, *[""] * (len(columns) - 1)) for one in sheet_of.uncharged)
    return TablePage("Penalties", columns, (*rows, *uncharged), words.NO_FOUL)


def _procedures(sheet_of: HandOver) -> TablePage:
    columns = (
        Column("Procedure", 18), Column("Time", 10), Column("What happened", 30), Column("What the book asks", 28),
        Column("Over by", 8, centred=True), Column("Rule", 11), Column("How sure", 13), Column("Source", 27),
        Column("Film", 14),
    )  # fmt: skip
    followed = sheet_of.procedure
    if followed is None:
        return TablePage("Procedures", columns, (), "No event was put down that calls for a procedure.")
    departures = tuple(
        (followed.title(one.procedure), one.time, one.what, one.asks, one.over, one.reference,
         words.MARKS.get(one.mark, one.mark), one.source, one.film)
        for one in followed.departures
    )  # fmt: skip
    way = f"; the way taken: {followed.path}" if followed.path else ""
    happened = f"{words.PROCEDURE_WORDS[followed.ruling]}{way}"
    head = (followed.followed, "", happened, "", "", followed.reference, "", "", "")
    missing = tuple(("", "", f"not known: {one}", "", "", "", "", "", "") for one in followed.missing)
    return TablePage("Procedures", columns, (head, *departures, *missing), "")


def _choices(sheet_of: HandOver) -> TablePage:
    columns = (
        Column("Team", 18), Column("Where all must match", 40), Column("Keep", 20), Column("Then these change", 30),
        Column("How many change", 10, centred=True), Column("Least change", 12),
    )  # fmt: skip
    rows = tuple(
        (one.team, one.rule, one.keep, _numbers(one.change), len(one.change), "least change" if one.first else "")
        for one in sheet_of.choices
    )
    return TablePage("Choices", columns, rows, "No team has a choice to make.")


def _ahead(sheet_of: HandOver) -> TablePage:
    columns = (
        Column("No", 5, centred=True), Column("Time", 10), Column("Whose", 20), Column("Item", 16), Column("On the day", 18),
        Column("Later", 20), Column("From", 20), Column("By the rule", 30),
    )  # fmt: skip
    rows = tuple(
        (line.number, line.time, line.whose, line.item, words.ruling_words(line.ruling),
         f"{words.AHEAD_SHAPE} {one.ruling}", one.starts, one.rule)
        for line in sheet_of.lines
        for one in line.ahead
    )  # fmt: skip
    return TablePage("Ahead", columns, rows, "Nothing found changes on a later day that the book here knows of.")


def _book(sheet_of: HandOver) -> TablePage:
    columns = (
        Column("Rule", 10), Column("About", 22), Column("So since", 13), Column("What it says, in our words", 55),
        Column("How sure", 13), Column("Source", 34), Column("Findings", 13),
    )  # fmt: skip
    rows = tuple(
        (one.reference, one.title, one.edition, one.says, words.MARKS.get(one.mark, one.mark), one.source,
         ", ".join(f"No {number}" for number in one.by))
        for one in sheet_of.cited
    )  # fmt: skip
    return TablePage("Book", columns, rows, "No rule was needed.")


def _numbers(players: Sequence[str]) -> str:
    return ", ".join(player or words.NO_NUMBER for player in players)

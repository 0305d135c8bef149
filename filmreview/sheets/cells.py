"""Cells of a workbook: text that can never act, and the few looks that all its pages share."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Mapping, Sequence
from copy import copy
from dataclasses import dataclass

import pandas as pd
from openpyxl.cell.cell import Cell
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.styles.cell_style import StyleArray
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.properties import PageSetupProperties
from openpyxl.worksheet.worksheet import Worksheet

from filmreview.sheets.inert import cell_text, one_line

INK, FAINT, PAPER, BAND = "1B1B1B", "5A5A5A", "FFFFFF", "E9EDF0"
REPLY_PAPER = "FBF8EA"
"""Where a reader is asked to write."""
HEAD_INK, HEAD_PAPER = "FFFFFF", "2F3E46"
FILLS: Mapping[str, str] = {"illegal": "F6DFD3", "legal": "FFFFFF", "cannot be told": "EEEEEE"}
"""Light grounds behind a ruling; the word and the shape say it, the ground only helps the eye."""

_LINE = Side(style="thin", color="B8C0C5")
_RULE = Side(style="medium", color=HEAD_PAPER)
FONT = "Calibri"
BODY = 11
_MEANING_STARTS = ("=", "+", "-", "@", "\t")
_MOST_WRAPPED = 4000  # characters; a row full of them is as high as a row can be


@dataclass(frozen=True)
class Column:
    """One column. head: what stands over it. width: in characters. centred: short values in the middle."""

    head: str
    width: float
    centred: bool = False


def cell_at(sheet: Worksheet, row: int, column: int) -> Cell:
    """A cell that can be written, by row and column from 1."""
    cell = sheet.cell(row, column)
    assert isinstance(cell, Cell), "the pages write before they merge"
    return cell


def put_text(cell: Cell, text: str) -> None:
    """Write text as text: a leading = + - @ stays a character, also when the cell is edited later."""
    cell.value = cell_text(text)
    cell.data_type = "s"
    if text.startswith(_MEANING_STARTS):
        cell.quotePrefix = True


def plain_table(table: pd.DataFrame) -> pd.DataFrame:
    """The table with every text made harmless and as long as a cell may hold."""
    return table.map(lambda value: cell_text(value) if isinstance(value, str) else value)


def title(sheet: Worksheet, row: int, text: str, size: int = 18) -> None:
    """A title line over the page."""
    cell = cell_at(sheet, row, 1)
    put_text(cell, text)
    cell.font = Font(name=FONT, size=size, bold=True, color=INK)
    sheet.row_dimensions[row].height = size * 1.6


def side_note(sheet: Worksheet, row: int, text: str) -> None:
    """A line in fainter ink, such as what the page holds."""
    cell = cell_at(sheet, row, 1)
    put_text(cell, text)
    cell.font = Font(name=FONT, size=10, italic=True, color=FAINT)


def head_row(sheet: Worksheet, row: int, columns: Sequence[Column]) -> None:
    """The heads of a table, and the widths of its columns."""
    for number, column in enumerate(columns, 1):
        cell = cell_at(sheet, row, number)
        put_text(cell, column.head)
        cell.font = Font(name=FONT, size=BODY, bold=True, color=HEAD_INK)
        cell.fill = PatternFill("solid", fgColor=HEAD_PAPER)
        cell.alignment = _aligned(column, "center")
        sheet.column_dimensions[get_column_letter(number)].width = column.width
    sheet.row_dimensions[row].height = 32


class RowLook:
    """The look of the rows under the heads of one page: wrapped, at the top, a thin line below.

    openpyxl works out a look anew each time it is set, some milliseconds a row; so the first row's is taken over.
    """

    def __init__(self, columns: Sequence[Column]) -> None:
        self.columns = columns
        self._looks: list[StyleArray] = []

    def dress(self, cells: Sequence[Cell]) -> None:
        """Dress one row."""
        if not self._looks:
            for cell, column in zip(cells, self.columns, strict=True):
                cell.font = Font(name=FONT, size=BODY, color=INK)
                cell.alignment = _aligned(column, "top")
                cell.border = Border(bottom=_LINE)
                cell.quotePrefix = False
                self._looks.append(copy(cell._style))  # type: ignore[attr-defined]  # left out of the stubs
        for cell, look in zip(cells, self._looks, strict=True):
            cell._style = copy(look)  # type: ignore[attr-defined]  # left out of the stubs
            if isinstance(cell.value, str):
                put_text(cell, cell.value)


def _aligned(column: Column, vertical: str) -> Alignment:
    if column.centred:
        return Alignment(wrap_text=True, vertical=vertical, horizontal="center")
    return Alignment(wrap_text=True, vertical=vertical, horizontal="left", indent=1)


def strong(cell: Cell, ground: str | None = None) -> None:
    """Make a cell stand out by weight, and by a ground if one is given."""
    cell.font = Font(name=FONT, size=BODY, bold=True, color=INK)
    if ground:
        cell.fill = PatternFill("solid", fgColor=ground)


def section(sheet: Worksheet, row: int, text: str, across: int) -> None:
    """A heading inside a page, with a rule under it."""
    for number in range(1, across + 1):
        sheet.cell(row, number).border = Border(bottom=_RULE)
    cell = cell_at(sheet, row, 1)
    put_text(cell, text)
    cell.font = Font(name=FONT, size=12, bold=True, color=HEAD_PAPER)
    sheet.row_dimensions[row].height = 22
    if row > 1:
        sheet.row_dimensions[row - 1].height = 9  # the empty row above


def lines_needed(text: str, width: float) -> int:
    """How many lines a wrapped text takes in a column of that many characters, a little on the safe side."""
    room = int(max(1.0, width * 1.15 - 2))
    return sum(len(textwrap.wrap(line, room)) or 1 for line in text[:_MOST_WRAPPED].split("\n"))


def row_height(texts: Iterable[tuple[str, float]], least: float = 15.0) -> float:
    """Points for a row of (text, width) cells in body type; a row holds 409 points at most (Excel specifications)."""
    lines = max((lines_needed(text, width) for text, width in texts), default=1)
    return min(409.0, max(least, lines * 14.6 + 4))


def page(sheet: Worksheet, head: int | None, landscape: bool, footer: str) -> None:
    """Print set-up: margins, the head repeated on every page, a footer with page numbers, as wide as one page."""
    sheet.page_setup.orientation = "landscape" if landscape else "portrait"
    sheet.page_setup.paperSize = sheet.PAPERSIZE_LETTER
    sheet.page_setup.fitToWidth = 1
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    for edge, inches in (("left", 0.4), ("right", 0.4), ("top", 0.5), ("bottom", 0.6), ("header", 0.25), ("footer", 0.3)):
        setattr(sheet.page_margins, edge, inches)
    if head:
        sheet.print_title_rows = f"{head}:{head}"
    foot = sheet.oddFooter
    assert foot is not None, "a sheet has a foot"
    foot.left.text = one_line(footer)[:110].replace("&", "&&")  # & begins a code there
    foot.right.text = "page &P of &N"
    foot.left.size = foot.right.size = 8

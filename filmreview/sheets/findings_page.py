"""The page of findings: one row each, with its picture.

The first columns say what was found and ruled, the next what follows and what the crew did; each group prints on a page of its
own. The last columns are for the record and stay off the paper.
"""

from __future__ import annotations

import io
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import pandas as pd
from openpyxl.cell.cell import Cell
from openpyxl.drawing.image import Image
from openpyxl.drawing.spreadsheet_drawing import AnchorMarker, TwoCellAnchor
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.pagebreak import Break, ColBreak
from openpyxl.worksheet.properties import PageSetupProperties
from openpyxl.worksheet.worksheet import Worksheet

from filmreview.errors import FilmReviewError, Stopped
from filmreview.progress import Progress
from filmreview.sheets import sheet_words as words
from filmreview.sheets.cells import FILLS, Column, body_look, head_row, page, put_text, row_height, strong
from filmreview.sheets.handover import HandOver, Line
from filmreview.sheets.marking import Marked

COLUMNS: Mapping[str, Column] = {
    column.head: column
    for column in (
        Column("No", 5, centred=True),
        Column("Time", 10),
        Column("Picture", 61),
        Column("Whose", 17),
        Column("Item", 13),
        Column("Seen", 34),
        Column("Ruling", 17),
        Column("Why", 42),
        Column("Rule", 12),
        Column("Edition", 10),
        Column("It costs", 17),
        Column("What to do, and when", 38),
        Column("Crew", 16),
        Column("Crew at", 10),
        Column("What they did", 28),
        Column("They could have", 36),
        Column("Note", 28),
        Column("Film", 20),
        Column("Film time", 14),
        Column("Team", 16),
        Column("Side", 9),
        Column("Player", 8),
        Column("Adoption", 18),
        Column("Book says so", 20),
        Column("Source", 34),
        Column("Would change it", 40),
        Column("Ahead", 30),
        Column("Ruled before", 30),
        Column("Tag", 7),
    )
}
_NAMES = tuple(COLUMNS)
_PICTURE = _NAMES.index("Picture")
_RULING = _NAMES.index("Ruling")
_FILM_TIME = _NAMES.index("Film time")
_LAST_FOUND, _LAST_PRINTED = "Why", "Note"
_SHOWN_WIDTH, _SHOWN_HEIGHT = 424, 150  # pixels of a picture on the page
_ROW_POINTS = 118.0
_EMU = 9525  # English metric units of a pixel at 96 a inch (ECMA-376)
_SECONDS_OF_DAY = 86_400


@dataclass(frozen=True)
class _Placed:
    """A picture in its row; and what stands there instead when it cannot be had."""

    words: str
    picture: Marked | None


def findings_table(sheet_of: HandOver) -> pd.DataFrame:
    """The rows as plain values, one a finding; film time in days, as spreadsheets count."""
    return pd.DataFrame([_record(line) for line in sheet_of.lines], columns=list(_NAMES))


def _record(line: Line) -> dict[str, Any]:
    return {
        "No": line.number,
        "Time": line.time,
        "Picture": "",
        "Whose": line.whose,
        "Item": line.item,
        "Seen": "\n".join(line.seen) or "nothing noted",
        "Ruling": words.ruling_words(line.ruling) + (f"\n{words.AHEAD_SHAPE} changes later" if line.ahead else ""),
        "Why": "\n".join(line.reasons),
        "Rule": line.reference,
        "Edition": line.edition,
        "It costs": words.CONSEQUENCES[line.consequence],
        "What to do, and when": line.todo,
        "Crew": line.crew_mark,
        "Crew at": line.crew_time,
        "What they did": line.did,
        "They could have": line.could_have_done,
        "Note": line.note,
        "Film": line.film.name,
        "Film time": float(line.seconds) / _SECONDS_OF_DAY,
        "Team": line.team,
        "Side": line.side,
        "Player": line.player or "",
        "Adoption": line.adoption,
        "Book says so": words.MARKS.get(line.mark, line.mark),
        "Source": line.source,
        "Would change it": "\n".join(line.asks),
        "Ahead": "\n".join(f"{one.ruling} from {one.starts} ({one.rule})" for one in line.ahead),
        "Ruled before": line.earlier,
        "Tag": line.tag,
    }


def dress_findings(sheet: Worksheet, sheet_of: HandOver, progress: Progress) -> list[str]:
    """Give the page that pandas wrote its looks and pictures; returns the words for the pictures, in order.

    A picture that cannot be had is told in its cell. Lets `Stopped` of progress through.
    """
    columns = tuple(COLUMNS.values())
    head_row(sheet, 1, columns)
    described: list[str] = []
    for line, row in zip(sheet_of.lines, sheet.iter_rows(min_row=2, max_row=len(sheet_of.lines) + 1), strict=True):
        progress(line.number / (len(sheet_of.lines) + 1), f"finding {line.number} of {len(sheet_of.lines)}")
        cells = [cell for cell in row if isinstance(cell, Cell)]
        _dress(sheet, cells, line, columns)
        placed = _placed(sheet_of, line)
        put_text(cells[_PICTURE], placed.words)
        if placed.picture is not None:
            _put_picture(sheet, cells[_PICTURE], placed.picture)
            described.append(_alt_words(line))
    _set_up(sheet, sheet_of)
    return described


def _dress(sheet: Worksheet, cells: list[Cell], line: Line, columns: tuple[Column, ...]) -> None:
    body_look(cells, columns)
    strong(cells[0])
    strong(cells[1])
    strong(cells[_RULING], FILLS[line.ruling])
    cells[_FILM_TIME].number_format = "[h]:mm:ss.000"
    texts = [
        (str(cell.value), column.width)
        for cell, column in zip(cells, columns, strict=True)
        if isinstance(cell.value, str) and column.head in _NAMES[: _NAMES.index(_LAST_PRINTED) + 1]
    ]
    sheet.row_dimensions[cells[0].row].height = row_height(texts, _ROW_POINTS)


def _placed(sheet_of: HandOver, line: Line) -> _Placed:
    try:
        return _Placed("", sheet_of.picture(line))
    except Stopped:
        raise
    except FilmReviewError as error:
        return _Placed(f"no picture: {error}", None)


def _put_picture(sheet: Worksheet, cell: Cell, picture: Marked) -> None:
    """Anchored to its cell on both ends, so that it moves, sorts and hides with its row."""
    scale = min(_SHOWN_HEIGHT / picture.height, _SHOWN_WIDTH / picture.width)
    image = Image(io.BytesIO(picture.jpeg))
    start = AnchorMarker(col=_PICTURE, colOff=3 * _EMU, row=cell.row - 1, rowOff=3 * _EMU)
    right, bottom = (round(3 + side * scale) * _EMU for side in (picture.width, picture.height))
    end = AnchorMarker(col=_PICTURE, colOff=right, row=cell.row - 1, rowOff=bottom)
    image.anchor = TwoCellAnchor("twoCell", start, end)
    sheet.add_image(image)


def _alt_words(line: Line) -> str:
    marked = "with the region marked, and close" if line.region else "without a region"
    return f"No {line.number}: frame at {line.time} of {line.film.name}, {marked}: {line.whose}, {line.item}, {line.ruling}"


def _set_up(sheet: Worksheet, sheet_of: HandOver) -> None:
    printed = get_column_letter(_NAMES.index(_LAST_PRINTED) + 1)
    last_row = len(sheet_of.lines) + 1
    sheet.freeze_panes = "C2"
    sheet.auto_filter.ref = f"A1:{get_column_letter(len(_NAMES))}{last_row}"
    page(sheet, 1, True, sheet_of.footer)
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=False)  # two pages wide: found, then what follows
    sheet.page_setup.scale = 66
    sheet.col_breaks = ColBreak()
    sheet.col_breaks.append(Break(id=_NAMES.index(_LAST_FOUND) + 1))
    sheet.print_title_cols = "A:B"
    sheet.print_area = f"A1:{printed}{last_row}"
    sheet.page_setup.pageOrder = "overThenDown"

"""The page of findings: one row each, with its picture.

The first columns are for reading, on a screen or on paper. The last ones hold the same and more for the record, one value a
column, for filters and other programs; they stay off the paper.
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
from openpyxl.styles import PatternFill
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.worksheet import Worksheet

from filmreview.errors import FilmReviewError, Stopped
from filmreview.progress import Progress
from filmreview.review.model import LONGEST_WORDS, REPLIES
from filmreview.sheets import sheet_words as words
from filmreview.sheets.cells import FILLS, REPLY_PAPER, Column, RowLook, head_row, page, put_text, row_height, strong
from filmreview.sheets.handover import HandOver, Line
from filmreview.sheets.inert import cell_text
from filmreview.sheets.keys import row_key
from filmreview.sheets.marking import Marked

COLUMNS: Mapping[str, Column] = {
    column.head: column
    for column in (
        Column("No", 5, centred=True),
        Column("Time", 10),
        Column("Picture", 51),
        Column("Whose", 15),
        Column("Item", 12),
        Column("Seen", 29),
        Column("Ruling", 17),
        Column("Why", 36),
        Column("What the book asks", 30),
        Column("The crew", 26),
        Column("Reply", 14),
        Column("Reply in words", 26),
        Column("Film", 20),
        Column("Film time", 14),
        Column("Team", 16),
        Column("Side", 9),
        Column("Player", 8),
        Column("Ruled", 14),
        Column("Consequence", 24),
        Column("Rule", 12),
        Column("So since", 10),
        Column("Adoption", 18),
        Column("How sure", 20),
        Column("Source", 34),
        Column("Would change it", 40),
        Column("Ahead", 30),
        Column("Ruled before", 30),
        Column("Crew mark", 18),
        Column("Crew at", 10),
        Column("What they did", 28),
        Column("What they could have done", 36),
        Column("Note", 28),
        Column("Official", 24),
        Column("Replies so far", 34),
        Column("Tag", 7),
        Column("Key", 30),
    )
}
_NAMES = tuple(COLUMNS)
_PICTURE = _NAMES.index("Picture")
_RULING = _NAMES.index("Ruling")
_FILM_TIME = _NAMES.index("Film time")
_PRINTED = _NAMES.index("The crew") + 1
_SAID = ("Time", "Whose", "Item", "Seen", "Ruling", "Why", "What the book asks", "The crew")
_SHOWN_WIDTH, _SHOWN_HEIGHT = 354, 126  # pixels of a picture on the page
_ROW_POINTS = 99.0
_EMU = 9525  # English metric units of a pixel at 96 an inch (ECMA-376)
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
    record: dict[str, Any] = {
        "No": line.number,
        "Time": line.time,
        "Picture": "",
        "Whose": line.whose,
        "Item": line.item,
        "Seen": _joined(*(line.seen or ("nothing noted",)), f"Note: {line.note}" if line.note else ""),
        "Ruling": _ruling(line),
        "Why": _joined(*line.reasons, _by_which_rule(line)),
        "What the book asks": line.could_have_done or line.todo,
        "The crew": _crew(line),
        "Reply": "",
        "Reply in words": "",
        "Film": line.film.name,
        "Film time": float(line.seconds) / _SECONDS_OF_DAY,
        "Team": line.team,
        "Side": line.side,
        "Player": line.player or "",
        "Ruled": line.ruling,
        "Consequence": words.CONSEQUENCES[line.consequence],
        "Rule": line.reference,
        "So since": line.edition,
        "Adoption": line.adoption,
        "How sure": words.MARKS.get(line.mark, line.mark),
        "Source": line.source,
        "Would change it": _joined(*line.asks),
        "Ahead": _joined(*(f"{one.ruling} from {one.starts} ({one.rule})" for one in line.ahead)),
        "Ruled before": line.earlier,
        "Crew mark": line.crew_mark,
        "Crew at": line.crew_time,
        "What they did": line.did,
        "What they could have done": line.could_have_done,
        "Note": line.note,
        "Official": line.official,
        "Replies so far": _joined(*line.replies),
        "Tag": line.tag,
    }
    return {**record, "Key": key_of(line.key, record)}


def key_of(finding: str, record: Mapping[Any, object]) -> str:
    """The hidden key of a row; record: its cells by head, as written or as read back."""
    return row_key(finding, (cell_text(str(record[head] or "")) for head in _SAID))


def _ruling(line: Line) -> str:
    costs = words.follows_words(line.ruling, line.consequence)
    ahead = f"{words.AHEAD_SHAPE} illegal from {line.ahead[0].starts}" if line.ahead else ""
    return _joined(words.ruling_words(line.ruling), costs, ahead, f"before: {line.earlier}" if line.earlier else "")


def _crew(line: Line) -> str:
    time = f"at {line.crew_time}" if line.crew_time else ""
    return _joined(line.crew_mark, time, line.did, f"({line.official})" if line.official else "")


def _by_which_rule(line: Line) -> str:
    if not line.reference:
        return ""
    adoption = f", changed by {line.adoption}" if line.adoption else ""
    doubt = "" if line.mark == "published" else f" ({words.MARKS.get(line.mark, line.mark)})"
    return f"Rule {line.reference}, {words.so_since(line.edition)}{adoption}{doubt}"


def _joined(*parts: str) -> str:
    return "\n".join(part for part in parts if part)


def dress_findings(sheet: Worksheet, sheet_of: HandOver, progress: Progress) -> list[str]:
    """Give the page that pandas wrote its looks and pictures; returns the words for the pictures, in order.

    A picture that cannot be had is told in its cell. Lets `Stopped` of progress through.
    """
    columns = tuple(COLUMNS.values())
    head_row(sheet, 1, columns)
    look = RowLook(columns)
    described: list[str] = []
    for line, row in zip(sheet_of.lines, sheet.iter_rows(min_row=2, max_row=len(sheet_of.lines) + 1), strict=True):
        progress(line.number / (len(sheet_of.lines) + 1), f"finding {line.number} of {len(sheet_of.lines)}")
        cells = [cell for cell in row if isinstance(cell, Cell)]
        _dress(sheet, cells, line, look)
        placed = _placed(sheet_of, line)
        put_text(cells[_PICTURE], placed.words)
        if placed.picture is not None:
            _put_picture(sheet, cells[_PICTURE], placed.picture)
            described.append(_alt_words(line))
    _set_up(sheet, sheet_of)
    return described


def _dress(sheet: Worksheet, cells: list[Cell], line: Line, look: RowLook) -> None:
    look.dress(cells)
    strong(cells[0])
    strong(cells[1])
    strong(cells[_RULING], FILLS[line.ruling])
    cells[_FILM_TIME].number_format = "[h]:mm:ss.000"
    printed = list(zip(cells, look.columns, strict=True))[:_PRINTED]
    texts = [(cell.value, column.width) for cell, column in printed if isinstance(cell.value, str)]
    sheet.row_dimensions[cells[0].row].height = row_height(texts, _ROW_POINTS)


def _placed(sheet_of: HandOver, line: Line) -> _Placed:
    try:
        return _Placed("", sheet_of.picture(line))
    except Stopped:
        raise
    except FilmReviewError as error:
        return _Placed(words.no_picture(error), None)


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


def _ask_for_replies(sheet: Worksheet, last_row: int) -> None:
    """A list to choose from, and room for words; what does not fit is refused by the spreadsheet, with the reason."""
    choice = DataValidation("list", f'"{",".join(REPLIES)}"', True, showInputMessage=True)
    choice.promptTitle, choice.prompt = "Your reply", f"{', '.join(REPLIES)}; or leave it empty"
    choice.errorTitle, choice.error = "Not one of the replies", f"Choose one of: {', '.join(REPLIES)}. More goes beside it."
    in_words = DataValidation("textLength", str(LONGEST_WORDS), True, operator="lessThanOrEqual")
    in_words.errorTitle, in_words.error = "Too long", f"At most {LONGEST_WORDS} characters, please."
    for head, validation in (("Reply", choice), ("Reply in words", in_words)):
        letter = get_column_letter(_NAMES.index(head) + 1)
        validation.showErrorMessage = True
        validation.add(f"{letter}2:{letter}{last_row}")
        sheet.add_data_validation(validation)
        for row in range(2, last_row + 1):
            sheet[f"{letter}{row}"].fill = PatternFill("solid", fgColor=REPLY_PAPER)


def _set_up(sheet: Worksheet, sheet_of: HandOver) -> None:
    last_row = len(sheet_of.lines) + 1
    sheet.column_dimensions[get_column_letter(len(_NAMES))].hidden = True
    if sheet_of.lines:
        _ask_for_replies(sheet, last_row)
    sheet.freeze_panes = "C2"
    sheet.auto_filter.ref = f"A1:{get_column_letter(len(_NAMES))}{last_row}"
    sheet.print_area = f"A1:{get_column_letter(_PRINTED)}{last_row}"
    page(sheet, 1, True, sheet_of.footer)

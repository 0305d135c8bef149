"""The wear board's page: each team's players against items; a cell shows the colour seen, its name and the ruling's shape."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from filmreview.colour.contrast import wcag_ratio
from filmreview.colour.spaces import lab_to_srgb
from filmreview.colour.value import Colour
from filmreview.facts.items import ITEMS, TEAMS
from filmreview.sheets import sheet_words as words
from filmreview.sheets.cells import BAND, BODY, FONT, cell_at, page, put_text, row_height, section
from filmreview.sheets.handover import HandOver, Line

_PLAYER_WIDTH, _ITEM_WIDTH = 18.0, 17.0
_EDGE = Side(style="medium", color="FFFFFF")


def fill_kit(sheet: Worksheet, sheet_of: HandOver) -> None:
    """Write the whole page, one team below the other."""
    row = 1
    across = 1
    for side in TEAMS:
        lines = [line for line in sheet_of.lines if line.side == side]
        heading = f"{sheet_of.game.team(side).name} ({side})"
        items = _items(lines)
        section(sheet, row, heading, max(2, len(items) + 1))
        row = _team(sheet, row + 1, lines, items) + 1
        across = max(across, len(items) + 1)
    sheet.column_dimensions["A"].width = _PLAYER_WIDTH
    for number in range(2, across + 1):
        sheet.column_dimensions[get_column_letter(number)].width = _ITEM_WIDTH
    sheet.sheet_view.showGridLines = False
    sheet.freeze_panes = "B1"
    page(sheet, None, True, sheet_of.footer)


def rgb_of(colour: Colour) -> str:
    """A colour as six hexadecimal digits of sRGB; what no screen can show is moved to the nearest edge of each channel."""
    red, green, blue = (round(255 * min(1.0, max(0.0, float(one)))) for one in lab_to_srgb(colour.lab))
    return f"{red:02X}{green:02X}{blue:02X}"


def ink_on(ground: str) -> str:
    """Black or white, whichever stands out more from a ground (WCAG 2 contrast)."""
    parts = [int(ground[place : place + 2], 16) / 255 for place in (0, 2, 4)]
    return "000000" if wcag_ratio(parts, [0.0, 0.0, 0.0]) >= wcag_ratio(parts, [1.0, 1.0, 1.0]) else "FFFFFF"


def _items(lines: Iterable[Line]) -> list[str]:
    worn = {line.item for line in lines}
    return [item for item in ITEMS if item in worn]


def _team(sheet: Worksheet, row: int, lines: Sequence[Line], items: Sequence[str]) -> int:
    if not lines:
        put_text(cell_at(sheet, row, 1), "nothing noted")
        return row + 1
    for number, head in enumerate(("Player", *items), 1):
        cell = cell_at(sheet, row, number)
        put_text(cell, head)
        cell.font, cell.fill = Font(name=FONT, size=BODY, bold=True), PatternFill("solid", fgColor=BAND)
    for player in sorted({line.player for line in lines}, key=_order):
        row += 1
        _player(sheet, row, player, [line for line in lines if line.player == player], items)
    return row + 1


def _order(player: str | None) -> tuple[bool, int, str]:
    """0 before 00 before 1; whose number could not be read come last."""
    return (player is None, int(player or 0), player or "")


def _player(sheet: Worksheet, row: int, player: str | None, lines: Sequence[Line], items: Sequence[str]) -> None:
    cell = cell_at(sheet, row, 1)
    put_text(cell, player or words.NO_NUMBER)
    cell.font = Font(name=FONT, size=BODY, bold=True)
    texts = []
    for number, item in enumerate(items, 2):
        these = [line for line in lines if line.item == item]
        if these:
            texts.append(_patch(sheet, row, number, these))
    sheet.row_dimensions[row].height = row_height([(text, _ITEM_WIDTH) for text in texts], 34)


def _patch(sheet: Worksheet, row: int, number: int, lines: Sequence[Line]) -> str:
    text = "\n".join(_said(line) for line in lines)
    cell = cell_at(sheet, row, number)
    put_text(cell, text)
    colours = lines[-1].colours
    ground = rgb_of(colours[0]) if colours else "FFFFFF"
    cell.fill = PatternFill("solid", fgColor=ground)
    cell.font = Font(name=FONT, size=BODY, color=ink_on(ground))
    cell.alignment = Alignment(wrap_text=True, vertical="center", horizontal="center")
    cell.border = Border(left=_EDGE, right=_EDGE, top=_EDGE, bottom=_EDGE)
    return text


def _said(line: Line) -> str:
    colours = " and ".join(colour.name for colour in line.colours)
    return f"{words.SHAPES[line.ruling]} {colours or line.ruling} (No {line.number})"

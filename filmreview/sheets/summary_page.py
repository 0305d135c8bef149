"""The first page: which game, by which book, what was found, what was done well, what to talk about, what to mind."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from openpyxl.styles import Alignment, Border, Font, PatternFill
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from filmreview.film.moment import format_time
from filmreview.sheets import sheet_words as words
from filmreview.sheets.cells import (
    BAND,
    BODY,
    FAINT,
    FILLS,
    FONT,
    INK,
    cell_at,
    put_text,
    row_height,
    section,
    side_note,
    title,
)
from filmreview.sheets.handover import MARK_ORDER, RULINGS, HandOver, Line

_WIDTHS = (21.0, 11.0, 11.0, 13.5, 11.0, 11.0, 11.0, 11.0, 11.0, 8.0)
_ACROSS = len(_WIDTHS)
_MOST_LINES = 14


def fill_summary(sheet: Worksheet, sheet_of: HandOver) -> int:
    """Write the whole page; returns the row of the counts' head."""
    for number, width in enumerate(_WIDTHS, 1):
        sheet.column_dimensions[get_column_letter(number)].width = width
    sheet.sheet_view.showGridLines = False
    title(sheet, 1, sheet_of.title, 17)
    level = f", {sheet_of.game.level}" if sheet_of.game.level else ""
    side_note(sheet, 2, f"What the players wore and what the crew did, from film: {words.day_words(sheet_of.game.day)}{level}")
    row = _setup(sheet, 4, sheet_of)
    counts_row = row + 2
    row = _counts(sheet, row + 1, sheet_of)
    row = _lines(sheet, row + 1, "Done as the book asks", sheet_of.praise, "No finding is marked so.")
    row = _lines(sheet, row + 1, "To talk about", sheet_of.to_talk_about, "Nothing was left to do.")
    row = _charges(sheet, row + 1, sheet_of)
    row = _procedure(sheet, row + 1, sheet_of)
    _cautions(sheet, row + 1, sheet_of.cautions)
    return counts_row


def _setup(sheet: Worksheet, row: int, sheet_of: HandOver) -> int:
    section(sheet, row, "The game", _ACROSS)
    game = sheet_of.game
    crew = "; ".join(f"{one.position} {one.name}" for one in game.crew)
    films = "; ".join(f"{film.name} ({format_time(film.length)})" for film in sheet_of.films)
    pairs = (
        ("Home", words.team_words(game.home)),
        ("Visitor", words.team_words(game.visitor)),
        ("Book", f"{sheet_of.book}, edition {sheet_of.edition}"),
        ("Adoption", sheet_of.adoption or "none"),
        ("Crew", crew or "not told"),
        ("Observer", game.observer or "not told"),
        ("Film", films or "none"),
        ("Made with", sheet_of.program),
    )
    for number, (label, text) in enumerate(pairs, row + 1):
        _pair(sheet, number, label, text)
    return row + len(pairs) + 1


def _pair(sheet: Worksheet, row: int, label: str, text: str) -> None:
    left = cell_at(sheet, row, 1)
    put_text(left, label)
    left.font = Font(name=FONT, size=BODY, color=FAINT)
    left.alignment = Alignment(vertical="center")
    _wide(sheet, row, 2, text)


def _wide(sheet: Worksheet, row: int, first: int, text: str, bold: bool = False) -> None:
    """A wrapped text over the columns from first to the last."""
    cell = cell_at(sheet, row, first)
    sheet.merge_cells(start_row=row, start_column=first, end_row=row, end_column=_ACROSS)
    put_text(cell, text)
    cell.font = Font(name=FONT, size=BODY, bold=bold, color=INK)
    cell.alignment = Alignment(wrap_text=True, vertical="center")
    sheet.row_dimensions[row].height = row_height([(text, sum(_WIDTHS[first - 1 :]))], 17)


def _counts(sheet: Worksheet, row: int, sheet_of: HandOver) -> int:
    section(sheet, row, f"What was found: {sheet_of.count()} in all, by ruling and by what the crew did", _ACROSS)
    _row(sheet, row + 1, ["", *MARK_ORDER, "all"], head=True)
    sheet.row_dimensions[row + 1].height = 34
    for number, ruling in enumerate(RULINGS, row + 2):
        marks: list[str | int] = [sheet_of.count(ruling, mark) or "\u00b7" for mark in MARK_ORDER]
        _row(sheet, number, [words.ruling_words(ruling), *marks, sheet_of.count(ruling)], ground=FILLS[ruling])
    last = row + 2 + len(RULINGS)
    _row(sheet, last, ["all", *(sheet_of.count(None, mark) or "\u00b7" for mark in MARK_ORDER), sheet_of.count()], head=True)
    return last + 1


def _row(sheet: Worksheet, row: int, values: Sequence[str | int], head: bool = False, ground: str = BAND) -> None:
    for number, value in enumerate(values, 1):
        cell = cell_at(sheet, row, number)
        if isinstance(value, str):
            put_text(cell, value)
        else:
            cell.value = value
        cell.font = Font(name=FONT, size=BODY, bold=head or number in (1, _ACROSS), color=INK)
        cell.alignment = Alignment(horizontal="left" if number == 1 else "center", vertical="center", wrap_text=True)
        cell.fill = PatternFill("solid", fgColor=ground)


def _lines(sheet: Worksheet, row: int, heading: str, lines: Iterable[Line], none: str) -> int:
    every = list(lines)
    section(sheet, row, f"{heading}: {len(every)}" if every else heading, _ACROSS)
    row += 1
    if not every:
        _wide(sheet, row, 1, none)
    for line in every[:_MOST_LINES]:
        _pair(sheet, row, f"No {line.number} at {line.time}", _line_words(line))
        row += 1
    if len(every) > _MOST_LINES:
        _wide(sheet, row, 2, f"and {len(every) - _MOST_LINES} more: see the page Findings")
    return row + (1 if not every or len(every) > _MOST_LINES else 0)


def _line_words(line: Line) -> str:
    could = words.could_sentence(line.could_have_done)
    did = f" ({line.did.rstrip('.')})" if line.did else ""
    return f"{line.whose}, {line.item}: {words.ruling_words(line.ruling)}. Crew: {line.crew_mark}{did}. {could}".rstrip()


def _charges(sheet: Worksheet, row: int, sheet_of: HandOver) -> int:
    section(sheet, row, "Penalties by the book", _ACROSS)
    row += 1
    for charge in sheet_of.charges:
        _pair(sheet, row, charge.team, f"{charge.count} {charge.kind}, charged to {charge.charged_to} ({charge.reference})")
        row += 1
    none = () if sheet_of.charges or sheet_of.uncharged else (words.NO_FOUL,)
    for text in (*sheet_of.uncharged, *none):
        _wide(sheet, row, 1, text)
        row += 1
    return row


def _procedure(sheet: Worksheet, row: int, sheet_of: HandOver) -> int:
    followed = sheet_of.procedure
    if followed is None:
        return row - 1
    section(sheet, row, f"Procedures: {followed.followed}: {words.PROCEDURE_WORDS[followed.ruling]}", _ACROSS)
    row += 1
    for one in followed.departures:
        over = f" ({one.over} over)" if one.over else ""
        _pair(sheet, row, f"at {one.time}", f"{one.what}{over}. The book asks: {one.asks} ({one.reference})")
        row += 1
    for text in followed.missing:
        _pair(sheet, row, "not known", text)
        row += 1
    return row


def _cautions(sheet: Worksheet, row: int, cautions: Iterable[str]) -> None:
    section(sheet, row, "Cautions", _ACROSS)
    for number, text in enumerate(cautions, row + 1):
        _wide(sheet, number, 1, text)
        sheet.cell(number, 1).border = Border()

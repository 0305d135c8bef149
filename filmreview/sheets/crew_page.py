"""The page on the crew: how they dealt with what was illegal and what was legal, how sure such counts make us, and a chart.

Only findings that this film can tell and that are marked are counted. The interval says what a share of so few is worth; it is
no grade.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from openpyxl.chart import BarChart, Reference, Series
from openpyxl.worksheet.worksheet import Worksheet

from filmreview.sheets import sheet_words as words
from filmreview.sheets.cells import Column
from filmreview.sheets.handover import MARK_ORDER, RULINGS, HandOver, Line
from filmreview.sheets.share import share_of, share_words
from filmreview.sheets.table_pages import TablePage

_GROUPS = ("technical foul", "leave", "fix or leave", "cannot be told")
_OPEN_MARKS = (words.NOT_MARKED, "cannot be told")
_ANSWERS = tuple(mark for mark in MARK_ORDER if mark not in _OPEN_MARKS)
_SHADES = {"illegal": "2F3E46", "cannot be told": "9AA7AE", "legal": "E1E6E9"}


def crew_page(sheet_of: HandOver) -> TablePage:
    """The counts with their shares."""
    columns = (
        Column("What was found", 34), Column("What the crew did", 26), Column("How many", 10, centred=True),
        Column("Of", 8, centred=True), Column("Share, and where it likely lies (95 %)", 44), Column("Findings", 30),
    )  # fmt: skip
    marked = [line for line in sheet_of.lines if line.crew_mark not in _OPEN_MARKS]
    illegal = [line for line in marked if line.ruling == "illegal"]
    rows = [*_answers("illegal, all", illegal)] if illegal else []
    for group in _GROUPS:
        rows += _answers(
            words.ruled_words("illegal", words.follows_words("illegal", group)),
            [line for line in illegal if line.consequence == group],
        )
    rows += _answers("legal", [line for line in marked if line.ruling == "legal"])
    for official in sorted({line.official for line in illegal if line.official}):
        rows += _answers(f"illegal, {official}", [line for line in illegal if line.official == official])
    return TablePage("Crew", columns, tuple(rows), "No finding is marked yet.")


def _answers(found: str, lines: Sequence[Line]) -> Iterable[tuple[str | int, ...]]:
    for mark in _ANSWERS:
        these = [line for line in lines if line.crew_mark == mark]
        if these:
            yield _row(found, mark, these, lines)


def _row(found: str, did: str, these: Sequence[Line], lines: Sequence[Line]) -> tuple[str | int, ...]:
    share = share_words(share_of(len(these), len(lines)))
    return (found, did, len(these), len(lines), share, ", ".join(f"No {line.number}" for line in these))


def put_chart(sheet: Worksheet, row: int, counts: Worksheet, first_row: int) -> None:
    """Draw the counts of the summary as bars, one a crew mark, parted by ruling. first_row: of the counts' head there."""
    chart = BarChart()
    chart.type, chart.grouping, chart.overlap = "bar", "stacked", 100
    chart.title = "Findings by what the crew did"
    last = len(MARK_ORDER) + 1
    for place, ruling in enumerate(RULINGS, first_row + 1):
        series = Series(Reference(counts, min_col=2, max_col=last, min_row=place), title=ruling)
        series.graphicalProperties.solidFill = _SHADES[ruling]
        series.graphicalProperties.line.solidFill = _SHADES["illegal"]
        chart.series.append(series)
    chart.set_categories(Reference(counts, min_col=2, max_col=last, min_row=first_row))
    chart.x_axis.delete = chart.y_axis.delete = False
    chart.x_axis.scaling.orientation = "maxMin"
    chart.y_axis.majorUnit = 1 if counts.cell(first_row + len(RULINGS) + 1, last + 1).value in range(12) else None
    chart.legend.position = "b"
    chart.height, chart.width = 9.5, 22
    sheet.add_chart(chart, f"A{row}")

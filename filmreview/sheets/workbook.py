"""The findings sheet as a workbook (.xlsx): pandas writes the tables, openpyxl lays them out.

Pages: Summary, Findings, Wear board, Crew, Letters, Penalties, Procedures, Choices, Ahead, Book. Tables have their
head in the first row, so they read back plainly. Texts are never formulas; there are no macros and no links.
"""

from __future__ import annotations

from pathlib import Path

import pandas as pd

from filmreview.aside import written_aside
from filmreview.progress import Progress, silent
from filmreview.sheets.alt_text import describe_pictures
from filmreview.sheets.cells import page, plain_table
from filmreview.sheets.crew_page import crew_page, put_chart
from filmreview.sheets.findings_page import dress_findings, findings_table
from filmreview.sheets.handover import HandOver
from filmreview.sheets.inert import one_line
from filmreview.sheets.kit_page import fill_kit
from filmreview.sheets.summary_page import fill_summary
from filmreview.sheets.table_pages import dress_table, table_pages

_ONE_PAGE = 70  # rows of the summary that are still read well on one page


def write_workbook(sheet_of: HandOver, path: Path, progress: Progress = silent) -> None:
    """Write the workbook, in place of an older one only when it is whole.

    Raises FilmReviewError when the place cannot be written or the disk is full; lets `Stopped` of progress through.
    """
    with written_aside(path) as aside:
        with pd.ExcelWriter(aside, engine="openpyxl") as writer:
            described = _fill(writer, sheet_of, progress)
        describe_pictures(aside, described)
    progress(1.0, "written")


def _fill(writer: pd.ExcelWriter, sheet_of: HandOver, progress: Progress) -> list[str]:
    book = writer.book
    properties = book.properties
    properties.title, properties.creator = one_line(sheet_of.title), one_line(sheet_of.game.observer)
    counts_row = fill_summary(book.create_sheet("Summary"), sheet_of)
    page(book["Summary"], None, False, sheet_of.footer)
    if book["Summary"].max_row <= _ONE_PAGE:
        book["Summary"].page_setup.fitToHeight = 1
    plain_table(findings_table(sheet_of)).to_excel(writer, sheet_name="Findings", index=False)
    described = dress_findings(book["Findings"], sheet_of, progress)
    fill_kit(book.create_sheet("Wear board"), sheet_of)
    for one in (crew_page(sheet_of), *table_pages(sheet_of)):
        plain_table(one.table()).to_excel(writer, sheet_name=one.name, index=False)
        dress_table(book[one.name], one, sheet_of)
    put_chart(book["Crew"], book["Crew"].max_row + 2, book["Summary"], counts_row)
    return described

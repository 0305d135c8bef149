"""Every kind of findings sheet, by the ending of the file's name."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from filmreview.errors import unknown
from filmreview.progress import Progress, silent
from filmreview.sheets.captions import caption_paths, write_captions
from filmreview.sheets.csv_file import write_csv
from filmreview.sheets.handover import HandOver
from filmreview.sheets.json_file import write_json
from filmreview.sheets.otio_file import write_otio
from filmreview.sheets.paper import write_paper
from filmreview.sheets.web_page import write_page
from filmreview.sheets.workbook import write_workbook

Writer = Callable[[HandOver, Path, Progress], None]

WRITERS: Mapping[str, Writer] = {
    ".xlsx": write_workbook,
    ".html": write_page,
    ".csv": write_csv,
    ".json": write_json,
    ".vtt": write_captions,
    ".otio": write_otio,
    ".pdf": write_paper,
}


def check_ending(path: Path) -> None:
    """Raise FilmReviewError for an ending that no kind of sheet has, before any work is done."""
    if path.suffix.casefold() not in WRITERS:
        raise unknown("kind of sheet", path.suffix or path.name, WRITERS, where=str(path))


def write_sheet(sheet_of: HandOver, path: Path, progress: Progress = silent) -> tuple[Path, ...]:
    """Write the sheet of the kind that the ending says; returns the files written (captions are one a film).

    Raises FilmReviewError for an unknown ending or a file that cannot be written; lets `Stopped` of progress through.
    """
    check_ending(path)
    WRITERS[path.suffix.casefold()](sheet_of, path, progress)
    return caption_paths(sheet_of, path) if path.suffix.casefold() == ".vtt" else (path,)

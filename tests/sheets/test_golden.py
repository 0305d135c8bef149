"""Every kind of sheet of the small hand-over, as it was looked at and found right: `golden/`.

After a change that is meant, look at the new files and keep them: FILMREVIEW_REWRITE=1 pytest tests/sheets/test_golden.py
"""

import os
from dataclasses import replace
from pathlib import Path

import openpyxl
import pytest

from filmreview.sheets.kinds import write_sheet
from tests.sheets.small_sheet import FILM, sheet

GOLDEN = Path(__file__).with_name("golden")


def cells(path: Path) -> str:
    """Every cell of a workbook that holds something, a line each."""
    book = openpyxl.load_workbook(path)
    return "".join(
        f"{page.title}!{cell.coordinate}\t{cell.value!r}\n"
        for page in book
        for row in page.iter_rows()
        for cell in row
        if cell.value not in (None, "")
    )


def check(name: str, made: str) -> None:
    path = GOLDEN / name
    if os.environ.get("FILMREVIEW_REWRITE"):
        GOLDEN.mkdir(exist_ok=True)
        path.write_text(made, encoding="utf-8", newline="")
    assert path.read_bytes().decode() == made


@pytest.mark.parametrize("ending", ["csv", "json", "vtt", "html"])
def test_text_kinds(tmp_path: Path, ending: str) -> None:
    made = sheet(pictures=None)
    beside = replace(FILM, path=str(tmp_path / "half-1.mp4"))  # the page's link to the film is then its name
    made = replace(made, lines=tuple(replace(line, film=beside) for line in made.lines))
    path = tmp_path / f"sheet.{ending}"
    write_sheet(made, path)
    check(f"sheet.{ending}", path.read_bytes().decode())


def test_workbook(tmp_path: Path) -> None:
    path = tmp_path / "sheet.xlsx"
    write_sheet(sheet(), path)
    check("sheet.xlsx.txt", cells(path))

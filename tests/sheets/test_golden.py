"""Every kind of sheet of the made-up game, as it was looked at and found right: `golden/`.

Text kinds stand there whole (pictures by their size), the workbook and the paper as the text in them. After a change that is
meant, look at the new files and keep them: FILMREVIEW_REWRITE=1 pytest tests/sheets/test_golden.py
"""

import os
import re
from pathlib import Path

import openpyxl
import pytest
from pypdf import PdfReader

from filmreview.sheets.handover import READERS
from filmreview.sheets.kinds import WRITERS, write_sheet
from tests.sheets.made_up_sheet import made_up_sheet

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


def words(path: Path) -> str:
    """The text of a paper file without its breaks, which the measures of a typeface decide: one sentence or so a line."""
    told = " ".join(page.extract_text() for page in PdfReader(path).pages)
    said = " ".join(re.sub(r"page \d+ of\s+\d+", "", told).split())
    return re.sub(r"(?<=[.;:]) ", "\n", said) + "\n"


def without_pictures(path: Path) -> str:
    return re.sub(r"data:image/jpeg;base64,[A-Za-z0-9+/=]+", "(picture)", path.read_bytes().decode())


def check(name: str, made: str) -> None:
    path = GOLDEN / name
    if os.environ.get("FILMREVIEW_REWRITE"):
        GOLDEN.mkdir(exist_ok=True)
        path.write_text(made, encoding="utf-8", newline="")
    assert path.read_bytes().decode() == made


SHOWN = {".xlsx": (".xlsx.txt", cells), ".pdf": (".pdf.txt", words)}


@pytest.mark.parametrize("ending", list(WRITERS))
def test_every_kind_for_the_coordinator(tmp_path: Path, ending: str) -> None:
    path = tmp_path / f"sheet{ending}"
    write_sheet(made_up_sheet(tmp_path / "made-up-game.mp4"), path)
    name, shown = SHOWN.get(ending, (ending, without_pictures))
    check(f"made-up-game{name}", shown(path))


def test_what_the_crew_gets(tmp_path: Path) -> None:
    """As a table, since what is left out is left out of every kind."""
    path = tmp_path / "sheet.csv"
    write_sheet(made_up_sheet(tmp_path / "made-up-game.mp4", READERS[1]), path)
    check("made-up-game-crew.csv", without_pictures(path))

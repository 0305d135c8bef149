"""The workbook through LibreOffice, by hand: pytest tests/bench/test_sheet_in_libreoffice.py

Saved there as a workbook it comes back whole; converted to paper its pages can be looked at (`--basetemp` says where they lie).
"""

import shutil
import subprocess
from pathlib import Path

import openpyxl
import pytest
from pypdf import PdfReader

from filmreview.review.crew_changes import SetReply
from filmreview.sheets.returned import Returned, read_returned
from filmreview.sheets.workbook import write_workbook
from tests.sheets.made_up_sheet import made_up_sheet, review_of

pytestmark = pytest.mark.skipif(shutil.which("soffice") is None, reason="LibreOffice is not here")


def converted(path: Path, ending: str, folder: Path) -> Path:
    profile = f"-env:UserInstallation=file://{folder}/profile"
    words = ["soffice", profile, "--headless", "--convert-to", ending, "--outdir", folder, path]
    subprocess.run(words, check=True, capture_output=True, timeout=120)
    return folder / f"{path.stem}.{ending}"


def test_saved_there_the_replies_come_back_whole(tmp_path: Path) -> None:
    film, path = tmp_path / "made-up-game.mp4", tmp_path / "sheet.xlsx"
    write_workbook(made_up_sheet(film, "crew"), path)
    book = openpyxl.load_workbook(path)
    page = book["Findings"]
    heads = {str(cell.value): cell.column for cell in page[1]}
    row = next(row for row in range(2, page.max_row + 1) if page.cell(row, heads["Tag"]).value == "t2")
    page.cell(row, heads["Reply"]).value, page.cell(row, heads["Reply in words"]).value = "please explain", "which view?"
    book.save(path)
    saved = converted(path, "xlsx", tmp_path / "saved")
    found = read_returned(saved, review_of(film))
    assert found == Returned((SetReply("t2", "", "please explain", "which view?"),), ())


def test_on_paper_every_page_has_its_foot(tmp_path: Path) -> None:
    path = tmp_path / "sheet.xlsx"
    write_workbook(made_up_sheet(tmp_path / "made-up-game.mp4"), path)
    pages = PdfReader(converted(path, "pdf", tmp_path)).pages
    print(f"\n{len(pages)} pages in {path.with_suffix('.pdf')}")
    assert all("a study aid" in page.extract_text() for page in pages)

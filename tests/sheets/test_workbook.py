"""The workbook: what is on it, that it reads back, that no text acts, and that it is written whole or not at all."""

import io
import os
import re
import resource
import signal
import sys
import zipfile
from collections.abc import Iterable
from dataclasses import replace
from datetime import timedelta
from multiprocessing import get_context
from multiprocessing.connection import Connection
from pathlib import Path
from xml.etree import ElementTree

import openpyxl
import pandas as pd
import pytest
from openpyxl.worksheet.worksheet import Worksheet
from PIL import Image

from filmreview.colour.palette import parse_colour
from filmreview.errors import FilmReviewError, Stopped
from filmreview.sheets.findings_page import COLUMNS
from filmreview.sheets.handover import Departure, HandOver, Procedure
from filmreview.sheets.kit_page import rgb_of
from filmreview.sheets.workbook import write_workbook
from tests.sheets.small_sheet import GAME, LINE, OTHERS, sheet

PAGES = ["Summary", "Findings", "Wear board", "Crew", "Letters", "Penalties", "Procedures", "Choices", "Ahead", "Book"]
HOSTILE = (
    '=HYPERLINK("http://x.example/","a")\x00\x1b<script>alert(1)</script>&P\u202egnp\ud83c\r\n'
    "\U0001f3c0 \u05e9\u05dc\u05d5\u05dd"
)
SAFE = (
    '=HYPERLINK("http://x.example/","a")\u2400\u241b<script>alert(1)</script>&P\u202egnp\ufffd\n'
    "\U0001f3c0 \u05e9\u05dc\u05d5\u05dd\u202c"
)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "sheet.xlsx"


def texts(page: Worksheet) -> Iterable[str]:
    return (str(cell.value) for row in page.iter_rows() for cell in row if cell.value is not None)


def test_it_reads_back_through_pandas_with_real_types(path: Path) -> None:
    write_workbook(sheet(), path)
    pages = pd.read_excel(path, sheet_name=None)
    assert list(pages) == PAGES
    found = pd.read_excel(path, sheet_name="Findings", dtype={"Player": str}, keep_default_na=False)
    assert list(found.columns) == list(COLUMNS)
    assert found["No"].tolist() == [1, 2, 3, 4]
    assert found["Time"].tolist() == ["0:12.500", "1:01.000", "21:29.750", "0:12.500"]
    assert found["Player"].tolist() == ["14", "00", "", "67"], "numbers of players are text: 00 is not 0"
    assert found["Ruled"].tolist() == ["illegal", "legal", "cannot be told", "illegal"]
    assert found["Ruling"][0] == "\u25c6 illegal\nfix or leave"
    assert found["Ruling"][1] == "\u25cb legal\n\u25d0 illegal from 1 July 2024"
    assert found["What they could have done"][0] == LINE.could_have_done
    assert found["What the book asks"][3] == OTHERS[2].todo
    penalties = pages["Penalties"]
    assert penalties["Free throws each"].tolist() == [2]
    assert pages["Choices"]["Least change"].fillna("").tolist() == ["least change", ""]
    assert pages["Ahead"]["No"].tolist() == [2]
    assert pages["Book"]["Findings"].tolist() == ["No 1, No 2, No 3"]


def test_film_time_is_a_time_a_spreadsheet_can_count_with(path: Path) -> None:
    write_workbook(sheet(), path)
    page = openpyxl.load_workbook(path)["Findings"]
    column = list(COLUMNS).index("Film time") + 1
    cells = [page.cell(row, column) for row in range(2, 6)]
    assert [cell.value for cell in cells] == [
        timedelta(seconds=12.5), timedelta(minutes=1, seconds=1), timedelta(minutes=21, seconds=29.75), timedelta(seconds=12.5),
    ]  # fmt: skip
    assert {cell.number_format for cell in cells} == {"[h]:mm:ss.000"}


def test_pictures_stand_in_their_rows_with_words_for_them(path: Path) -> None:
    write_workbook(sheet(), path)
    page = openpyxl.load_workbook(path)["Findings"]
    assert len(page._images) == 4
    for row, image in enumerate(page._images, 1):
        start, end = image.anchor._from, image.anchor.to
        assert (start.col, start.row, end.col, end.row) == (2, row, 2, row), "within one cell, so it sorts and hides with it"
        assert Image.open(io.BytesIO(image._data())).format == "JPEG"
    with zipfile.ZipFile(path) as parts:
        drawings = [parts.read(name).decode() for name in parts.namelist() if name.startswith("xl/drawings/drawing")]
        assert parts.testzip() is None
    described = re.findall(r'descr="([^"]*)"', "".join(drawings))
    assert described[0] == (
        "No 1: frame at 0:12.500 of half-1.mp4, with the region marked, and close: Ovvermire 14, arm sleeve, illegal"
    )
    assert "without a region: Ovvermire, number not read, undershirt, cannot be told" in described[2]
    assert len(described) == 4


def test_the_pages_are_set_up_for_reading_and_printing(path: Path) -> None:
    write_workbook(sheet(), path)
    book = openpyxl.load_workbook(path)
    found = book["Findings"]
    assert (found.freeze_panes, found.auto_filter.ref, found.print_title_rows) == ("C2", "A1:AJ5", "$1:$1")
    assert (found.page_setup.orientation, found.page_setup.fitToWidth, found.page_setup.fitToHeight) == ("landscape", 1, 0)
    assert found.print_area == "'Findings'!$A$1:$J$5"
    assert all(page.sheet_properties.pageSetUpPr.fitToPage for page in book)
    assert all(found.cell(2, column).alignment.wrap_text for column in range(1, len(COLUMNS) + 1))
    assert book.properties.title == "Thrunnockby against Ovvermire"


def test_the_summary_says_what_a_crew_chief_asks_first(path: Path) -> None:
    write_workbook(sheet(), path)
    said = "\n".join(texts(openpyxl.load_workbook(path)["Summary"]))
    for words in (
        "Thrunnockby against Ovvermire", "5 December 2023, varsity", "A book of our own, edition 2023-24",
        "referee R. Quillander",
        "O. Vanterell", "half-1.mp4 (21:30.000)", "What was found: 4 in all", "\u25c6 illegal", "Done as the book asks: 1",
        "charged one technical foul to the head coach", "To talk about: 1", "1 technical foul, charged to head coach (10-6-4)",
        "study aid", "medical staff", "minors",
        "Crew: not seen. The book asks, while the ball is dead: tell the coach; the"
        " player puts it right or leaves.",
    ):  # fmt: skip
        assert words in said, words


def test_departures_from_a_procedure_are_told(path: Path) -> None:
    one = Departure("blood", "half-1.mp4", "2:00.000", "14 returns", "a time-out", "21.5 s", "3-3-7", "a book", "published")
    followed = Procedure(
        ("blood",), "sent out, comes back", "illegal", (one,), ("staff beckoned: decides",), "3-3-7", "2023-24",
        {"blood": "Blood on a player"},
    )  # fmt: skip
    write_workbook(sheet(procedure=followed, disputed=("two readings of 3-4-3",)), path)
    page = pd.read_excel(path, sheet_name="Procedures", keep_default_na=False)
    assert page["Procedure"].tolist() == ["Blood on a player", "Blood on a player", ""], "its title, not its name"
    assert page["What happened"].tolist() == [
        "\u25c6 not as the book asks; the way taken: sent out, comes back",
        "14 returns",
        "not known: staff beckoned: decides",
    ]
    assert page["What the book asks"].tolist() == ["", "a time-out", ""]
    assert page["Over by"].tolist() == ["", "21.5 s", ""]
    assert pd.read_excel(path, sheet_name="Penalties")["Team"].tolist() == ["Ovvermire", "two readings of 3-4-3"]
    said = "\n".join(texts(openpyxl.load_workbook(path)["Summary"]))
    assert "Procedures: Blood on a player: \u25c6 not as the book asks" in said
    assert "14 returns (21.5 s over). The book asks: a time-out (3-3-7)" in said


def test_the_crew_s_shares_are_counted_of_what_was_marked(path: Path) -> None:
    marks = (
        ("as the book asks", "fix or leave"), ("as the book asks", "technical foul"), ("not seen", "fix or leave"),
        ("cannot be told", "fix or leave"), ("not marked", "fix or leave"),
    )  # fmt: skip
    lines = [
        replace(LINE, number=place, tag=f"t{place}", crew_mark=mark, consequence=costs)
        for place, (mark, costs) in enumerate(marks, 1)
    ]
    lines += [replace(OTHERS[0], number=6, tag="t6"), replace(OTHERS[0], number=7, tag="t7", crew_mark="wrong consequence")]
    write_workbook(sheet(lines), path)
    rows = pd.read_excel(path, sheet_name="Crew").values.tolist()
    assert [row[:4] for row in rows] == [
        ["illegal, all", "as the book asks", 2, 3], ["illegal, all", "not seen", 1, 3],
        ["illegal: technical foul", "as the book asks", 1, 1],
        ["illegal: fix or leave", "as the book asks", 1, 2], ["illegal: fix or leave", "not seen", 1, 2],
        ["legal", "wrong consequence", 1, 2], ["legal", "nothing to do", 1, 2],
    ]  # fmt: skip
    assert rows[0][4:] == ["67%, likely between 21% and 94%", "No 1, No 2"]
    (chart,) = openpyxl.load_workbook(path)["Crew"]._charts
    assert len(chart.series) == 3


def test_the_wear_board_shows_the_colour_its_name_and_the_ruling(path: Path) -> None:
    orange, navy = (parse_colour(name) for name in ("orange", "navy"))
    lines = (replace(LINE, colours=(orange,)), replace(OTHERS[0], colours=(navy,)), OTHERS[1])
    write_workbook(sheet(lines), path)
    page = openpyxl.load_workbook(path)["Wear board"]
    patches = {str(cell.value): (cell.fill.fgColor.rgb[2:], cell.font.color.rgb[2:]) for row in page.iter_rows() for cell in row
               if cell.value and "(No" in str(cell.value)}  # fmt: skip
    assert patches == {
        "\u25c6 orange (No 1)": (rgb_of(orange), "000000"),
        "\u25cb navy (No 2)": (rgb_of(navy), "FFFFFF"),
        "\u25cc cannot be told (No 3)": ("FFFFFF", "000000"),
    }
    assert [page["A2"].value, page["A3"].value] == ["Player", "00"]


def test_every_number_of_the_counts_is_right(path: Path) -> None:
    write_workbook(sheet(), path)
    page = openpyxl.load_workbook(path)["Summary"]
    rows = [[cell.value for cell in row] for row in page.iter_rows()]
    start = next(number for number, row in enumerate(rows) if row[-1] == "all")
    counts = {str(row[0]): [value if isinstance(value, int) else 0 for value in row[1:]] for row in rows[start + 1 : start + 5]}
    assert counts == {
        "\u25c6 illegal": [1, 0, 0, 0, 1, 0, 0, 0, 2],
        "\u25cc cannot be told": [0, 0, 0, 0, 0, 0, 0, 1, 1],
        "\u25cb legal": [0, 0, 0, 0, 0, 1, 0, 0, 1],
        "all": [1, 0, 0, 0, 1, 1, 0, 1, 4],
    }


def hostile(text: str = HOSTILE) -> HandOver:
    """The text in every field that a person or a file name can fill."""
    line = replace(
        LINE, team=text, seen=(text, "+1", "@x"), reasons=(text,), todo=text, source=text, adoption=text,
        earlier=text, did=text, could_have_done=text, note=text, film=replace(LINE.film, path=text),
        crew_time=text, asks=(text,), reference=text,
    )  # fmt: skip
    crew = (replace(GAME.crew[0], position=text, name=text),)
    teams = {side: replace(GAME.team(side), name=text) for side in ("home", "visitor")}
    return sheet((line, replace(LINE, note="=1+1", number=2)), game=replace(GAME, crew=crew, observer=text, **teams),
                 book=text, adoption=text, films=(line.film,))  # fmt: skip


def test_hostile_text_comes_out_readable_and_inert(path: Path) -> None:
    write_workbook(hostile(), path)
    book = openpyxl.load_workbook(path)
    assert all(cell.data_type != "f" for page in book for row in page.iter_rows() for cell in row)
    found = pd.read_excel(path, sheet_name="Findings", keep_default_na=False)
    for column in ("What they did", "What they could have done", "Source", "Team", "Adoption"):
        assert found[column][0] == SAFE, column
    assert found["Note"].tolist() == [SAFE, "=1+1"]
    noted = book["Findings"].cell(3, list(COLUMNS).index("Note") + 1)
    assert (noted.data_type, noted.quotePrefix) == ("s", True)
    with zipfile.ZipFile(path) as parts:
        for name in parts.namelist():
            if name.endswith((".xml", ".rels")):
                tree = ElementTree.fromstring(parts.read(name))
                acting = [one for one in tree.iter() if one.tag.endswith(("}f", "}hyperlink", "}oleObject"))]
                if name.startswith("xl/charts/"):  # a chart names the cells it draws
                    acting = [one for one in acting if not re.fullmatch(r"'Summary'!\$[A-Z]\$\d+:\$[A-Z]\$\d+", one.text or "")]
                assert not acting, name
                assert not [one for one in tree.iter() if one.get("TargetMode") == "External"], name
        assert not [name for name in parts.namelist() if "vba" in name.lower() or "external" in name.lower()]


def test_a_text_longer_than_a_cell_is_cut_and_says_so(path: Path) -> None:
    write_workbook(sheet((replace(LINE, note="n" * 40_000),)), path)
    note = str(pd.read_excel(path, sheet_name="Findings")["Note"][0])
    assert len(note) == 32_767
    assert note.endswith("(cut here; the review holds the whole text)")


def test_without_findings_or_pictures_it_is_still_a_sheet(path: Path) -> None:
    write_workbook(sheet((), charges=(), choices=(), cited=(), pictures=None), path)
    pages = pd.read_excel(path, sheet_name=None)
    assert len(pages["Findings"]) == 0
    assert pages["Penalties"]["Team"].tolist() == ["Nothing found costs a foul."]

    def gone(*_: object) -> None:
        raise FilmReviewError("the film is not there any more", where="/films/half-1.mp4", todo="tell where it is now")

    write_workbook(sheet(pictures=gone), path)
    cell = str(pd.read_excel(path, sheet_name="Findings")["Picture"][0])
    assert cell == "no picture: the film is not there any more"


def test_that_nothing_costs_a_foul_is_not_said_while_it_cannot_be_told(path: Path) -> None:
    unknown = "No 3: what follows cannot be told, nor whether it costs a foul"
    write_workbook(sheet((replace(LINE, number=3, consequence="cannot be told"),), charges=()), path)
    assert pd.read_excel(path, sheet_name="Penalties")["Team"].tolist() == [unknown]
    said = texts(openpyxl.load_workbook(path)["Summary"])
    assert unknown in said
    assert "Nothing found costs a foul." not in said
    write_workbook(sheet((LINE,), charges=()), path)
    assert "Nothing found costs a foul." in texts(openpyxl.load_workbook(path)["Summary"])


def test_it_tells_how_far_it_is_and_can_be_stopped(path: Path) -> None:
    told: list[float] = []
    write_workbook(sheet(), path, lambda share, _: told.append(share))
    assert told == sorted(told)
    assert told[-1] == 1.0
    assert len(told) == 5
    whole = path.read_bytes()

    def stop(share: float, _: str) -> None:
        if share > 0.3:
            raise Stopped("stopped")

    with pytest.raises(Stopped):
        write_workbook(sheet(), path, stop)
    assert path.read_bytes() == whole, "the old one is still there"
    assert os.listdir(path.parent) == ["sheet.xlsx"]


def fill(path: Path, answer: Connection) -> None:
    sys.dont_write_bytecode = True
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))
    try:
        write_workbook(sheet(), path)
    except FilmReviewError as error:
        answer.send(str(error))


def test_a_full_disk_leaves_the_old_sheet(path: Path) -> None:
    write_workbook(sheet((LINE,)), path)
    whole = path.read_bytes()
    apart = get_context("spawn")  # a process of its own from the start: to fork one that has threads can hang
    near, far = apart.Pipe(duplex=False)
    child = apart.Process(target=fill, args=(path, far))
    child.start()
    assert near.poll(60)
    assert near.recv() == f"{path}: the file was not written: file too large; what was there before is as it was"
    child.join()
    assert path.read_bytes() == whole
    assert os.listdir(path.parent) == ["sheet.xlsx"]


def test_a_folder_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(FilmReviewError, match="there is no such folder; make it first"):
        write_workbook(sheet(), tmp_path / "none" / "sheet.xlsx")


def test_an_illegal_thing_with_an_open_consequence_says_what_cannot_be_told(tmp_path: Path) -> None:
    """Else "illegal" and "cannot be told" stand together and contradict one another."""
    path = tmp_path / "sheet.xlsx"
    write_workbook(sheet((replace(LINE, consequence="cannot be told"),)), path)
    found = pd.read_excel(path, sheet_name="Findings", keep_default_na=False)
    assert found["Ruling"][0] == "\u25c6 illegal\nwhat follows cannot be told"
    crew = pd.read_excel(path, sheet_name="Crew", keep_default_na=False)
    assert "illegal, what follows cannot be told" in crew["What was found"].tolist()

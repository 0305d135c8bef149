"""CSV, JSON, captions and the web page: each as its reader expects it, with no text that acts."""

import csv
import html.parser
import io
import json
import re
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import av
import jsonschema
import pandas as pd
import pytest
import webvtt
from hypothesis import given, settings
from hypothesis import strategies as st

from filmreview.errors import FilmReviewError, Stopped
from filmreview.facts.region import Polygon
from filmreview.sheets.captions import captions
from filmreview.sheets.csv_file import COLUMNS, held, write_csv
from filmreview.sheets.handover import Departure, HandOver, Procedure
from filmreview.sheets.inert import inert
from filmreview.sheets.json_file import SCHEMA_PATH, document, write_json
from filmreview.sheets.kinds import WRITERS, check_ending, write_sheet
from filmreview.sheets.web_page import write_page
from tests.sheets.small_sheet import FILM, LINE, OTHERS, gym, sheet
from tests.sheets.test_workbook import HOSTILE, SAFE, hostile

ANY_TEXT = st.text(st.characters(codec=None, exclude_categories=())) | st.sampled_from(
    (
        "</script><script>alert(1)</script>",
        '" onload="alert(1)',
        "a\n\n00:00.000 --> 00:01.000\nb",
        "-->",
        "&lt;",
        "=1+1",
        ",",
        '"',
    )
)


def schema_check(made: object) -> None:
    validator = jsonschema.Draft202012Validator(json.loads(SCHEMA_PATH.read_text(encoding="utf-8")))
    validator.validate(made)


# --- by ending


def test_the_ending_says_the_kind(tmp_path: Path) -> None:
    for ending in WRITERS:
        (written,) = write_sheet(sheet(), tmp_path / f"sheet{ending.upper()}")
        assert written.stat().st_size > 100
    with pytest.raises(FilmReviewError, match=r'unknown kind of sheet ".xls"; write ".xlsx" if that is what you mean'):
        check_ending(tmp_path / "sheet.xls")
    with pytest.raises(FilmReviewError, match='unknown kind of sheet "sheet"'):
        write_sheet(sheet(), tmp_path / "sheet")


@pytest.mark.parametrize("ending", [".csv", ".json", ".vtt", ".html"])
def test_nothing_half_written_is_left(tmp_path: Path, ending: str) -> None:
    with pytest.raises(FilmReviewError, match="there is no such folder"):
        write_sheet(sheet(), tmp_path / "none" / f"sheet{ending}")
    assert list(tmp_path.iterdir()) == []


def test_a_page_that_is_stopped_leaves_nothing(tmp_path: Path) -> None:
    def stop(share: float, _: str) -> None:
        if share > 0.3:
            raise Stopped("stopped")

    with pytest.raises(Stopped):
        write_page(sheet(), tmp_path / "sheet.html", stop)
    assert list(tmp_path.iterdir()) == []


# --- CSV (RFC 4180)


def test_csv_reads_back_through_pandas_and_the_standard_library(tmp_path: Path) -> None:
    path = tmp_path / "sheet.csv"
    write_csv(sheet(), path)
    data = path.read_bytes()
    assert data.startswith(b"number,tag,film,time,seconds,"), "a head, and no mark before it"
    assert data.endswith(b"\r\n")
    found = pd.read_csv(path, dtype={"player": str}, keep_default_na=False)
    assert list(found.columns) == list(COLUMNS)
    assert found["seconds"].tolist() == [12.5, 61.0, 1289.75, 12.5]
    assert found["player"].tolist() == ["14", "00", "", "67"]
    assert found["seen"][0] == "\n".join(LINE.seen)
    assert found["region"].tolist() == ["600,200,40,90", "20,30,60,24", "", "1100,500,180,220"]
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file, strict=True))
    assert {len(row) for row in rows} == {len(COLUMNS)}


def test_csv_names_apart_how_sure_the_text_is_and_how_the_crew_dealt_with_it(tmp_path: Path) -> None:
    write_csv(sheet(), tmp_path / "sheet.csv")
    table = pd.read_csv(tmp_path / "sheet.csv", keep_default_na=False)
    assert table["how_sure"].tolist()[:3] == ["published", "published", "memory"]
    assert table["crew_mark"].tolist()[0] == "not seen"
    assert "mark" not in table.columns


def test_csv_holds_formulas_back(tmp_path: Path) -> None:
    path = tmp_path / "sheet.csv"
    write_csv(hostile(), path)
    found = pd.read_csv(path, keep_default_na=False)
    assert found["note"].tolist() == [f"'{SAFE}", "'=1+1"]
    assert not [
        value
        for row in csv.reader(path.open(encoding="utf-8", newline=""))
        for value in row
        if value[:1] in ("=", "+", "-", "@")
    ]


@settings(max_examples=200, deadline=None)
@given(ANY_TEXT)
def test_any_text_goes_through_csv(text: str) -> None:
    file = io.StringIO(newline="")
    csv.writer(file, lineterminator="\r\n").writerow(["a", held(text), "b"])
    ((first, middle, last),) = csv.reader(io.StringIO(file.getvalue(), newline=""), strict=True)
    assert (first, middle.removeprefix("'") if held(text) != inert(text) else middle, last) == ("a", inert(text), "b")


# --- JSON


def full() -> HandOver:
    one = Departure("blood", "half-1.mp4", "2:00.000", "14 returns", "a time-out", "21.5 s", "3-3-7", "a book", "published")
    followed = Procedure(("blood",), "sent out", "illegal", (one,), ("staff beckoned: decides",), "3-3-7", "2023-24")
    lines = (LINE, *OTHERS, replace(LINE, number=5, tag="t9", region=Polygon(((1.0, 2.0), (3.5, 2.0), (3.0, 9.0))), rule="",
                                    reference="", edition="", source="", mark=""))  # fmt: skip
    return sheet(lines, procedure=followed, disputed=("two readings",))


def test_json_is_valid_by_its_schema_and_says_the_same(tmp_path: Path) -> None:
    path = tmp_path / "sheet.json"
    write_json(full(), path)
    made = json.loads(path.read_text(encoding="utf-8"))
    schema_check(made)
    jsonschema.Draft202012Validator.check_schema(json.loads(SCHEMA_PATH.read_text(encoding="utf-8")))
    first = made["findings"][0]
    assert Fraction(first["pts"]) * Fraction(first["time_base"]) - FILM.start.seconds == Fraction(str(first["seconds"])) == 12.5
    assert (first["ruling"], first["crew"], first["region"]) == (
        "illegal", {"mark": "not seen", "time": None, "did": ""}, {"box": [600, 200, 40, 90]},
    )  # fmt: skip
    assert [one["player"] for one in made["findings"]] == ["14", "00", None, "67", "14"]
    assert made["findings"][2]["crew"] is None
    assert sum(one["count"] for one in made["counts"]) == 5


@pytest.mark.parametrize("spoil", ["ruling", "time", "player", "pts", "region"])
def test_the_schema_refuses_what_is_wrong(spoil: str) -> None:
    made = document(full())
    made["findings"][0][spoil] = "wrong" if spoil != "player" else "123"
    with pytest.raises(jsonschema.ValidationError):
        schema_check(made)
    made = document(full())
    del made["findings"][0][spoil]
    with pytest.raises(jsonschema.ValidationError):
        schema_check(made)


def test_hostile_text_stays_text_in_json(tmp_path: Path) -> None:
    path = tmp_path / "sheet.json"
    write_json(hostile(), path)
    made = json.loads(path.read_bytes().decode("utf-8", errors="strict"))
    schema_check(made)
    assert made["findings"][0]["note"] == SAFE


# --- WebVTT (W3C)

STAMP = r"\d{2,}:[0-5]\d:[0-5]\d\.\d{3}"


def cues(made: str) -> Iterator[tuple[str, str, str, list[str]]]:
    """Parse as the W3C syntax says: blocks apart by an empty line, an identifier, timings, text without an arrow."""
    head, *blocks = made.removesuffix("\n").split("\n\n")
    assert head == "WEBVTT"
    for block in blocks:
        if block.startswith("NOTE "):
            assert "-->" not in block
            continue
        name, timing, *text = block.split("\n")
        found = re.fullmatch(rf"({STAMP}) --> ({STAMP})", timing)
        assert found, timing
        assert text
        assert all(line and "-->" not in line and "<" not in line for line in text)
        yield name, found[1], found[2], text


def test_captions_are_as_the_syntax_says_and_in_order() -> None:
    made = list(cues(captions(sheet(), FILM)))
    assert [name for name, *_ in made] == ["t1", "t3", "t2", "t4"]
    assert made[0][1:] == (
        "00:00:12.500", "00:00:16.500",
        ["\u25c6 illegal: Ovvermire 14, arm sleeve", "Rule 3-5-3, so since 2019-20", "Crew: not seen"],
    )  # fmt: skip
    assert made[3][1:3] == ("00:21:29.750", "00:21:30.000"), "not past the end of the film"
    assert all(start < end for _, start, end, _ in made)


def test_another_program_reads_the_captions(tmp_path: Path) -> None:
    """libavformat's own WebVTT reader gives the same times and texts."""
    path = tmp_path / "sheet.vtt"
    write_sheet(hostile(), path)
    with av.open(str(path)) as opened:
        packets = [packet for packet in opened.demux(subtitles=0) if packet.size]
        base = packets[0].time_base
        read = [(packet.pts * base, packet.duration * base, bytes(packet).decode()) for packet in packets]
    assert [(start, length) for start, length, _ in read] == [(Fraction("12.5"), 4)] * 2
    assert "&lt;script&gt;" in read[0][2]


def test_an_independent_parser_reads_the_captions(tmp_path: Path) -> None:
    """webvtt-py, an independent parser, gives the same names, times and texts; it unescapes nothing."""
    path = tmp_path / "sheet.vtt"
    write_sheet(sheet(), path)
    read = webvtt.read(str(path))
    assert [(one.identifier, one.start, one.end) for one in read][:2] == [
        ("t1", "00:00:12.500", "00:00:16.500"), ("t3", "00:00:12.500", "00:00:16.500"),
    ]  # fmt: skip
    assert read[0].lines == ["\u25c6 illegal: Ovvermire 14, arm sleeve", "Rule 3-5-3, so since 2019-20", "Crew: not seen"]
    write_sheet(hostile(), path)
    assert len(webvtt.read(str(path))) == 2


def test_each_film_has_captions_of_its_own(tmp_path: Path) -> None:
    second = replace(FILM, id="f2", path="/films/half-2.mp4")
    both = sheet((LINE, replace(LINE, number=2, tag="t2", film=second)), films=(FILM, second))
    written = write_sheet(both, tmp_path / "sheet.vtt")
    assert [path.name for path in written] == ["sheet-f1.vtt", "sheet-f2.vtt"]
    assert [[name for name, *_ in cues(path.read_text(encoding="utf-8"))] for path in written] == [["t1"], ["t2"]]
    with pytest.raises(FilmReviewError, match="the review has no film, and captions belong to one"):
        write_sheet(sheet((), films=()), tmp_path / "none.vtt")


@settings(max_examples=200, deadline=None)
@given(ANY_TEXT)
def test_any_text_makes_one_cue(text: str) -> None:
    line = replace(LINE, team=text, reference=text or "x", edition=text)
    made = list(cues(captions(sheet((line,), films=(replace(FILM, path=text),)), FILM)))
    assert len(made) == 1
    assert len(made[0][3]) == 3


# --- the web page


class Elements(html.parser.HTMLParser):
    """Every element with its attributes, and all text outside script and style."""

    def __init__(self, page: str) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.words: list[str] = []
        self._inside = ""
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs)))
        self._inside = tag

    def handle_endtag(self, tag: str) -> None:
        if tag == self._inside:
            self._inside = ""

    def handle_data(self, data: str) -> None:
        if self._inside not in ("script", "style"):
            self.words.append(data)

    def all(self, tag: str) -> list[dict[str, str | None]]:
        return [attributes for name, attributes in self.elements if name == tag]


def page_of(made: HandOver, folder: Path) -> Elements:
    path = folder / "sheet.html"
    write_page(made, path)
    return Elements(path.read_text(encoding="utf-8"))


def test_the_page_holds_every_finding_with_picture_and_way_to_the_film(tmp_path: Path) -> None:
    film = replace(FILM, path=str(tmp_path / "a film & more.mp4"))
    page = page_of(sheet([replace(line, film=film) for line in (LINE, *OTHERS)], films=(film,)), tmp_path)
    assert [one["data-ruling"] for one in page.all("article")] == ["illegal", "legal", "cannot be told", "illegal"]
    pictures = page.all("img")
    assert len(pictures) == 4
    assert all(str(one["src"]).startswith("data:image/jpeg;base64,") and one["alt"] for one in pictures)
    ways = [one["href"] for one in page.all("a") if "data-seconds" in one]
    assert ways[:3] == [f"a%20film%20%26%20more.mp4#t={seconds}" for seconds in ("12.5", "61", "1289.75")]
    said = "".join(page.words)
    for words in (
        "left arm, lane line",
        "illegal from 1 July 2024",
        "charged one technical foul",
        "study aid",
        "medical staff",
    ):
        assert words in said, words


def test_the_page_needs_no_network_and_allows_none(tmp_path: Path) -> None:
    page = page_of(sheet(), tmp_path)
    for _, attributes in page.elements:
        for name in ("src", "href", "action", "data", "poster"):
            value = attributes.get(name) or ""
            assert not re.match(r"(?i)\s*(https?:|//|javascript:)", value), value
    policy = next(one["content"] for one in page.all("meta") if one.get("http-equiv") == "Content-Security-Policy")
    assert policy
    assert policy.startswith("default-src 'none'; img-src data:; media-src blob:; style-src 'sha256-")
    assert "unsafe" not in policy


def elements_of(page: Elements) -> list[tuple[str, tuple[str, ...]]]:
    return [(tag, tuple(attributes)) for tag, attributes in page.elements]


def test_hostile_text_adds_no_element_and_no_attribute(tmp_path: Path) -> None:
    wild, calm = page_of(hostile(), tmp_path), page_of(hostile("tame"), tmp_path)
    assert elements_of(wild) == elements_of(calm)
    assert len(wild.all("script")) == 1
    assert not [name for _, attributes in wild.elements for name in attributes if name.startswith("on")]
    said = "".join(wild.words)
    assert said.count(SAFE) > 10, "readable as it was typed"
    assert HOSTILE not in said


@settings(max_examples=60, deadline=None)
@given(ANY_TEXT)
def test_any_text_comes_out_of_the_page_as_it_went_in(tmp_path_factory: pytest.TempPathFactory, text: str) -> None:
    page = page_of(sheet((replace(LINE, note=f"begin{text}end"),), pictures=None), tmp_path_factory.mktemp("page"))
    assert f"begin{inert(text)}end".replace("\r", "\n") in "".join(page.words)
    assert len(page.all("article")) == len(page.all("script")) == 1


def test_the_page_says_of_an_illegal_thing_what_cannot_be_told(tmp_path: Path) -> None:
    write_page(sheet((replace(LINE, consequence="cannot be told"),)), tmp_path / "sheet.html")
    told = (tmp_path / "sheet.html").read_text("utf-8")
    assert "<dt>Consequence</dt><dd>what follows cannot be told</dd>" in told


def test_without_pictures_the_page_says_why(tmp_path: Path) -> None:
    said = "".join(page_of(sheet(pictures=None), tmp_path).words)
    assert said.count("no picture: made without pictures") == 4
    assert gym(FILM, LINE.moment).shape == (720, 1280, 3)

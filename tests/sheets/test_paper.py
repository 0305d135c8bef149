"""The paper: read back by pypdf; every finding with its picture, pages numbered, no text that acts, whole or not at all."""

import io
import re
from collections.abc import Iterator
from dataclasses import replace
from html import unescape
from pathlib import Path

import pytest
from hypothesis import given, settings
from PIL import Image
from pypdf import PdfReader
from pypdf.generic import ArrayObject, DictionaryObject, IndirectObject
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.platypus import Paragraph

from filmreview.cautions import ALL
from filmreview.errors import FilmReviewError, Stopped
from filmreview.review.model import LONGEST_WORDS
from filmreview.sheets import paper_looks as looks
from filmreview.sheets import paper_text
from filmreview.sheets.handover import Ahead, LetterTo
from filmreview.sheets.inert import inert
from filmreview.sheets.paper import _letter, _told, write_paper
from filmreview.sheets.paper_text import markup, register
from tests.sheets.made_up_sheet import made_up_sheet
from tests.sheets.small_sheet import LINE, sheet
from tests.sheets.test_other_kinds import ANY_TEXT, full
from tests.sheets.test_workbook import hostile


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "sheet.pdf"


def said(path: Path) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(path).pages).split())


def things(value: object, seen: set[int]) -> Iterator[DictionaryObject]:
    """Every dictionary in the file."""
    if isinstance(value, IndirectObject):
        if value.idnum in seen:
            return
        seen.add(value.idnum)
        value = value.get_object()
    if isinstance(value, DictionaryObject):
        yield value
        for one in value.values():
            yield from things(one, seen)
    elif isinstance(value, ArrayObject):
        for one in value:
            yield from things(one, seen)


def test_the_paper_tells_what_the_other_kinds_tell(path: Path) -> None:
    letters = (LetterTo("umpire", "U. Thornvex", "To U. Thornvex, umpire. Well seen.", True),)
    write_paper(replace(full(), letters=letters), path)
    text = said(path)
    for words in (
        "Thrunnockby against Ovvermire", "5 December 2023, varsity", "A book of our own, edition 2023-24",
        "What was found: 5 in all", "Done as the book asks: 1", "charged one technical foul to the head coach",
        "No 1 at 0:12.500: Ovvermire 14, arm sleeve", "illegal: fix or leave", "3-5-3, so since 2019-20",
        "left arm, lane line", "illegal from 1 July 2024", "To U. Thornvex, umpire. Well seen.", "built from the findings",
        "21.5 s", "two readings", "study aid", "medical staff", "minors", "Made for the coordinator",
    ):  # fmt: skip
        assert words in text, words


def test_that_nothing_costs_a_foul_is_not_said_while_it_cannot_be_told(path: Path) -> None:
    write_paper(sheet((replace(LINE, number=3, consequence="cannot be told"),), charges=()), path)
    text = said(path)
    assert text.count("No 3: what follows cannot be told, nor whether it costs a foul") == 2  # on the first page, and the table
    assert "Nothing found costs a foul." not in text
    write_paper(sheet((LINE,), charges=()), path)
    assert said(path).count("Nothing found costs a foul.") == 2


def test_the_cautions_stand_on_the_first_page_before_the_findings(path: Path) -> None:
    write_paper(sheet(), path)
    first = " ".join(PdfReader(path).pages[0].extract_text().split())
    for one in ALL:
        assert -1 < first.find(one) < first.index("The game"), one


def test_an_illegal_thing_with_an_open_consequence_says_what_cannot_be_told(path: Path) -> None:
    write_paper(sheet((replace(LINE, consequence="cannot be told"),)), path)
    assert "illegal, what follows cannot be told" in said(path)


def test_every_finding_has_its_picture_its_place_in_the_outline_and_a_way_to_it(path: Path) -> None:
    write_paper(sheet(), path)
    reader = PdfReader(path)
    pictures = [image for page in reader.pages for image in page.images]
    assert len(pictures) == 4
    assert all(Image.open(io.BytesIO(one.data)).size[1] == 330 for one in pictures)
    names = {one["/Title"] for item in reader.outline for one in (item if isinstance(item, list) else [item])}
    assert "No 1 at 0:12.500: Ovvermire 14, arm sleeve" in names
    assert {"The game", "Findings: 4", "Crew", "Book", "Cautions"} <= names
    ways = [note.get_object()["/Dest"] for note in reader.pages[0]["/Annots"]]
    assert [reader.get_page_number(way[0].get_object()) for way in ways] == [2, 1], "praise: No 4; to talk about: No 1"


def test_pages_are_numbered_and_have_their_foot(path: Path) -> None:
    write_paper(sheet([replace(LINE, number=number, tag=f"t{number}") for number in range(1, 17)]), path)
    pages = [" ".join(page.extract_text().split()) for page in PdfReader(path).pages]
    assert len(pages) < 16, "two findings a page"
    for number, page in enumerate(pages, 1):
        assert f"page {number} of {len(pages)}" in page
        assert "a study aid: the official book and officials decide" in page


def test_the_file_is_the_same_each_time_and_says_what_it_is(path: Path) -> None:
    write_paper(sheet(), path)
    first = path.read_bytes()
    write_paper(sheet(), path)
    assert path.read_bytes() == first
    about = PdfReader(path).metadata
    assert about is not None
    assert (about.title, about.author, about.creator) == ("Thrunnockby against Ovvermire", "O. Vanterell", "filmreview 0")


def test_hostile_text_is_readable_and_nothing_in_the_file_acts(path: Path) -> None:
    write_paper(hostile(), path)
    text = said(path)
    assert text.count('=HYPERLINK("http://x.example/","a")') > 8
    assert "<script>alert(1)</script>&P[U+202E]gnp" in text
    found = list(things(PdfReader(path).trailer, set()))
    assert len(found) > 50
    for one in found:
        assert not {"/JS", "/JavaScript", "/OpenAction", "/AA", "/URI", "/AcroForm", "/Launch", "/EmbeddedFiles"} & set(one)


def test_very_long_texts_are_cut_and_the_cut_is_said(path: Path) -> None:
    """32,768 characters, one more than a cell holds; a letter as long as one may be is whole."""
    letter = LetterTo("umpire", "U. Thornvex", ("word " * LONGEST_WORDS)[: LONGEST_WORDS - 4] + "end.", False)
    for long in ("word " * 6553 + "end", "x" * 32_768):
        write_paper(replace(hostile(long), letters=(letter,)), path)
        text = said(path)
        assert text.count("cut here; the workbook holds the whole text") > 8
        assert "wend." in text, "the end of the letter"


def test_letters_no_typeface_has_are_told_by_their_number(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(paper_text, "_wide_letters", frozenset)
    assert markup("a\U0001f3c0\u202eb<c>\n\u0416") == "a[U+1F3C0][U+202E]b&lt;c&gt;<br/>[U+0416][U+202C]"
    assert markup("caf\u00e9 \u00b1 2") == "caf\u00e9 \u00b1 2"


def test_words_from_right_to_left_are_put_down_in_the_order_they_are_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    """Hebrew: shalom olam, "peace world"; the first letter stands on the right (Unicode UAX #9, without numbers in it)."""
    monkeypatch.setattr(paper_text, "_wide_letters", lambda: frozenset(range(0x590, 0x600)))
    made = markup("a \u05e9\u05dc\u05d5\u05dd \u05e2\u05d5\u05dc\u05dd b")
    assert re.sub("<[^>]*>", "", made) == "a \u05dd\u05dc\u05d5\u05e2 \u05dd\u05d5\u05dc\u05e9 b"


@settings(max_examples=300, deadline=None)
@given(ANY_TEXT)
def test_any_text_makes_markup_that_says_the_same(text: str) -> None:
    made = markup(text)
    bare = re.sub(r'<font name="Wide">|</font>', "", made).replace("<br/>", "\n")
    assert "<" not in bare, "no element but our own"
    assert ">" not in bare
    numbered = re.sub(r"\[U\+([0-9A-F]+)\]", lambda found: chr(int(found[1], 16)), unescape(bare))
    assert sorted(numbered) == sorted(inert(text)), "nothing is lost; what is written from right to left changes places"


@settings(max_examples=8, deadline=None)
@given(ANY_TEXT)
def test_any_text_can_be_put_on_paper(tmp_path_factory: pytest.TempPathFactory, text: str) -> None:
    path = tmp_path_factory.mktemp("paper") / "sheet.pdf"
    line = replace(LINE, note=f"begin{text}end", team=text, reference=text, item="jersey")
    write_paper(sheet((line,), pictures=None), path)
    assert "begin" in said(path)


def test_a_stop_or_a_bad_place_leaves_nothing_half_made(path: Path) -> None:
    told: list[float] = []
    write_paper(sheet(), path, lambda share, _: told.append(share))
    assert told == sorted(told)
    assert told[-1] == 1.0
    whole = path.read_bytes()
    for share_of_stop in (0.2, 0.7):

        def stop(share: float, _: str, limit: float = share_of_stop) -> None:
            if share > limit:
                raise Stopped("stopped")

        with pytest.raises(Stopped):
            write_paper(sheet(), path, stop)
        assert path.read_bytes() == whole
    assert [one.name for one in path.parent.iterdir()] == ["sheet.pdf"]
    with pytest.raises(FilmReviewError, match="there is no such folder"):
        write_paper(sheet(), path.parent / "none" / "sheet.pdf")


def test_the_crew_s_paper_names_its_reader(path: Path, tmp_path: Path) -> None:
    write_paper(made_up_sheet(tmp_path / "made-up-game.mp4", "crew"), path)
    text = said(path)
    assert "Made for the crew" in text
    assert "The scorer was told before the throw-in" not in text, "a reply"
    assert "Looks like the navy one from afar" not in text, "a note"


def test_a_letter_stands_line_for_line_and_its_points_hang(path: Path) -> None:
    words = "To U. Thornvex, umpire.\n\nTo talk about:\n- No 1 at 0:12.500: not seen.\n- -"
    write_paper(replace(full(), letters=(LetterTo("umpire", "U. Thornvex", words, False),)), path)
    assert "To talk about: - No 1 at 0:12.500: not seen." in said(path)
    points = [one for one in _letter(words) if isinstance(one, Paragraph) and one.bulletText == "-"]
    assert [one.text for one in points] == ["No 1 at 0:12.500: not seen.", "-"]
    assert all(one.style.leftIndent > 0 for one in points)


def test_the_crew_s_part_is_one_line_of_the_mark_the_time_and_what_was_done() -> None:
    late = replace(LINE, crew_mark="late", crew_time="0:36.400", did="Taken off after that.", official="umpire U. Thornvex")
    assert dict(_told(late))["The crew"] == "late, at 0:36.400: Taken off after that (umpire U. Thornvex)"
    assert dict(_told(replace(LINE, crew_mark="not seen")))["The crew"] == "not seen"


def test_every_label_of_a_finding_fits_beside_its_text() -> None:
    register()
    wordy = replace(
        LINE, crew_mark="late", crew_time="0:12", todo="as asked", could_have_done="otherwise", ruling="cannot be told",
        earlier="otherwise", replies=("agreed",), note="a note", ahead=(Ahead("3-5-4", "1 July 2024", "illegal"),),
    )  # fmt: skip
    told = looks.pairs((label, text or "-") for label, text in _told(wordy))
    assert len(told) == 11
    for one in told:
        wide = stringWidth(one.bulletText, looks.PAIR.bulletFontName, looks.PAIR.bulletFontSize)
        assert wide + looks.PAIR.bulletFontSize <= looks.PAIR.leftIndent, one.bulletText

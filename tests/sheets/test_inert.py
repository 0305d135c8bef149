"""Text made harmless. XML 1.0 (W3C, fifth edition) 2.2 says which characters a document may hold; UAX #9 what turns text."""

import unicodedata
from xml.etree import ElementTree
from xml.sax.saxutils import escape

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmreview.sheets.inert import CELL_LIMIT, cell_text, inert, one_line

ANY_TEXT = st.text(st.characters(codec=None, exclude_categories=()))
HOSTILE = st.text(st.sampled_from("\x00\x01\x08\x0b\x1b\x7f\x9f\r\n\t\ud800\udfff\ufffe\u202e\u2066\u2069\u202c<&>=+-@a"))


@pytest.mark.parametrize(
    ("given_text", "comes_out"),
    [
        ("=1+1", "=1+1"),
        ("plain, d\u00e9j\u00e0 vu \U0001f3c0 \u9577\u3044\u8896", "plain, d\u00e9j\u00e0 vu \U0001f3c0 \u9577\u3044\u8896"),
        ("a\x00b\x1bc", "a\u2400b\u241bc"),
        ("one\r\ntwo\rthree\u2028four", "one\ntwo\nthree\nfour"),
        ("tab\tkept", "tab\tkept"),
        ("half \ud83c pair", "half \ufffd pair"),
        ("\ufffe", "\ufffd"),
        ("gpj.\u202egnp.exe", "gpj.\u202egnp.exe\u202c"),
        ("\u2067\u202babc", "\u2067\u202babc\u202c\u2069"),
        ("\u2067closed\u2069", "\u2067closed\u2069"),
    ],
)
def test_what_comes_out(given_text: str, comes_out: str) -> None:
    assert inert(given_text) == comes_out


@settings(max_examples=300, deadline=None)
@given(ANY_TEXT | HOSTILE)
def test_it_can_stand_in_an_xml_document_and_comes_back(text: str) -> None:
    plain = inert(text)
    document = f"<a>{escape(plain)}</a>".encode()
    assert (ElementTree.fromstring(document).text or "") == plain
    assert inert(plain) == plain
    assert not any(unicodedata.category(one) in ("Cc", "Cs") and one not in "\n\t" for one in plain)


@settings(max_examples=100, deadline=None)
@given(st.text(st.characters(categories=("L", "N", "P", "S", "Zs"))))
def test_ordinary_text_is_left_alone(text: str) -> None:
    assert inert(text) == text


def test_a_cell_takes_no_more_than_its_limit() -> None:
    """32,767 characters: Microsoft, "Excel specifications and limits"."""
    long = cell_text("x" * 40_000)
    assert len(long) == CELL_LIMIT == 32_767
    assert long.endswith("(cut here; the review holds the whole text)")
    assert cell_text("x" * 32_767) == "x" * 32_767


def test_one_line_is_one_line() -> None:
    assert one_line(" a\r\nb\t c\u2028d ") == "a b c d"

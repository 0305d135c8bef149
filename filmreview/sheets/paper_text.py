"""Text for paper: always escaped, in a typeface that has the letters, and where none has them by their number.

The body is set in Vera, which comes with reportlab, so that a sheet looks the same everywhere. Letters it lacks come from a
wide typeface of the machine where there is one; what is then still lacking, and marks that are not seen, are written as
[U+202E].
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from functools import cache
from html import escape
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFError, TTFont

from filmreview.sheets.inert import inert
from filmreview.sheets.right_to_left import laid

BODY, STRONG, _WIDE = "Vera", "VeraBd", "Wide"
_WIDE_PLACES = (
    "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
    "/usr/share/fonts/dejavu-sans-fonts/DejaVuSans.ttf",
    "/usr/share/fonts/TTF/DejaVuSans.ttf",
    "/System/Library/Fonts/Supplemental/Arial Unicode.ttf",
    "C:/Windows/Fonts/segoeui.ttf",
)
_NOT_SEEN = ("Cf", "Cc", "Cn", "Co", "Zl", "Zp")
_MOST = 4000  # characters of a text on paper: a page or so
_MOST_IN_CELL = 700  # characters: a table row must fit on a page
_CUT = " ... (cut here; the workbook holds the whole text)"


def markup(text: str, most: int = _MOST) -> str:
    """The text for a paragraph: harmless, escaped, line ends kept, each letter in a typeface that has it; cut after `most`
    characters, and the cut is said."""
    text = text if len(text) <= most else text[:most] + _CUT
    return "".join(_run(run, wide) for run, wide in _runs(laid(inert(text)))).replace("\n", "<br/>")


def cell_markup(text: str) -> str:
    """The same for a cell of a table: cut when it would not fit on a page."""
    return markup(text, _MOST_IN_CELL)


def _run(run: str, wide: bool) -> str:
    return f'<font name="{_WIDE}">{escape(run)}</font>' if wide else escape(run)


def _runs(text: str) -> Iterator[tuple[str, bool]]:
    """The text in runs, and whether the wide typeface is needed for each."""
    body, other = _letters(BODY) & _letters(STRONG), _wide_letters()
    run, was_wide = "", False
    for letter in text:
        code = ord(letter)
        wide = False
        if letter not in "\n\t" and (unicodedata.category(letter) in _NOT_SEEN or code not in body | other):
            letter = f"[U+{code:04X}]"  # noqa: PLW2901 - written in its place
        else:
            wide = letter not in "\n\t" and code not in body
        if wide != was_wide and run:
            yield run, was_wide
            run = ""
        run, was_wide = run + letter, wide
    if run:
        yield run, was_wide


@cache
def _letters(name: str) -> frozenset[int]:
    """Which characters a typeface of reportlab's own has; it can be written with from then on."""
    font = TTFont(name, f"{name}.ttf")
    pdfmetrics.registerFont(font)
    return frozenset(font.face.charToGlyph)


@cache
def _wide_letters() -> frozenset[int]:
    """Which characters the machine's wide typeface has; none where there is no such typeface."""
    for place in _WIDE_PLACES:
        if Path(place).is_file():
            try:
                font = TTFont(_WIDE, place)
            except TTFError:
                continue
            pdfmetrics.registerFont(font)
            return frozenset(font.face.charToGlyph)
    return frozenset()


def register() -> None:
    """Make the typefaces known to reportlab, once."""
    _letters(BODY)
    _letters(STRONG)
    _wide_letters()
    pdfmetrics.registerFontFamily(BODY, normal=BODY, bold=STRONG, italic=BODY, boldItalic=STRONG)

"""Words drawn into pictures, without a screen: which typeface has which letter, how long a line is, where it breaks.

Set in Vera, which comes with reportlab, as the sheets on paper are. Letters it lacks come from a wide typeface of the machine
where there is one; what is then still lacking, and marks that are not seen, are written by their number, [U+202E], so that
nothing is lost in silence.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import reportlab
from PIL import ImageDraw, ImageFont
from reportlab.pdfbase.ttfonts import TTFError, TTFontFile

from filmreview.sheets.right_to_left import laid

_FOLDER = Path(reportlab.__file__).parent / "fonts"
_PLAIN, _STRONG = _FOLDER / "Vera.ttf", _FOLDER / "VeraBd.ttf"
_WIDE_PLACES = (
    "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
    "/usr/share/fonts/dejavu-sans-fonts/DejaVuSans.ttf",
    "/usr/share/fonts/TTF/DejaVuSans.ttf",
    "/System/Library/Fonts/Supplemental/Arial Unicode.ttf",
    "C:/Windows/Fonts/segoeui.ttf",
)
_NOT_SEEN = ("Cf", "Cc", "Cn", "Co", "Cs", "Zl", "Zp")
LINE = 1.3
"""Height of a line, in sizes of the type."""


@dataclass(frozen=True)
class Type:
    """A typeface at a size in pixels."""

    size: int
    strong: bool = False


def wrapped(text: str, type_: Type, width: int) -> list[str]:
    """The text in lines of at most this many pixels; its own line ends are kept, words too long for a line are cut."""
    lines: list[str] = []
    for paragraph in _shown(text).split("\n"):
        line = ""
        for word in paragraph.split():
            for piece in _pieces(word, type_, width):
                longer = f"{line} {piece}" if line else piece
                if line and length(longer, type_) > width:
                    lines.append(line)
                    longer = piece
                line = longer
        lines.append(line)
    return lines


def length(line: str, type_: Type) -> float:
    """Pixels that a line takes."""
    return sum(_font(place, type_.size).getlength(run, features=None) for run, place in _runs(line, type_))


def draw_line(
    drawing: ImageDraw.ImageDraw, at: tuple[float, float], line: str, type_: Type, shade: tuple[int, int, int]
) -> None:
    """Draw a line of `wrapped`. at: left and top of it."""
    x, y = at
    for run, place in _runs(laid(line), type_):
        font = _font(place, type_.size)
        drawing.text((x, y + type_.size), run, fill=shade, font=font, anchor="ls")
        x += font.getlength(run)


def _pieces(word: str, type_: Type, width: int) -> Iterator[str]:
    """A word in pieces that each fit on a line."""
    piece = ""
    for letter in word:
        if piece and length(piece + letter, type_) > width:
            yield piece
            piece = ""
        piece += letter
    yield piece


def _shown(text: str) -> str:
    """The text with every letter that no typeface has, or that is not seen, by its number."""
    plain = text.replace("\r\n", "\n").replace("\r", "\n").replace("\t", " ")
    return "".join(letter if letter == "\n" or _has(letter) else f"[U+{ord(letter):04X}]" for letter in plain)


def _has(letter: str) -> bool:
    seen = unicodedata.category(letter) not in _NOT_SEEN
    return seen and (ord(letter) in _letters(_PLAIN) & _letters(_STRONG) or ord(letter) in _wide()[1])


def _runs(line: str, type_: Type) -> Iterator[tuple[str, Path]]:
    """The line in runs of one typeface each."""
    own = _STRONG if type_.strong else _PLAIN
    run, before = "", own
    for letter in line:
        place = own if ord(letter) in _letters(own) else _wide()[0]
        if place != before and run:
            yield run, before
            run = ""
        run, before = run + letter, place
    if run:
        yield run, before


@cache
def _font(place: Path, size: int) -> ImageFont.FreeTypeFont:
    # The basic way of setting is the same on every machine; the other one depends on what is installed.
    return ImageFont.truetype(str(place), size, layout_engine=ImageFont.Layout.BASIC)


@cache
def _letters(place: Path) -> frozenset[int]:
    return frozenset(TTFontFile(str(place)).charToGlyph)


@cache
def _wide() -> tuple[Path, frozenset[int]]:
    """The machine's wide typeface and which letters it has; none where there is no such typeface."""
    for place in map(Path, _WIDE_PLACES):
        if place.is_file():
            try:
                return place, _letters(place)
            except TTFError:
                continue
    return _PLAIN, frozenset()

"""Text made harmless: whatever a person typed comes out as readable text, never as a formula, markup or a control code."""

from __future__ import annotations

import re

CELL_LIMIT = 32_767  # characters of one cell, Excel specifications and limits
_CUT = " ... (cut here; the review holds the whole text)"
_LINE_ENDS = re.compile("\r\n?|\u2028|\u2029|\x85")
_UNSAFE = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]")
_TURNED = re.compile("[\u202a-\u202e\u2066-\u2069]")


def inert(text: str) -> str:
    """The text without anything that acts: line ends become plain ones, control characters their pictures (U+2400 block) or the
    replacement character, and marks that would turn the reading direction of what follows are closed again at the end.

    What remains may be written to XML 1.0, JSON, CSV or HTML by a writer that escapes markup.
    """
    plain = _UNSAFE.sub(_visible, _LINE_ENDS.sub("\n", text))
    return _closed(plain) if _TURNED.search(plain) else plain


def one_line(text: str) -> str:
    """The text made harmless, on one line."""
    return " ".join(inert(text).split())


def cell_text(text: str) -> str:
    """The text made harmless and as long as a cell may hold."""
    plain = inert(text)
    return plain if len(plain) <= CELL_LIMIT else plain[: CELL_LIMIT - len(_CUT)] + _CUT


def _visible(found: re.Match[str]) -> str:
    code = ord(found[0])
    if code < 0x20:
        return chr(0x2400 + code)
    return "\u2421" if code == 0x7F else "\ufffd"


def _closed(text: str) -> str:
    """End every embedding, override and isolate that the text begins (Unicode UAX #9), so that nothing after it is turned."""
    opened: list[str] = []
    for character in text:
        if character in "\u202a\u202b\u202d\u202e":
            opened.append("\u202c")
        elif character in "\u2066\u2067\u2068":
            opened.append("\u2069")
        elif character in "\u202c\u2069" and opened and opened[-1] == character:
            opened.pop()
    return text + "".join(reversed(opened))

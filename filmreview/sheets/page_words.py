"""Pieces of the web page: text that is always escaped, tables, lists of pairs, and the drawn shapes of rulings."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from html import escape

from filmreview.sheets.inert import inert

_RING = '<circle cx="8" cy="8" r="6" fill="none" stroke="currentColor" stroke-width="2"/>'
_SHAPES: Mapping[str, str] = {
    "illegal": '<path d="M8 1 15 8 8 15 1 8Z" fill="currentColor"/>',
    "legal": _RING,
    "cannot be told": _RING.replace("/>", ' stroke-dasharray="3 2.3"/>'),
    "ahead": f'{_RING}<path d="M8 2a6 6 0 0 0 0 12Z" fill="currentColor"/>',
}


def text(words: object) -> str:
    """Words as they stand, harmless and escaped; also right inside quotation marks."""
    return escape(inert(str(words)), quote=True)


def person(words: str) -> str:
    """What a person typed: set apart, so that its reading direction turns nothing beside it."""
    return f"<bdi>{text(words)}</bdi>"


def shape(ruling: str) -> str:
    """The drawn shape of a ruling: diamond, ring, dashed ring, half ring. The word beside it says the same."""
    return f'<svg class="shape" viewBox="0 0 16 16" aria-hidden="true">{_SHAPES[ruling]}</svg>'


def ruling_piece(ruling: str) -> str:
    """Shape and word."""
    return f'<span class="ruling {ruling.split(maxsplit=1)[0]}">{shape(ruling)} {text(ruling)}</span>'


def pairs(rows: Iterable[tuple[str, str]]) -> str:
    """A list of label and ready markup; pairs without any are left out."""
    return "<dl>" + "".join(f"<dt>{text(label)}</dt><dd>{markup}</dd>" for label, markup in rows if markup) + "</dl>"


def table(heads: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """A table of plain values; whole numbers stand in the middle."""
    head = "".join(f'<th scope="col">{text(one)}</th>' for one in heads)
    body = "".join("<tr>" + "".join(_cell(value) for value in row) + "</tr>" for row in rows)
    return f'<div class="wide"><table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table></div>'


def _cell(value: object) -> str:
    return f'<td class="number">{value}</td>' if isinstance(value, int) else f"<td>{person(str(value))}</td>"


def section(name: str, heading: str, markup: str) -> str:
    """A part of the page under its heading."""
    return f'<section aria-labelledby="{name}"><h2 id="{name}">{text(heading)}</h2>{markup}</section>\n'

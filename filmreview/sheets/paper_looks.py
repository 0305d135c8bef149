"""The looks of the paper sheet: styles, the drawn shapes of rulings, tables, and the frame of every page."""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from typing import Any

from reportlab.lib.colors import HexColor
from reportlab.lib.pagesizes import LETTER
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import inch
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable, LongTable, Paragraph, TableStyle

from filmreview.sheets.cells import BAND, FAINT, FILLS, HEAD_PAPER, INK
from filmreview.sheets.paper_text import BODY, STRONG, cell_markup, markup

WIDTH, HEIGHT = LETTER
MARGIN = 0.58 * inch
ACROSS = WIDTH - 2 * MARGIN
_LINE = HexColor("#B8C0C5")
_LABEL = 1.75 * inch

PLAIN = ParagraphStyle("plain", fontName=BODY, fontSize=8.3, leading=10.9, textColor=HexColor(f"#{INK}"))
SMALL = ParagraphStyle("small", parent=PLAIN, fontSize=7.6, leading=10)
FAINTER = ParagraphStyle("fainter", parent=PLAIN, textColor=HexColor(f"#{FAINT}"))
TITLE = ParagraphStyle("title", parent=PLAIN, fontName=STRONG, fontSize=18, leading=23, spaceAfter=2)
SECTION = ParagraphStyle(
    "section", parent=PLAIN, fontName=STRONG, fontSize=11, leading=14, spaceBefore=13, spaceAfter=4, keepWithNext=1,
    textColor=HexColor(f"#{HEAD_PAPER}"), borderWidth=0,
)  # fmt: skip
HEADING = ParagraphStyle("heading", parent=PLAIN, fontName=STRONG, fontSize=10, leading=13, spaceAfter=3)
PAIR = ParagraphStyle("pair", parent=PLAIN, leftIndent=_LABEL, bulletIndent=0, bulletFontName=BODY, bulletFontSize=8.3,
                      bulletColor=HexColor(f"#{FAINT}"), spaceAfter=1.5)  # fmt: skip
CENTRED = ParagraphStyle("centred", parent=PLAIN, alignment=1)
POINT = ParagraphStyle("point", parent=PLAIN, leftIndent=10, bulletIndent=0, spaceAfter=2)
HEAD = ParagraphStyle("head", parent=SMALL, fontSize=6.5, leading=8.5, fontName=STRONG, textColor=HexColor("#FFFFFF"))
CENTRED_HEAD = ParagraphStyle("centred head", parent=HEAD, alignment=1)


class Rule(Flowable):
    """A line across the page."""

    def __init__(self, weight: float = 0.5, above: float = 0, below: float = 0) -> None:
        super().__init__()
        self.width, self.height = ACROSS, weight + above + below
        self._weight, self._below = weight, below

    def draw(self) -> None:
        """Draw it."""
        canvas: Canvas = self.canv
        canvas.setStrokeColor(HexColor(f"#{HEAD_PAPER}") if self._weight > 0.5 else _LINE)
        canvas.setLineWidth(self._weight)
        canvas.line(0, self._below, ACROSS, self._below)


class _Packed(ImageReader):
    """A JPEG that is never unpacked: reportlab would do so to name it, and keep all pixels until the end."""

    def __init__(self, jpeg: bytes) -> None:
        super().__init__(io.BytesIO(jpeg))
        self._jpeg, self._dataA = jpeg, None

    def getRGBData(self) -> bytes:  # noqa: N802 - reportlab's name
        """What the picture is named by: the file itself."""
        return self._jpeg


class Picture(Flowable):
    """A JPEG at the left."""

    def __init__(self, jpeg: bytes, width: float, height: float) -> None:
        super().__init__()
        self.width, self.height = width, height
        self._jpeg = jpeg

    def draw(self) -> None:
        """Draw it."""
        canvas: Canvas = self.canv
        canvas.drawImage(_Packed(self._jpeg), 0, 0, self.width, self.height)


class RulingShape(Flowable):
    """The drawn shape of a ruling: diamond, ring, dashed ring, half ring ("ahead")."""

    def __init__(self, ruling: str, size: float = 9) -> None:
        super().__init__()
        self.width = self.height = size
        self._ruling = ruling

    def draw(self) -> None:
        """Draw it."""
        canvas: Canvas = self.canv
        canvas.setStrokeColor(HexColor(f"#{INK}"))
        canvas.setFillColor(HexColor(f"#{INK}"))
        canvas.setLineWidth(1.1)
        half = self.width / 2
        if self._ruling == "illegal":
            path = canvas.beginPath()
            path.moveTo(half, 0)
            for x, y in ((self.width, half), (half, self.width), (0, half)):
                path.lineTo(x, y)
            path.close()
            canvas.drawPath(path, stroke=0, fill=1)
            return
        if self._ruling == "cannot be told":
            canvas.setDash(1.6, 1.4)
        canvas.circle(half, half, half - 1, stroke=1, fill=0)
        if self._ruling == "ahead":
            canvas.wedge(1, 1, self.width - 1, self.width - 1, 90, 180, stroke=0, fill=1)


def pairs(rows: Iterable[tuple[str, str]]) -> list[Flowable]:
    """Labels with their texts beside them; a text may run over pages. Pairs without any are left out."""
    return [Paragraph(markup(text), PAIR, bulletText=label) for label, text in rows if text]


def ruling_cell(ruling: str, words: str = "") -> LongTable:
    """Shape and word."""
    cell = LongTable(
        [[RulingShape(ruling), Paragraph(markup(words or ruling), _bold(PLAIN))]], colWidths=[14, None], hAlign="LEFT"
    )
    cell.setStyle(TableStyle([("VALIGN", (0, 0), (-1, -1), "MIDDLE"), *_tight(0, 1)]))
    return cell


def table(
    heads: Sequence[str], rows: Sequence[Sequence[Any]], widths: Sequence[float], grounds: Sequence[str] = ()
) -> LongTable:
    """A table across the page, its head on every page. widths: shares. Texts are cut to fit; flowables stand as they are.
    grounds: of the rows, by ruling."""
    total = sum(widths)
    body = [[_cell(value) for value in row] for row in rows]
    head = [Paragraph(cell_markup(one), HEAD if place == 0 else CENTRED_HEAD if _centred(rows, place) else HEAD)
            for place, one in enumerate(heads)]  # fmt: skip
    made = LongTable([head, *body], colWidths=[ACROSS * width / total for width in widths], repeatRows=1, hAlign="LEFT")
    style: list[Any] = [
        ("BACKGROUND", (0, 0), (-1, 0), HexColor(f"#{HEAD_PAPER}")), ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LINEBELOW", (0, 0), (-1, -1), 0.4, _LINE), *_tight(2.5, 3),
    ]  # fmt: skip
    style += [("BACKGROUND", (0, row), (-1, row), HexColor(f"#{FILLS[ground]}")) for row, ground in enumerate(grounds, 1)]
    made.setStyle(TableStyle(style))
    return made


def _centred(rows: Sequence[Sequence[Any]], place: int) -> bool:
    return bool(rows) and isinstance(rows[0][place], int)


def _cell(value: object) -> Flowable:
    if isinstance(value, Flowable):
        return value
    if isinstance(value, int):
        return Paragraph(str(value or "\u00b7"), CENTRED)
    return Paragraph(cell_markup(str(value)), SMALL)


def _bold(style: ParagraphStyle) -> ParagraphStyle:
    return ParagraphStyle(f"bold {style.name}", parent=style, fontName=STRONG)


def _tight(sides: float, ends: float) -> list[Any]:
    return [
        ("LEFTPADDING", (0, 0), (-1, -1), sides), ("RIGHTPADDING", (0, 0), (-1, -1), sides),
        ("TOPPADDING", (0, 0), (-1, -1), ends), ("BOTTOMPADDING", (0, 0), (-1, -1), ends),
    ]  # fmt: skip


def band(flowable: Flowable) -> LongTable:
    """A flowable on a light ground across the page."""
    made = LongTable([[flowable]], colWidths=[ACROSS])
    made.setStyle(TableStyle([("BACKGROUND", (0, 0), (-1, -1), HexColor(f"#{BAND}")), *_tight(6, 4)]))
    return made

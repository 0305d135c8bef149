"""What both paper sheets of a lesson share: the page frame, boxes to tick, the still of a question, the lines around it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from reportlab.lib.colors import HexColor
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageTemplate, Paragraph, Spacer

from filmreview.aside import written_aside
from filmreview.lessons.lesson import Lesson
from filmreview.lessons.question import Question
from filmreview.sheets import paper_looks as looks
from filmreview.sheets.cells import FAINT, INK
from filmreview.sheets.inert import one_line
from filmreview.sheets.paper_text import BODY, STRONG, markup, register

ASKED = ParagraphStyle("asked", parent=looks.PLAIN, fontName=STRONG, fontSize=10.5, leading=14, spaceAfter=3)
_STILL_HIGH = 150.0  # points
_BOX = 8.5
_FOOT = "A study aid: the official rule book, local adoptions and the assigned officials decide."


@dataclass(frozen=True)
class Still:
    """The held frame of a question as it is written into the clip. jpeg: the file. width, height: pixels."""

    jpeg: bytes
    width: int
    height: int


Stills = Mapping[str, Still]
"""By the id of the question; one that is missing has no film."""


class Ticks(Flowable):
    """A row of boxes to tick, each with its word, over as many lines as it takes."""

    def __init__(self, label: str, choices: Sequence[str]) -> None:
        super().__init__()
        self._label, self._choices = label, choices
        self._label_style = looks.FAINTER
        self.width, self.height = looks.ACROSS, 16.0

    def draw(self) -> None:
        """Draw it."""
        canvas: Canvas = self.canv
        canvas.setFont(BODY, looks.PLAIN.fontSize)
        canvas.setFillColor(HexColor(f"#{FAINT}"))
        canvas.drawString(0, 4, self._label)
        at = 74.0
        canvas.setFillColor(HexColor(f"#{INK}"))
        canvas.setStrokeColor(HexColor(f"#{INK}"))
        for choice in self._choices:
            canvas.rect(at, 2.5, _BOX, _BOX, stroke=1, fill=0)
            canvas.drawString(at + _BOX + 4, 4, choice)
            at += _BOX + 4 + canvas.stringWidth(choice, BODY, looks.PLAIN.fontSize) + 16


class Line(Flowable):
    """A line to write on, with what belongs there."""

    def __init__(self, label: str, height: float = 20) -> None:
        super().__init__()
        self._label = label
        self.width, self.height = looks.ACROSS, height

    def draw(self) -> None:
        """Draw it."""
        canvas: Canvas = self.canv
        canvas.setFont(BODY, looks.PLAIN.fontSize)
        canvas.setFillColor(HexColor(f"#{FAINT}"))
        canvas.drawString(0, 4, self._label)
        canvas.setStrokeColor(HexColor(f"#{FAINT}"))
        canvas.setLineWidth(0.5)
        canvas.line(74.0, 2, looks.ACROSS, 2)


def write_lesson_paper(lesson: Lesson, path: Path, subject: str, blocks: Iterable[Flowable]) -> None:
    """Write a sheet of a lesson, whole or not at all; raises FilmReviewError when it cannot be written."""
    register()
    with written_aside(path) as aside:
        document = BaseDocTemplate(
            str(aside), pagesize=(looks.WIDTH, looks.HEIGHT), title=one_line(lesson.title), subject=subject, author="",
            creator=lesson.program, invariant=1, pageCompression=1,
        )  # fmt: skip
        frame = Frame(looks.MARGIN, looks.MARGIN, looks.ACROSS, looks.HEIGHT - 2 * looks.MARGIN, 0, 0, 0, 0, id="page")
        document.addPageTemplates(PageTemplate("page", [frame], onPage=_foot))
        document.build(list(blocks))


def still_block(question: Question, stills: Stills) -> Iterator[Flowable]:
    """The still of a question seen on film; nothing for one without film."""
    still = stills.get(question.id)
    if still is not None:
        scale = min(_STILL_HIGH / still.height, looks.ACROSS / still.width)
        yield looks.Picture(still.jpeg, still.width * scale, still.height * scale)
        yield Spacer(1, 4)


def told_block(question: Question) -> Iterator[Flowable]:
    """What is told with a question."""
    if question.told:
        yield Paragraph(markup("; ".join(question.told)), looks.PLAIN)
        yield Spacer(1, 3)


def setting_of(lesson: Lesson) -> str:
    """The one setting that all questions share; "" where they differ."""
    settings = {one.setting for one in lesson.questions}
    return settings.pop() if len(settings) == 1 else ""


def cautions_block(lesson: Lesson) -> Iterator[Flowable]:
    """The cautions under their heading."""
    yield Paragraph("Cautions", looks.SECTION)
    yield looks.Rule(1.2, below=4)
    yield from (Paragraph(markup(text), looks.POINT, bulletText="-") for text in lesson.cautions)


def _foot(canvas: Canvas, _: object) -> None:
    canvas.setFont(BODY, 7.6)
    canvas.setFillColor(HexColor(f"#{FAINT}"))
    canvas.drawString(looks.MARGIN, looks.MARGIN * 0.5 + 2.5, _FOOT)
    canvas.drawRightString(looks.WIDTH - looks.MARGIN, looks.MARGIN * 0.5 + 2.5, f"page {canvas.getPageNumber()}")

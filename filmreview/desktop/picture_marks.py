"""What is drawn over the picture: the region being worked on, the white reference, the marks of kept tags."""

from __future__ import annotations

from dataclasses import dataclass

from PyQt6.QtCore import QPointF, QRectF, Qt
from PyQt6.QtGui import QColor, QPainter, QPalette, QPen

from filmreview.desktop.picture_view import View
from filmreview.desktop.shapes import draw_ruling
from filmreview.facts.region import Box

SHAPE = 18.0  # side of a ruling's shape beside a mark, screen pixels
_CORNER = 7.0


@dataclass(frozen=True)
class Mark:
    """A kept tag as it stands in the picture. ruling: "legal", "illegal" or "cannot be told". words: shown beside it."""

    tag: str
    box: Box
    ruling: str
    ahead: bool = False
    words: str = ""


def rect_of(box: Box, view: View) -> QRectF:
    """Where a box of picture pixels lies on the canvas."""
    left, top = view.to_canvas((box.x, box.y))
    return QRectF(left, top, box.width * view.scale, box.height * view.scale)


def shape_rect(box: Box, view: View) -> QRectF:
    """Where a mark's shape is drawn: beside the box's upper left corner, held inside the canvas."""
    rect = rect_of(box, view)
    left = rect.left() - SHAPE - 2 if rect.left() > SHAPE + 2 else rect.right() + 2
    return QRectF(left, max(0.0, rect.top() - 2), SHAPE, SHAPE)


def draw_mark(painter: QPainter, mark: Mark, view: View) -> None:
    """The box of a kept tag in thin lines and its ruling's shape beside it."""
    _two_tone(painter, rect_of(mark.box, view), Qt.PenStyle.SolidLine, 1.0)
    # Film is mostly darker than paper: the light set of colours, with an edge.
    draw_ruling(painter, shape_rect(mark.box, view), mark.ruling, mark.ahead, QPalette(QColor("black")), halo=True)


def draw_region(painter: QPainter, box: Box, view: View, held: bool) -> None:
    """The region being worked on, with corners to grip and its size while it is held."""
    rect = rect_of(box, view)
    _two_tone(painter, rect, Qt.PenStyle.SolidLine, 2.0)
    painter.setPen(QPen(QColor("black"), 1))
    painter.setBrush(QColor("white"))
    for corner in (rect.topLeft(), rect.topRight(), rect.bottomLeft(), rect.bottomRight()):
        painter.drawRect(QRectF(corner.x() - _CORNER / 2, corner.y() - _CORNER / 2, _CORNER, _CORNER))
    if held:
        _label(painter, QPointF(rect.left(), rect.bottom() + 4), f"{box.width} x {box.height} pixels")


def draw_reference(painter: QPainter, box: Box, view: View) -> None:
    """The white reference, dotted and named."""
    rect = rect_of(box, view)
    _two_tone(painter, rect, Qt.PenStyle.DotLine, 2.0)
    _label(painter, QPointF(rect.left(), rect.bottom() + 4), "white reference")


def _two_tone(painter: QPainter, rect: QRectF, style: Qt.PenStyle, width: float) -> None:
    """A line that shows on any picture: light on dark."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor("black"), width + 1.5))
    painter.drawRect(rect)
    painter.setPen(QPen(QColor("white"), width, style))
    painter.drawRect(rect)


def _label(painter: QPainter, at: QPointF, text: str) -> None:
    size = painter.fontMetrics().size(0, text)
    rect = QRectF(at.x(), at.y(), size.width() + 8, size.height() + 2)
    painter.fillRect(rect, QColor("black"))
    painter.setPen(QColor("white"))
    painter.drawText(rect, Qt.AlignmentFlag.AlignCenter, text)

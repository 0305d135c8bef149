"""What is drawn over the picture: the region being worked on, the white pointed at, the outlines of kept tags."""

from __future__ import annotations

from dataclasses import dataclass

from PyQt6.QtCore import QRectF, Qt
from PyQt6.QtGui import QColor, QPainter, QPainterPath, QPalette, QPen

from filmreview.desktop.picture_view import View
from filmreview.desktop.shapes import draw_ruling
from filmreview.facts.region import Box

SHAPE = 18.0  # side of a ruling's shape beside an outline, screen pixels
_ARM = 9.0  # length of an arm of a region's corner angle, screen pixels


@dataclass(frozen=True)
class TagOutline:
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
    """Where a kept tag's shape is drawn: beside the box's upper left corner, held inside the canvas."""
    rect = rect_of(box, view)
    left = rect.left() - SHAPE - 2 if rect.left() > SHAPE + 2 else rect.right() + 2
    return QRectF(left, max(0.0, rect.top() - 2), SHAPE, SHAPE)


def draw_tag(painter: QPainter, tag: TagOutline, view: View) -> None:
    """The box of a kept tag in thin lines and its ruling's shape beside it."""
    _two_tone(painter, rect_of(tag.box, view), Qt.PenStyle.SolidLine, 1.0)
    # Film is mostly darker than paper: the light set of colours, with an edge.
    draw_ruling(painter, shape_rect(tag.box, view), tag.ruling, tag.ahead, QPalette(QColor("black")), halo=True)


def draw_region(painter: QPainter, box: Box, view: View, held: bool) -> None:
    """The region being worked on: a thin line, a short angle at every corner, and its size while it is held."""
    rect = rect_of(box, view)
    _two_tone(painter, rect, Qt.PenStyle.SolidLine, 1.0)
    _stroke(painter, _angles(rect), 3.0)
    if held:
        write_on_film(painter, rect, view, f"{box.width} x {box.height} pixels")


def draw_reference(painter: QPainter, box: Box, view: View) -> None:
    """The white pointed at, dotted and named."""
    rect = rect_of(box, view)
    _two_tone(painter, rect, Qt.PenStyle.DotLine, 2.0)
    write_on_film(painter, rect, view, "white")


def _two_tone(painter: QPainter, rect: QRectF, style: Qt.PenStyle, width: float) -> None:
    """A line that shows on any picture: light on dark."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor("black"), width + 1.5))
    painter.drawRect(rect)
    painter.setPen(QPen(QColor("white"), width, style))
    painter.drawRect(rect)


def _angles(rect: QRectF) -> QPainterPath:
    """Two short arms along the edges from every corner, at most a third of an edge long."""
    path = QPainterPath()
    across, down = min(_ARM, rect.width() / 3), min(_ARM, rect.height() / 3)
    for x, along in ((rect.left(), across), (rect.right(), -across)):
        for y, upright in ((rect.top(), down), (rect.bottom(), -down)):
            path.moveTo(x + along, y)
            path.lineTo(x, y)
            path.lineTo(x, y + upright)
    return path


def _stroke(painter: QPainter, path: QPainterPath, width: float) -> None:
    for colour, broad in (("black", width + 2.0), ("white", width)):
        cap, join = Qt.PenCapStyle.FlatCap, Qt.PenJoinStyle.MiterJoin
        painter.strokePath(path, QPen(QColor(colour), broad, Qt.PenStyle.SolidLine, cap, join))


def write_on_film(painter: QPainter, rect: QRectF, view: View, text: str) -> None:
    """Words under a box, or over it where the canvas ends: white with a black edge, so that they can be read on any picture."""
    metrics = painter.fontMetrics()
    below = rect.bottom() + 4 + metrics.height()
    base = below - metrics.descent() if below <= view.canvas[1] else rect.top() - 4 - metrics.descent()
    left = max(2.0, min(rect.left(), view.canvas[0] - metrics.horizontalAdvance(text) - 4))
    path = QPainterPath()
    path.addText(left, base, painter.font(), text)
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    edge = QPen(QColor("black"), 3.5, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin)
    painter.strokePath(path, edge)
    painter.fillPath(path, QColor("white"))
    painter.restore()

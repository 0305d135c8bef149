"""How a loop shows on a line of the film strip: a bracket from its start to its end."""

from __future__ import annotations

from fractions import Fraction

from PyQt6.QtCore import QRectF, Qt
from PyQt6.QtGui import QPainter, QPainterPath, QPalette, QPen

from filmreview.desktop.strip_paint import Line

_FOOT = 6.0  # pixels that the bracket's ends reach inwards along the upper edge
Ends = tuple[Fraction, Fraction]


def paint_loop(painter: QPainter, palette: QPalette, line: Line, ends: Ends) -> None:
    """A bracket that lies along the lower edge and stands up at both ends; an end off the line is left out."""
    left, right = (line.scale.x_of(seconds) for seconds in ends)
    top, bottom = line.rect.top() + 2, line.rect.bottom() - 2
    path = QPainterPath()
    path.moveTo(left + _FOOT, top)
    path.lineTo(left, top)
    path.lineTo(left, bottom)
    path.lineTo(max(right, left + 2), bottom)
    path.lineTo(max(right, left + 2), top)
    path.lineTo(max(right, left + 2) - _FOOT, top)
    painter.save()
    painter.setClipRect(QRectF(line.rect))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for role, width in ((QPalette.ColorRole.Base, 5.0), (QPalette.ColorRole.Text, 2.5)):
        painter.strokePath(path, QPen(palette.color(role), width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
    painter.restore()

"""How a loop shows on a line of the film strip: a bracket from its start to its end."""

from __future__ import annotations

from fractions import Fraction

from PyQt6.QtCore import QRectF
from PyQt6.QtGui import QPainter, QPalette

from filmreview.desktop.strip_paint import Line

Ends = tuple[Fraction, Fraction]


def paint_loop(painter: QPainter, palette: QPalette, line: Line, ends: Ends) -> None:
    """A bracket that lies along the upper edge, where nothing is written, and stands down at both ends."""
    left, right = (line.scale.x_of(seconds) for seconds in ends)
    right = max(right, left + 4)
    top, bottom = line.rect.top() + 2.5, line.rect.bottom() - 1
    painter.save()
    painter.setClipRect(QRectF(line.rect))
    bar, colour = QRectF(left, top - 1.5, right - left, 3), palette.color(QPalette.ColorRole.Text)
    for x in (left, right):
        leg = QRectF(x - 1, top, 2, bottom - top)
        painter.fillRect(leg.adjusted(-1, 0, 1, 0), palette.color(QPalette.ColorRole.Base))
        painter.fillRect(leg, colour)
    painter.fillRect(bar, colour)
    painter.restore()

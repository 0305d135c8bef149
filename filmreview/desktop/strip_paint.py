"""How a line of the film strip is painted: stoppages, written times, tags, now."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from PyQt6.QtCore import QPointF, QRectF, Qt
from PyQt6.QtGui import QBrush, QPainter, QPalette, QPen, QPolygonF

from filmreview.desktop.shapes import ruling_stamp
from filmreview.desktop.strip_scale import Scale
from filmreview.film.moment import format_time

SHAPE = 14  # side of a tag's shape, pixels
_TIMES_ROOM = 90.0


@dataclass(frozen=True)
class Stretch:
    """A stretch of film to shade, a stoppage: seconds from the film's start, the end not included. words: its tooltip. open:
    not settled, since it was only proposed or is being set."""

    start: Fraction
    end: Fraction
    words: str = ""
    open: bool = False


@dataclass(frozen=True)
class StripTag:
    """A tag on the strip. seconds: from the film's start. words: its tooltip."""

    tag: str
    seconds: Fraction
    ruling: str
    ahead: bool = False
    words: str = ""


@dataclass(frozen=True)
class Line:
    """One line of the strip: where it lies and what it shows."""

    rect: QRectF
    scale: Scale

    def shape_rect(self, tag: StripTag) -> QRectF:
        """Where a tag's shape is drawn."""
        middle = QPointF(self.scale.x_of(tag.seconds), self.rect.center().y())
        return QRectF(middle.x() - SHAPE / 2, middle.y() - SHAPE / 2, SHAPE, SHAPE)

    def shows(self, seconds: Fraction) -> bool:
        """Whether a time lies on the line."""
        return self.scale.start <= seconds <= self.scale.end


def paint_ground(
    painter: QPainter, palette: QPalette, line: Line, stoppages: Sequence[Stretch], tags: Sequence[StripTag]
) -> None:
    """What stands on a line whatever the time is: stoppages, written times, tags."""
    painter.save()
    painter.setClipRect(line.rect)
    painter.fillRect(line.rect, palette.brush(QPalette.ColorRole.Base))
    for stretch in stoppages:
        _shade(painter, palette, line, stretch)
    _write_times(painter, palette, line, [line.shape_rect(tag) for tag in tags if line.shows(tag.seconds)])
    device = painter.device()
    ratio = device.devicePixelRatioF() if device is not None else 1.0
    for tag in tags:
        if line.shows(tag.seconds):
            stamp = ruling_stamp(tag.ruling, tag.ahead, palette, SHAPE, ratio)
            painter.drawPixmap(line.shape_rect(tag).topLeft(), stamp)
    painter.restore()


def paint_begun(painter: QPainter, palette: QPalette, line: Line, begun: Fraction, now: Fraction) -> None:
    """A stoppage that is being set, from where it began to now or the other way round."""
    start, end = sorted((begun, now))
    painter.save()
    painter.setClipRect(line.rect)
    _shade(painter, palette, line, Stretch(start, end, open=True))
    painter.restore()


def paint_now(painter: QPainter, palette: QPalette, line: Line, now: Fraction) -> None:
    """Where the film is on a line, and the line's edge, over the ground."""
    painter.save()
    painter.setClipRect(line.rect)
    _draw_now(painter, palette, line, now)
    painter.restore()
    painter.setPen(QPen(palette.color(QPalette.ColorRole.Mid), 1))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(line.rect)


def paint_window(painter: QPainter, palette: QPalette, whole: Line, near: Line) -> None:
    """On the whole film: which part of it the other line shows."""
    left, right = whole.scale.x_of(near.scale.start), whole.scale.x_of(near.scale.end)
    painter.setPen(QPen(palette.color(QPalette.ColorRole.Text), 1))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(QRectF(left, whole.rect.top() + 1, max(3.0, right - left), whole.rect.height() - 2))


def _shade(painter: QPainter, palette: QPalette, line: Line, stretch: Stretch) -> None:
    left, right = line.scale.x_of(stretch.start), line.scale.x_of(stretch.end)
    rect = QRectF(left, line.rect.top(), max(2.0, right - left), line.rect.height())
    if stretch.open:
        _shade_open(painter, palette, rect)
        return
    painter.fillRect(rect, palette.brush(QPalette.ColorRole.Midlight))
    painter.fillRect(rect, QBrush(palette.color(QPalette.ColorRole.Mid), Qt.BrushStyle.BDiagPattern))


def _shade_open(painter: QPainter, palette: QPalette, rect: QRectF) -> None:
    """Dots and a dashed edge: told from a settled one by its pattern, not by colour."""
    painter.fillRect(rect, QBrush(palette.color(QPalette.ColorRole.Mid), Qt.BrushStyle.Dense6Pattern))
    painter.setPen(QPen(palette.color(QPalette.ColorRole.Dark), 1, Qt.PenStyle.DashLine))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(rect.adjusted(0, 0, -1, -1))


def _write_times(painter: QPainter, palette: QPalette, line: Line, shapes: Sequence[QRectF]) -> None:
    painter.setPen(palette.color(QPalette.ColorRole.PlaceholderText))
    for seconds in line.scale.written_times(_TIMES_ROOM):
        x = line.scale.x_of(seconds)
        painter.drawLine(QPointF(x, line.rect.bottom() - 5), QPointF(x, line.rect.bottom()))
        text = format_time(seconds).removesuffix(".000")
        left = time_left(x, painter.fontMetrics().horizontalAdvance(text), line.rect, shapes)
        if left is not None:
            painter.drawText(QPointF(left, line.rect.bottom() - 3), text)


def time_left(x: float, width: float, line: QRectF, shapes: Sequence[QRectF]) -> float | None:
    """Where a time of that width is written beside its stroke at x: after it, or before it where a tag's shape lies in the way;
    None where shapes are on both sides, and the stroke alone must do."""
    for left in (x + 3, x - 3 - width):
        clear = not any(shape.left() < left + width + 1 and shape.right() > left - 1 for shape in shapes)
        if clear and line.left() <= left and left + width <= line.right():
            return left
    return None


def _draw_now(painter: QPainter, palette: QPalette, line: Line, now: Fraction) -> None:
    x = line.scale.x_of(now)
    painter.setPen(QPen(palette.color(QPalette.ColorRole.Base), 4))
    painter.drawLine(QPointF(x, line.rect.top()), QPointF(x, line.rect.bottom()))
    colour = palette.color(QPalette.ColorRole.Highlight)
    painter.setPen(QPen(colour, 2))
    painter.drawLine(QPointF(x, line.rect.top()), QPointF(x, line.rect.bottom()))
    painter.setBrush(colour)
    painter.setPen(Qt.PenStyle.NoPen)
    top = line.rect.top()
    painter.drawPolygon(QPolygonF([QPointF(x - 5, top), QPointF(x + 5, top), QPointF(x, top + 6)]))

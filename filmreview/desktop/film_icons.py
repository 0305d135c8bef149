"""The icons of the film's controls, drawn in the palette's own colour so that they are seen on light and dark."""

from __future__ import annotations

from collections.abc import Callable

from PyQt6.QtCore import QPointF, QRectF, Qt
from PyQt6.QtGui import QColor, QIcon, QPainter, QPalette, QPen, QPixmap, QPolygonF

SIDE = 16


def film_icon(name: str, palette: QPalette) -> QIcon:
    """One of "play", "pause", "back", "forward", "sound", "silent"."""
    icon = QIcon()
    for mode, group in ((QIcon.Mode.Normal, QPalette.ColorGroup.Active), (QIcon.Mode.Disabled, QPalette.ColorGroup.Disabled)):
        colour = palette.color(group, QPalette.ColorRole.ButtonText)
        for ratio in (1, 2, 3):
            icon.addPixmap(_drawn(_DRAWINGS[name], colour, ratio), mode)
    return icon


def _drawn(draw: Callable[[QPainter], None], colour: QColor, ratio: int) -> QPixmap:
    pixmap = QPixmap(SIDE * ratio, SIDE * ratio)
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(colour, 1.6))
    painter.setBrush(colour)
    draw(painter)
    painter.end()
    return pixmap


def _triangle(painter: QPainter, left: float, right: float) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.drawPolygon(QPolygonF([QPointF(left, 3), QPointF(left, 13), QPointF(right, 8)]))


def _bar(painter: QPainter, left: float) -> None:
    painter.fillRect(QRectF(left, 3, 2.6, 10), painter.brush())


def _play(painter: QPainter) -> None:
    _triangle(painter, 4, 13)


def _pause(painter: QPainter) -> None:
    _bar(painter, 4)
    _bar(painter, 9.4)


def _back(painter: QPainter) -> None:
    _bar(painter, 11)
    _triangle(painter, 10, 3)


def _forward(painter: QPainter) -> None:
    _bar(painter, 2.4)
    _triangle(painter, 6, 13)


def _loudspeaker(painter: QPainter) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    points = ((2, 6), (5, 6), (8.5, 2.8), (8.5, 13.2), (5, 10), (2, 10))
    painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in points]))
    painter.setPen(QPen(painter.brush().color(), 1.5))
    painter.setBrush(Qt.BrushStyle.NoBrush)


def _sound(painter: QPainter) -> None:
    _loudspeaker(painter)
    painter.drawArc(QRectF(7, 4.5, 5, 7), -60 * 16, 120 * 16)
    painter.drawArc(QRectF(7, 2.5, 8, 11), -60 * 16, 120 * 16)


def _silent(painter: QPainter) -> None:
    _loudspeaker(painter)
    painter.drawLine(QPointF(10.5, 5.5), QPointF(14.5, 10.5))
    painter.drawLine(QPointF(14.5, 5.5), QPointF(10.5, 10.5))


_DRAWINGS: dict[str, Callable[[QPainter], None]] = {
    "play": _play, "pause": _pause, "back": _back, "forward": _forward, "sound": _sound, "silent": _silent,
}  # fmt: skip

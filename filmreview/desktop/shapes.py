"""The drawn shapes of a ruling, the same everywhere: strip, picture, card, ledger, wear board.

ring = legal, diamond = illegal, dashed ring = cannot be told; a half ring around it = ahead (illegal from a later day on); a
dot where no ruling is to be seen: it is being ruled, or hidden until the own call.
Shape and word tell, colour only helps: the hues follow Okabe and Ito, "Color Universal Design" (2008: bluish green, vermilion,
blue, and grey), made to be told apart by colour-blind eyes; darkened on light grounds and lightened on dark ones to stand out
from them by 3:1 or more (WCAG 2.2, 1.4.11).
"""

from __future__ import annotations

import math

from PyQt6.QtCore import QPointF, QRectF, QSize, Qt
from PyQt6.QtGui import QColor, QIcon, QPainter, QPalette, QPen, QPixmap, QPixmapCache, QPolygonF

RULINGS = ("legal", "illegal", "cannot be told")
_ON_LIGHT = {"legal": "#007d5a", "illegal": "#c04f00", "cannot be told": "#5a5a5a", "ahead": "#0072b2"}
_ON_DARK = {"legal": "#2fc79a", "illegal": "#ff8a3c", "cannot be told": "#b8b8b8", "ahead": "#56b4e9"}


def is_dark(palette: QPalette) -> bool:
    """Whether the palette paints light words on a dark ground."""
    return palette.color(QPalette.ColorRole.Base).lightness() < 128


def ruling_colour(word: str, palette: QPalette) -> QColor:
    """The help colour of "legal", "illegal", "cannot be told" or "ahead" on this palette's ground; an unknown word gets the
    colour of "cannot be told"."""
    hues = _ON_DARK if is_dark(palette) else _ON_LIGHT
    return QColor(hues.get(word, hues["cannot be told"]))


def draw_ruling(
    painter: QPainter,
    rect: QRectF,
    ruling: str,
    ahead: bool = False,
    palette: QPalette | None = None,
    halo: bool = False,
) -> None:
    """Draw the shape of a ruling inside a rectangle (logical pixels, 8 or more on a side).

    palette: whose ground it stands on; a light one when None. halo: a black and white edge under it, for drawing on film.
    """
    palette = palette or QPalette(QColor("white"))
    side = min(rect.width(), rect.height())
    square = QRectF(0, 0, side, side)
    square.moveCenter(rect.center())
    width = max(1.5, side / 9)
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    inner = QRectF(square.left() - width / 2, square.top() + side * 0.12, side * 0.76, side * 0.76) if ahead else square
    strokes = [(QColor("black"), width + 3.0), (QColor("white"), width + 1.5)] if halo else []
    for colour, thick in strokes:
        _draw_main(painter, inner, ruling, QPen(colour, thick), width)
        if ahead:
            _draw_half_ring(painter, square, QPen(colour, thick), width)
    _draw_main(painter, inner, ruling, QPen(ruling_colour(ruling, palette), width), width)
    if ahead:
        _draw_half_ring(painter, square, QPen(ruling_colour("ahead", palette), width), width)
    painter.restore()


def ruling_stamp(ruling: str, ahead: bool, palette: QPalette, side: int, ratio: float = 1.0) -> QPixmap:
    """The shape as a square picture, for places that show hundreds: drawn once for a size, a ground and a screen.

    side: logical pixels. ratio: device pixels to one of them.
    """
    key = f"filmreview ruling {ruling} {ahead} {is_dark(palette)} {side} {ratio}"
    known: QPixmap | None = QPixmapCache.find(key)
    if known is not None:
        return known
    pixmap = QPixmap(QSize(side, side) * ratio)
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    draw_ruling(painter, QRectF(0, 0, side, side), ruling, ahead, palette)
    painter.end()
    QPixmapCache.insert(key, pixmap)
    return pixmap


def ruling_icon(ruling: str, ahead: bool, palette: QPalette, size: int = 16) -> QIcon:
    """The shape as an icon, drawn for screens of one, two and three device pixels to the logical one."""
    icon = QIcon()
    for ratio in (1, 2, 3):
        icon.addPixmap(ruling_stamp(ruling, ahead, palette, size, ratio))
    return icon


def row_icon(ruling: str, ahead: bool, palette: QPalette, size: int = 16) -> QIcon:
    """The same for the row of a table; in a chosen row with an edge, since a style may choose any ground for it."""
    icon = ruling_icon(ruling, ahead, palette, size)
    for ratio in (1, 2, 3):
        pixmap = QPixmap(size * ratio, size * ratio)
        pixmap.setDevicePixelRatio(ratio)
        pixmap.fill(Qt.GlobalColor.transparent)
        painter = QPainter(pixmap)
        draw_ruling(painter, QRectF(1, 1, size - 2, size - 2), ruling, ahead, palette, halo=True)
        painter.end()
        icon.addPixmap(pixmap, QIcon.Mode.Selected)
    return icon


def _draw_main(painter: QPainter, square: QRectF, ruling: str, pen: QPen, width: float) -> None:
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    inner = square.adjusted(width, width, -width, -width)
    if not ruling:
        _draw_dot(painter, inner, pen)
        return
    if ruling == "illegal":
        painter.setPen(pen)
        painter.drawPolygon(_diamond(inner))
        return
    if ruling != "legal":
        dash = math.pi * inner.width() / pen.widthF() / 6  # six dashes round the ring, counted in widths of the pen
        pen.setDashPattern([dash * 0.55, dash * 0.45])
    painter.setPen(pen)
    painter.drawEllipse(inner)


def _draw_dot(painter: QPainter, rect: QRectF, pen: QPen) -> None:
    radius = rect.width() / 8 + pen.widthF() / 2
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(pen.color())
    painter.drawEllipse(rect.center(), radius, radius)
    painter.setBrush(Qt.BrushStyle.NoBrush)


def _diamond(rect: QRectF) -> QPolygonF:
    middle = rect.center()
    top, bottom = QPointF(middle.x(), rect.top()), QPointF(middle.x(), rect.bottom())
    return QPolygonF([top, QPointF(rect.right(), middle.y()), bottom, QPointF(rect.left(), middle.y())])


def _draw_half_ring(painter: QPainter, square: QRectF, pen: QPen, width: float) -> None:
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    painter.setPen(pen)
    inset = width / 2 + 0.5
    painter.drawArc(square.adjusted(inset, inset, -inset, -inset), -90 * 16, 180 * 16)

"""What is drawn over the picture beside the region being worked on: the white pointed at, the outlines of kept tags."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PyQt6.QtCore import QRectF, Qt
from PyQt6.QtGui import QColor, QPainter, QPainterPath, QPalette, QPen

from filmreview.desktop.picture_view import View
from filmreview.desktop.region_outline import draw_outline, outline_on, rect_on, two_tone
from filmreview.desktop.shapes import draw_ruling
from filmreview.facts.region import Box, Region
from filmreview.measure.shape import bounds_of

SHAPE = 18.0  # side of a ruling's shape beside an outline, screen pixels


@dataclass(frozen=True)
class TagOutline:
    """A kept tag as it stands in the picture. ruling: "legal", "illegal" or "cannot be told". words: shown beside it."""

    tag: str
    region: Region
    ruling: str
    ahead: bool = False
    words: str = ""

    @property
    def box(self) -> Box:
        """The smallest box around its region."""
        return bounds_of(self.region)


def shape_rect(box: Box, view: View) -> QRectF:
    """Where a kept tag's shape is drawn: beside the box's upper left corner, held inside the canvas."""
    rect = rect_on(box, view)
    left = rect.left() - SHAPE - 2 if rect.left() > SHAPE + 2 else rect.right() + 2
    return QRectF(left, max(0.0, rect.top() - 2), SHAPE, SHAPE)


def draw_tag(painter: QPainter, tag: TagOutline, view: View) -> None:
    """The outline of a kept tag's region in thin lines and its ruling's shape beside it."""
    draw_outline(painter, tag.region, view)
    # Film is mostly darker than paper: the light set of colours, with an edge.
    draw_ruling(painter, shape_rect(tag.box, view), tag.ruling, tag.ahead, QPalette(QColor("black")), halo=True)


def draw_reference(painter: QPainter, region: Region, view: View) -> None:
    """The white pointed at, dotted and named."""
    two_tone(painter, outline_on(region, view), Qt.PenStyle.DotLine, 2.0)
    write_on_film(painter, rect_on(bounds_of(region), view), view, "white")


def write_on_film(painter: QPainter, rect: QRectF, view: View, text: str, beside: Sequence[QRectF] = ()) -> QRectF:
    """Words under a box, or over it where the canvas ends: white with a black edge, so that they can be read on any picture.
    beside: where other words stand, which these keep clear of where there is room. Returns where they are."""
    metrics = painter.fontMetrics()
    place = words_place(rect, (metrics.horizontalAdvance(text), metrics.height()), view.canvas, beside)
    left, base = place.left(), place.bottom() - metrics.descent()
    path = QPainterPath()
    path.addText(left, base, painter.font(), text)
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    edge = QPen(QColor("black"), 3.5, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin)
    painter.strokePath(path, edge)
    painter.fillPath(path, QColor("white"))
    painter.restore()
    return place


def words_place(rect: QRectF, words: tuple[float, float], canvas: tuple[float, float], beside: Sequence[QRectF] = ()) -> QRectF:
    """Where words of this width and height stand: under the box, over it, further under or over; the first place that is inside
    the canvas (width, height) and clear of the words beside."""
    width, height = words
    left = max(2.0, min(rect.left(), canvas[0] - width - 4))
    tops = [top for n in range(3) for top in (rect.bottom() + 4 + n * height, rect.top() - 4 - (n + 1) * height)]
    places = [QRectF(left, top, width, height) for top in tops]
    inside = [place for place in places if place.top() >= 0 and place.bottom() <= canvas[1]] or places[1:2]
    return next((place for place in inside if not any(place.intersects(other) for other in beside)), inside[0])

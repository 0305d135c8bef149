"""How regions look on the picture: their outlines, their handles, the brush. Lines that show on any film: light on dark."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from PyQt6.QtCore import QPointF, QRectF, Qt
from PyQt6.QtGui import QColor, QPainter, QPainterPath, QPen, QPolygonF, QTransform

from filmreview.desktop.picture_view import Point, View
from filmreview.desktop.region_brush import Stroke
from filmreview.desktop.region_parts import WHOLE, Kind, Part, contains, knob_of, middle_of, side_middles
from filmreview.facts.region import Box, Patch, Polygon, Region
from filmreview.measure.shape import Mask, bounds_of, mask_of

_ARM = 9.0  # length of an arm of a box's corner angle, screen pixels
_HANDLE = 4.0  # half of a handle's side, screen pixels


def outline_on(region: Region, view: View) -> QPainterPath:
    """The outline of a region on the canvas."""
    return _turn(view).map(_outline(region))


def _turn(view: View) -> QTransform:
    return QTransform(view.scale, 0, 0, view.scale, view.left, view.top)


@lru_cache(maxsize=64)
def _outline(region: Region) -> QPainterPath:
    """The outline in picture pixels; a patch's follows the edges of its pixels."""
    path = QPainterPath()
    if isinstance(region, Box):
        path.addRect(QRectF(region.x, region.y, region.width, region.height))
    elif isinstance(region, Polygon):
        path.addPolygon(QPolygonF([QPointF(x, y) for x, y in region.points]))
        path.closeSubpath()
    else:
        box, mask = mask_of(region, region.box.right, region.box.bottom)
        path = edges_of(mask, (box.x, box.y))
    return path


def edges_of(mask: Mask, corner: tuple[int, int]) -> QPainterPath:
    """The edges between pixels that belong to a mask (height, width) and those that do not. corner: where the mask's upper left
    pixel lies in the picture. Lines of many pixels are one; they are not joined to figures, which would take long."""
    padded = np.pad(mask, 1)
    path = QPainterPath()
    for across, changes in ((True, padded[1:] ^ padded[:-1]), (False, (padded[:, 1:] ^ padded[:, :-1]).T)):
        ends = np.diff(np.pad(changes, ((0, 0), (1, 1))).astype(np.int8), axis=1)
        rows, starts = np.nonzero(ends == 1)
        _, stops = np.nonzero(ends == -1)
        for row, start, stop in zip(rows.tolist(), starts.tolist(), stops.tolist(), strict=True):
            one, two = (start - 1, row), (stop - 1, row)
            for place, go in ((one, path.moveTo), (two, path.lineTo)):
                x, y = place if across else place[::-1]
                go(corner[0] + x, corner[1] + y)
    return path


def draw_outline(painter: QPainter, region: Region, view: View, style: Qt.PenStyle = Qt.PenStyle.SolidLine) -> None:
    """The outline alone, in thin lines."""
    two_tone(painter, outline_on(region, view), style, 1.0)


def two_tone(painter: QPainter, path: QPainterPath, style: Qt.PenStyle, width: float) -> None:
    """A line that shows on any picture: light on dark."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.strokePath(path, QPen(QColor("black"), width + 1.5))
    painter.strokePath(path, QPen(QColor("white"), width, style))


def draw_stroke(painter: QPainter, stroke: Stroke, view: View) -> None:
    """A patch while the brush is on it."""
    mask, corner = stroke.painted
    two_tone(painter, _turn(view).map(edges_of(mask, corner)), Qt.PenStyle.SolidLine, 1.0)


def draw_handles(painter: QPainter, region: Region, view: View, held: Part) -> None:
    """What of the region can be taken hold of, the part that keys hold filled."""
    if isinstance(region, Box):
        _stroke(painter, _angles(rect_on(region, view)), 3.0)
    if isinstance(region, Polygon):
        for middle in side_middles(region):
            _knob(painter, view.to_canvas(middle), 2.0, False)
        for corner in region.points:
            _knob(painter, view.to_canvas(corner), _HANDLE, False)
    if isinstance(region, Patch):
        _knob(painter, view.to_canvas(knob_of(region)), _HANDLE, False)
    if held != WHOLE and held.kind is not Kind.BRUSH:
        _knob(painter, view.to_canvas(place_of(region, held)), _HANDLE + 1, True)


def place_of(region: Region, part: Part) -> Point:
    """Where a part's handle is, in picture pixels."""
    if isinstance(region, Polygon) and part.kind is Kind.CORNER:
        return region.points[min(part.number, len(region.points) - 1)]
    box, (x, y) = bounds_of(region), middle_of(region)
    grip = part.grip
    across = box.x if grip.left else box.right if grip.right else x
    return (across, box.y if grip.top else box.bottom if grip.bottom else y)


def draw_brush(painter: QPainter, at: Point, across: int, view: View, region: Region | None) -> None:
    """The ring that the brush covers; dotted outside the patch, so that it is seen whether it paints or is on it already."""
    ring = QPainterPath()
    ring.addEllipse(QPointF(*view.to_canvas(at)), across / 2 * view.scale, across / 2 * view.scale)
    on_it = region is not None and contains(region, at)
    two_tone(painter, ring, Qt.PenStyle.SolidLine if on_it else Qt.PenStyle.DotLine, 1.0)


def draw_corners(painter: QPainter, corners: tuple[Point, ...], pointer: Point | None, view: View) -> None:
    """A polygon being drawn: the corners so far, and the line to the pointer (picture pixels)."""
    path = QPainterPath(QPointF(*view.to_canvas(corners[0])))
    for corner in corners[1:]:
        path.lineTo(QPointF(*view.to_canvas(corner)))
    two_tone(painter, path, Qt.PenStyle.SolidLine, 1.0)
    if pointer is not None:
        rest = QPainterPath(QPointF(*view.to_canvas(corners[-1])))
        rest.lineTo(QPointF(*view.to_canvas(pointer)))
        two_tone(painter, rest, Qt.PenStyle.DashLine, 1.0)
    for number, corner in enumerate(corners):
        _knob(painter, view.to_canvas(corner), _HANDLE + (2.0 if number == 0 else 0.0), False)


def rect_on(box: Box, view: View) -> QRectF:
    """Where a box of picture pixels lies on the canvas."""
    left, top = view.to_canvas((box.x, box.y))
    return QRectF(left, top, box.width * view.scale, box.height * view.scale)


def _knob(painter: QPainter, at: Point, half: float, filled: bool) -> None:
    rect = QRectF(at[0] - half, at[1] - half, 2 * half, 2 * half)
    painter.setPen(QPen(QColor("black"), 1.5))
    painter.setBrush(QColor("black" if filled else "white"))
    painter.drawRect(rect)
    if filled:
        painter.setPen(QPen(QColor("white"), 1.5))
        painter.drawRect(rect.adjusted(1.5, 1.5, -1.5, -1.5))
    painter.setBrush(Qt.BrushStyle.NoBrush)


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

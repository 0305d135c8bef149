"""The picture: one canvas of our own that paints every frame, playing or paused, with the kept tags on it.

In: numpy pictures, a region, the outlines of kept tags. Out: what the person does, as signals; the canvas decides nothing.
What is drawn by hand lies beside it: regions (`region_tool`), points (`picture_points`).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from PyQt6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, pyqtSignal
from PyQt6.QtGui import (
    QFocusEvent,
    QHelpEvent,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPalette,
    QPen,
    QResizeEvent,
    QWheelEvent,
)
from PyQt6.QtWidgets import QSizePolicy, QToolTip, QWidget

from filmreview.desktop.picture_drag import Drag, DragKind, drag_kind
from filmreview.desktop.picture_line import shortened
from filmreview.desktop.picture_points import PointTool
from filmreview.desktop.picture_region import inside
from filmreview.desktop.picture_tags import TagOutline, draw_reference, draw_tag, shape_rect
from filmreview.desktop.picture_view import View
from filmreview.desktop.picture_white import WhiteAim
from filmreview.desktop.region_outline import draw_outline, rect_on
from filmreview.desktop.region_parts import Kind, Part
from filmreview.desktop.region_tool import RegionTool
from filmreview.facts.region import Box, Region
from filmreview.measure.shape import bounds_of

_ZOOM_STEP = 1.25
_PAN_STEP = 0.1  # of the canvas that a key goes
_SHARP_FROM = 3.0  # device pixels for one picture pixel from which its true pixels are shown instead of a smooth blend
_ARROWS = {Qt.Key.Key_Left: (1, 0), Qt.Key.Key_Right: (-1, 0), Qt.Key.Key_Up: (0, 1), Qt.Key.Key_Down: (0, -1)}
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
_NEARER, _FARTHER = (Qt.Key.Key_Plus, Qt.Key.Key_Equal), Qt.Key.Key_Minus


class PictureCanvas(QWidget):
    """Shows one picture of the film and lets a person look closer and point at things.

    Wheel zooms on the pointer, middle-drag or space-drag pans, double click fits. Drag draws a region (`regions` tells all of
    it), Shift-drag points at white (by keys: `WhiteAim`). With the focus here + and - zoom, Ctrl+arrows pan, Enter asks for a
    tag without a region.
    All regions are in pixels of the upright picture. `only_look`: a drag pans, nothing can be drawn.
    """

    region_drawn = pyqtSignal(object)  # Region: a new one, when it is finished
    region_changed = pyqtSignal(object)  # Region: moved or reshaped, by mouse (on release) or keys
    region_dropped = pyqtSignal()  # the Delete key took the region away
    reference_drawn = pyqtSignal(object)  # Box: the white reference pointed at
    drawing_started = pyqtSignal()  # something begins to be drawn: the film had better pause
    tag_wanted = pyqtSignal()  # the Enter key asked for a tag without a region
    tag_chosen = pyqtSignal(str)  # the id of the tag whose outline was clicked
    space_tapped = pyqtSignal()  # the space bar was pressed and let go without a drag
    zoom_changed = pyqtSignal(float)  # screen pixels (device independent) for one picture pixel
    view_changed = pyqtSignal(object)  # View: zoomed, panned, or the canvas has another size

    def __init__(self, parent: QWidget | None = None, name: str = "Picture", only_look: bool = False) -> None:
        super().__init__(parent)
        self._only_look = only_look
        self._picture: np.ndarray | None = None  # the image below reads its memory
        self._image: QImage | None = None
        self._view = View()
        self._reference: Region | None = None
        self._tags: tuple[TagOutline, ...] = ()
        self._others: tuple[Region, ...] = ()
        self._info = ""
        self._pointing = False
        self._aim = WhiteAim()
        self._space = False
        self._space_used = False
        self._drag: Drag | None = None
        self.points = PointTool(self)
        self.regions = RegionTool(self, only_look)
        self._connect_tools()
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setMinimumSize(180, 76)  # so that all places are in sight on 683 x 384, a small screen at 200 %
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self._show_cursor(None)

    def _connect_tools(self) -> None:
        self.points.shown.connect(self._describe)
        self.regions.shown.connect(self._describe)
        self.regions.drawn.connect(self.region_drawn)
        self.regions.changed.connect(self.region_changed)
        self.regions.dropped.connect(self.region_dropped)
        self.regions.started.connect(self.drawing_started)

    def sizeHint(self) -> QSize:
        """Room for a picture to work on."""
        return QSize(860, 520)

    # What is shown

    def show_picture(self, picture: np.ndarray | None) -> None:
        """Show a picture: uint8, (height, width, 3), R'G'B'; None shows the empty ground. Keeps zoom and region."""
        if picture is None:
            self._picture = self._image = None
            self._set_view(self._view.of_picture(0, 0))
            return
        self._picture = picture = np.ascontiguousarray(picture)
        height, width = picture.shape[:2]
        self._image = image_of(picture)
        self._set_view(self._view.of_picture(width, height))

    def set_region(self, region: Region | None) -> None:
        """Show this region as the one being worked on; None takes it away. Emits nothing."""
        self.regions.set_region(region)

    def set_reference(self, region: Region | None) -> None:
        """Show where the white reference is; None takes it away. Emits nothing."""
        self._reference = region
        self.update()

    def set_tags(self, tags: Sequence[TagOutline]) -> None:
        """Draw the outlines of tags kept at this frame."""
        self._tags = tuple(tags)
        self.update()

    def set_others(self, regions: Sequence[Region]) -> None:
        """Draw the outlines of these regions, which are no tags and cannot be taken hold of."""
        self._others = tuple(regions)
        self.update()

    def set_info(self, text: str) -> None:
        """The line under the picture: film, time, frame, view grade."""
        if text != self._info:
            self._info = text
            self._describe()

    def _describe(self) -> None:
        parts = (self._info, self._aim.words if self._pointing else "", self.points.words, self.regions.words)
        self.setAccessibleDescription("   ".join(part for part in parts if part))
        self.update()

    def set_pointing(self, reference: bool) -> None:
        """True: a plain drag points at the white reference (once); False: it draws a region."""
        self._pointing, self._aim = reference, WhiteAim()
        self._show_cursor(None)
        self._describe()

    @property
    def region(self) -> Region | None:
        """The region being worked on."""
        return self.regions.region

    @property
    def reference(self) -> Region | None:
        """The white reference pointed at."""
        return self._reference

    @property
    def picture_size(self) -> tuple[int, int]:
        """(width, height) of the picture shown, (0, 0) when there is none."""
        return self._view.picture

    @property
    def view(self) -> View:
        """Where the picture lies on the canvas."""
        return self._view

    # What a person does, also for actions of the window

    def place_region(self) -> Region | None:
        """Put a region in the middle of what is seen, for work without a mouse; emits region_drawn."""
        return None if self._image is None else self.regions.place(self._view)

    def zoom_by(self, factor: float) -> None:
        """Zoom on the middle of what is seen."""
        self._set_view(self._view.zoomed(factor, (self._view.canvas[0] / 2, self._view.canvas[1] / 2)))

    def fit(self) -> None:
        """Show the whole picture."""
        self._set_view(self._view.fit())

    def look_at(self, view: View) -> None:
        """Look at the same part of the picture, as near, as another canvas does. Emits nothing but zoom_changed."""
        zoomed = view.scale != self._view.scale
        self._view = self._view.like(view)
        self.update()
        if zoomed:
            self.zoom_changed.emit(self._view.scale)

    def _set_view(self, view: View) -> None:
        before, self._view = self._view, view
        self.update()
        if view.scale != before.scale:
            self.zoom_changed.emit(view.scale)
        if view != before:
            self.view_changed.emit(view)

    # Painting

    def paintEvent(self, _event: QPaintEvent | None) -> None:
        """Ground, picture, kept tags, region, points, line."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self.palette().brush(QPalette.ColorRole.Dark))
        if self._image is not None:
            self._paint_picture(painter, self._image)
            painter.setClipRect(QRectF(0, 0, *self._view.canvas))
            self._paint_marks(painter)
            painter.setClipping(False)
        self._paint_info(painter)
        if self.hasFocus():
            painter.setPen(QPen(self.palette().color(QPalette.ColorRole.Highlight), 2))
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))

    def _paint_picture(self, painter: QPainter, image: QImage) -> None:
        left, top, right, bottom = self._view.in_sight()
        if right <= left or bottom <= top:
            return
        x, y = self._view.to_canvas((left, top))
        target = QRectF(x, y, (right - left) * self._view.scale, (bottom - top) * self._view.scale)
        smooth = self._view.scale * self.devicePixelRatioF() < _SHARP_FROM
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, smooth)
        painter.setClipRect(QRectF(0, 0, *self._view.canvas))
        painter.drawImage(target, image, QRectF(left, top, right - left, bottom - top))

    def _paint_marks(self, painter: QPainter) -> None:
        for tag in self._tags:
            draw_tag(painter, tag, self._view)
        for region in self._others:
            draw_outline(painter, region, self._view)
        drag = self._drag
        reference = (self._aim.box if self._pointing else None) or self._reference
        if drag is not None and drag.kind is DragKind.REFERENCE:
            reference = drag.box
        if reference is not None and inside(bounds_of(reference), self._view.picture):
            draw_reference(painter, reference, self._view)
        self.regions.paint(painter, self._view)
        self.points.paint(painter, self._view)

    def _paint_info(self, painter: QPainter) -> None:
        line = QRectF(0, self.height() - self._line_height(), self.width(), self._line_height())
        painter.fillRect(line, self.palette().brush(QPalette.ColorRole.Window))
        painter.setPen(self.palette().color(QPalette.ColorRole.WindowText))
        text = shortened(self._info, self.fontMetrics(), int(line.width()) - 12)
        painter.drawText(line.adjusted(6, 0, -6, 0), Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, text)

    def _line_height(self) -> int:
        return self.fontMetrics().height() + 6

    def resizeEvent(self, _event: QResizeEvent | None) -> None:
        """A fitted picture stays fitted."""
        self._set_view(self._view.on_canvas(self.width(), self.height() - self._line_height()))

    # Mouse

    def wheelEvent(self, event: QWheelEvent | None) -> None:
        """Zoom on the pointer."""
        assert event is not None
        turns = event.angleDelta().y() / 120
        if turns and self._image is not None:
            at = event.position()
            self._set_view(self._view.zoomed(_ZOOM_STEP**turns, (at.x(), at.y())))
        event.accept()

    def mousePressEvent(self, event: QMouseEvent | None) -> None:
        """Begin a drag, of the kind that button, keys and place tell."""
        assert event is not None
        kind = drag_kind(event.button(), event.modifiers(), self._space, self._pointing)
        if self._image is None or kind is None or self._drag is not None:
            return
        if self._only_look:
            kind = DragKind.PAN
        elif kind is DragKind.REGION and self.points.active:
            kind = DragKind.POINT
            self.drawing_started.emit()
            self.points.press(_point(event), self._view)
        elif kind is DragKind.REGION:
            self.regions.press(_point(event), self._view, event.modifiers())
        self._space_used = self._space_used or self._space
        self._drag = Drag(kind, _point(event))

    def mouseMoveEvent(self, event: QMouseEvent | None) -> None:
        """Go on with the drag, or show what a press here would do."""
        assert event is not None
        drag, at = self._drag, _point(event)
        if drag is None:
            free = self._image is not None and not self._pointing and not self.points.active and not self._only_look
            self._show_cursor(self.regions.hover(at, self._view) if free else None)
            return
        began = drag.moved
        step = drag.move_to(at, self._view)
        if drag.kind is DragKind.PAN:
            self._set_view(self._view.panned(*step))
        elif drag.kind is DragKind.POINT:
            self.points.move(at, self._view)
        elif drag.kind is DragKind.REGION:
            self.regions.move(at, self._view)
        elif drag.moved and not began:
            self.drawing_started.emit()
        self.update()

    def mouseReleaseEvent(self, event: QMouseEvent | None) -> None:
        """End the drag and tell what came of it."""
        assert event is not None
        drag, self._drag = self._drag, None
        if drag is None:
            return
        if drag.kind is DragKind.POINT:
            self.points.release()
        elif drag.kind is DragKind.REGION:
            self._end_region(event)
        elif drag.kind is DragKind.REFERENCE and drag.box is not None:
            self._point_at(drag.box)
        self._show_cursor(None)
        self.update()

    def _point_at(self, box: Box) -> None:
        self.set_pointing(False)
        self.set_reference(box)
        self.reference_drawn.emit(box)

    def _aim_by_key(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.set_pointing(False)
            return
        taken = self._aim.key(event, self._view) if self._image is not None else None
        if taken is not None:
            self._point_at(taken)
        self._describe()

    def _end_region(self, event: QMouseEvent) -> None:
        outline = self._tag_at(event.position())
        if outline is not None and self.regions.is_click and not event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.regions.cancel_press()
            self.tag_chosen.emit(outline.tag)
        else:
            self.regions.release(_point(event), self._view)

    def mouseDoubleClickEvent(self, event: QMouseEvent | None) -> None:
        """Show the whole picture; while something is drawn by clicks, the second click belongs to that."""
        assert event is not None
        left = event.button() == Qt.MouseButton.LeftButton
        if left and self.regions.double_click():
            return
        if left and not self.points.active and not self.regions.paints:
            self._drag = None
            self.fit()
        else:
            self.mousePressEvent(event)

    def leaveEvent(self, event: QEvent | None) -> None:
        """The pointer is elsewhere."""
        self.regions.leave()
        super().leaveEvent(event)

    def _tag_at(self, at: QPointF) -> TagOutline | None:
        for outline in reversed(self._tags):
            if shape_rect(outline.box, self._view).contains(at) or rect_on(outline.box, self._view).contains(at):
                return outline
        return None

    def _show_cursor(self, part: Part | None) -> None:
        if self._space or self._only_look:
            self.setCursor(Qt.CursorShape.OpenHandCursor)
        elif part is not None:
            whole = part.kind is Kind.WHOLE
            self.setCursor(Qt.CursorShape.SizeAllCursor if whole else Qt.CursorShape.PointingHandCursor)
        else:
            self.setCursor(Qt.CursorShape.CrossCursor)

    # Keys and help

    def event(self, event: QEvent | None) -> bool:
        """Take our keys before the window's own, and show what a kept tag says."""
        assert event is not None
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and self._is_ours(event):
            event.accept()
            return True
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            outline = self._tag_at(QPointF(event.pos()))
            QToolTip.showText(event.globalPos(), outline.words if outline is not None else "", self)
            return True
        return super().event(event)

    def focusNextPrevChild(self, next: bool) -> bool:
        """Tab goes from point to point, and on to the next widget after the last one."""
        return self.points.step(next) or super().focusNextPrevChild(next)

    def _is_ours(self, event: QKeyEvent) -> bool:
        key, keys = event.key(), event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        aims = self._pointing and self._aim.is_ours(event)
        if not self._only_look and (aims or self.points.is_ours(event) or self.regions.is_ours(event)):
            return True
        if key in (Qt.Key.Key_Space, *_ENTER):
            return not keys and not self._only_look
        if key in _ARROWS:
            return keys == Qt.KeyboardModifier.ControlModifier
        return not keys & ~Qt.KeyboardModifier.ShiftModifier and (key in _NEARER or key == _FARTHER)

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """The keys named at the class; all others go on to the window."""
        assert event is not None
        key = Qt.Key(event.key())
        if not self._is_ours(event):
            super().keyPressEvent(event)
        elif self._pointing and self._aim.is_ours(event):
            self._aim_by_key(event)
        elif self.points.is_ours(event):
            self.points.key(event, self._view)
        elif self.regions.is_ours(event):
            if self._image is not None:
                self.regions.key(event, self._view)
        elif key == Qt.Key.Key_Space:
            if not event.isAutoRepeat():
                self._space, self._space_used = True, False
                self._show_cursor(None)
        elif key in _ENTER:
            if not event.isAutoRepeat() and self._image is not None:  # held from the card, where it kept a tag
                self.tag_wanted.emit()
        elif key in _ARROWS:
            x, y = _ARROWS[key]
            self._set_view(self._view.panned(x * _PAN_STEP * self._view.canvas[0], y * _PAN_STEP * self._view.canvas[1]))
        else:
            self.zoom_by(_ZOOM_STEP if key in _NEARER else 1 / _ZOOM_STEP)

    def keyReleaseEvent(self, event: QKeyEvent | None) -> None:
        """A move by keys is finished; space let go is a tap when nothing was dragged with it."""
        assert event is not None
        if not event.isAutoRepeat():
            self.regions.let_go()
        if event.key() != Qt.Key.Key_Space:
            super().keyReleaseEvent(event)
        elif not event.isAutoRepeat() and self._space:
            self._space = False
            self._show_cursor(None)
            if not self._space_used:
                self.space_tapped.emit()

    def focusInEvent(self, event: QFocusEvent | None) -> None:
        """The focus shows."""
        self.update()
        super().focusInEvent(event)

    def focusOutEvent(self, event: QFocusEvent | None) -> None:
        """Keys let go elsewhere are let go here, too."""
        self._space = False
        self.regions.let_go()
        self.update()
        super().focusOutEvent(event)


def image_of(picture: np.ndarray) -> QImage:
    """An image that reads the memory of a contiguous uint8 picture (h, w, 3): keep the picture as long as the image."""
    height, width = picture.shape[:2]
    memory: Any = picture.data  # the stub asks for bytes, any memory will do
    return QImage(memory, width, height, 3 * width, QImage.Format.Format_RGB888)


def _point(event: QMouseEvent) -> tuple[float, float]:
    at = event.position()
    return (at.x(), at.y())

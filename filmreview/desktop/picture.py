"""The picture: one canvas of our own that paints every frame, playing or paused, with the kept tags on it.

In: numpy pictures, a region, the outlines of kept tags. Out: what the person does, as signals; the canvas decides nothing.
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
    QResizeEvent,
    QWheelEvent,
)
from PyQt6.QtWidgets import QSizePolicy, QToolTip, QWidget

from filmreview.desktop.picture_drag import Drag, DragKind, drag_kind
from filmreview.desktop.picture_points import PointTool
from filmreview.desktop.picture_region import Grip, dragged, grip_at, inside
from filmreview.desktop.picture_tags import TagOutline, draw_reference, draw_region, draw_tag, rect_of, shape_rect
from filmreview.desktop.picture_view import View
from filmreview.facts.region import Box

_ZOOM_STEP = 1.25
_REACH = 6.0  # screen pixels around an edge of the region that take hold of it
_SHARP_FROM = 3.0  # device pixels for one picture pixel from which its true pixels are shown instead of a smooth blend
_ARROWS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1),
    Qt.Key.Key_Down: (0, 1),
}
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class PictureCanvas(QWidget):
    """Shows one picture of the film and lets a person look closer and point at things.

    Wheel zooms on the pointer, middle-drag or space-drag pans, double click fits. Drag draws a region (with Ctrl even inside
    the one there is), Shift-drag points at white; the region's corners and edges reshape it, its inside moves
    it. With the focus here Alt+arrows move the region by one picture pixel, Alt+Shift+arrows reshape it, Delete drops it,
    Enter asks for a tag without a region, + and - zoom. All boxes are in pixels of the upright picture.
    """

    region_drawn = pyqtSignal(object)  # Box: a new region, when the button is let go
    region_changed = pyqtSignal(object)  # Box: the region was moved or reshaped, by mouse (on release) or keys
    region_dropped = pyqtSignal()  # the Delete key took the region away
    reference_drawn = pyqtSignal(object)  # Box: the white reference pointed at
    drawing_started = pyqtSignal()  # a drag began to draw: the film had better pause
    tag_wanted = pyqtSignal()  # the Enter key asked for a tag without a region
    tag_chosen = pyqtSignal(str)  # the id of the tag whose outline was clicked
    space_tapped = pyqtSignal()  # the space bar was pressed and let go without a drag
    zoom_changed = pyqtSignal(float)  # screen pixels (device independent) for one picture pixel

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._picture: np.ndarray | None = None  # the image below reads its memory
        self._image: QImage | None = None
        self._view = View()
        self._region: Box | None = None
        self._reference: Box | None = None
        self._tags: tuple[TagOutline, ...] = ()
        self._info = ""
        self._pointing = False
        self._space = False
        self._space_used = False
        self._drag: Drag | None = None
        self.points = PointTool(self)
        self.points.shown.connect(self._describe)
        self.setAccessibleName("Picture")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setMinimumSize(320, 200)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)

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

    def set_region(self, box: Box | None) -> None:
        """Show this region as the one being worked on; None takes it away. Emits nothing."""
        self._region = box
        self.update()

    def set_reference(self, box: Box | None) -> None:
        """Show where the white reference is; None takes it away. Emits nothing."""
        self._reference = box
        self.update()

    def set_tags(self, tags: Sequence[TagOutline]) -> None:
        """Draw the outlines of tags kept at this frame."""
        self._tags = tuple(tags)
        self.update()

    def set_info(self, text: str) -> None:
        """The line under the picture: film, time, frame, view grade."""
        if text != self._info:
            self._info = text
            self._describe()

    def _describe(self) -> None:
        self.setAccessibleDescription("   ".join(part for part in (self._info, self.points.words) if part))
        self.update()

    def set_pointing(self, reference: bool) -> None:
        """True: a plain drag points at the white reference (once); False: it draws a region."""
        self._pointing = reference
        self._show_cursor(None)

    @property
    def region(self) -> Box | None:
        """The region being worked on."""
        return self._region

    @property
    def reference(self) -> Box | None:
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

    def place_region(self) -> Box | None:
        """Put a region in the middle of what is seen, for work without a mouse; emits region_drawn."""
        if self._image is None:
            return None
        left, top, right, bottom = self._view.in_sight()
        width, height = max(1, round((right - left) / 6)), max(1, round((bottom - top) / 6))
        box = Box(round((left + right - width) / 2), round((top + bottom - height) / 2), width, height)
        self.set_region(box)
        self.region_drawn.emit(box)
        return box

    def move_region(self, dx: int, dy: int) -> None:
        """Move the region by picture pixels, kept inside the picture; emits region_changed."""
        self._change_region(Grip(), dx, dy)

    def reshape_region(self, dx: int, dy: int) -> None:
        """Move the region's right and bottom edges by picture pixels; emits region_changed."""
        self._change_region(Grip(right=True, bottom=True), dx, dy)

    def drop_region(self) -> None:
        """Take the region away; emits region_dropped."""
        if self._region is not None:
            self.set_region(None)
            self.region_dropped.emit()

    def zoom_by(self, factor: float) -> None:
        """Zoom on the middle of what is seen."""
        self._set_view(self._view.zoomed(factor, (self._view.canvas[0] / 2, self._view.canvas[1] / 2)))

    def fit(self) -> None:
        """Show the whole picture."""
        self._set_view(self._view.fit())

    def _change_region(self, grip: Grip, dx: int, dy: int) -> None:
        if self._region is None or self._image is None:
            return
        box = dragged(self._region, grip, dx, dy, self._view.picture)
        if box != self._region:
            self.set_region(box)
            self.region_changed.emit(box)

    def _set_view(self, view: View) -> None:
        zoomed = view.scale != self._view.scale
        self._view = view
        self.update()
        if zoomed:
            self.zoom_changed.emit(view.scale)

    # Painting

    def paintEvent(self, _event: QPaintEvent | None) -> None:
        """Ground, picture, kept tags, region, line."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self.palette().brush(QPalette.ColorRole.Dark))
        if self._image is not None:
            self._paint_picture(painter, self._image)
            painter.setClipRect(QRectF(0, 0, *self._view.canvas))
            for tag in self._tags:
                draw_tag(painter, tag, self._view)
            self._paint_regions(painter)
            self.points.paint(painter, self._view)
            painter.setClipping(False)
        self._paint_info(painter)

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

    def _paint_regions(self, painter: QPainter) -> None:
        drag = self._drag
        reference = drag.box if drag is not None and drag.kind is DragKind.REFERENCE else self._reference
        region = drag.box if drag is not None and drag.kind in (DragKind.REGION, DragKind.GRIP) else self._region
        if reference is not None and inside(reference, self._view.picture):
            draw_reference(painter, reference, self._view)
        if region is not None and inside(region, self._view.picture):
            draw_region(painter, region, self._view, drag is not None and drag.box is not None)

    def _paint_info(self, painter: QPainter) -> None:
        line = QRectF(0, self.height() - self._line_height(), self.width(), self._line_height())
        painter.fillRect(line, self.palette().brush(QPalette.ColorRole.Window))
        painter.setPen(self.palette().color(QPalette.ColorRole.WindowText))
        text = self.fontMetrics().elidedText(self._info, Qt.TextElideMode.ElideMiddle, int(line.width()) - 12)
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
        if kind is DragKind.REGION and self.points.active:
            kind = DragKind.POINT
            self.drawing_started.emit()
            self.points.press(_point(event), self._view)
        grip = None
        if kind is DragKind.REGION and not event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            grip = self._grip_at(event.position())
        self._space_used = self._space_used or self._space
        self._drag = Drag(DragKind.GRIP if grip else kind, _point(event), self._region, grip)

    def mouseMoveEvent(self, event: QMouseEvent | None) -> None:
        """Go on with the drag, or show what a press here would do."""
        assert event is not None
        if self._drag is None:
            self._show_cursor(self._grip_at(event.position()))
            return
        began = self._drag.moved
        step = self._drag.move_to(_point(event), self._view)
        if self._drag.kind is DragKind.PAN:
            self._set_view(self._view.panned(*step))
        elif self._drag.kind is DragKind.POINT:
            self.points.move(_point(event), self._view)
        elif self._drag.moved and not began:
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
        elif not drag.moved and drag.kind is not DragKind.PAN:
            outline = self._tag_at(event.position())
            if outline is not None:
                self.tag_chosen.emit(outline.tag)
        elif drag.box is not None:
            self._tell(drag.kind, drag.box)
        self._show_cursor(None)
        self.update()

    def mouseDoubleClickEvent(self, event: QMouseEvent | None) -> None:
        """Show the whole picture."""
        assert event is not None
        if event.button() == Qt.MouseButton.LeftButton and not self.points.active:
            self._drag = None
            self.fit()
        else:  # the second click of two quick ones is a press like any other
            self.mousePressEvent(event)

    def _tell(self, kind: DragKind, box: Box) -> None:
        if kind is DragKind.REFERENCE:
            self._pointing = False
            self.set_reference(box)
            self.reference_drawn.emit(box)
        elif kind is DragKind.REGION:
            self.set_region(box)
            self.region_drawn.emit(box)
        elif box != self._region:
            self.set_region(box)
            self.region_changed.emit(box)

    def _grip_at(self, at: QPointF) -> Grip | None:
        if self._region is None or self._image is None or self._pointing or self.points.active:
            return None
        return grip_at(self._region, self._view.to_picture((at.x(), at.y())), _REACH / self._view.scale)

    def _tag_at(self, at: QPointF) -> TagOutline | None:
        for outline in reversed(self._tags):
            if shape_rect(outline.box, self._view).contains(at) or rect_of(outline.box, self._view).contains(at):
                return outline
        return None

    def _show_cursor(self, grip: Grip | None) -> None:
        if self._space:
            self.setCursor(Qt.CursorShape.OpenHandCursor)
        elif grip is not None:
            self.setCursor(Qt.CursorShape.SizeAllCursor if grip.whole else Qt.CursorShape.PointingHandCursor)
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
        if self.points.is_ours(event):
            return True
        if event.key() == Qt.Key.Key_Space:
            return not event.modifiers()
        if event.key() in _ENTER:
            return not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if event.key() in _ARROWS:
            return self._region is not None and bool(event.modifiers() & Qt.KeyboardModifier.AltModifier)
        return event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Plus, Qt.Key.Key_Minus)

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """The keys named at the class; all others go on to the window."""
        assert event is not None
        key = event.key()
        if self.points.is_ours(event):
            self.points.key(event, self._view)
        elif key == Qt.Key.Key_Space:
            if not event.isAutoRepeat():
                self._space, self._space_used = True, False
                self._show_cursor(None)
        elif not self._is_ours(event):
            super().keyPressEvent(event)
        elif key in _ARROWS:
            dx, dy = _ARROWS[Qt.Key(key)]
            shifted = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            (self.reshape_region if shifted else self.move_region)(dx, dy)
        elif key in _ENTER:
            if not event.isAutoRepeat() and self._image is not None:  # held from the card, where it kept a tag
                self.tag_wanted.emit()
        elif key == Qt.Key.Key_Delete:
            self.drop_region()
        else:
            self.zoom_by(_ZOOM_STEP if key == Qt.Key.Key_Plus else 1 / _ZOOM_STEP)

    def keyReleaseEvent(self, event: QKeyEvent | None) -> None:
        """Space let go: a tap when nothing was dragged with it."""
        assert event is not None
        if event.key() != Qt.Key.Key_Space:
            super().keyReleaseEvent(event)
        elif not event.isAutoRepeat() and self._space:
            self._space = False
            self._show_cursor(None)
            if not self._space_used:
                self.space_tapped.emit()

    def focusOutEvent(self, event: QFocusEvent | None) -> None:
        """A space bar let go elsewhere is let go here, too."""
        self._space = False
        super().focusOutEvent(event)


def image_of(picture: np.ndarray) -> QImage:
    """An image that reads the memory of a contiguous uint8 picture (h, w, 3): keep the picture as long as the image."""
    height, width = picture.shape[:2]
    memory: Any = picture.data  # the stub asks for bytes, any memory will do
    return QImage(memory, width, height, 3 * width, QImage.Format.Format_RGB888)


def _point(event: QMouseEvent) -> tuple[float, float]:
    at = event.position()
    return (at.x(), at.y())

"""Points and lines on the picture: a few named points that a person places, drags and nudges. What they are for, others say.

How to use it, from a place that measures with points (`canvas` is the `PictureCanvas`):

    points = canvas.points
    points.changed.connect(...)  # tuple of (x, y) or None, one a name: after each finished step by mouse or keys
    points.taken.connect(...)    # tuple of (x, y), all placed: Enter was pressed
    points.ended.connect(...)    # Esc was pressed: nothing is to be measured
    points.begin(("one end", "other end"))                # the next clicks place them in this order
    points.begin(corners, closed=True)                    # four points, drawn as a closed figure
    points.begin(names, at=((10.5, 20.0), (80.0, 22.5)))  # places known already
    points.stop()                                         # take them off the picture; emits nothing

Positions are in picture pixels of the upright picture, 0.5, 0.5 being the middle of the first pixel. The points belong to no
frame: whoever began them stops them, or begins them anew, when another frame comes.
"""

from __future__ import annotations

from collections.abc import Sequence

from PyQt6.QtCore import QObject, QPointF, QRectF, Qt, pyqtSignal
from PyQt6.QtGui import QColor, QKeyEvent, QPainter, QPainterPath, QPen

from filmreview.desktop.picture_point_set import Placed, PointSet, points_named
from filmreview.desktop.picture_tags import write_on_film
from filmreview.desktop.picture_view import Point, View

_REACH = 9.0  # screen pixels around a point that take hold of it
_ARM = 7.0  # half of a point's cross, screen pixels
_GAP = 1.5  # the cross leaves its middle free, so that what lies under it can be seen
_FAR = 10  # picture pixels that Shift with an arrow goes
_ARROWS = {Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0), Qt.Key.Key_Up: (0, -1), Qt.Key.Key_Down: (0, 1)}
_ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
_OTHER_KEYS = (*_ENTER, Qt.Key.Key_Escape, Qt.Key.Key_Delete, Qt.Key.Key_Backspace)


class PointTool(QObject):
    """The points on one canvas, while there are any.

    A click places the next one, a drag moves one. With the focus on the picture: Tab and Shift+Tab choose another point (past
    the last one they go on to the next widget), arrows move the chosen one by one picture pixel, with Shift by ten, Delete
    takes it away, Enter places a missing one in the middle of what is seen, for the arrows to move, or, when all are
    placed, takes them; Esc ends.
    """

    changed = pyqtSignal(object)  # tuple of (x, y) | None: a point was placed, moved (on release) or taken away
    taken = pyqtSignal(object)  # tuple of (x, y): Enter, all being placed
    ended = pyqtSignal()  # Esc
    shown = pyqtSignal()  # what is to be painted or told is different now

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._points: PointSet | None = None
        self._held = False
        self._before: Placed = ()

    @property
    def active(self) -> bool:
        """Whether points are being placed or moved; the picture then draws no region."""
        return self._points is not None

    @property
    def at(self) -> Placed:
        """Where the points are, in picture pixels; None for one that is not placed."""
        return self._points.at if self._points is not None else ()

    @property
    def words(self) -> str:
        """Which point is chosen and where it is; "" while there are none."""
        return self._points.words if self._points is not None else ""

    def begin(self, names: Sequence[str], at: Sequence[Point | None] = (), closed: bool = False) -> None:
        """Ask for points of these names, in place of any there are. at: the places known already. closed: as a figure."""
        self._held = False
        self._show(points_named(names, at, closed))

    def stop(self) -> None:
        """Take the points off the picture; emits nothing."""
        self._held = False
        self._show(None)

    # What the canvas hands on

    def press(self, at: Point, view: View) -> None:
        """Take hold of the point under the pointer (canvas pixels), or place a missing one there."""
        if self._points is None:
            return
        self._before = self._points.at
        here = view.to_picture(at)
        near = self._points.near(here, _REACH / view.scale)
        number = near if near is not None else self._points.missing()
        self._held = number is not None
        if number is not None:
            points = self._points.choosing(number)
            self._show(points if near is not None else points.placed(here, view.picture))

    def move(self, at: Point, view: View) -> None:
        """The point held follows the pointer."""
        if self._points is not None and self._held:
            self._show(self._points.placed(view.to_picture(at), view.picture))

    def release(self) -> None:
        """Let go; what came of it is told, and the next missing point is chosen."""
        if self._points is None or not self._held:
            return
        self._held = False
        self._tell_change()

    def is_ours(self, event: QKeyEvent) -> bool:
        """Whether the key is one of ours while there are points."""
        plain = not event.modifiers() & ~(Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier)
        return self.active and plain and (event.key() in _ARROWS or event.key() in _OTHER_KEYS)

    def key(self, event: QKeyEvent, view: View) -> None:
        """Do what one of our keys says."""
        points, key = self._points, Qt.Key(event.key())
        if points is None:
            return
        self._before = points.at
        if key in _ARROWS:
            far = _FAR if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1
            dx, dy = _ARROWS[key]
            self._show(points.nudged(far * dx, far * dy, view.picture))
        elif key in _ENTER:
            self._enter(points, view)
        elif key == Qt.Key.Key_Escape:
            self.stop()
            self.ended.emit()
            return
        else:
            self._show(points.taken_away())
        self._tell_change(go_on=False)  # the arrows move what was just placed

    def step(self, forward: bool) -> bool:
        """Tab: choose the next point, or the one before; False when there is none that way."""
        if self._points is None:
            return False
        number = self._points.chosen + (1 if forward else -1)
        if not 0 <= number < len(self._points.names):
            return False
        self._show(self._points.choosing(number))
        return True

    def paint(self, painter: QPainter, view: View) -> None:
        """The lines, the points and their names, readable on any picture."""
        if self._points is None:
            return
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for one, two in self._points.lines:
            _draw_line(painter, QPointF(*view.to_canvas(one)), QPointF(*view.to_canvas(two)))
        written: list[QRectF] = []
        for number, at in enumerate(self._points.at):
            if at is not None:
                place = QPointF(*view.to_canvas(at))
                _draw_point(painter, place, number == self._points.chosen)
                by, name = QRectF(place.x() + _ARM, place.y() - 1, 1, 1), self._points.names[number]
                written.append(write_on_film(painter, by, view, name, written))
        painter.restore()

    def _enter(self, points: PointSet, view: View) -> None:
        missing = points.missing()
        if missing is None:
            self.taken.emit(points.at)
            return
        left, top, right, bottom = view.in_sight()
        self._show(points.choosing(missing).placed(((left + right) / 2, (top + bottom) / 2), view.picture))

    def _tell_change(self, go_on: bool = True) -> None:
        """Tell of a change, and (after placing) choose the next missing point."""
        points = self._points
        if points is None or points.at == self._before:
            return
        missing = points.missing()
        placed_now = self._before.count(None) > points.at.count(None)
        if go_on and placed_now and missing is not None and not self._held:
            self._show(points.choosing(missing))
        self.changed.emit(points.at)

    def _show(self, points: PointSet | None) -> None:
        self._points = points
        self.shown.emit()


def _draw_line(painter: QPainter, one: QPointF, two: QPointF) -> None:
    for colour, width in (("black", 3.0), ("white", 1.2)):
        painter.setPen(QPen(QColor(colour), width))
        painter.drawLine(one, two)


def _draw_point(painter: QPainter, at: QPointF, chosen: bool) -> None:
    """A cross with a free middle; a ring around the chosen one."""
    path = QPainterPath()
    for x, y in ((-1, 0), (1, 0), (0, -1), (0, 1)):
        path.moveTo(at.x() + x * _GAP, at.y() + y * _GAP)
        path.lineTo(at.x() + x * _ARM, at.y() + y * _ARM)
    if chosen:
        path.addEllipse(at, _ARM, _ARM)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for colour, width in (("black", 3.5), ("white", 1.5)):
        painter.strokePath(path, QPen(QColor(colour), width))

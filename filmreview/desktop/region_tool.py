"""Regions as a person draws, moves and reshapes them on one canvas: a box, a polygon, a painted patch.

In: presses and keys that the canvas hands on. Out: signals with the region in pixels of the upright picture, each when a move
is finished: the mouse button or the key let go.
"""

from __future__ import annotations

from PyQt6.QtCore import QObject, Qt, pyqtSignal
from PyQt6.QtGui import QKeyEvent, QPainter

from filmreview.desktop.picture_region import box_between, inside
from filmreview.desktop.picture_tags import write_on_film
from filmreview.desktop.picture_view import Point, View
from filmreview.desktop.region_brush import USUAL_BRUSH, Stroke, dab, next_brush
from filmreview.desktop.region_outline import draw_brush, draw_corners, draw_handles, draw_outline, draw_stroke, rect_on
from filmreview.desktop.region_parts import (
    BRUSH,
    LEAST_CORNERS,
    WHOLE,
    Kind,
    Part,
    Shape,
    middle_of,
    part_at,
    parts_of,
    polygon_of,
    shape_of,
    with_corner,
    with_far_edges_moved,
    with_part_moved,
    without_corner,
)
from filmreview.facts.region import Box, Patch, Polygon, Region
from filmreview.measure.shape import bounds_of

_REACH = 6.0  # screen pixels around a handle that take hold of it
_MOVED = 3.0  # screen pixels that make a press a drag
_PART_OF_SIGHT = 6  # a region put in the middle is so many times smaller than what is seen
_SLOW, _FAST = 8, 6  # after so many repeats of a held key it goes so many pixels at a time
_ARROWS = {Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0), Qt.Key.Key_Up: (0, -1), Qt.Key.Key_Down: (0, 1)}
_ALT_KEYS = (*_ARROWS, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown, Qt.Key.Key_Insert, Qt.Key.Key_Delete)
_BRUSH_KEYS = {Qt.Key.Key_Plus: 1, Qt.Key.Key_Equal: 1, Qt.Key.Key_Minus: -1}
_DRAWING_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Escape, Qt.Key.Key_Backspace)
_CONTROL, _ALT, _SHIFT = (
    Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ShiftModifier,
)  # fmt: skip


class RegionTool(QObject):
    """The region worked on. shape: what the next drag draws. brush: how many picture pixels it is across.

    Mouse: a drag draws a box or paints; clicks set a polygon's corners; a click on the first one, a double click or Enter
    closes it. A box's edges and corners, a polygon's corners and the middles of its sides (a new corner) reshape it, its inside
    moves it; a patch is moved by the knob at its upper left. With Ctrl: draw anew inside the old region, take a corner away,
    rub out.
    Keys: Alt+Page down and up hold another part, Alt+arrows move what is held, Alt+Shift+arrows the right and bottom edges,
    Alt+Insert and Alt+Delete add a corner or take one away, with the brush held they paint and rub out; Alt+plus and minus
    change the brush; Delete drops the region. While a polygon is drawn Backspace takes its last corner back, Esc all of it.
    """

    drawn = pyqtSignal(object)  # Region: a new one
    changed = pyqtSignal(object)  # Region: moved or reshaped
    dropped = pyqtSignal()
    started = pyqtSignal()  # something is being drawn or moved: the film had better stand
    shape_changed = pyqtSignal(object)  # Shape
    brush_changed = pyqtSignal(int)
    shown = pyqtSignal()  # what is to be painted or told is different now

    def __init__(self, parent: QObject | None = None, only_show: bool = False) -> None:
        super().__init__(parent)
        self._only_show = only_show
        self.shape = Shape.BOX
        self.brush = USUAL_BRUSH
        self.region: Region | None = None
        self.held = WHOLE
        self._corners: tuple[Point, ...] = ()
        self._pointer: Point | None = None  # of the mouse, in picture pixels
        self._brush_at: Point | None = None  # of the brush that keys move
        self._press: Point | None = None  # where the button went down, in canvas pixels
        self._moved = False
        self._part: Part | None = None  # what the mouse holds
        self._before: Region | None = None  # the region when the mouse or a key took hold of it
        self._stroke: Stroke | None = None
        self._changing = False  # a key that changes the region is down
        self._repeats = 0

    @property
    def drawing(self) -> bool:
        """Whether a polygon is begun and not closed."""
        return bool(self._corners)

    @property
    def paints(self) -> bool:
        """Whether the next press paints a patch or sets a polygon's corner, so that two quick ones are two."""
        return self.shape is not Shape.BOX

    @property
    def words(self) -> str:
        """The region and what keys hold of it, for a person who does not see it."""
        if self._corners:
            return f"polygon being drawn, {len(self._corners)} corners so far"
        if self.region is None:
            return ""
        box = bounds_of(self.region)
        held = "" if self.held == WHOLE else f", held: {self.held.words}"
        return f"region: {shape_of(self.region)} at {box.x}, {box.y}, {box.width} x {box.height} pixels{held}"

    def set_region(self, region: Region | None) -> None:
        """Work on this region; None for none. Emits no change. What is being drawn now goes on."""
        if self._press is not None:
            self._before = region
            return
        if region is None or self.region is None or shape_of(region) is not shape_of(self.region):
            self.held = WHOLE
        self.region = region
        self.shown.emit()

    def set_shape(self, shape: Shape) -> None:
        """The next drag draws this."""
        self._corners = ()
        if shape is not self.shape:
            self.shape = shape
            self.shape_changed.emit(shape)
        self.shown.emit()

    def next_shape(self) -> None:
        """Box, polygon, patch and round again."""
        shapes = list(Shape)
        self.set_shape(shapes[(shapes.index(self.shape) + 1) % len(shapes)])

    def set_brush(self, across: int) -> None:
        """The brush's width in picture pixels, one of `region_brush.BRUSHES`."""
        self.brush = across
        self.brush_changed.emit(across)
        self.shown.emit()

    def give_up(self) -> None:
        """Forget a polygon that is not closed, and the drag at hand."""
        self._corners, self._press, self._stroke, self._part = (), None, None, None
        self.shown.emit()

    # What a person does without a mouse, also for actions of the window

    def place(self, view: View) -> Region:
        """Put a region of the chosen shape in the middle of what is seen."""
        left, top, right, bottom = view.in_sight()
        width, height = max(1, round((right - left) / _PART_OF_SIGHT)), max(1, round((bottom - top) / _PART_OF_SIGHT))
        region: Region | None = Box(round((left + right - width) / 2), round((top + bottom - height) / 2), width, height)
        x, y = (left + right) / 2, (top + bottom) / 2
        if self.shape is Shape.PATCH:
            region = dab(None, view.picture, max(3, min(width, height)), True, (x, y)) or region
        elif self.shape is Shape.POLYGON:
            across, down = width / 2, height / 2
            region = polygon_of(((x - across, y), (x, y - down), (x + across, y), (x, y + down))) or region
        assert region is not None, "a box at least"
        self._corners = ()
        self.set_region(region)
        self.drawn.emit(region)
        return region

    def drop(self) -> None:
        """Take the region away."""
        if self.region is not None:
            self.set_region(None)
            self.dropped.emit()

    # Mouse

    def press(self, at: Point, view: View, keys: Qt.KeyboardModifier) -> None:
        """The button went down at a place of the canvas."""
        control = bool(keys & _CONTROL)
        here = view.to_picture(at)
        self._press, self._moved, self._before, self._pointer = at, False, self.region, here
        on = part_at(self.region, here, _REACH / view.scale) if self.region is not None and not self._corners else None
        self._part = on if not control else None
        if control and on is not None and on.kind is Kind.CORNER:
            self._part = Part(Kind.CORNER, number=-1 - on.number)  # to be taken away
        if self._part is None and self.shape is Shape.PATCH:
            patch = self.region if isinstance(self.region, Patch) else None
            self._stroke = Stroke(patch, view.picture, self.brush, add=not control)
            self._stroke.to(here)

    def move(self, at: Point, view: View) -> None:
        """The pointer went on with the button down."""
        if self._press is None:
            return
        here = self._pointer = view.to_picture(at)
        way = (at[0] - self._press[0], at[1] - self._press[1])
        began = self._moved
        self._moved = began or max(abs(way[0]), abs(way[1])) >= _MOVED
        if self._moved and not began and not self._corners:
            self.started.emit()
        if self._moved:
            self._go_on(here, way, view)
        self.shown.emit()

    def _go_on(self, here: Point, way: Point, view: View) -> None:
        if self._stroke is not None:
            self._stroke.to(here)
        elif self._part is not None and self._before is not None and self._part.number >= 0:
            self.region = with_part_moved(self._before, self._part, way[0] / view.scale, way[1] / view.scale, view.picture)
        elif self._part is None and self.shape is Shape.BOX and self._press is not None:
            self.region = box_between(view.to_picture(self._press), here, view.picture)

    @property
    def is_click(self) -> bool:
        """Whether letting go now would be a click that draws nothing on its own account, not a drag."""
        return not self._moved and not self._corners

    def release(self, at: Point, view: View) -> None:
        """The button was let go; what came of it is told."""
        if self._press is None:
            return
        before, part, stroke, moved = self._before, self._part, self._stroke, self._moved
        self._press = self._part = self._stroke = None  # from here on `set_region` is taken at once
        here = view.to_picture(at)
        if part is not None and part.number < 0:
            self._change(without_corner(before, -1 - part.number) if isinstance(before, Polygon) else before)
        elif part is not None:
            self._tell_change(before)
        elif stroke is not None:
            self._end_stroke(stroke, before, moved)
        elif self.shape is Shape.POLYGON:
            self._click_corner(here, view)
        elif moved:
            self._tell_drawn(self.region, before)
        self.shown.emit()

    def cancel_press(self) -> None:
        """What was pressed is nothing of ours."""
        if self._press is not None:
            self.region = self._before
        self._press = self._stroke = self._part = None
        self.shown.emit()

    def double_click(self) -> bool:
        """Close the polygon being drawn; False when none is."""
        if not self._corners:
            return False
        self._close()
        return True

    def hover(self, at: Point, view: View) -> Part | None:
        """What a press here would hold; the pointer is remembered for the brush's ring and the polygon's next side."""
        here = self._pointer = view.to_picture(at)
        if self._corners or self.shape is Shape.PATCH:
            self.shown.emit()
        return part_at(self.region, here, _REACH / view.scale) if self.region is not None and not self._corners else None

    def leave(self) -> None:
        """The pointer left the canvas."""
        self._pointer = None
        self.shown.emit()

    def _end_stroke(self, stroke: Stroke, before: Region | None, moved: bool) -> None:
        if not moved:
            self.started.emit()
        patch = stroke.patch
        if patch is None:
            self.region = before
            if isinstance(before, Patch):
                self.drop()
        elif isinstance(before, Patch):
            self.region = patch
            self._tell_change(before)
        else:
            self._tell_drawn(patch, before)

    def _click_corner(self, here: Point, view: View) -> None:
        width, height = view.picture
        corner = (round(min(max(0.0, here[0]), width), 1), round(min(max(0.0, here[1]), height), 1))
        if not self._corners:
            self.started.emit()
        first = view.to_canvas(self._corners[0]) if self._corners else None
        there = view.to_canvas(corner)
        near = first is not None and max(abs(first[0] - there[0]), abs(first[1] - there[1])) <= _REACH
        if near and len(self._corners) >= LEAST_CORNERS:
            self._close()
        else:
            self._corners = (*self._corners, corner)

    def _close(self) -> None:
        polygon = polygon_of(self._corners)
        if polygon is not None:
            self._corners = ()
            self._tell_drawn(polygon, self.region)

    def _tell_drawn(self, region: Region | None, before: Region | None) -> None:
        if region is None:
            self.set_region(before)
            return
        self.held = WHOLE
        self.set_region(region)
        self.drawn.emit(region)

    def _tell_change(self, before: Region | None) -> None:
        if self.region is not None and self.region != before:
            self.shown.emit()
            self.changed.emit(self.region)

    def _change(self, region: Region | None) -> None:
        before = self.region
        if region is not None:
            self.region = region
            self._tell_change(before)

    # Keys

    def is_ours(self, event: QKeyEvent) -> bool:
        """Whether the key is one of ours now."""
        key, keys = event.key(), event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if self._corners and not keys and key in _DRAWING_KEYS:
            return True
        if keys & ~_SHIFT == _ALT and key in _BRUSH_KEYS:
            return self.shape is Shape.PATCH
        if keys & ~_SHIFT == _ALT and key in _ALT_KEYS:
            return self.region is not None
        return not keys and key == Qt.Key.Key_Delete

    def key(self, event: QKeyEvent, view: View) -> None:
        """Do what one of our keys says; a move is told when the key is let go."""
        key, alt = Qt.Key(event.key()), bool(event.modifiers() & _ALT)
        self._repeats = self._repeats + 1 if event.isAutoRepeat() else 0
        if self._corners and key in _DRAWING_KEYS:
            self._draw_by_key(key)
        elif key == Qt.Key.Key_Delete and not alt:
            self.drop()
        elif key in _BRUSH_KEYS:
            self.set_brush(next_brush(self.brush, _BRUSH_KEYS[key]))
        elif self.region is not None:
            self._change_by_key(self.region, key, bool(event.modifiers() & _SHIFT), view)
        self.shown.emit()

    def let_go(self) -> None:
        """The key was let go, or the focus: a move by keys is finished."""
        if self._changing:
            self._changing = False
            self._tell_change(self._before)

    def _draw_by_key(self, key: Qt.Key) -> None:
        if key == Qt.Key.Key_Escape:
            self._corners = ()
        elif key == Qt.Key.Key_Backspace:
            self._corners = self._corners[:-1]
        else:
            self._close()

    def _change_by_key(self, region: Region, key: Qt.Key, shifted: bool, view: View) -> None:
        if not self._changing:
            self._changing, self._before = True, region
        if key in (Qt.Key.Key_PageDown, Qt.Key.Key_PageUp):
            self._hold_next(region, 1 if key == Qt.Key.Key_PageDown else -1)
        elif key in _ARROWS:
            far = 1 if self._repeats < _SLOW else _FAST
            dx, dy = (far * way for way in _ARROWS[key])
            self._move_held(region, dx, dy, shifted, view)
        elif self.held == BRUSH:
            self._paint_by_key(region, key == Qt.Key.Key_Insert, view)
        elif isinstance(region, Polygon) and self.held.kind is Kind.CORNER:
            self._corner_by_key(region, key == Qt.Key.Key_Insert)

    def _hold_next(self, region: Region, way: int) -> None:
        parts = parts_of(region)
        place = parts.index(self.held) if self.held in parts else 0
        self.held = parts[(place + way) % len(parts)]
        if self.held == BRUSH:
            self._brush_at = middle_of(region)

    def _move_held(self, region: Region, dx: int, dy: int, far_edges: bool, view: View) -> None:
        if far_edges:
            self.region = with_far_edges_moved(region, dx, dy, view.picture)
        elif self.held == BRUSH and self._brush_at is not None:
            width, height = view.picture
            x, y = self._brush_at
            self._brush_at = (min(max(0.0, x + dx), width), min(max(0.0, y + dy), height))
        else:
            self.region = with_part_moved(region, self.held, dx, dy, view.picture)

    def _paint_by_key(self, region: Region, add: bool, view: View) -> None:
        if isinstance(region, Patch) and self._brush_at is not None:
            self.region = dab(region, view.picture, self.brush, add, self._brush_at) or region

    def _corner_by_key(self, region: Polygon, add: bool) -> None:
        number = self.held.number
        self.region = with_corner(region, number) if add else without_corner(region, number)
        if add:
            self.held = Part(Kind.CORNER, number=number + 1)
        elif number >= len(self.region.points if isinstance(self.region, Polygon) else ()):
            self.held = Part(Kind.CORNER, number=number - 1)

    # Painting

    def paint(self, painter: QPainter, view: View) -> None:
        """The region with its handles, a polygon being drawn, the brush; its size while it is held."""
        painter.save()
        region = self.region
        if self._stroke is not None:
            draw_stroke(painter, self._stroke, view)
        elif region is not None and inside(bounds_of(region), view.picture):
            draw_outline(painter, region, view)
            if not self._only_show:
                draw_handles(painter, region, view, self.held)
            if self._moved and self._press is not None:
                box = bounds_of(region)
                write_on_film(painter, rect_on(box, view), view, f"{box.width} x {box.height} pixels")
        if self._corners:
            draw_corners(painter, self._corners, self._pointer, view)
        if self.held == BRUSH and self._brush_at is not None:
            draw_brush(painter, self._brush_at, self.brush, view, region)
        elif self.shape is Shape.PATCH and self._pointer is not None:
            draw_brush(painter, self._pointer, self.brush, view, region)
        painter.restore()

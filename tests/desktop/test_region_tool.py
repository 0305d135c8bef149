"""Drawing, moving and reshaping the three shapes on the canvas, by a real mouse and by keys alone."""

import numpy as np
import pytest
from PyQt6.QtCore import QEvent, QPoint, QPointF, Qt
from PyQt6.QtGui import QKeyEvent
from PyQt6.QtTest import QTest
from PyQt6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from filmreview.desktop.picture import PictureCanvas
from filmreview.desktop.picture_tags import TagOutline
from filmreview.desktop.region_choice import RegionChoice
from filmreview.desktop.region_parts import BRUSH, Shape, shape_of
from filmreview.facts.region import Box, Patch, Polygon
from filmreview.measure.shape import bounds_of, mask_of
from tests.desktop.picture_hand import ALT, CONTROL, LEFT, PLAIN, SHIFT, drag, gradient, send_move, wheel
from tests.desktop.pixels import array_of

K = Qt.Key
TRIANGLE = Polygon(((50.0, 30.0), (150.0, 30.0), (100.0, 120.0)))


@pytest.fixture
def canvas(qtbot: QtBot) -> PictureCanvas:
    """One picture pixel under every two screen pixels."""
    canvas = PictureCanvas()
    qtbot.addWidget(canvas)
    canvas.resize(640, 360 + canvas._line_height())
    canvas.show_picture(gradient(320, 180))
    canvas.show()
    qtbot.waitExposed(canvas)
    canvas.setFocus()
    return canvas


@pytest.fixture
def told(canvas: PictureCanvas) -> list[tuple[str, object]]:
    heard: list[tuple[str, object]] = []
    canvas.region_drawn.connect(lambda region: heard.append(("drawn", region)))
    canvas.region_changed.connect(lambda region: heard.append(("changed", region)))
    canvas.region_dropped.connect(lambda: heard.append(("dropped", None)))
    canvas.drawing_started.connect(lambda: heard.append(("started", None)))
    canvas.tag_chosen.connect(lambda tag: heard.append(("tag", tag)))
    canvas.tag_wanted.connect(lambda: heard.append(("tag wanted", None)))
    return heard


def click(canvas: PictureCanvas, x: int, y: int, keys: Qt.KeyboardModifier = PLAIN) -> None:
    QTest.mouseClick(canvas, LEFT, keys, QPoint(x, y))


def key(canvas: PictureCanvas, *keys: Qt.Key, held: Qt.KeyboardModifier = PLAIN) -> None:
    for one in keys:
        QTest.keyClick(canvas, one, held)


def pixels(region: object) -> int:
    assert isinstance(region, Box | Polygon | Patch)
    return int(mask_of(region, 320, 180)[1].sum())


@pytest.mark.parametrize("close", ["first corner", "Enter", "double click"])
def test_clicks_draw_a_polygon(canvas: PictureCanvas, told: list, close: str) -> None:
    canvas.regions.set_shape(Shape.POLYGON)
    click(canvas, 100, 60)
    click(canvas, 300, 60)
    if close == "double click":
        click(canvas, 200, 240)
        QTest.mouseDClick(canvas, LEFT, PLAIN, QPoint(200, 240))
    else:
        click(canvas, 200, 240)
        if close == "Enter":
            key(canvas, K.Key_Return)
        else:
            click(canvas, 102, 62)
    assert told == [("started", None), ("drawn", TRIANGLE)]
    assert canvas.region == TRIANGLE


def test_a_corner_too_many_is_taken_back_and_all_are_given_up(canvas: PictureCanvas, told: list) -> None:
    canvas.regions.set_shape(Shape.POLYGON)
    for x, y in ((100, 60), (300, 60), (600, 300)):
        click(canvas, x, y)
    assert "3 corners" in canvas.accessibleDescription()
    key(canvas, K.Key_Backspace)
    click(canvas, 200, 240)
    key(canvas, K.Key_Return)
    assert told[-1] == ("drawn", TRIANGLE)
    click(canvas, 500, 300)
    key(canvas, K.Key_Return)
    assert told[-1] == ("started", None), "one corner closes nothing, and Enter does not open a card meanwhile"
    key(canvas, K.Key_Escape)
    assert canvas.region == TRIANGLE
    key(canvas, K.Key_Return)
    assert told[-1] == ("tag wanted", None)


def test_a_polygon_s_corner_side_and_inside_by_mouse(canvas: PictureCanvas, told: list) -> None:
    canvas.set_region(TRIANGLE)
    drag(canvas, (300, 60), (320, 80))
    assert told[-1] == ("changed", Polygon(((50.0, 30.0), (160.0, 40.0), (100.0, 120.0))))
    canvas.set_region(TRIANGLE)
    drag(canvas, (200, 60), (200, 20))
    assert told[-1] == ("changed", Polygon(((50.0, 30.0), (100.0, 10.0), (150.0, 30.0), (100.0, 120.0))))
    click(canvas, 200, 20, CONTROL)
    assert told[-1] == ("changed", TRIANGLE)
    drag(canvas, (200, 120), (220, 110))
    assert told[-1] == ("changed", Polygon(((60.0, 25.0), (160.0, 25.0), (110.0, 115.0))))
    assert [name for name, _ in told].count("drawn") == 0


def test_a_patch_is_painted_and_rubbed_out(canvas: PictureCanvas, told: list) -> None:
    canvas.regions.set_shape(Shape.PATCH)
    drag(canvas, (100, 100), (200, 100))
    name, first = told[-1]
    assert name == "drawn"
    assert bounds_of(first) == Box(44, 44, 62, 12)
    drag(canvas, (100, 100), (100, 200))
    name, more = told[-1]
    assert name == "changed"
    assert pixels(more) > pixels(first)
    drag(canvas, (100, 100), (200, 100), keys=CONTROL)
    name, less = told[-1]
    assert (name, pixels(less) < pixels(more)) == ("changed", True)
    canvas.regions.set_brush(48)
    drag(canvas, (100, 80), (100, 220), keys=CONTROL)
    assert told[-1] == ("dropped", None)


def test_a_patch_is_moved_by_its_knob(canvas: PictureCanvas, told: list) -> None:
    canvas.regions.set_shape(Shape.PATCH)
    click(canvas, 100, 100)
    painted = told[-1][1]
    drag(canvas, (88, 88), (108, 98))
    name, moved = told[-1]
    assert name == "changed"
    assert (bounds_of(moved), pixels(moved)) == (Box(54, 49, 12, 12), pixels(painted))


def test_a_click_on_a_kept_tag_chooses_it_whatever_is_drawn(canvas: PictureCanvas, told: list) -> None:
    canvas.set_tags([TagOutline("t1", TRIANGLE, "illegal")])
    for shape in Shape:
        canvas.regions.set_shape(shape)
        click(canvas, 200, 100)
        assert told.pop() == ("tag", "t1")
        assert (told, canvas.region, canvas.regions.drawing) == ([], None, False)


@pytest.mark.parametrize("shape", list(Shape))
def test_keys_alone_put_move_and_drop_each_shape(canvas: PictureCanvas, told: list, shape: Shape) -> None:
    canvas.regions.set_shape(shape)
    placed = canvas.place_region()
    assert placed is not None
    assert told == [("drawn", placed)]
    assert shape_of(placed) is shape
    key(canvas, K.Key_Right, K.Key_Down, held=ALT)
    before, after = bounds_of(placed), bounds_of(told[-1][1])
    assert (after.x - before.x, after.y - before.y) == (1, 1)
    assert pixels(told[-1][1]) == pixels(placed)
    key(canvas, K.Key_Delete)
    assert told[-1] == ("dropped", None)


def test_keys_alone_reshape_a_box_at_every_part(canvas: PictureCanvas, told: list) -> None:
    canvas.set_region(Box(50, 30, 40, 30))
    key(canvas, K.Key_PageDown, K.Key_Left, K.Key_Up, held=ALT)  # the upper left corner
    assert told[-1] == ("changed", Box(49, 29, 41, 31))
    assert "held: upper left corner" in canvas.accessibleDescription()
    key(canvas, K.Key_PageUp, K.Key_PageUp, K.Key_Right, held=ALT)  # past the whole to the left edge
    assert told[-1] == ("changed", Box(50, 29, 40, 31))
    key(canvas, K.Key_Right, held=ALT | SHIFT)
    assert told[-1] == ("changed", Box(50, 29, 41, 31))


def test_keys_alone_reshape_a_polygon_and_its_corners(canvas: PictureCanvas, told: list) -> None:
    canvas.set_region(TRIANGLE)
    key(canvas, K.Key_PageDown, K.Key_Left, held=ALT)
    assert told[-1] == ("changed", Polygon(((49.0, 30.0), *TRIANGLE.points[1:])))
    key(canvas, K.Key_Insert, K.Key_Up, held=ALT)
    assert canvas.region == Polygon(((49.0, 30.0), (99.5, 29.0), *TRIANGLE.points[1:]))
    key(canvas, K.Key_Delete, held=ALT)
    assert told[-1] == ("changed", Polygon(((49.0, 30.0), *TRIANGLE.points[1:])))
    key(canvas, K.Key_Delete, held=ALT)
    assert isinstance(canvas.region, Polygon)
    assert len(canvas.region.points) == 3, "three corners stay"


def test_keys_alone_paint_a_patch(canvas: PictureCanvas, told: list) -> None:
    canvas.regions.set_shape(Shape.PATCH)
    placed = canvas.place_region()
    key(canvas, K.Key_PageDown, held=ALT)
    assert canvas.regions.held == BRUSH
    for _ in range(25):
        key(canvas, K.Key_Right, held=ALT)
    key(canvas, K.Key_Insert, held=ALT)
    name, wider = told[-1]
    assert name == "changed"
    assert bounds_of(wider).right == 160 + 25 + 6
    key(canvas, K.Key_Plus, K.Key_Plus, held=ALT)
    assert canvas.regions.brush == 48
    key(canvas, K.Key_Delete, held=ALT)
    assert pixels(told[-1][1]) < pixels(placed)


def test_a_held_key_is_one_move_and_goes_faster(canvas: PictureCanvas, told: list) -> None:
    canvas.set_region(Box(50, 30, 40, 30))
    for number in range(12):
        press = QKeyEvent(QEvent.Type.KeyPress, K.Key_Right, ALT, "", number > 0)
        QApplication.sendEvent(canvas, press)
    assert told == []
    QApplication.sendEvent(canvas, QKeyEvent(QEvent.Type.KeyRelease, K.Key_Right, ALT))
    assert told == [("changed", Box(50 + 8 + 4 * 6, 30, 40, 30))]


def test_ctrl_arrows_pan_and_plus_and_minus_zoom(canvas: PictureCanvas) -> None:
    key(canvas, K.Key_Plus, K.Key_Plus)
    key(canvas, K.Key_Plus, held=SHIFT)  # where plus needs Shift
    assert canvas.view.scale == pytest.approx(2 * 1.25**3)
    before = canvas.view
    key(canvas, K.Key_Right, K.Key_Down, held=CONTROL)
    assert canvas.view.left == pytest.approx(before.left - 64)
    assert canvas.view.top == pytest.approx(before.top - 36)
    key(canvas, K.Key_Minus, K.Key_Minus, K.Key_Minus)
    assert canvas.view.fitted


def test_a_region_set_while_one_is_drawn_does_not_spoil_it(canvas: PictureCanvas, told: list) -> None:
    # The film pauses when a drag begins; the frame found a moment later has no region.
    QTest.mousePress(canvas, LEFT, PLAIN, QPoint(100, 60))
    send_move(canvas, QPointF(180, 120))
    canvas.set_region(None)
    QTest.mouseRelease(canvas, LEFT, PLAIN, QPoint(180, 120))
    assert told == [("started", None), ("drawn", Box(50, 30, 40, 30))]


@pytest.mark.parametrize("region", [Box(100, 60, 40, 30), TRIANGLE, Patch(Box(100, 60, 4, 2), ((0, 4), (1, 2)))])
@pytest.mark.parametrize("ground", [0, 128, 255])
def test_each_shape_stands_out_from_any_film(canvas: PictureCanvas, region: Box | Polygon | Patch, ground: int) -> None:
    canvas.show_picture(np.full((180, 320, 3), ground, np.uint8))
    wheel(canvas, (0, 0), 2)
    plain = array_of(canvas.grab().toImage()).astype(int)
    canvas.set_region(region)
    drawn = array_of(canvas.grab().toImage()).astype(int)
    assert np.abs(drawn - plain).max() > 120
    box = bounds_of(region)
    left, top = (round(place) for place in canvas.view.to_canvas((box.x, box.y)))
    assert (drawn != plain)[top - 6 : top + 6, left - 6 : left + 200].any()


def test_an_outline_of_a_patch_follows_its_pixels(canvas: PictureCanvas) -> None:
    canvas.show_picture(np.zeros((180, 320, 3), np.uint8))
    wheel(canvas, (320, 180), 9)
    ell = Patch(Box(150, 80, 20, 20), tuple((0, 20) if row < 10 else (0, 10) for row in range(20)))
    canvas.set_tags([TagOutline("t1", ell, "legal")])
    image = array_of(canvas.grab().toImage())
    for x, y, there in ((165, 90, True), (160, 95, True), (170, 95, False), (165, 100, False)):
        at = canvas.view.to_canvas((x, y))
        near = image[round(at[1]) - 2 : round(at[1]) + 3, round(at[0]) - 2 : round(at[0]) + 3]
        assert (near > 200).any() == there, (x, y)


def test_the_choice_shows_what_is_drawn_and_the_brush_for_a_patch(canvas: PictureCanvas, qtbot: QtBot) -> None:
    choice = RegionChoice(canvas.regions)
    qtbot.addWidget(choice)
    choice.show()
    assert (choice.shape.currentText(), choice.brush.isVisible()) == ("box", False)
    canvas.regions.next_shape()
    canvas.regions.next_shape()
    assert (choice.shape.currentText(), choice.brush.isVisible()) == ("patch", True)
    assert "Ctrl" in choice.shape.toolTip()
    choice.brush.setFocus()
    key(choice.brush, K.Key_Down)
    assert canvas.regions.brush == 24
    choice.shape.setFocus()
    key(choice.shape, K.Key_Up, K.Key_Up)
    assert canvas.regions.shape is Shape.BOX
    canvas.regions.next_shape()
    assert choice.shape.currentText() == "polygon"

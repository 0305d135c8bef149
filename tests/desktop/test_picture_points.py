"""Named points on the picture: their arithmetic without a widget, and a real mouse and real keys on the canvas."""

import itertools

import pytest
from PyQt6.QtCore import QPoint, QRectF, Qt
from PyQt6.QtTest import QTest
from PyQt6.QtWidgets import QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from filmreview.desktop.picture import PictureCanvas
from filmreview.desktop.picture_point_set import points_named
from filmreview.desktop.picture_tags import words_place
from tests.desktop.picture_hand import LEFT, MIDDLE, PLAIN, SHIFT, drag, gradient, wheel
from tests.desktop.pixels import array_of

ENDS = ("one end", "other end")
CORNERS = ("near left", "near right", "far right", "far left")


@pytest.fixture
def around(qtbot: QtBot) -> QWidget:
    """A canvas, one picture pixel under every two screen pixels, with a line to type in before and after it."""
    around = QWidget()
    layout = QVBoxLayout(around)
    canvas = PictureCanvas()
    canvas.setFixedSize(640, 360 + canvas._line_height())
    for widget in (QLineEdit(), canvas, QLineEdit()):
        layout.addWidget(widget)
    qtbot.addWidget(around)
    around.show()
    qtbot.waitExposed(around)
    around.activateWindow()
    canvas.show_picture(gradient(320, 180))
    canvas.setFocus()
    return around


@pytest.fixture
def canvas(around: QWidget) -> PictureCanvas:
    found = around.findChild(PictureCanvas)
    assert isinstance(found, PictureCanvas)
    return found


@pytest.fixture
def told(canvas: PictureCanvas) -> list[tuple[str, object]]:
    all_told: list[tuple[str, object]] = []
    canvas.points.changed.connect(lambda at: all_told.append(("changed", at)))
    canvas.points.taken.connect(lambda at: all_told.append(("taken", at)))
    canvas.points.ended.connect(lambda: all_told.append(("ended", None)))
    canvas.region_drawn.connect(lambda region: all_told.append(("region", region)))
    return all_told


def test_points_are_placed_in_order_and_held_in_the_picture() -> None:
    points = points_named(ENDS).placed((10, 20), (320, 180))
    assert points.missing() == 1
    points = points.choosing(1).placed((400, -3), (320, 180))
    assert points.at == ((10.0, 20.0), (320.0, 0.0))
    assert points.whole
    assert points.nudged(-1, 2, (320, 180)).at[1] == (319.0, 2.0)


def test_a_figure_s_last_line_leads_back() -> None:
    corners = ((0.0, 0.0), (9.0, 0.0), (9.0, 5.0), (0.0, 5.0))
    assert len(points_named(CORNERS, corners, closed=True).lines) == 4
    assert len(points_named(CORNERS, corners).lines) == 3
    assert len(points_named(CORNERS, corners[:3], closed=True).lines) == 2
    assert len(points_named(ENDS, corners[:2], closed=True).lines) == 1


def test_the_nearest_point_in_reach_is_taken_hold_of() -> None:
    points = points_named(CORNERS, ((0, 0), (10, 0)))
    assert points.near((7, 0), 5) == 1
    assert points.near((5, 8), 5) is None
    assert points_named(ENDS).near((0, 0), 100) is None


def test_two_clicks_place_two_points_and_a_drag_moves_one(canvas: PictureCanvas, told: list) -> None:
    canvas.points.begin(ENDS)
    QTest.mouseClick(canvas, LEFT, PLAIN, QPoint(100, 60))
    QTest.mouseClick(canvas, LEFT, PLAIN, QPoint(300, 60))
    assert told == [("changed", ((50.0, 30.0), None)), ("changed", ((50.0, 30.0), (150.0, 30.0)))]
    drag(canvas, (300, 60), (320, 80))
    assert told[2:] == [("changed", ((50.0, 30.0), (160.0, 40.0)))]
    QTest.mouseClick(canvas, LEFT, PLAIN, QPoint(500, 300))  # none is missing: nothing to place, and no region either
    assert len(told) == 3


def test_points_are_where_they_were_put_when_zoomed(canvas: PictureCanvas) -> None:
    wheel(canvas, (100, 60), 6)
    canvas.points.begin(ENDS)
    at = canvas.view.to_picture((210, 95))
    QTest.mouseClick(canvas, LEFT, PLAIN, QPoint(210, 95))
    assert canvas.points.at[0] == pytest.approx(at, abs=0.01)
    drag(canvas, (300, 200), (320, 200), button=MIDDLE)  # panning goes on as ever
    assert canvas.points.at == (pytest.approx(at, abs=0.01), None)


def test_all_of_it_by_keys(canvas: PictureCanvas, told: list) -> None:
    canvas.points.begin(ENDS)
    keys = Qt.Key
    QTest.keyClick(canvas, keys.Key_Return)
    assert canvas.points.at == ((160.0, 90.0), None)
    QTest.keyClick(canvas, keys.Key_Return)
    QTest.keyClick(canvas, keys.Key_Right, SHIFT)
    QTest.keyClick(canvas, keys.Key_Up)
    assert canvas.points.at == ((160.0, 90.0), (170.0, 89.0))
    QTest.keyClick(canvas, keys.Key_Backtab, SHIFT)
    QTest.keyClick(canvas, keys.Key_Left)
    assert canvas.points.at == ((159.0, 90.0), (170.0, 89.0))
    QTest.keyClick(canvas, keys.Key_Return)
    assert told[-1] == ("taken", ((159.0, 90.0), (170.0, 89.0)))
    QTest.keyClick(canvas, keys.Key_Delete)
    assert told[-1] == ("changed", (None, (170.0, 89.0)))
    QTest.keyClick(canvas, keys.Key_Escape)
    assert told[-1] == ("ended", None)
    assert not canvas.points.active


def test_the_arrows_move_the_point_that_enter_placed(canvas: PictureCanvas) -> None:
    canvas.points.begin(ENDS)
    QTest.keyClick(canvas, Qt.Key.Key_Return)
    QTest.keyClick(canvas, Qt.Key.Key_Right, SHIFT)
    QTest.keyClick(canvas, Qt.Key.Key_Return)
    assert canvas.points.at == ((170.0, 90.0), (160.0, 90.0)), "both in the middle would be no length"
    QTest.keyClick(canvas, Qt.Key.Key_Left)
    assert canvas.points.at == ((170.0, 90.0), (159.0, 90.0))


def test_tab_goes_from_point_to_point_and_then_on(canvas: PictureCanvas, qtbot: QtBot) -> None:
    qtbot.waitUntil(canvas.hasFocus)
    canvas.points.begin(ENDS, ((10, 10), (20, 10)))
    assert "point 1 of 2, one end, at 10.0, 10.0" in canvas.accessibleDescription()
    QTest.keyClick(canvas, Qt.Key.Key_Tab)
    assert "point 2 of 2" in canvas.accessibleDescription()
    assert canvas.hasFocus()
    QTest.keyClick(canvas, Qt.Key.Key_Tab)
    assert not canvas.hasFocus()


def test_a_known_set_is_shown_and_taken_off_again(canvas: PictureCanvas, told: list) -> None:
    plain = array_of(canvas.grab().toImage())
    canvas.points.begin(CORNERS, ((20, 20), (300, 20), (250, 150), (50, 150)), closed=True)
    shown = array_of(canvas.grab().toImage())
    assert (plain[300, 280:320] != shown[300, 280:320]).any(), "the line at the bottom"
    assert (plain[100:104, 45:65] != shown[100:104, 45:65]).any(), "the line that leads back"
    canvas.points.stop()
    assert (array_of(canvas.grab().toImage()) == plain).all()
    assert told == []


@pytest.mark.parametrize("down", [2.0, 40.0, 95.0])
def test_words_of_points_close_together_stand_clear_of_each_other(down: float) -> None:
    canvas, words = (400.0, 120.0), (60.0, 15.0)
    written: list[QRectF] = []
    for across in (100.0, 106.0, 110.0):
        written.append(words_place(QRectF(across, down, 1, 1), words, canvas, written))
    assert not any(one.intersects(other) for one, other in itertools.combinations(written, 2))
    assert all(QRectF(0, 0, *canvas).contains(one) for one in written)


def test_words_keep_their_place_where_there_is_no_room_for_another() -> None:
    there = QRectF(100, 15, 60, 15)
    assert words_place(QRectF(100, 10, 1, 1), (60.0, 15.0), (400.0, 31.0), [there]) == there

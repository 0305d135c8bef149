"""The canvas with a real mouse and real keys: what it tells, and what it paints, by the pixels."""

import os
import subprocess
import sys

import numpy as np
import pytest
from PyQt6.QtCore import QEvent, QPoint, QPointF, Qt
from PyQt6.QtGui import QColor, QImage, QMouseEvent, QWheelEvent
from PyQt6.QtTest import QTest
from PyQt6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from filmreview.desktop.picture import PictureCanvas
from filmreview.desktop.picture_tags import TagOutline, shape_rect
from filmreview.facts.region import Box
from tests.desktop.pixels import array_of

LEFT, MIDDLE = Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton
SHIFT, CONTROL, ALT = Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier
PLAIN = Qt.KeyboardModifier.NoModifier


class Told:
    """All that a canvas tells, in order."""

    def __init__(self, canvas: PictureCanvas) -> None:
        self.all: list[tuple[str, object]] = []
        for name in ("region_drawn", "region_changed", "reference_drawn", "tag_chosen"):
            getattr(canvas, name).connect(lambda given, name=name: self.all.append((name, given)))
        for name in ("region_dropped", "drawing_started", "space_tapped"):
            getattr(canvas, name).connect(lambda name=name: self.all.append((name, None)))


@pytest.fixture
def canvas(qtbot: QtBot) -> PictureCanvas:
    """A canvas of 640x360 pixels of picture, one picture pixel under every two screen pixels."""
    canvas = PictureCanvas()
    qtbot.addWidget(canvas)
    canvas.resize(640, 360 + canvas._line_height())
    canvas.show_picture(gradient(320, 180))
    canvas.show()
    qtbot.waitExposed(canvas)
    canvas.setFocus()
    return canvas


@pytest.fixture
def told(canvas: PictureCanvas) -> Told:
    return Told(canvas)


def gradient(width: int, height: int) -> np.ndarray:
    """Each pixel tells where it is: red its column, green its row."""
    picture = np.zeros((height, width, 3), np.uint8)
    picture[..., 0] = np.arange(width) * 255 // (width - 1)
    picture[..., 1] = (np.arange(height) * 255 // (height - 1))[:, None]
    return picture


def drag(canvas: PictureCanvas, start: tuple[int, int], end: tuple[int, int], button=LEFT, keys=PLAIN) -> None:
    """Press, move in steps, let go, as a hand does."""
    QTest.mousePress(canvas, button, keys, QPoint(*start))
    for share in (0.3, 0.7, 1.0):
        at = QPointF(start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]))
        send_move(canvas, at, button, keys)
    QTest.mouseRelease(canvas, button, keys, QPoint(*end))


def send_move(canvas: PictureCanvas, at: QPointF, button=LEFT, keys=PLAIN) -> None:
    event = QMouseEvent(QEvent.Type.MouseMove, at, canvas.mapToGlobal(at), Qt.MouseButton.NoButton, button, keys)
    QApplication.sendEvent(canvas, event)


def wheel(canvas: PictureCanvas, at: tuple[float, float], turns: int) -> None:
    place = QPointF(*at)
    event = QWheelEvent(
        place,
        canvas.mapToGlobal(place),
        QPoint(),
        QPoint(0, 120 * turns),
        Qt.MouseButton.NoButton,
        PLAIN,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(canvas, event)


def colour_at(canvas: PictureCanvas, x: int, y: int) -> tuple[int, int, int]:
    """What is painted at a place, in device-independent pixels."""
    image = canvas.grab().toImage()
    ratio = image.devicePixelRatio()
    colour = image.pixelColor(round(x * ratio), round(y * ratio))
    return (colour.red(), colour.green(), colour.blue())


def test_paints_every_pixel_where_it_belongs(canvas: PictureCanvas) -> None:
    for x, y in ((1, 1), (320, 180), (638, 358), (100, 300)):
        red, green, blue = colour_at(canvas, x, y)
        assert red == pytest.approx(x / 640 * 255, abs=3)
        assert green == pytest.approx(y / 360 * 255, abs=3)
        assert blue == 0


def test_paints_what_is_in_sight_after_zooming(canvas: PictureCanvas) -> None:
    wheel(canvas, (320, 180), 6)
    at = canvas.view.to_picture((500, 100))
    red, green, _ = colour_at(canvas, 500, 100)
    assert red == pytest.approx(at[0] / 320 * 255, abs=3)
    assert green == pytest.approx(at[1] / 180 * 255, abs=3)


def test_close_up_true_pixels_are_shown(canvas: PictureCanvas) -> None:
    picture = np.zeros((180, 320, 3), np.uint8)
    picture[:, 160:] = 255
    canvas.show_picture(picture)
    wheel(canvas, (320, 180), 14)
    assert canvas.view.scale > 20
    edge = round(canvas.view.to_canvas((160, 0))[0])
    assert colour_at(canvas, edge - 2, 180) == (0, 0, 0)
    assert colour_at(canvas, edge + 2, 180) == (255, 255, 255)


def test_a_drag_draws_a_region(canvas: PictureCanvas, told: Told) -> None:
    drag(canvas, (100, 60), (180, 120))
    assert told.all == [("drawing_started", None), ("region_drawn", Box(50, 30, 40, 30))]
    assert canvas.region == Box(50, 30, 40, 30)
    assert canvas.reference is None


def test_a_drag_draws_in_picture_pixels_when_zoomed(canvas: PictureCanvas, told: Told) -> None:
    wheel(canvas, (0, 0), 4)
    view = canvas.view
    drag(canvas, (100, 60), (300, 200))
    left, top = view.to_picture((100, 60))
    right, bottom = view.to_picture((300, 200))
    box = told.all[-1][1]
    assert isinstance(box, Box)
    assert (box.x, box.y) == (int(left), int(top))
    assert box.right == pytest.approx(right, abs=1)
    assert box.bottom == pytest.approx(bottom, abs=1)


def test_a_shaky_click_draws_nothing(canvas: PictureCanvas, told: Told) -> None:
    drag(canvas, (100, 60), (102, 61))
    assert told.all == []


def test_the_inside_moves_the_region_and_a_corner_reshapes_it(canvas: PictureCanvas, told: Told) -> None:
    canvas.set_region(Box(50, 30, 40, 30))
    drag(canvas, (140, 90), (160, 100))
    assert told.all[-1] == ("region_changed", Box(60, 35, 40, 30))
    drag(canvas, (120, 70), (100, 50))
    assert told.all[-1] == ("region_changed", Box(50, 25, 50, 40))
    assert canvas.region == Box(50, 25, 50, 40)


def test_control_draws_a_new_region_inside_the_old_one(canvas: PictureCanvas, told: Told) -> None:
    canvas.set_region(Box(0, 0, 320, 180))
    drag(canvas, (100, 60), (180, 120), keys=CONTROL)
    assert told.all[-1] == ("region_drawn", Box(50, 30, 40, 30))


def test_shift_points_at_the_white_reference(canvas: PictureCanvas, told: Told) -> None:
    canvas.set_region(Box(50, 30, 40, 30))
    drag(canvas, (110, 70), (150, 100), keys=SHIFT)
    assert told.all[-1] == ("reference_drawn", Box(55, 35, 20, 15))
    assert canvas.region == Box(50, 30, 40, 30)


def test_pointing_makes_the_next_plain_drag_point_at_the_white_once(canvas: PictureCanvas, told: Told) -> None:
    canvas.set_pointing(True)
    drag(canvas, (110, 70), (150, 100))
    drag(canvas, (200, 70), (240, 100))
    assert [name for name, _ in told.all if name.endswith("drawn")] == ["reference_drawn", "region_drawn"]


def test_white_is_pointed_at_by_keys_alone(canvas: PictureCanvas, told: Told) -> None:
    canvas.set_region(Box(50, 30, 40, 30))
    canvas.set_pointing(True)
    assert "Enter puts a box" in canvas.accessibleDescription()
    QTest.keyClick(canvas, Qt.Key.Key_Return)
    QTest.keyClick(canvas, Qt.Key.Key_Right, ALT)
    QTest.keyClick(canvas, Qt.Key.Key_Down, ALT | SHIFT)
    assert told.all == []
    QTest.keyClick(canvas, Qt.Key.Key_Return)
    assert told.all == [("reference_drawn", Box(150, 79, 22, 23))]
    assert canvas.region == Box(50, 30, 40, 30)
    canvas.set_pointing(True)
    QTest.keyClick(canvas, Qt.Key.Key_Escape)
    drag(canvas, (400, 200), (440, 240))
    assert told.all[-1] == ("region_drawn", Box(200, 100, 20, 20))


@pytest.mark.parametrize("by", ["middle button", "space bar"])
def test_pans(canvas: PictureCanvas, told: Told, by: str) -> None:
    wheel(canvas, (320, 180), 5)
    before = canvas.view
    if by == "space bar":
        QTest.keyPress(canvas, Qt.Key.Key_Space)
    drag(canvas, (300, 200), (340, 170), button=MIDDLE if by == "middle button" else LEFT)
    if by == "space bar":
        QTest.keyRelease(canvas, Qt.Key.Key_Space)
    assert canvas.view.left - before.left == pytest.approx(40)
    assert canvas.view.top - before.top == pytest.approx(-30)
    assert told.all == []


def test_a_tap_on_the_space_bar_is_told(canvas: PictureCanvas, told: Told) -> None:
    QTest.keyClick(canvas, Qt.Key.Key_Space)
    assert told.all == [("space_tapped", None)]


def test_the_wheel_zooms_on_the_pointer_and_a_double_click_fits(canvas: PictureCanvas) -> None:
    scales: list[float] = []
    canvas.zoom_changed.connect(scales.append)
    before = canvas.view.to_picture((500, 100))
    wheel(canvas, (500, 100), 3)
    assert canvas.view.to_picture((500, 100)) == pytest.approx(before)
    QTest.mouseDClick(canvas, LEFT, PLAIN, QPoint(200, 200))
    assert canvas.view.fitted
    assert scales == [pytest.approx(2 * 1.25**3), 2.0]


def test_keys_move_reshape_and_drop_the_region(canvas: PictureCanvas, told: Told) -> None:
    canvas.set_region(Box(50, 30, 40, 30))
    QTest.keyClick(canvas, Qt.Key.Key_Right, ALT)
    QTest.keyClick(canvas, Qt.Key.Key_Up, ALT)
    QTest.keyClick(canvas, Qt.Key.Key_Left, ALT | SHIFT)
    QTest.keyClick(canvas, Qt.Key.Key_Down, ALT | SHIFT)
    assert [box for name, box in told.all if name == "region_changed"] == [
        Box(51, 30, 40, 30),
        Box(51, 29, 40, 30),
        Box(51, 29, 39, 30),
        Box(51, 29, 39, 31),
    ]
    QTest.keyClick(canvas, Qt.Key.Key_Delete)
    assert told.all[-1] == ("region_dropped", None)
    assert canvas.region is None


def test_a_region_can_be_placed_without_a_mouse(canvas: PictureCanvas, told: Told) -> None:
    box = canvas.place_region()
    assert told.all == [("region_drawn", box)]
    assert box is not None
    box.check_inside(320, 180)
    assert (box.x + box.width / 2, box.y + box.height / 2) == pytest.approx((160, 90), abs=1)


def test_a_click_chooses_a_kept_tag_by_box_or_shape(canvas: PictureCanvas, told: Told) -> None:
    outline = TagOutline("t7", Box(100, 60, 40, 30), "illegal", True, "14 arm sleeve")
    canvas.set_tags([TagOutline("t1", Box(10, 10, 5, 5), "legal"), outline])
    QTest.mouseClick(canvas, LEFT, PLAIN, QPoint(240, 150))
    QTest.mouseClick(canvas, LEFT, PLAIN, shape_rect(outline.box, canvas.view).center().toPoint())
    QTest.mouseClick(canvas, LEFT, PLAIN, QPoint(500, 300))
    assert told.all == [("tag_chosen", "t7"), ("tag_chosen", "t7")]


def test_kept_tags_and_regions_are_painted(canvas: PictureCanvas) -> None:
    plain = canvas.grab().toImage()
    canvas.set_tags([TagOutline("t1", Box(100, 60, 40, 30), "illegal")])
    canvas.set_region(Box(200, 100, 40, 30))
    marked = canvas.grab().toImage()
    assert _differ(plain, marked, 200, 120)  # the kept tag's corner
    assert _differ(plain, marked, 400, 200)  # the region's corner
    assert not _differ(plain, marked, 440, 230)  # the middle of the region stays clear


@pytest.mark.parametrize("top", [60, 150])  # its words under the box, and over it where the canvas ends
def test_the_white_is_named_on_any_picture(canvas: PictureCanvas, top: int) -> None:
    for ground in (0, 128, 255):
        canvas.show_picture(np.full((180, 320, 3), ground, np.uint8))
        canvas.set_reference(None)
        plain = array_of(canvas.grab().toImage()).astype(int)
        canvas.set_reference(Box(100, top, 60, 30))
        named = array_of(canvas.grab().toImage()).astype(int)
        box = canvas.view.to_canvas((100, top))[1], canvas.view.to_canvas((100, top + 30))[1]
        words = slice(round(box[1]) + 4, round(box[1]) + 22) if top == 60 else slice(round(box[0]) - 22, round(box[0]) - 4)
        along = slice(196, 204 + canvas.fontMetrics().horizontalAdvance("white"))
        shades = named[words, along].mean(axis=2)
        assert shades.min() < 60, "an edge darker than any letter"
        assert shades.max() > 195, "letters lighter than any edge"
        changed = np.abs(named - plain)[words, along].any(axis=2)
        assert changed.mean() < 0.7, "no slab under the words"


def _differ(one: QImage, other: QImage, x: int, y: int) -> bool:
    return one.pixelColor(x, y) != other.pixelColor(x, y)


def test_a_new_picture_keeps_zoom_and_region_and_is_painted(canvas: PictureCanvas) -> None:
    wheel(canvas, (100, 100), 3)
    canvas.set_region(Box(50, 30, 40, 30))
    view = canvas.view
    canvas.show_picture(np.full((180, 320, 3), 200, np.uint8))
    assert canvas.view == view
    assert canvas.region == Box(50, 30, 40, 30)
    assert colour_at(canvas, 600, 340) == (200, 200, 200)


def test_a_picture_s_memory_may_go_after_it_was_handed_over(canvas: PictureCanvas) -> None:
    for level in (10, 90):
        canvas.show_picture(np.full((180, 320, 3), level, np.uint8))
    assert colour_at(canvas, 300, 200) == (90, 90, 90)


def test_without_a_picture_nothing_can_be_drawn(canvas: PictureCanvas, told: Told) -> None:
    canvas.show_picture(None)
    drag(canvas, (100, 60), (180, 120))
    assert canvas.place_region() is None
    assert told.all == []
    assert canvas.picture_size == (0, 0)
    ground = canvas.palette().color(canvas.palette().ColorRole.Dark)
    assert QColor(*colour_at(canvas, 300, 200)).name() == ground.name()


def test_the_line_is_painted_and_told_to_a_screen_reader(canvas: PictureCanvas) -> None:
    before = canvas.grab().toImage()
    canvas.set_info("first-half.mp4   12:03.400   frame 21680   view good")
    after = canvas.grab().toImage()
    rows = range(before.height() - canvas._line_height(), before.height())
    assert any(_differ(before, after, x, y) for y in rows for x in range(400))
    assert canvas.accessibleDescription().startswith("first-half.mp4")
    assert canvas.accessibleName() == "Picture"
    assert colour_at(canvas, 320, 358)[2] == 0  # the picture itself is not written on


ON_A_FINE_SCREEN = """
import numpy as np
from PyQt6.QtWidgets import QApplication
from filmreview.desktop.picture import PictureCanvas
app = QApplication([])
canvas = PictureCanvas()
canvas.resize(320, 180 + canvas._line_height())
picture = np.zeros((360, 640, 3), np.uint8)
picture[:, ::2] = 255
canvas.show_picture(picture)
image = canvas.grab().toImage()
print(canvas.devicePixelRatioF(), canvas.view.scale, [image.pixelColor(x, 100).red() for x in range(200, 206)])
"""


def test_a_fine_screen_gets_every_pixel_of_the_picture() -> None:
    # Two device pixels to each logical one: a picture of 640 pixels on 320 logical ones is shown pixel for pixel.
    environment = {**os.environ, "QT_SCALE_FACTOR": "2", "QT_QPA_PLATFORM": "offscreen"}
    run = subprocess.run([sys.executable, "-c", ON_A_FINE_SCREEN], env=environment, capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "2.0 0.5 [255, 0, 255, 0, 255, 0]"

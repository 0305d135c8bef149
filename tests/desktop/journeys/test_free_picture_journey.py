"""The window's event loop is never blocked over 50 ms while a large patch is painted, a loop plays, and a moment is beside."""

import math
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from PyQt6.QtCore import QPoint, Qt
from pytestqt.qtbot import QtBot

from filmreview.desktop.interpreter import SWITCH_SECONDS
from filmreview.desktop.region_parts import Shape
from filmreview.desktop.window import DeskWindow
from filmreview.facts.region import Patch
from filmreview.film.film import open_film
from tests.desktop.evening import evening
from tests.desktop.heartbeat import Heartbeat
from tests.desktop.journeys.steps import WAIT, press, settle, stand
from tests.desktop.long_film import long_film

LIMIT = 0.050
K, LEFT = Qt.Key, Qt.MouseButton.LeftButton
ALT, CONTROL, SHIFT = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def game(tmp_path: Path) -> Path:
    """A review of a few tags on half a minute of 720p."""
    with open_film(long_film(tmp_path / "half.mp4", 30, group=60)) as film:
        return evening(tmp_path / "game.filmreview", film, 3)


@pytest.fixture
def heart() -> Iterator[Heartbeat]:
    before = sys.getswitchinterval()
    sys.setswitchinterval(SWITCH_SECONDS)  # as when the desk is started
    made = Heartbeat()
    yield made
    made.stop()
    sys.setswitchinterval(before)


def test_the_loop_is_free_while_drawing_looping_and_looking_beside(
    qtbot: QtBot, window: DeskWindow, game: Path, heart: Heartbeat
) -> None:
    window.open_path(game)
    stand(qtbot, window)
    settle(qtbot, window)
    place, canvas = window.film_place, window.film_place.canvas
    heart.doing = "painting"
    heart.start()
    canvas.regions.set_shape(Shape.PATCH)
    canvas.regions.set_brush(48)
    middle = canvas.rect().center()
    qtbot.mousePress(canvas, LEFT, pos=middle)
    for turn in range(40):  # a spiral over a third of the picture
        angle, far = turn / 3, 3 * turn
        qtbot.mouseMove(canvas, middle + QPoint(round(far * math.cos(angle)), round(far * math.sin(angle))))
        qtbot.wait(10)
    qtbot.mouseRelease(canvas, LEFT, pos=middle)
    settle(qtbot, window)
    assert isinstance(window.card_presenter.draft.region, Patch)

    heart.doing = "moving the patch by keys"
    press(qtbot, K.Key_1, CONTROL)
    for _ in range(5):
        press(qtbot, K.Key_Right, ALT)
        qtbot.wait(20)
    settle(qtbot, window)
    heart.doing = "undoing"
    press(qtbot, K.Key_Z, CONTROL)
    settle(qtbot, window)

    heart.doing = "a moment beside"
    press(qtbot, K.Key_F12)
    qtbot.waitUntil(lambda: place.compare.pane.player.frame is not None, timeout=WAIT)
    press(qtbot, K.Key_8, CONTROL)
    press(qtbot, K.Key_Right)
    settle(qtbot, window)

    heart.doing = "looping"
    press(qtbot, K.Key_1, CONTROL)
    press(qtbot, K.Key_F11)
    for _ in range(20):
        press(qtbot, K.Key_F8)
    stand(qtbot, window)
    press(qtbot, K.Key_F11, SHIFT)
    settle(qtbot, window)
    painted: list[object] = []
    place.player.picture_shown.connect(painted.append)
    press(qtbot, K.Key_F6)
    qtbot.waitUntil(lambda: len(painted) > 45, timeout=WAIT)
    press(qtbot, K.Key_F6)
    stand(qtbot, window)
    heart.stop()

    assert [str(one) for one in heart.blocked if one.seconds > LIMIT] == []

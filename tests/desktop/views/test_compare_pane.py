"""The picture beside by itself: its keys, its names, what it never does."""

from collections.abc import Iterator

import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from filmreview.desktop.compare_pane import ComparePane
from filmreview.facts.region import Box
from filmreview.film.film import open_film
from tests.desktop.desk_fixtures import FILMS
from tests.desktop.picture_hand import SHIFT, drag

K = Qt.Key


@pytest.fixture
def pane(qtbot: QtBot) -> Iterator[ComparePane]:
    made = ComparePane()
    qtbot.addWidget(made)
    made.resize(480, 360)
    made.show()
    made.player.open(open_film(FILMS / "constant.mp4"))
    qtbot.waitUntil(lambda: made.player.frame is not None)
    yield made
    made.player.close()


def stands_on(qtbot: QtBot, pane: ComparePane, number: int) -> None:
    qtbot.waitUntil(lambda: pane.player.frame is not None and pane.player.frame.number == number)


def test_the_arrows_step_it_by_frames_and_seconds(qtbot: QtBot, pane: ComparePane) -> None:
    qtbot.keyClick(pane.canvas, K.Key_Right)
    stands_on(qtbot, pane, 1)
    qtbot.keyClick(pane.canvas, K.Key_Right, SHIFT)
    stands_on(qtbot, pane, 30)  # 30000/1001 frames a second: 1.033 s lies in frame 30
    qtbot.keyClick(pane.canvas, K.Key_Left)
    stands_on(qtbot, pane, 29)
    qtbot.mouseClick(pane.back, Qt.MouseButton.LeftButton)
    stands_on(qtbot, pane, 28)


def test_enter_swaps_and_escape_puts_away(qtbot: QtBot, pane: ComparePane) -> None:
    with qtbot.waitSignal(pane.swap_wanted):
        qtbot.keyClick(pane.canvas, K.Key_Return)
    with qtbot.waitSignal(pane.off_wanted):
        qtbot.keyClick(pane.canvas, K.Key_Escape)


def test_nothing_can_be_drawn_and_no_handle_shows(pane: ComparePane) -> None:
    told: list[object] = []
    pane.canvas.region_drawn.connect(told.append)
    pane.canvas.reference_drawn.connect(told.append)
    pane.canvas.tag_wanted.connect(lambda: told.append("tag"))
    drag(pane.canvas, (60, 60), (160, 120))
    drag(pane.canvas, (60, 60), (160, 120), keys=SHIFT)
    pane.canvas.set_region(Box(40, 60, 40, 30))
    assert told == []
    assert pane.canvas.region == Box(40, 60, 40, 30), "shown all the same"


def test_it_says_how_far_away_it_is(pane: ComparePane) -> None:
    pane.show_apart("0.200 s earlier")
    assert pane.title.text() == "Beside, 0.200 s earlier"
    pane.show_apart("")
    assert pane.title.text() == "Beside"


@pytest.mark.parametrize("width", [480, 190])
def test_no_control_is_cut_off(qtbot: QtBot, pane: ComparePane, width: int) -> None:
    pane.resize(width, 360)
    qtbot.wait(10)
    for one in (pane.title, pane.back, pane.forward, pane.same_zoom, pane.swap, pane.put_away):
        at = one.mapTo(pane, one.rect().topLeft())
        assert at.x() >= 0
        assert at.x() + one.width() <= pane.width()
        assert at.y() + one.height() <= pane.canvas.y()


def test_every_widget_has_a_name(pane: ComparePane) -> None:
    for one in pane.findChildren(QWidget):
        if one.focusPolicy() & Qt.FocusPolicy.TabFocus and one.isVisible():
            assert one.accessibleName() or getattr(one, "text", str)(), one

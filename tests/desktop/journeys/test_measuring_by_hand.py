"""Lengths, times and a number's contrast at the desk, through the real window: by mouse, and wholly by keys."""

from pathlib import Path

import pytest
from PyQt6.QtCore import QPoint, Qt
from PyQt6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot

from filmreview.desktop.window import DeskWindow
from filmreview.facts.fact import Origin
from filmreview.facts.region import Box
from tests.desktop.desk_fixtures import FILMS
from tests.desktop.journeys.steps import WAIT, begin_review, drag, press, settle, stand, type_words

FILM = FILMS / "constant.mp4"
CONTROL_SHIFT = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def opened(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> DeskWindow:
    """The window on a new review, its film standing on the first frame."""
    begin_review(qtbot, window, FILM, tmp_path / "game.filmreview")
    settle(qtbot, window)
    return window


def click(qtbot: QtBot, window: DeskWindow, x: float, y: float) -> None:
    """Click at this point of the picture."""
    canvas = window.film_place.canvas
    across, down = canvas.view.to_canvas((x, y))
    qtbot.mouseClick(canvas, Qt.MouseButton.LeftButton, pos=QPoint(round(across), round(down)))


def move(qtbot: QtBot, right: int, down: int) -> None:
    """Move the chosen point by picture pixels with the arrows, ten at a time where it can be."""
    for by, forward, back in ((right, Qt.Key.Key_Right, Qt.Key.Key_Left), (down, Qt.Key.Key_Down, Qt.Key.Key_Up)):
        tens, ones = divmod(abs(by), 10)
        for _ in range(tens):
            press(qtbot, forward if by > 0 else back, SHIFT)
        for _ in range(ones):
            press(qtbot, forward if by > 0 else back)


def test_a_length_by_mouse_goes_onto_the_card_and_is_ruled(qtbot: QtBot, opened: DeskWindow) -> None:
    length, panel = opened.by_hand.length, opened.by_hand.length_panel
    assert not panel.isVisible()
    press(qtbot, Qt.Key.Key_L, CONTROL_SHIFT)
    stand(qtbot, opened)
    assert panel.isVisible()
    for x, y in ((200, 60), (200, 90)):
        click(qtbot, opened, x, y)
    assert panel.next.isEnabled()
    qtbot.mouseClick(panel.next, Qt.MouseButton.LeftButton)
    for x, y in ((100, 60), (100, 78)):
        click(qtbot, opened, x, y)
    settle(qtbot, opened)
    assert length.seen is not None
    inches = length.seen.length.inches
    assert inches == pytest.approx(18 / 30 * 9.47, rel=0.06)
    assert f"width {inches:.2f} ± {length.seen.length.plus_minus:.2f} in" in panel.value.text()
    assert "item's ends" in panel.behind.text()
    qtbot.mouseClick(panel.draws, Qt.MouseButton.LeftButton)
    assert panel.draws.text() == "Check the ±"
    qtbot.waitUntil(lambda: "draws" in panel.behind.text(), timeout=WAIT)
    qtbot.keyClicks(panel.limit, "at most 3")
    assert "at most 3 in: no (P 0.00); at this scale 3 in can only be called below" in panel.value.text()
    qtbot.mouseClick(panel.next, Qt.MouseButton.LeftButton)
    assert not panel.isVisible()
    assert not opened.film_place.canvas.points.active
    qtbot.waitUntil(lambda: QApplication.focusWidget() is opened.card.line.line, timeout=WAIT)
    type_words(qtbot, "v14 headband white forehead")
    settle(qtbot, opened)
    assert opened.card.by_hand.isVisible()
    (shown,) = opened.card.by_hand.findChildren(QLabel)
    assert shown.text().startswith(f"measured width: {inches:.2f}±")
    press(qtbot, Qt.Key.Key_Return)
    settle(qtbot, opened)
    (tag,) = opened.desk.review.tags
    (fact,) = [one for one in tag.facts if one.key == "width_in"]
    assert (fact.origin, fact.value.value) == (Origin.MEASURED, pytest.approx(inches, abs=0.005))
    assert [one.ruling.ruling for one in opened.desk.findings] == ["illegal"]


def test_a_length_wholly_by_keys(qtbot: QtBot, opened: DeskWindow) -> None:
    length, canvas = opened.by_hand.length, opened.film_place.canvas
    press(qtbot, Qt.Key.Key_L, CONTROL_SHIFT)
    stand(qtbot, opened)
    assert QApplication.focusWidget() is canvas
    for step, apart in ((1, 40), (2, 21)):
        press(qtbot, Qt.Key.Key_Return)  # both ends in the middle of the picture
        press(qtbot, Qt.Key.Key_Return)
        move(qtbot, 0, apart)  # the second one is chosen
        press(qtbot, Qt.Key.Key_Backtab, SHIFT)
        move(qtbot, step, 0)
        move(qtbot, -step, 0)
        assert length.asked is not None
        assert length.asked.whole
        if step == 1:
            press(qtbot, Qt.Key.Key_Return)
            settle(qtbot, opened)
    settle(qtbot, opened)
    assert length.seen is not None
    assert length.seen.length.inches == pytest.approx(21 / 40 * 9.47)
    press(qtbot, Qt.Key.Key_Return)
    settle(qtbot, opened)
    assert [one.key for one in opened.card_presenter.draft.by_hand] == ["width_in"]
    qtbot.waitUntil(lambda: QApplication.focusWidget() is opened.card.line.line, timeout=WAIT)


def test_escape_ends_it_and_leaves_nothing(qtbot: QtBot, opened: DeskWindow) -> None:
    press(qtbot, Qt.Key.Key_L, CONTROL_SHIFT)
    stand(qtbot, opened)
    click(qtbot, opened, 100, 60)
    press(qtbot, Qt.Key.Key_Escape)
    assert not opened.by_hand.length.on
    assert not opened.by_hand.length_panel.isVisible()
    assert not opened.film_place.canvas.points.active
    assert opened.card_presenter.draft is None
    drag(qtbot, opened, Box(40, 60, 40, 30))  # the picture draws regions again
    settle(qtbot, opened)
    assert opened.card_presenter.draft is not None


def test_playing_takes_the_points_off_and_another_frame_asks_again(qtbot: QtBot, opened: DeskWindow) -> None:
    length, points = opened.by_hand.length, opened.film_place.canvas.points
    press(qtbot, Qt.Key.Key_L, CONTROL_SHIFT)
    stand(qtbot, opened)
    for x, y in ((200, 60), (200, 90)):
        click(qtbot, opened, x, y)
    before = points.at
    press(qtbot, Qt.Key.Key_F8)
    stand(qtbot, opened)
    qtbot.waitUntil(lambda: points.active and points.at == before, timeout=WAIT)
    press(qtbot, Qt.Key.Key_F6)
    qtbot.waitUntil(lambda: opened.film_place.player.playing and not points.active, timeout=WAIT)
    assert "pause the film" in opened.by_hand.length_panel.todo.text()
    press(qtbot, Qt.Key.Key_F6)
    stand(qtbot, opened)
    qtbot.waitUntil(lambda: points.active and points.at == before, timeout=WAIT)
    assert length.step.value == "known"
    opened.by_hand.stop()


def test_a_time_from_a_first_moment_to_now(qtbot: QtBot, opened: DeskWindow) -> None:
    panel = opened.by_hand.elapsed_panel
    press(qtbot, Qt.Key.Key_E, CONTROL_SHIFT)
    assert panel.isVisible()
    for _ in range(3):
        press(qtbot, Qt.Key.Key_F8)
        stand(qtbot, opened)
    assert panel.head.text() == "Time from 0:00.000 to 0:00.100"
    assert panel.words.text() == "0.100 ± 0.014 s, off by 0.033 s at most"
    qtbot.keyClicks(panel.limit, "at most 15")
    assert "at most 15 s: yes (P 1.00)" in panel.words.text()
    qtbot.mouseClick(panel.anew, Qt.MouseButton.LeftButton)
    assert panel.words.text().startswith("0.000")
    qtbot.mouseClick(panel.stop, Qt.MouseButton.LeftButton)
    assert not panel.isVisible()


def test_a_number_against_its_jersey(qtbot: QtBot, opened: DeskWindow) -> None:
    contrast, panel = opened.by_hand.contrast, opened.by_hand.contrast_panel
    press(qtbot, Qt.Key.Key_N, CONTROL_SHIFT)
    assert not panel.isVisible()
    assert "draw a region close around the number first" in opened.messages.words.text()
    drag(qtbot, opened, Box(10, 10, 110, 60))
    settle(qtbot, opened)
    press(qtbot, Qt.Key.Key_N, CONTROL_SHIFT)
    settle(qtbot, opened)
    assert panel.isVisible()
    assert "stands out from the jersey: " in panel.value.text()
    assert "protan" in panel.behind.text()
    around = contrast.found
    qtbot.mouseClick(panel.own, Qt.MouseButton.LeftButton)
    for x, y in ((200, 100), (240, 100), (240, 130), (200, 130)):
        click(qtbot, opened, x, y)
    settle(qtbot, opened)
    assert contrast.found is not None
    assert contrast.found != around
    press(qtbot, Qt.Key.Key_Escape)
    assert not panel.isVisible()


def test_one_thing_at_a_time_has_the_points(qtbot: QtBot, opened: DeskWindow) -> None:
    by_hand, points = opened.by_hand, opened.film_place.canvas.points
    drag(qtbot, opened, Box(10, 10, 110, 60))
    settle(qtbot, opened)
    opened.film_place.canvas.setFocus()
    press(qtbot, Qt.Key.Key_L, CONTROL_SHIFT)
    stand(qtbot, opened)
    assert points.active
    press(qtbot, Qt.Key.Key_N, CONTROL_SHIFT)
    settle(qtbot, opened)
    assert (by_hand.length.on, by_hand.contrast.on, points.active) == (False, True, False)
    press(qtbot, Qt.Key.Key_L, CONTROL_SHIFT)
    stand(qtbot, opened)
    assert (by_hand.length.on, by_hand.contrast.on, points.active) == (True, False, True)
    by_hand.stop()
    assert not points.active


def test_the_tab_comes_and_goes_and_takes_the_keys(qtbot: QtBot, opened: DeskWindow) -> None:
    tabs, page = opened.below, opened.by_hand.page
    assert tabs.currentWidget() is opened.ledger
    press(qtbot, Qt.Key.Key_9, Qt.KeyboardModifier.ControlModifier)
    assert tabs.currentWidget() is page
    assert QApplication.focusWidget() is page.buttons[0]
    press(qtbot, Qt.Key.Key_Space)  # begins a length
    stand(qtbot, opened)
    assert opened.by_hand.length.on
    press(qtbot, Qt.Key.Key_9, Qt.KeyboardModifier.ControlModifier)
    assert QApplication.focusWidget() is opened.by_hand.length_panel.key
    press(qtbot, Qt.Key.Key_1, Qt.KeyboardModifier.ControlModifier)
    press(qtbot, Qt.Key.Key_Escape)
    assert tabs.currentWidget() is page  # it was in front before
    press(qtbot, Qt.Key.Key_4, Qt.KeyboardModifier.ControlModifier)
    press(qtbot, Qt.Key.Key_E, CONTROL_SHIFT)
    assert tabs.currentWidget() is page
    opened.by_hand.stop()
    assert tabs.currentWidget() is opened.ledger


def test_closing_the_review_ends_all_of_it(qtbot: QtBot, opened: DeskWindow) -> None:
    press(qtbot, Qt.Key.Key_E, CONTROL_SHIFT)
    press(qtbot, Qt.Key.Key_L, CONTROL_SHIFT)
    stand(qtbot, opened)
    opened.actions_by_name["close"].trigger()
    settle(qtbot, opened)
    assert opened.desk.review is None
    assert not opened.by_hand.length.on
    assert not opened.by_hand.elapsed.on
    assert not opened.film_place.canvas.points.active


def test_a_length_on_the_floor_by_mouse(qtbot: QtBot, opened: DeskWindow) -> None:
    """A lane is 12 ft wide and its free-throw line 19 ft from the end line (rule-book dimensions)."""
    length, panel = opened.by_hand.length, opened.by_hand.length_panel
    press(qtbot, Qt.Key.Key_L, CONTROL_SHIFT)
    stand(qtbot, opened)
    panel.against.setFocus()
    qtbot.keyClick(panel.against, Qt.Key.Key_End)
    assert length.by_floor
    assert panel.against.hasFocus()  # going through the list by keys does not leave it
    assert [corner.isVisible() for corner in panel.corners] == [True] * 6
    assert [corner.isEnabled() for corner in panel.corners] == [True] * 5 + [False]
    assert not panel.nearer.isVisible()
    lane = ((60, 120), (150, 130), (170, 90), (100, 84))
    for x, y in lane:
        click(qtbot, opened, x, y)
    qtbot.mouseClick(panel.next, Qt.MouseButton.LeftButton)
    for x, y in (lane[0], lane[3]):
        click(qtbot, opened, x, y)
    settle(qtbot, opened)
    assert length.seen is not None, panel.value.text()
    assert length.seen.length.inches == pytest.approx(144, rel=0.08)
    assert "on the floor only" in panel.notes.text()
    assert "court points' clicks" in panel.behind.text()
    opened.by_hand.stop()

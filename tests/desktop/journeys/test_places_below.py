"""The places over the ledger in the real window: events and stoppages by single keys while the film runs, the wear board."""

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest
from PyQt6.QtCore import QPoint, Qt
from PyQt6.QtWidgets import QApplication, QComboBox
from pytestqt.qtbot import QtBot

from filmreview.desktop.window import DeskWindow
from filmreview.facts.region import Box
from filmreview.review.stretch_changes import AddStoppage
from tests.desktop.desk_fixtures import FILMS
from tests.desktop.journeys.steps import WAIT, begin_review, drag, press, settle, stand, type_words
from tests.desktop.walk import nameless

CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
REGION = Box(40, 60, 40, 30)


@pytest.fixture
def opened(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> DeskWindow:
    """The window on a new review, its film standing on the first frame."""
    begin_review(qtbot, window, FILMS / "constant.mp4", tmp_path / "game.filmreview")
    settle(qtbot, window)
    return window


def play_a_little(qtbot: QtBot, window: DeskWindow, seconds: float) -> None:
    player = window.film_place.player
    press(qtbot, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: player.playing and player.time > seconds, timeout=WAIT)


def to_frame(qtbot: QtBot, window: DeskWindow, number: int) -> None:
    window.film_place.canvas.setFocus()
    press(qtbot, Qt.Key.Key_Home)
    qtbot.waitUntil(lambda: window.film_place.frame is not None and window.film_place.frame.number == 0, timeout=WAIT)
    for _ in range(number):
        press(qtbot, Qt.Key.Key_Right)
        stand(qtbot, window)
    assert window.film_place.frame.number == number


def test_events_are_noted_by_one_key_while_the_film_runs_and_named_after(qtbot: QtBot, opened: DeskWindow) -> None:
    clock, desk = opened.below.clock, opened.desk
    press(qtbot, Qt.Key.Key_S)
    assert desk.review.events == ()  # the clock is not open: letters do nothing on the picture
    press(qtbot, Qt.Key.Key_6, CONTROL)
    assert opened.below.currentWidget() is clock
    opened.film_place.canvas.setFocus()
    play_a_little(qtbot, opened, 0.3)
    press(qtbot, Qt.Key.Key_B)
    qtbot.waitUntil(lambda: len(desk.review.events) == 1, timeout=WAIT)
    assert opened.film_place.player.playing
    press(qtbot, Qt.Key.Key_S)
    qtbot.waitUntil(lambda: len(desk.review.events) == 2, timeout=WAIT)
    press(qtbot, Qt.Key.Key_Space)
    stand(qtbot, opened)
    settle(qtbot, opened)
    blood, stopped = desk.review.events
    assert (blood.what, stopped.what) == ("blood seen", "play stopped")
    assert 0.3 < desk.seconds_of("f1", blood.moment) <= desk.seconds_of("f1", stopped.moment)

    # at a pause: exactly the frame on the picture
    press(qtbot, Qt.Key.Key_G)
    qtbot.waitUntil(lambda: len(desk.review.events) == 3, timeout=WAIT)
    assert desk.review.events[2].moment == opened.film_place.frame.moment
    settle(qtbot, opened)

    # whose it was, in the line; the keys go back to where they came from
    clock.table.selectRow(0)
    press(qtbot, Qt.Key.Key_F4, SHIFT)
    assert QApplication.focusWidget() is clock.line.line
    type_words(qtbot, "v22")
    press(qtbot, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: desk.review.event(blood.id).player == "22", timeout=WAIT)
    assert QApplication.focusWidget() is opened.film_place.canvas
    press(qtbot, Qt.Key.Key_6, CONTROL)
    press(qtbot, Qt.Key.Key_F2)
    clock.line.line.selectAll()
    type_words(qtbot, "blood seen v14")
    press(qtbot, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: desk.review.event(blood.id).player == "14", timeout=WAIT)
    assert QApplication.focusWidget() is clock.table
    settle(qtbot, opened)
    assert "stayed in the game with blood" in clock.book.item(1).text()
    assert "safety" in clock.caution.words.text()

    # removed, and back again
    clock.table.setFocus()
    clock.table.selectRow(0)
    press(qtbot, Qt.Key.Key_Delete)
    qtbot.waitUntil(lambda: len(desk.review.events) == 2, timeout=WAIT)
    press(qtbot, Qt.Key.Key_Z, CONTROL)
    qtbot.waitUntil(lambda: len(desk.review.events) == 3, timeout=WAIT)
    assert desk.review.event(blood.id).player == "14"
    settle(qtbot, opened)


def test_an_event_in_words_is_of_the_moment_when_the_key_was_pressed(qtbot: QtBot, opened: DeskWindow) -> None:
    desk = opened.desk
    opened.film_place.canvas.setFocus()
    play_a_little(qtbot, opened, 0.2)
    press(qtbot, Qt.Key.Key_F4)
    begun = opened.below.clock_presenter.begun
    assert begun is not None
    assert opened.film_place.player.playing
    type_words(qtbot, "sub ent h10")  # letters go to the line, not to the keys
    press(qtbot, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: len(desk.review.events) == 1, timeout=WAIT)
    (event,) = desk.review.events
    assert (event.what, event.team, event.player, event.moment) == ("substitute enters", "home", "10", begun[1])
    opened.film_place.player.pause()
    stand(qtbot, opened)
    settle(qtbot, opened)

    # it can be given the moment on the picture
    opened.below.clock.table.selectRow(0)
    press(qtbot, Qt.Key.Key_Home)
    qtbot.waitUntil(lambda: opened.film_place.frame is not None and opened.film_place.frame.number == 0, timeout=WAIT)
    press(qtbot, Qt.Key.Key_M, CONTROL)
    qtbot.waitUntil(lambda: desk.review.events[0].moment == opened.film_place.frame.moment, timeout=WAIT)
    settle(qtbot, opened)


def test_a_stoppage_by_one_key_its_kind_in_words_and_to_it_by_key(qtbot: QtBot, opened: DeskWindow) -> None:
    desk, place, strip = opened.desk, opened.film_place, opened.film_place.strip
    for number in (5, 15):
        to_frame(qtbot, opened, number)
        press(qtbot, Qt.Key.Key_F5)
    qtbot.waitUntil(lambda: len(desk.review.stoppages) == 1, timeout=WAIT)
    (one,) = desk.review.stoppages
    film = desk.film
    assert (one.start, one.end) == (film.moment_of(5), film.moment_of(15))
    assert "1 stoppages" in strip.accessibleDescription()
    press(qtbot, Qt.Key.Key_F5, SHIFT)
    editor = opened.below.stoppages.table.findChild(QComboBox)
    qtbot.waitUntil(lambda: editor.hasFocus() or QApplication.focusWidget() is editor, timeout=WAIT)
    qtbot.keyClicks(editor, "inj")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: desk.review.stoppages[0].kind == "injury", timeout=WAIT)

    to_frame(qtbot, opened, 0)
    press(qtbot, Qt.Key.Key_F3)
    qtbot.waitUntil(lambda: place.frame is not None and place.frame.number == 5, timeout=WAIT)
    press(qtbot, Qt.Key.Key_F3)
    assert "no stoppage after" in opened.messages.words.text()
    to_frame(qtbot, opened, 20)
    press(qtbot, Qt.Key.Key_F3, SHIFT)
    qtbot.waitUntil(lambda: place.frame is not None and place.frame.number == 5, timeout=WAIT)
    press(qtbot, Qt.Key.Key_7, CONTROL)
    press(qtbot, Qt.Key.Key_Delete)
    qtbot.waitUntil(lambda: desk.review.stoppages == (), timeout=WAIT)
    settle(qtbot, opened)


def test_enter_on_the_wear_board_goes_to_the_exact_frame(qtbot: QtBot, opened: DeskWindow) -> None:
    to_frame(qtbot, opened, 7)
    drag(qtbot, opened, REGION)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is opened.card.line.line, timeout=WAIT)
    type_words(qtbot, "v14 headband black")
    settle(qtbot, opened)
    press(qtbot, Qt.Key.Key_Return)
    settle(qtbot, opened)
    press(qtbot, Qt.Key.Key_Home)
    qtbot.waitUntil(lambda: opened.film_place.frame is not None and opened.film_place.frame.number == 0, timeout=WAIT)
    press(qtbot, Qt.Key.Key_5, CONTROL)
    board = opened.below.wear
    qtbot.waitUntil(lambda: board.model.rowCount() == 3, timeout=WAIT)  # both teams' lines and the player's
    assert QApplication.focusWidget() is board.table
    for key in (Qt.Key.Key_Home, Qt.Key.Key_Down, Qt.Key.Key_Down):
        press(qtbot, key)
    press(qtbot, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: opened.film_place.frame is not None and opened.film_place.frame.number == 7, timeout=WAIT)
    assert QApplication.focusWidget() is board.table
    press(qtbot, Qt.Key.Key_F2)
    qtbot.waitUntil(lambda: opened.card.line.line.text() == "v14 headband black", timeout=WAIT)
    settle(qtbot, opened)


def test_every_control_of_the_places_has_a_name(opened: DeskWindow) -> None:
    for place in range(opened.below.count()):
        opened.below.setCurrentIndex(place)
        assert nameless(opened.below) == []


def test_back_to_a_step_of_the_history_forward_again_and_after_a_restart(
    qtbot: QtBot, start: Callable[[], DeskWindow], tmp_path: Path
) -> None:
    path = tmp_path / "game.filmreview"
    window = start()
    begin_review(qtbot, window, FILMS / "constant.mp4", path)
    settle(qtbot, window)
    for line in ("injury v14", "staff beckoned v", "returns v14"):
        press(qtbot, Qt.Key.Key_F4)
        type_words(qtbot, line)
        press(qtbot, Qt.Key.Key_Return)
        settle(qtbot, window)
    press(qtbot, Qt.Key.Key_H, CONTROL)
    history = window.reading.history
    qtbot.waitUntil(lambda: history.table.model().rowCount() == 5, timeout=WAIT)
    for _ in range(2):
        qtbot.keyClick(history.table, Qt.Key.Key_Down)
    qtbot.keyClick(history.table, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: len(window.desk.review.events) == 1, timeout=WAIT)
    history.close()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    window.film_place.canvas.setFocus()
    press(qtbot, Qt.Key.Key_Z, CONTROL | SHIFT)  # one of the two steps alone
    qtbot.waitUntil(lambda: len(window.desk.review.events) == 2, timeout=WAIT)
    settle(qtbot, window)
    window.close()

    again = start()
    again.open_path(path)
    stand(qtbot, again)
    settle(qtbot, again)
    press(qtbot, Qt.Key.Key_H, CONTROL)
    history = again.reading.history
    qtbot.waitUntil(lambda: history.table.model().rowCount() == 5, timeout=WAIT)
    assert "undone, can be done again" in history.table.model().index(0, 3).data()
    assert history.table.currentIndex().row() == 1
    assert nameless(history) == []
    qtbot.keyClick(history.table, Qt.Key.Key_Up)
    qtbot.keyClick(history.table, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: len(again.desk.review.events) == 3, timeout=WAIT)
    settle(qtbot, again)
    history.close()


def test_the_rule_of_the_card_s_ruling_is_read_by_key(qtbot: QtBot, opened: DeskWindow) -> None:
    opened.film_place.canvas.setFocus()
    press(qtbot, Qt.Key.Key_Insert)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is opened.card.line.line, timeout=WAIT)
    type_words(qtbot, "v14 arm sleeve orange")
    settle(qtbot, opened)
    press(qtbot, Qt.Key.Key_R, CONTROL)
    reader = opened.reading.rules
    qtbot.waitUntil(reader.isVisible, timeout=WAIT)
    assert reader.rules.currentItem().text() == "Sleeves and tights: colour"
    assert nameless(reader) == []
    reader.close()
    qtbot.mouseClick(opened.card.ruling.read, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(reader.isVisible, timeout=WAIT)
    reader.close()


def test_proposed_stoppages_are_looked_over_by_key_from_the_picture(qtbot: QtBot, opened: DeskWindow) -> None:
    desk, place = opened.desk, opened.film_place
    film = desk.film
    for start in (5, 25):
        desk.try_change(AddStoppage("f1", film.moment_of(start), film.moment_of(start + 10), "time-out", "", "proposed"))
    settle(qtbot, opened)
    place.canvas.setFocus()
    press(qtbot, Qt.Key.Key_F3)
    qtbot.waitUntil(lambda: place.frame is not None and place.frame.number == 5, timeout=WAIT)
    press(qtbot, Qt.Key.Key_F5, CONTROL)
    qtbot.waitUntil(lambda: [one.origin for one in desk.review.stoppages] == ["by hand", "proposed"], timeout=WAIT)
    assert "kept as right" in opened.messages.words.text()
    press(qtbot, Qt.Key.Key_F3)
    qtbot.waitUntil(lambda: place.frame is not None and place.frame.number == 25, timeout=WAIT)
    press(qtbot, Qt.Key.Key_F5, CONTROL | SHIFT)
    qtbot.waitUntil(lambda: [one.id for one in desk.review.stoppages] == ["s1"], timeout=WAIT)
    press(qtbot, Qt.Key.Key_F5, CONTROL | SHIFT)  # it has gone: there is none here any more
    assert "in no stoppage" in opened.messages.words.text()
    press(qtbot, Qt.Key.Key_Z, CONTROL)
    qtbot.waitUntil(lambda: len(desk.review.stoppages) == 2, timeout=WAIT)
    settle(qtbot, opened)


def test_the_clock_runs_along_with_the_film(qtbot: QtBot, opened: DeskWindow) -> None:
    clock = opened.below.clock
    press(qtbot, Qt.Key.Key_6, CONTROL)
    opened.film_place.canvas.setFocus()
    press(qtbot, Qt.Key.Key_S)
    settle(qtbot, opened)
    assert clock._running.text() == "0.0 s since play stopped"
    play_a_little(qtbot, opened, 0.6)
    press(qtbot, Qt.Key.Key_Space)
    stand(qtbot, opened)
    seconds = float(opened.film_place.player.time)
    assert clock._running.text() == f"{seconds:.1f} s since play stopped"
    assert seconds >= 0.6


def click_tab(qtbot: QtBot, window: DeskWindow, words: str) -> None:
    bar = window.below.tabBar()
    (place,) = [number for number in range(bar.count()) if bar.tabText(number) == words]
    qtbot.mouseClick(bar, Qt.MouseButton.LeftButton, pos=bar.tabRect(place).center())


def test_with_the_mouse_alone(qtbot: QtBot, opened: DeskWindow) -> None:
    desk, film_place, below = opened.desk, opened.film_place, opened.below
    left = Qt.MouseButton.LeftButton

    # a stoppage: begin, go on by the strip, end, go there
    click_tab(qtbot, opened, "Stoppages")
    qtbot.mouseClick(below.stoppages.mark, left)
    line = film_place.strip.whole_line()
    there = QPoint(round(line.scale.x_of(Fraction(2))), round(line.rect.center().y()))
    qtbot.mouseClick(film_place.strip, left, pos=there)
    qtbot.waitUntil(lambda: film_place.frame is not None and film_place.frame.number > 50, timeout=WAIT)
    qtbot.mouseClick(below.stoppages.mark, left)
    qtbot.waitUntil(lambda: len(desk.review.stoppages) == 1, timeout=WAIT)
    settle(qtbot, opened)
    table = below.stoppages.table
    start = table.visualRect(below.stoppages.model.index(0, 0)).center()
    qtbot.mouseClick(table.viewport(), left, pos=start)
    qtbot.mouseDClick(table.viewport(), left, pos=start)
    qtbot.waitUntil(lambda: film_place.frame is not None and film_place.frame.number == 0, timeout=WAIT)

    # an event from the list of keys, and back to it from later on
    click_tab(qtbot, opened, "Procedure clock")
    clock = below.clock
    item = clock.words.visualItemRect(clock.words.item(0)).center()
    qtbot.mouseClick(clock.words.viewport(), left, pos=item)
    qtbot.mouseDClick(clock.words.viewport(), left, pos=item)
    qtbot.waitUntil(lambda: [event.what for event in desk.review.events] == ["blood seen"], timeout=WAIT)
    settle(qtbot, opened)
    qtbot.mouseClick(film_place.strip, left, pos=there)
    qtbot.waitUntil(lambda: film_place.frame is not None and film_place.frame.number > 50, timeout=WAIT)
    row = clock.table.visualRect(clock.model.index(0, 1)).center()
    qtbot.mouseClick(clock.table.viewport(), left, pos=row)
    qtbot.mouseDClick(clock.table.viewport(), left, pos=row)
    qtbot.waitUntil(lambda: film_place.frame is not None and film_place.frame.number == 0, timeout=WAIT)

    # a tag, then its cell on the wear board from elsewhere on the film
    drag(qtbot, opened, REGION)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is opened.card.line.line, timeout=WAIT)
    type_words(qtbot, "v14 headband black")
    settle(qtbot, opened)
    qtbot.mouseClick(opened.card.keep, left)
    settle(qtbot, opened)
    qtbot.mouseClick(film_place.strip, left, pos=there)
    qtbot.waitUntil(lambda: film_place.frame is not None and film_place.frame.number > 50, timeout=WAIT)
    click_tab(qtbot, opened, "Wear board")
    board = below.wear
    qtbot.waitUntil(lambda: board.model.rowCount() == 3, timeout=WAIT)
    cell = board.table.visualRect(board.model.index(2, 0)).center()
    qtbot.mouseClick(board.table.viewport(), left, pos=cell)
    qtbot.waitUntil(lambda: film_place.frame is not None and film_place.frame.number == 0, timeout=WAIT)


def test_what_is_read_beside_the_window_closes_with_it(qtbot: QtBot, opened: DeskWindow) -> None:
    for key in (Qt.Key.Key_H, Qt.Key.Key_R):
        opened.activateWindow()
        qtbot.waitUntil(opened.isActiveWindow)
        opened.film_place.canvas.setFocus()
        press(qtbot, key, CONTROL)
    dialogs = (opened.reading.history, opened.reading.rules)
    qtbot.waitUntil(lambda: all(dialog is not None and dialog.isVisible() for dialog in dialogs), timeout=WAIT)
    opened.close()
    assert not any(dialog.isVisible() for dialog in dialogs)

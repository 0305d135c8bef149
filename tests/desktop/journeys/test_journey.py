"""From a film to a handed-over sheet, through the real window, by mouse and keys."""

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import openpyxl
import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QApplication, QComboBox, QFileDialog
from pytestqt.qtbot import QtBot

from filmreview.desktop.ledger_model import CREW, RULING
from filmreview.desktop.window import DeskWindow
from filmreview.facts.region import Box
from tests.desktop.desk_fixtures import FILMS
from tests.desktop.journeys.steps import WAIT, begin_review, close_to, drag, press, settle, stand, type_words

FILM = FILMS / "constant.mp4"
REGION = Box(40, 60, 40, 30)
CONTROL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def opened(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> DeskWindow:
    """The window on a new review, its film standing on the first frame."""
    begin_review(qtbot, window, FILM, tmp_path / "game.filmreview")
    settle(qtbot, window)
    return window


def tag_by_hand(qtbot: QtBot, window: DeskWindow, words: str) -> None:
    drag(qtbot, window, REGION)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is window.card.line.line, timeout=WAIT)
    type_words(qtbot, words)
    settle(qtbot, window)
    press(qtbot, Qt.Key.Key_Return)
    settle(qtbot, window)


def cells(window: DeskWindow, column: int) -> list[str]:
    table = window.ledger.filter
    return [table.index(row, column).data(Qt.ItemDataRole.DisplayRole) for row in range(table.rowCount())]


def test_from_film_to_sheet_and_back(
    qtbot: QtBot, start: Callable[[], DeskWindow], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window = start()
    begin_review(qtbot, window, FILM, tmp_path / "game.filmreview")
    settle(qtbot, window)
    place = window.film_place

    # play with sound on, pause, step
    press(qtbot, Qt.Key.Key_F6)
    qtbot.waitUntil(lambda: place.player.playing and place.player.time > Fraction(1, 2), timeout=WAIT)
    press(qtbot, Qt.Key.Key_F6)
    stand(qtbot, window)
    number = place.frame.number
    assert number > 10
    for key in (Qt.Key.Key_Left, Qt.Key.Key_Left, Qt.Key.Key_Right):
        press(qtbot, key)
        stand(qtbot, window)
    assert place.frame.number == number - 1

    # a stoppage from here on; from the start of the film to it
    press(qtbot, Qt.Key.Key_F5)
    for _ in range(3):
        press(qtbot, Qt.Key.Key_Right)
        stand(qtbot, window)
    press(qtbot, Qt.Key.Key_F5)
    qtbot.waitUntil(lambda: len(window.desk.review.stoppages) == 1, timeout=WAIT)
    press(qtbot, Qt.Key.Key_Home)
    qtbot.waitUntil(lambda: place.frame is not None and place.frame.number == 0, timeout=WAIT)
    press(qtbot, Qt.Key.Key_F3)
    qtbot.waitUntil(lambda: place.frame is not None and place.frame.number == number - 1, timeout=WAIT)

    # draw, type, keep
    tag_by_hand(qtbot, window, "v14 arm sleeve orange")
    (tag,) = window.desk.review.tags
    assert (tag.team, tag.player, tag.item) == ("visitor", "14", "arm sleeve")
    assert tag.moment == place.frame.moment
    assert close_to(tag.region, REGION)
    assert cells(window, RULING) == ["illegal"]
    assert window.ledger.chosen() == (tag.id,)
    assert QApplication.focusWidget() is place.canvas

    # crew mark in the ledger
    press(qtbot, Qt.Key.Key_4, CONTROL)
    table = window.ledger.table
    table.selectRow(0)
    table.setCurrentIndex(window.ledger.filter.index(0, CREW))
    press(qtbot, Qt.Key.Key_F2)
    editor = table.findChild(QComboBox)
    qtbot.keyClicks(editor, "late")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: cells(window, CREW) == ["late"], timeout=WAIT)
    settle(qtbot, window)

    # undo, redo
    redo = CONTROL | SHIFT
    for keys, crew in ((CONTROL, ["not marked"]), (CONTROL, []), (redo, ["not marked"]), (redo, ["late"])):
        press(qtbot, Qt.Key.Key_Z, keys)
        settle(qtbot, window)
        assert cells(window, CREW) == crew

    # from elsewhere to the tag by the wear board
    press(qtbot, Qt.Key.Key_1, CONTROL)
    press(qtbot, Qt.Key.Key_Home)
    qtbot.waitUntil(lambda: place.frame is not None and place.frame.number == 0, timeout=WAIT)
    press(qtbot, Qt.Key.Key_5, CONTROL)
    qtbot.waitUntil(lambda: window.below.wear.model.rowCount() == 3, timeout=WAIT)  # a line a team, and the player's
    for key in (Qt.Key.Key_Home, Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Return):
        press(qtbot, key)
    qtbot.waitUntil(lambda: place.frame is not None and place.frame.moment == tag.moment, timeout=WAIT)

    # sheet
    sheet = tmp_path / "sheet.xlsx"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_given: (str(sheet), ""))
    press(qtbot, Qt.Key.Key_S, CONTROL | SHIFT)
    qtbot.waitUntil(lambda: str(sheet) in window.messages.words.text() and not window.jobs.busy, timeout=WAIT)
    words = [str(cell.value) for row in openpyxl.load_workbook(sheet)["Findings"].iter_rows() for cell in row]
    assert {"arm sleeve", "illegal", "late"} <= set(words)

    # close, open again: all there
    window.close()
    again = start()
    press(qtbot, Qt.Key.Key_Tab)
    again.start_page.recent.setCurrentRow(0)
    qtbot.keyClick(again.start_page.recent, Qt.Key.Key_Return)
    stand(qtbot, again)
    settle(qtbot, again)
    assert (cells(again, RULING), cells(again, CREW)) == (["illegal"], ["late"])
    assert len(again.desk.review.stoppages) == 1
    press(qtbot, Qt.Key.Key_Z, CONTROL)
    settle(qtbot, again)
    assert cells(again, CREW) == ["not marked"]


def test_from_pause_to_a_kept_ruled_tag_in_twelve_keys_and_one_drag(qtbot: QtBot, opened: DeskWindow) -> None:
    words = "v14 ar or"
    tag_by_hand(qtbot, opened, words)
    assert len(words) + 1 <= 12  # and Enter
    (tag,) = opened.desk.review.tags
    assert tag.item == "arm sleeve"
    assert cells(opened, RULING) == ["illegal"]


def test_everything_without_a_mouse(qtbot: QtBot, opened: DeskWindow) -> None:
    opened.film_place.canvas.setFocus()
    press(qtbot, Qt.Key.Key_Insert)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is opened.card.line.line, timeout=WAIT)
    type_words(qtbot, "h3 headband black")
    settle(qtbot, opened)
    press(qtbot, Qt.Key.Key_Return)
    settle(qtbot, opened)
    assert opened.desk.review.tags[0].region is not None
    assert cells(opened, RULING) == ["legal"]


def test_escape_drops_and_the_picture_has_the_keys_again(qtbot: QtBot, opened: DeskWindow) -> None:
    drag(qtbot, opened, REGION)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is opened.card.line.line, timeout=WAIT)
    type_words(qtbot, "v14")
    settle(qtbot, opened)
    assert "view" in opened.film_place.canvas.accessibleDescription()
    press(qtbot, Qt.Key.Key_Escape)
    settle(qtbot, opened)
    assert "view" not in opened.film_place.canvas.accessibleDescription()
    assert opened.desk.review.tags == ()
    assert opened.film_place.canvas.region is None
    assert QApplication.focusWidget() is opened.film_place.canvas


def test_enter_in_the_ledger_goes_to_the_exact_frame(qtbot: QtBot, opened: DeskWindow) -> None:
    place = opened.film_place
    for _ in range(5):
        press(qtbot, Qt.Key.Key_Right)
        stand(qtbot, opened)
    tag_by_hand(qtbot, opened, "v14 tights black")
    press(qtbot, Qt.Key.Key_Home)
    qtbot.waitUntil(lambda: place.frame is not None and place.frame.number == 0, timeout=WAIT)
    press(qtbot, Qt.Key.Key_4, CONTROL)
    opened.ledger.table.selectRow(0)
    press(qtbot, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: place.frame is not None and place.frame.number == 5, timeout=WAIT)


def test_a_drag_while_playing_pauses_and_tags_the_frame_that_was_seen(qtbot: QtBot, opened: DeskWindow) -> None:
    press(qtbot, Qt.Key.Key_F6)
    player = opened.film_place.player
    qtbot.waitUntil(lambda: player.playing and player.time > 0, timeout=WAIT)
    tag_by_hand(qtbot, opened, "v14 tights black")
    assert not player.playing
    (tag,) = opened.desk.review.tags
    assert tag.moment == opened.film_place.frame.moment


def test_a_white_that_cannot_serve_is_refused_in_words(qtbot: QtBot, opened: DeskWindow) -> None:
    press(qtbot, Qt.Key.Key_W, CONTROL | SHIFT)
    drag(qtbot, opened, Box(100, 100, 3, 3))
    settle(qtbot, opened)
    assert "cannot be the white: it is 3 px across" in opened.messages.words.text()
    assert opened.desk.review.references == ()
    assert opened.film_place.canvas.reference is None


def test_two_windows_on_one_review_the_second_is_told(qtbot: QtBot, start: Callable[[], DeskWindow], tmp_path: Path) -> None:
    first = start()
    begin_review(qtbot, first, FILM, tmp_path / "game.filmreview")
    settle(qtbot, first)
    second = start()
    second.open_path(tmp_path / "game.filmreview")
    settle(qtbot, second)
    assert "game.filmreview" in second.messages.words.text()
    assert second.start_page.isVisible()


def test_a_film_that_moved_is_told_and_found_again(
    qtbot: QtBot, start: Callable[[], DeskWindow], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    film, moved = tmp_path / "game.mp4", tmp_path / "elsewhere" / "half.mp4"
    film.write_bytes(FILM.read_bytes())
    window = start()
    begin_review(qtbot, window, film, tmp_path / "game.filmreview")
    tag_by_hand(qtbot, window, "v14 tights black")
    window.close()
    moved.parent.mkdir()
    film.rename(moved)

    again = start()
    again.open_path(tmp_path / "game.filmreview")
    qtbot.waitUntil(lambda: "not there any more" in again.messages.words.text(), timeout=WAIT)
    settle(qtbot, again)
    assert cells(again, RULING) == ["legal"]
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_given: (str(moved), ""))
    again.actions_by_name["find_film"].trigger()
    stand(qtbot, again)
    settle(qtbot, again)
    assert tmp_path / again.desk.review.films[0].path == moved  # kept by the way from the review


def test_what_is_typed_is_not_lost_by_opening_another_tag(qtbot: QtBot, opened: DeskWindow) -> None:
    tag_by_hand(qtbot, opened, "v14 tights black")
    press(qtbot, Qt.Key.Key_Right)
    stand(qtbot, opened)
    drag(qtbot, opened, REGION)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is opened.card.line.line, timeout=WAIT)
    type_words(qtbot, "v22 head")
    press(qtbot, Qt.Key.Key_Return, CONTROL | SHIFT)
    assert "first" in opened.messages.words.text()
    assert opened.card.line.line.text() == "v22 head"
    press(qtbot, Qt.Key.Key_Escape)
    press(qtbot, Qt.Key.Key_Return, CONTROL | SHIFT)
    qtbot.waitUntil(lambda: opened.card.line.line.text() == "v14 tights black", timeout=WAIT)
    settle(qtbot, opened)


def test_enter_on_the_picture_begins_a_tag_without_a_region(qtbot: QtBot, opened: DeskWindow) -> None:
    opened.film_place.canvas.setFocus()
    press(qtbot, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is opened.card.line.line, timeout=WAIT)
    type_words(qtbot, "v14 tights black")
    settle(qtbot, opened)
    press(qtbot, Qt.Key.Key_Return)
    settle(qtbot, opened)
    (tag,) = opened.desk.review.tags
    assert (tag.item, tag.region) == ("tights", None)
    assert opened.card_presenter.draft is None


def test_shift_insert_on_the_picture_points_at_white(qtbot: QtBot, opened: DeskWindow) -> None:
    opened.film_place.canvas.setFocus()
    press(qtbot, Qt.Key.Key_Insert, SHIFT)
    drag(qtbot, opened, Box(100, 100, 3, 3))
    settle(qtbot, opened)
    assert "cannot be the white: it is 3 px across" in opened.messages.words.text()
    assert opened.card_presenter.draft is None


def test_a_review_is_closed_in_words_but_not_over_what_is_typed(qtbot: QtBot, opened: DeskWindow) -> None:
    drag(qtbot, opened, REGION)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is opened.card.line.line, timeout=WAIT)
    type_words(qtbot, "v14 tights black")
    opened.actions_by_name["close"].trigger()
    assert "keep or drop" in opened.messages.words.text()
    settle(qtbot, opened)
    press(qtbot, Qt.Key.Key_Return)
    settle(qtbot, opened)
    opened.actions_by_name["close"].trigger()
    settle(qtbot, opened)
    assert opened.start_page.isVisible()
    assert opened.messages.words.text() == "the review is closed; everything is kept"

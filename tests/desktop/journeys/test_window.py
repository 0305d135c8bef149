"""The window as a whole: what is in sight, what has a name, what keys there are."""

from pathlib import Path

import pytest
from PyQt6.QtCore import QRect, Qt
from PyQt6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from filmreview.desktop.actions import DEEDS, plain_words
from filmreview.desktop.window import DeskWindow
from tests.desktop.desk_fixtures import FILMS
from tests.desktop.journeys.steps import begin_review, press, settle, setup_of
from tests.desktop.walk import nameless


def test_every_control_has_a_name(qtbot: QtBot, window: DeskWindow) -> None:
    assert nameless(window) == []
    window.open_path(FILMS / "constant.mp4")
    dialog = setup_of(qtbot, window)
    assert nameless(dialog) == []
    dialog.reject()
    settle(qtbot, window)


def test_the_four_places_are_in_sight_on_a_small_screen(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> None:
    begin_review(qtbot, window, FILMS / "constant.mp4", tmp_path / "game.filmreview")
    settle(qtbot, window)
    assert (window.width(), window.height()) == (1366, 740)
    place = window.film_place
    for widget in (place.canvas, place.strip, place.bar, window.card, window.ledger.table):
        corner = widget.mapTo(window, widget.rect().bottomRight())
        assert not widget.visibleRegion().isEmpty()
        assert window.rect().contains(corner)
    areas = [one.width() * one.height() for one in (place.canvas, window.card, window.ledger)]
    assert areas[0] == max(areas)
    assert window.card.mapTo(window, window.card.rect().topLeft()).x() > place.mapTo(window, place.rect().topRight()).x()


def test_every_deed_can_be_done_by_key_or_menu(window: DeskWindow) -> None:
    in_menus = {action.text() for menu in window.menuBar().actions() for action in menu.menu().actions()}
    for deed in DEEDS:
        assert window.actions_by_name[deed.name].text() in in_menus
    named = {deed.name: plain_words(deed) for deed in DEEDS}
    assert named["note_event"] == "Put an event down in words"
    assert named["common_instant"] == "This is a shared instant of two films"
    keys = [deed.keys for deed in DEEDS if deed.keys]
    assert len(keys) == len(set(keys))


def test_f1_lists_every_key(qtbot: QtBot, window: DeskWindow) -> None:
    press(qtbot, Qt.Key.Key_F1)
    (dialog,) = [one for one in window.findChildren(QWidget) if one.windowTitle() == "Keys"]
    assert dialog.table.rowCount() == len(window.keys.presenter.rows())
    for row in range(dialog.table.rowCount()):
        for column in range(3):
            shown = dialog.table.visualItemRect(dialog.table.item(row, column)).size()
            room = QRect(0, 0, shown.width() - 6, 10_000)  # 3 px of margin on each side, as Qt's styles have them
            words = dialog.table.item(row, column).text()
            needed = dialog.table.fontMetrics().boundingRect(room, int(Qt.TextFlag.TextWordWrap), words)
            assert needed.width() <= room.width()
            assert needed.height() <= shown.height()
    listed = {dialog.table.item(row, 2).text() for row in range(dialog.table.rowCount())}
    assert {
        "Make the findings sheet",
        "Play or pause",
        "draw anew inside the old region; rub out of a patch",
    } <= listed
    dialog.close()


@pytest.mark.parametrize("name", ["nothing.filmreview", "nothing.mp4"])
def test_a_missing_file_is_told_and_the_window_lives(qtbot: QtBot, window: DeskWindow, tmp_path: Path, name: str) -> None:
    window.open_path(tmp_path / name)
    qtbot.waitUntil(lambda: name in window.messages.words.text() and not window.jobs.busy)
    assert window.start_page.isVisible()


def test_a_text_is_no_film(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> None:
    (tmp_path / "notes.mp4").write_text("no film at all")
    window.open_path(tmp_path / "notes.mp4")
    settle(qtbot, window)
    assert "notes.mp4" in window.messages.words.text()
    assert window.start_page.isVisible()

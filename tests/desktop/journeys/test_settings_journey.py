"""Settings and keys through the real window: in force at once, and after a restart."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QApplication, QDialog, QFileDialog, QPushButton
from pytestqt.qtbot import QtBot

from filmreview.desktop.keys_dialog import KeysDialog
from filmreview.desktop.keys_presenter import ON_FILM
from filmreview.desktop.kit_colours_dialog import KitColoursDialog
from filmreview.desktop.settings import Settings
from filmreview.desktop.settings_dialog import SettingsDialog
from filmreview.desktop.window import DeskWindow
from tests.desktop.desk_fixtures import FILMS
from tests.desktop.journeys.steps import WAIT, begin_review, fill_setup, press, settle, setup_of, stand
from tests.desktop.journeys.test_own_call_journey import tag
from tests.desktop.walk import nameless

CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


def dialog_of(qtbot: QtBot, window: DeskWindow, kind: type[QDialog]) -> QDialog:
    qtbot.waitUntil(lambda: any(one.isVisible() for one in window.findChildren(kind)))
    (found,) = [one for one in window.findChildren(kind) if one.isVisible()]
    qtbot.waitUntil(found.isActiveWindow)
    return found


def click(qtbot: QtBot, dialog: QDialog, words: str) -> None:
    (button,) = [one for one in dialog.findChildren(QPushButton) if one.text() == words]
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


@pytest.fixture
def _text_as_it_was() -> Iterator[None]:
    before = QApplication.font()
    yield
    QApplication.setFont(before)


@pytest.mark.usefixtures("_text_as_it_was")
def test_settings_are_in_force_at_once_and_after_a_restart(
    qtbot: QtBot, start: Callable[[], DeskWindow], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window = start()
    begin_review(qtbot, window, FILMS / "constant.mp4", tmp_path / "game.filmreview")
    settle(qtbot, window)
    before = QApplication.font().pointSizeF()
    (tmp_path / "sheets").mkdir()

    press(qtbot, Qt.Key.Key_Comma, CONTROL)
    dialog = dialog_of(qtbot, window, SettingsDialog)
    assert isinstance(dialog, SettingsDialog)
    assert nameless(dialog) == []
    dialog.who.selectAll()
    qtbot.keyClicks(dialog.who, "O. Vanterell")
    dialog.jump.selectAll()
    qtbot.keyClicks(dialog.jump, "0.5")
    dialog.text.selectAll()
    qtbot.keyClicks(dialog.text, "120")
    qtbot.keyClicks(dialog.playback, "the built")
    qtbot.keyClicks(dialog.book, "FIBA")
    qtbot.keyClicks(dialog.level, "open")
    qtbot.keyClicks(dialog.sheets, str(tmp_path / "sheets"))
    click(qtbot, dialog, "Take these settings")

    assert window.messages.words.text() == "these are the settings from now on"
    assert QApplication.font().pointSizeF() == pytest.approx(before * 1.2)
    assert window.actions_by_name["second_forward"].text().replace("&", "") == "Jump forward, 0.5 s"
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    window.film_place.canvas.setFocus()
    tag(qtbot, window, "v14 arm sleeve orange")
    assert [step.who for step in window.desk.store.history()][-1] == "O. Vanterell"
    press(qtbot, Qt.Key.Key_Right, SHIFT)
    stand(qtbot, window)
    assert window.film_place.player.time == pytest.approx(0.5, abs=0.05)
    press(qtbot, Qt.Key.Key_F6)
    qtbot.waitUntil(lambda: window.film_place.player.source_name == "built-in")
    press(qtbot, Qt.Key.Key_F6)
    stand(qtbot, window)
    proposed: list[str] = []
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *given: (proposed.append(given[2]), ("", ""))[1])
    press(qtbot, Qt.Key.Key_S, CONTROL | SHIFT)
    assert proposed == [str(tmp_path / "sheets" / "game.xlsx")]
    window.close()

    again = start()
    again.open_path(FILMS / "constant.mp4")
    setup = setup_of(qtbot, again)
    assert (setup.book.currentText(), setup.level.currentText(), setup.observer.text()) == ("FIBA", "open", "O. Vanterell")
    setup.reject()
    settle(qtbot, again)


def test_a_key_changed_under_f1_works_at_once_in_menu_and_on_the_picture(
    qtbot: QtBot, start: Callable[[], DeskWindow], tmp_path: Path
) -> None:
    window = start()
    begin_review(qtbot, window, FILMS / "constant.mp4", tmp_path / "game.filmreview")
    settle(qtbot, window)
    press(qtbot, Qt.Key.Key_F1)
    dialog = dialog_of(qtbot, window, KeysDialog)
    assert isinstance(dialog, KeysDialog)
    assert nameless(dialog) == []
    qtbot.keyClicks(dialog.look_for, "one frame forward")
    dialog.table.selectRow(0)
    qtbot.keyClick(dialog.scope, Qt.Key.Key_Down)
    qtbot.keyClick(dialog.key, Qt.Key.Key_V)
    click(qtbot, dialog, "Give this key")
    qtbot.keyClick(dialog.scope, Qt.Key.Key_Up)
    qtbot.keyClick(dialog.key, Qt.Key.Key_K, CONTROL)
    click(qtbot, dialog, "Give this key")
    dialog.close()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)

    place, action = window.film_place, window.actions_by_name["forward"]
    assert [one.toString() for one in action.shortcuts()] == ["Ctrl+K"]
    assert action.toolTip() == "One frame forward (Ctrl+K)"
    region = "On the picture Ins puts a region in the middle. "
    assert window.card.hint.text() == f"{region}Ctrl+T opens the card without a region. F1 lists all keys."
    window.keys.presenter.take_away("tag_here", "anywhere in the window")
    assert window.card.hint.text() == f"{region}Tag, Tag without a region opens the card without a region. F1 lists all keys."
    place.canvas.setFocus()
    for key, keys in ((Qt.Key.Key_V, Qt.KeyboardModifier.NoModifier), (Qt.Key.Key_K, CONTROL)):
        number = place.frame.number
        press(qtbot, key, keys)
        stand(qtbot, window)
        assert place.frame.number == number + 1
    number = place.frame.number
    press(qtbot, Qt.Key.Key_Right)
    press(qtbot, Qt.Key.Key_F8)
    qtbot.wait(50)
    assert place.frame.number == number
    window.close()

    again = start()
    assert [one.toString() for one in again.actions_by_name["forward"].shortcuts()] == ["Ctrl+K"]


def test_a_key_changed_works_where_kit_colours_are_picked_too(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> None:
    begin_review(qtbot, window, FILMS / "constant.mp4", tmp_path / "game.filmreview")
    assert window.keys.presenter.give("place_region", "Ctrl+J", ON_FILM) == ""
    window.actions_by_name["setup"].trigger()
    setup_of(qtbot, window).teams["home"].pick.click()
    qtbot.waitUntil(lambda: any(one.isVisible() for one in window.findChildren(KitColoursDialog)))
    (dialog,) = window.findChildren(KitColoursDialog)
    assert "(or press Ctrl+J on the picture)" in dialog.message.text()
    qtbot.waitUntil(lambda: dialog.player.frame is not None)
    dialog.canvas.setFocus()
    qtbot.keyClick(dialog.canvas, Qt.Key.Key_J, Qt.KeyboardModifier.ControlModifier)
    assert len(dialog.kit.here.samples) == 1
    dialog.done(0)
    setup_of(qtbot, window).done(0)
    settle(qtbot, window)


def test_a_wrong_settings_file_is_one_line_on_the_start_page(
    qtbot: QtBot, start: Callable[[], DeskWindow], settings: Settings
) -> None:
    settings.trouble = "desk.ini: jump cannot be read, so the default is taken; Review, Settings puts it right"
    window = start()
    assert window.messages.words.text() == settings.trouble
    assert window.start_page.fault.isVisible()
    assert window.start_page.fault.text().casefold() == settings.trouble.casefold()
    press(qtbot, Qt.Key.Key_Comma, CONTROL)
    dialog = dialog_of(qtbot, window, SettingsDialog)
    assert dialog.trouble.text().startswith("Desk.ini: jump cannot be read")
    dialog.reject()


@pytest.mark.parametrize("named", ["", "O. Vanterell"])
def test_a_login_is_not_taken_for_the_observer(
    qtbot: QtBot, settings: Settings, start: Callable[[], DeskWindow], tmp_path: Path, named: str
) -> None:
    settings.set_who("")
    window = start()
    window.open_path(FILMS / "constant.mp4")
    setup = setup_of(qtbot, window)
    assert setup.observer.text() == "", "nobody has said a name"
    qtbot.keyClicks(setup.observer, named)
    fill_setup(qtbot, setup, tmp_path / "game.filmreview")
    stand(qtbot, window)
    settle(qtbot, window)
    assert window.desk.review.game.observer == named
    assert settings.chosen().who == named
    window.actions_by_name["history"].trigger()
    qtbot.waitUntil(lambda: bool(window.reading.history_presenter.rows), timeout=WAIT)
    assert {row.who for row in window.reading.history_presenter.rows} == {named or "observer not named"}
    assert (settings.login in window.reading.history_presenter.rows[0].who_told) == (not named)

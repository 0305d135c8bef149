"""The settings file and the dialogs of settings and keys."""

from pathlib import Path

import pytest
from PyQt6.QtCore import QSettings, Qt
from PyQt6.QtGui import QKeySequence
from PyQt6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from filmreview.desktop.keys_dialog import KeysDialog
from filmreview.desktop.keys_presenter import ANYWHERE, Given, KeyDeed, KeyRow, KeysPresenter
from filmreview.desktop.settings import Settings
from filmreview.desktop.settings_dialog import SettingsDialog
from filmreview.desktop.settings_values import Chosen


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """The settings file of nobody."""
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(tmp_path))
    path = tmp_path / "filmreview" / "desk.ini"
    path.parent.mkdir()
    return path


def test_choices_and_keys_survive_a_restart(file: Path) -> None:
    first = Settings()
    chosen = Chosen("Valdrune, R.", "built-in", 0.5, 120, "ncaa-men", "college", str(file.parent))
    own = {"play": Given(("Ctrl+,", "F6"), ("P",)), "back": Given((), ("J",)), "close": Given()}
    first.choose(chosen)
    first.keep_own_keys(own)
    first.add_recent(file)
    del first
    again = Settings()
    assert (again.chosen(), again.own_keys(), again.trouble) == (chosen, own, "")
    assert (again.who(), again.playback(), again.recent()) == ("Valdrune, R.", "built-in", (file,))
    again.keep_own_keys({})
    assert Settings().own_keys() == {}


def test_a_wrong_value_is_one_line_and_the_rest_stays(file: Path) -> None:
    file.write_text("[General]\nwho=R. Valdrune\njump=soon\nrecent=/nowhere\n[layout]\nwindow=7\n", encoding="utf-8")
    settings = Settings()
    assert settings.trouble == "desk.ini: jump cannot be read, so the default is taken; Review, Settings puts it right"
    assert settings.chosen() == Chosen("R. Valdrune")
    assert settings.layout("window") is None
    assert not list(file.parent.glob("*.wrong*"))


@pytest.mark.parametrize(
    "text",
    [b"no settings at all", b"[General]\nwho=R. Valdrune\nhalf a li", b"\x00\xff" * 40, b"[General\nwho=R. Valdrune\n"],
)
def test_a_file_that_cannot_be_read_is_kept_aside(file: Path, text: bytes) -> None:
    file.write_bytes(text)
    settings = Settings()
    assert settings.trouble == (
        "desk.ini: not all settings could be read; the file is kept as desk.ini.wrong, defaults are taken for the rest"
    )
    settings.choose(Chosen(jump=3.0))
    assert settings.trouble == ""
    assert file.with_name("desk.ini.wrong").read_bytes() == text
    assert Settings().chosen().jump == 3.0


def test_settings_that_cannot_be_kept_say_so(file: Path) -> None:
    file.mkdir()
    settings = Settings()
    assert settings.trouble.startswith("desk.ini: the settings cannot be opened, so the defaults are taken")
    settings.choose(Chosen(jump=2.0))
    assert settings.trouble.startswith("the settings hold until the desk closes")
    assert settings.chosen().jump == 2.0


def test_a_value_of_another_program_does_not_stop_the_start(file: Path) -> None:
    file.write_text(r"[General]" + "\n" + r'jump="@Variant(\0\0\0\x7f\0\0\0\xePyQt_PyObject\0junk)"' + "\n", encoding="utf-8")
    settings = Settings()
    assert settings.chosen() == Chosen()
    assert "jump" in settings.trouble


def test_the_dialog_gives_back_what_it_was_given(qtbot: QtBot, tmp_path: Path) -> None:
    for chosen in (Chosen(), Chosen("R. Valdrune", "vlc", 2.5, 140, "fiba", "varsity", str(tmp_path))):
        dialog = SettingsDialog(chosen, "login")
        qtbot.addWidget(dialog)
        assert dialog.chosen() == chosen


def test_the_dialog_is_filled_by_keys(qtbot: QtBot) -> None:
    dialog = SettingsDialog(Chosen(), "login")
    qtbot.addWidget(dialog)
    qtbot.keyClicks(dialog.who, "R. Valdrune")
    dialog.jump.selectAll()
    qtbot.keyClicks(dialog.jump, "2.5")
    qtbot.keyClicks(dialog.level, "col")
    assert dialog.chosen() == Chosen(who="R. Valdrune", jump=2.5, level="college")


def test_a_folder_that_is_not_there_is_not_taken(qtbot: QtBot, tmp_path: Path) -> None:
    dialog = SettingsDialog(Chosen(sheets=str(tmp_path / "none")), "login")
    qtbot.addWidget(dialog)
    with qtbot.assertNotEmitted(dialog.accepted):
        dialog.accept()
    assert not dialog.trouble.isHidden()
    assert "There is no folder" in dialog.trouble.text()
    dialog.sheets.setText(str(tmp_path))
    with qtbot.waitSignal(dialog.accepted):
        dialog.accept()


@pytest.fixture
def keys() -> KeysPresenter:
    deeds = (
        KeyDeed("play", "Film", "Play or pause", Given(("F6",), ("Space",))),
        KeyDeed("sheet", "Review", "Make the findings sheet", Given(("Ctrl+Shift+S",))),
    )
    return KeysPresenter(deeds, [KeyRow("Picture", "drag", "draw a region")], {ANYWHERE: {}}, {}, lambda _own: None)


@pytest.fixture
def dialog(qtbot: QtBot, keys: KeysPresenter) -> KeysDialog:
    made = KeysDialog(keys)
    qtbot.addWidget(made)
    made.show()
    qtbot.waitExposed(made)
    return made


def shown(dialog: KeysDialog) -> list[str]:
    return [dialog.table.item(row, 1).text() for row in range(dialog.table.rowCount())]


def press(qtbot: QtBot, button: QPushButton) -> None:
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def test_a_key_is_pressed_and_given(qtbot: QtBot, dialog: KeysDialog, keys: KeysPresenter) -> None:
    assert not dialog.give.isEnabled()
    qtbot.keyClicks(dialog.look_for, "sheet")
    assert shown(dialog) == ["Ctrl+Shift+S"]
    dialog.table.selectRow(0)
    qtbot.keyClick(dialog.key, Qt.Key.Key_F5)
    press(qtbot, dialog.give)
    assert keys.given("sheet").anywhere == ("F5",)
    assert shown(dialog) == ["F5, changed"]
    assert dialog.told.text() == "F5 is now for: Make the findings sheet"
    assert dialog.key.keySequence() == QKeySequence()
    press(qtbot, dialog.reset)
    assert shown(dialog) == ["Ctrl+Shift+S"]


def test_a_taken_key_is_told_by_name_and_stays_typed(qtbot: QtBot, dialog: KeysDialog, keys: KeysPresenter) -> None:
    dialog.table.selectRow(1)
    qtbot.keyClick(dialog.key, Qt.Key.Key_F6)
    press(qtbot, dialog.give)
    assert dialog.told.text() == "F6 is taken already, for: Play or pause"
    assert keys.given("sheet").anywhere == ("Ctrl+Shift+S",)
    assert dialog.key.keySequence() == QKeySequence("F6")


def test_taking_away_and_all_as_at_first(qtbot: QtBot, dialog: KeysDialog) -> None:
    dialog.table.selectRow(0)
    press(qtbot, dialog.take_away)
    assert shown(dialog)[0] == "Space on the picture, changed"
    press(qtbot, dialog.reset_all)
    assert shown(dialog)[0] == "F6, or Space on the picture"
    assert not dialog.reset_all.isEnabled()


def test_a_line_about_the_mouse_cannot_be_changed(dialog: KeysDialog) -> None:
    dialog.table.selectRow(2)
    assert dialog.chosen.text() == "What the mouse and single places do stays as it is."
    assert not any(one.isEnabled() for one in (dialog.key, dialog.give, dialog.take_away, dialog.reset))

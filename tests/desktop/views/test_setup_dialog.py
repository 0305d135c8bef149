"""The set-up as a person fills it in."""

from datetime import date
from pathlib import Path

import pytest
from PyQt6.QtCore import QPoint, Qt
from PyQt6.QtWidgets import QDialogButtonBox, QMessageBox, QPushButton
from pytestqt.qtbot import QtBot

from filmreview.desktop.setup_dialog import SetupDialog
from filmreview.desktop.setup_presenter import SetupForm, game_of
from tests.desktop.desk_fixtures import FORM


def shown(qtbot: QtBot, form: SetupForm, path: Path | None) -> SetupDialog:
    dialog = SetupDialog(form, ("ohio-school-colour-bands",), path)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    return dialog


def take(dialog: SetupDialog) -> QPushButton:
    (button,) = [one for one in dialog.buttons.buttons() if "Cancel" not in one.text()]
    assert dialog.buttons.buttonRole(button) is QDialogButtonBox.ButtonRole.AcceptRole
    return button


def test_a_form_comes_back_as_it_was_shown(qtbot: QtBot) -> None:
    dialog = shown(qtbot, FORM, None)
    assert game_of(dialog.form()) == game_of(FORM)


def test_filled_in_by_hand(qtbot: QtBot, tmp_path: Path) -> None:
    dialog = shown(qtbot, SetupForm("2026-11-25"), tmp_path / "game.filmreview")
    qtbot.mouseClick(dialog.day, Qt.MouseButton.LeftButton)
    qtbot.keyClicks(dialog.day, "2023-12-05")
    qtbot.keyClicks(dialog.teams["home"].name, "Thrunnockby")
    qtbot.keyClicks(dialog.teams["home"].kit["jersey"].lineEdit(), "white")
    qtbot.keyClicks(dialog.teams["visitor"].name, "Ovvermire")
    qtbot.keyClicks(dialog.teams["visitor"].kit["jersey"].lineEdit(), "green")
    for line in ("14 Sambrel", "22 Kimra"):
        qtbot.keyClicks(dialog.teams["visitor"].roster, line)
        qtbot.keyClick(dialog.teams["visitor"].roster, Qt.Key.Key_Return)
    with qtbot.waitSignal(dialog.accepted):
        qtbot.mouseClick(take(dialog), Qt.MouseButton.LeftButton)
    game = game_of(dialog.form())
    assert (game.day, game.visitor.name, game.visitor.roster) == (date(2023, 12, 5), "Ovvermire", ("14", "22"))


@pytest.mark.parametrize("missing", ["home.name", "visitor.jersey", "path"])
def test_what_is_missing_gets_the_focus(qtbot: QtBot, tmp_path: Path, missing: str) -> None:
    dialog = shown(qtbot, FORM, tmp_path / "game.filmreview")
    side, _, part = missing.partition(".")
    if missing == "path":
        dialog.path.clear()
        place = dialog.path
    elif part == "name":
        dialog.teams[side].name.clear()
        place = dialog.teams[side].name
    else:
        dialog.teams[side].kit[part].setCurrentText("")
        place = dialog.teams[side].kit[part]
    with qtbot.assertNotEmitted(dialog.accepted):
        qtbot.mouseClick(take(dialog), Qt.MouseButton.LeftButton)
    assert dialog.focusWidget() is place


def test_the_season_of_the_day_is_said(qtbot: QtBot) -> None:
    dialog = shown(qtbot, FORM, None)
    assert dialog.season.text() == "season 2023-24"
    dialog.day.setText("2024-07-01")
    assert dialog.season.text() == "season 2024-25"


@pytest.mark.parametrize("select_all", [False, True])
@pytest.mark.parametrize("at", [4, 30, 50, 75, 300])
def test_a_day_typed_over_the_old_one_is_that_day(qtbot: QtBot, select_all: bool, at: int) -> None:
    dialog = shown(qtbot, SetupForm("2026-11-25"), None)
    dialog.teams["home"].name.setFocus()
    qtbot.mouseClick(dialog.day, Qt.MouseButton.LeftButton, pos=QPoint(min(at, dialog.day.width() - 4), 10))
    if select_all:
        qtbot.keyClick(dialog.day, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClicks(dialog.day, "2025-01-14")
    assert (dialog.form().day, dialog.season.text()) == ("2025-01-14", "season 2024-25")


def test_a_second_click_sets_the_cursor_to_mend_one_digit(qtbot: QtBot) -> None:
    dialog = shown(qtbot, SetupForm("2026-11-25"), None)
    for _ in range(2):
        qtbot.mouseClick(dialog.day, Qt.MouseButton.LeftButton, pos=QPoint(dialog.day.width() - 4, 10))
    qtbot.keyClick(dialog.day, Qt.Key.Key_Backspace)
    assert dialog.form().day == "2026-11-2"


def test_a_day_that_is_none_is_refused_in_words(qtbot: QtBot) -> None:
    dialog = shown(qtbot, FORM, None)
    dialog.day.setText("2025-1-14")
    with qtbot.assertNotEmitted(dialog.accepted):
        qtbot.mouseClick(take(dialog), Qt.MouseButton.LeftButton)
    assert dialog.focusWidget() is dialog.day
    assert '"2025-1-14" is not a day written as YYYY-MM-DD' in dialog.problem.text()
    assert dialog.season.text() == ""


def asked(dialog: SetupDialog, words: str) -> QPushButton:
    """The button of the question whether to throw away what was typed."""
    (box,) = [one for one in dialog.findChildren(QMessageBox) if one.isVisible()]
    (button,) = [one for one in box.buttons() if one.text() == words]
    return button


def test_escape_leaves_a_form_at_once_when_nothing_was_typed(qtbot: QtBot, tmp_path: Path) -> None:
    dialog = shown(qtbot, SetupForm("2025-01-14"), tmp_path / "game.filmreview")
    with qtbot.waitSignal(dialog.rejected):
        qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    assert not dialog.isVisible()


def test_escape_asks_before_what_was_typed_is_thrown_away(qtbot: QtBot, tmp_path: Path) -> None:
    dialog = shown(qtbot, SetupForm("2025-01-14"), tmp_path / "game.filmreview")
    qtbot.keyClicks(dialog.teams["home"].name, "Thrunnockby")
    with qtbot.assertNotEmitted(dialog.rejected):
        qtbot.keyClick(dialog, Qt.Key.Key_Escape)
        qtbot.mouseClick(asked(dialog, "Go on typing"), Qt.MouseButton.LeftButton)
    assert dialog.isVisible()
    assert dialog.form().home.name == "Thrunnockby"
    qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    with qtbot.waitSignal(dialog.rejected):
        qtbot.mouseClick(asked(dialog, "Throw away"), Qt.MouseButton.LeftButton)
    assert not dialog.isVisible()

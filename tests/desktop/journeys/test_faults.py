"""What goes wrong is told in a plain line, nothing is lost, the window lives."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from filmreview.desktop import app, made_up, sheet_making
from filmreview.desktop.film_place import NO_FILM
from filmreview.desktop.window import DeskWindow
from filmreview.facts.region import Box
from filmreview.review.changes import AddTag
from tests.desktop.desk_fixtures import FILMS
from tests.desktop.journeys.steps import WAIT, begin_review, drag, press, settle, setup_of, stand, type_words

FILM = FILMS / "constant.mp4"
CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def opened(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> DeskWindow:
    begin_review(qtbot, window, FILM, tmp_path / "game.filmreview")
    settle(qtbot, window)
    return window


@pytest.fixture
def slow_sheet(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A sheet that takes a minute is asked for at this path."""
    path = tmp_path / "sheets" / "sheet.xlsx"
    path.parent.mkdir()
    monkeypatch.setattr(sheet_making, "WRITE", "tests.desktop.alone_work:write_slowly")
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_given: (str(path), ""))
    return path


def test_the_sheet_can_be_stopped(qtbot: QtBot, opened: DeskWindow, slow_sheet: Path) -> None:
    press(qtbot, Qt.Key.Key_S, CONTROL | Qt.KeyboardModifier.ShiftModifier)
    qtbot.waitUntil(lambda: opened.messages.bar.isVisible() and opened.messages.bar.value() == 50, timeout=WAIT)
    assert len(list(slow_sheet.parent.iterdir())) == 1  # aside
    qtbot.mouseClick(opened.messages.stop, Qt.MouseButton.LeftButton)
    settle(qtbot, opened)
    assert list(slow_sheet.parent.iterdir()) == []
    assert "stopped" in opened.messages.words.text()
    assert not opened.messages.bar.isVisible()


def test_the_window_closes_while_a_sheet_is_made(qtbot: QtBot, opened: DeskWindow, slow_sheet: Path) -> None:
    press(qtbot, Qt.Key.Key_S, CONTROL | Qt.KeyboardModifier.ShiftModifier)
    qtbot.waitUntil(lambda: opened.messages.bar.value() == 50, timeout=WAIT)
    opened.close()
    assert list(slow_sheet.parent.iterdir()) == []


def test_a_sheet_in_a_folder_that_is_not_there(
    qtbot: QtBot, opened: DeskWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_given: (str(tmp_path / "gone" / "sheet.xlsx"), ""))
    press(qtbot, Qt.Key.Key_S, CONTROL | Qt.KeyboardModifier.ShiftModifier)
    settle(qtbot, opened)
    assert "gone" in opened.messages.words.text()
    assert opened.isVisible()


def test_a_tag_that_the_disk_does_not_take_stays_on_the_card(qtbot: QtBot, opened: DeskWindow) -> None:
    drag(qtbot, opened, Box(40, 60, 40, 30))
    qtbot.waitUntil(opened.card.line.line.hasFocus, timeout=WAIT)
    type_words(qtbot, "v14 tights black")
    settle(qtbot, opened)
    opened.desk.store.close()  # as good as a disk that is gone
    press(qtbot, Qt.Key.Key_Return)
    settle(qtbot, opened)
    assert "not kept: " in opened.messages.words.text()
    assert "closed" in opened.messages.words.text()
    assert opened.card.line.line.text() == "v14 tights black"
    assert opened.card.line.line.hasFocus()
    opened.card_presenter.drop()


def test_a_set_up_over_a_file_that_is_there_is_refused_and_can_be_put_right(
    qtbot: QtBot, window: DeskWindow, tmp_path: Path
) -> None:
    taken, free = tmp_path / "taken.filmreview", tmp_path / "free.filmreview"
    taken.write_text("something else")
    window.open_path(FILM)
    dialog = setup_of(qtbot, window)
    dialog.teams["home"].name.setText("Thrunnockby")
    dialog.teams["visitor"].name.setText("Ovvermire")
    for side, colour in (("home", "white"), ("visitor", "green")):
        dialog.teams[side].kit["jersey"].setCurrentText(colour)
    dialog.path.setText(str(taken))
    dialog.accept()
    settle(qtbot, window)
    assert "taken.filmreview" in window.messages.words.text()
    assert taken.read_text() == "something else"
    assert dialog.isVisible()
    dialog.path.setText(str(free))
    dialog.accept()
    stand(qtbot, window)
    settle(qtbot, window)
    assert window.desk.review.path == free


def test_the_made_up_game_is_made_and_opened(
    qtbot: QtBot, start: Callable[[], DeskWindow], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = start()
    begin_review(qtbot, first, FILM, tmp_path / "game.filmreview")
    first.close()

    monkeypatch.setattr(made_up, "DRAW", "tests.desktop.alone_work:pretend_to_draw")
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_given: str(tmp_path))
    window = start()
    qtbot.mouseClick(window.start_page.buttons["made_up"], Qt.MouseButton.LeftButton)
    stand(qtbot, window)
    settle(qtbot, window)
    assert window.desk.review.game.home.name == "Thrunnockby"


def test_a_fault_of_this_program_is_shown(qtbot: QtBot, opened: DeskWindow, capsys: pytest.CaptureFixture[str]) -> None:
    hook = app.shown_by(opened)
    try:
        raise ZeroDivisionError("ours")
    except ZeroDivisionError as error:
        hook(type(error), error, error.__traceback__)
    assert "a fault of this program" in opened.messages.words.text()
    assert "ZeroDivisionError: ours" in capsys.readouterr().err
    opened.desk.try_change(AddTag("f1", opened.desk.film.start, "home", "3", "tights"))
    settle(qtbot, opened)
    assert len(opened.desk.review.tags) == 1


def test_the_desk_starts_and_ends_by_itself(tmp_path: Path) -> None:
    code = f"""
import sys
from PyQt6.QtCore import QSettings, QTimer
from filmreview.desktop import app, made_up, sheet_making
QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, {str(tmp_path)!r})
class Shown(app.DeskWindow):
    def show(self):
        super().show()
        QTimer.singleShot(500, self.tell)
    def tell(self):
        print(self.windowTitle(), self.messages.words.text())
        self.close()
app.DeskWindow = Shown
sys.exit(app.run([{str(tmp_path / "none.filmreview")!r}]))
"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False, env=os.environ, timeout=60)
    assert done.returncode == 0, done.stderr
    assert "Film review" in done.stdout
    assert "none.filmreview" in done.stdout


def test_a_review_that_is_missing_is_told_on_the_start_page(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> None:
    window.open_path(tmp_path / "missing.filmreview")
    settle(qtbot, window)
    assert window.start_page.fault.isVisible()
    assert "missing.filmreview: there is no such review" in window.start_page.fault.text()
    window.open_path(FILM)
    assert not window.start_page.fault.isVisible()
    setup_of(qtbot, window).reject()
    settle(qtbot, window)
    assert window.messages.words.text() == f"no review of {FILM.name} was begun"


def test_undo_to_the_very_end_says_that_no_film_is_left(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> None:
    begin_review(qtbot, window, FILM, tmp_path / "game.filmreview")
    settle(qtbot, window)
    window.actions_by_name["undo"].trigger()
    settle(qtbot, window)
    assert window.desk.film is None
    assert window.messages.words.text() == f"undone: add the film {FILM.name} as f1; {NO_FILM}"
    assert window.film_place.bar.time.text() == ""
    window.actions_by_name["redo"].trigger()
    stand(qtbot, window)
    settle(qtbot, window)
    assert window.messages.words.text() == f"redone: add the film {FILM.name} as f1"
    assert window.film_place.bar.time.text().startswith("0:00.000 of ")

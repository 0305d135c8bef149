"""The window's event loop is never blocked over 50 ms while the film is indexed, played, measured, tagged and handed over."""

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from filmreview.desktop.interpreter import SWITCH_SECONDS
from filmreview.desktop.window import DeskWindow
from filmreview.facts.region import Box
from filmreview.film.film import open_film
from tests.desktop.evening import evening
from tests.desktop.heartbeat import Heartbeat
from tests.desktop.journeys.steps import WAIT, drag, press, stand, type_words
from tests.desktop.long_film import long_film

LIMIT = 0.050
CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


@pytest.fixture(scope="module")
def game(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A review of 60 tags on five minutes of 720p."""
    folder = tmp_path_factory.mktemp("long")
    with open_film(long_film(folder / "half.mp4", 300, group=60)) as film:
        return evening(folder / "game.filmreview", film, 60)


@pytest.fixture
def heart() -> Iterator[Heartbeat]:
    before = sys.getswitchinterval()
    sys.setswitchinterval(SWITCH_SECONDS)  # as when the desk is started
    made = Heartbeat()
    yield made
    made.stop()
    sys.setswitchinterval(before)


def says(qtbot: QtBot, window: DeskWindow, words: str) -> None:
    """Wait until the bottom line says this and all rulings are there."""
    qtbot.waitUntil(lambda: window.messages.words.text().startswith(words), timeout=4 * WAIT)
    qtbot.waitUntil(lambda: all(row.ruling for row in window.ledger_presenter.rows()), timeout=WAIT)


def test_the_loop_is_free_from_opening_to_the_sheet(
    qtbot: QtBot, window: DeskWindow, game: Path, heart: Heartbeat, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_given: (str(tmp_path / "sheet.xlsx"), ""))
    heart.doing = "opening and indexing"
    heart.start()
    window.open_path(game)
    stand(qtbot, window)
    qtbot.waitUntil(lambda: window.desk.findings is not None and len(window.ledger_presenter.rows()) == 60, timeout=WAIT)

    heart.doing = "playing"
    press(qtbot, Qt.Key.Key_F6)
    qtbot.waitUntil(lambda: window.film_place.player.time > 2, timeout=WAIT)
    press(qtbot, Qt.Key.Key_F6)
    stand(qtbot, window)

    heart.doing = "measuring"
    drag(qtbot, window, Box(400, 300, 120, 90))
    qtbot.waitUntil(window.card.line.line.hasFocus, timeout=WAIT)
    for letter in "v14 ar or":  # a hand leaves the loop time between two keys
        type_words(qtbot, letter)
        qtbot.wait(30)
    qtbot.waitUntil(
        lambda: window.card_presenter.measured is not None and window.card_presenter.ruling is not None, timeout=WAIT
    )

    heart.doing = "keeping"
    press(qtbot, Qt.Key.Key_Return)
    says(qtbot, window, "kept: ")
    for keys, words in ((CONTROL, "undone: "), (CONTROL | SHIFT, "redone: ")):
        press(qtbot, Qt.Key.Key_Z, keys)
        says(qtbot, window, words)

    heart.doing = "exporting"
    press(qtbot, Qt.Key.Key_S, CONTROL | SHIFT)
    says(qtbot, window, "the findings sheet is in ")
    heart.stop()

    assert (tmp_path / "sheet.xlsx").stat().st_size > 0
    assert [str(one) for one in heart.blocked if one.seconds > LIMIT] == []

"""The steps of a journey, done as a person does them: keys, mouse, and waiting for what the window does by itself."""

from pathlib import Path

from PyQt6.QtCore import QPoint, Qt
from PyQt6.QtWidgets import QApplication, QPushButton
from pytestqt.qtbot import QtBot

from filmreview.desktop.setup_dialog import SetupDialog
from filmreview.desktop.window import DeskWindow
from filmreview.facts.region import Box

WAIT = 15_000


def setup_of(qtbot: QtBot, window: DeskWindow) -> SetupDialog:
    """The set-up that the window has opened."""
    qtbot.waitUntil(lambda: any(one.isVisible() for one in window.findChildren(SetupDialog)), timeout=WAIT)
    (dialog,) = [one for one in window.findChildren(SetupDialog) if one.isVisible()]
    return dialog


def fill_setup(qtbot: QtBot, dialog: SetupDialog, path: Path) -> None:
    """Type the game of the tests and begin the review."""
    dialog.day.selectAll()
    qtbot.keyClicks(dialog.day, "2023-12-05")
    for side, name, jersey, roster in (
        ("home", "Thrunnockby", "white", "3, 10, 14"),
        ("visitor", "Ovvermire", "green", "0 00 14 22"),
    ):
        team = dialog.teams[side]
        qtbot.keyClicks(team.name, name)
        qtbot.keyClicks(team.kit["jersey"].lineEdit(), jersey)
        qtbot.keyClicks(team.roster, roster)
    dialog.path.clear()
    qtbot.keyClicks(dialog.path, str(path))
    (begin,) = [one for one in dialog.findChildren(QPushButton) if one.text() == "Begin the review"]
    qtbot.mouseClick(begin, Qt.MouseButton.LeftButton)


def begin_review(qtbot: QtBot, window: DeskWindow, film: Path, review: Path) -> None:
    """A new review of this film, its first frame on the picture."""
    window.open_path(film)
    fill_setup(qtbot, setup_of(qtbot, window), review)
    stand(qtbot, window)
    window.activateWindow()  # the tests' screen has no window manager that would do it when the dialog goes
    qtbot.waitUntil(window.isActiveWindow)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is window.film_place.canvas)


def stand(qtbot: QtBot, window: DeskWindow) -> None:
    """Wait until the film stands on an exact frame."""
    qtbot.waitUntil(lambda: window.film_place.frame is not None, timeout=WAIT)


def settle(qtbot: QtBot, window: DeskWindow) -> None:
    """Wait until nothing is measured or ruled any more."""
    qtbot.waitUntil(lambda: not window.jobs.busy, timeout=WAIT)


def press(qtbot: QtBot, key: Qt.Key, keys: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    """Press a key where the focus is."""
    focus = QApplication.focusWidget()
    assert focus is not None, "no widget has the focus"
    qtbot.keyClick(focus, key, keys)


def type_words(qtbot: QtBot, words: str) -> None:
    """Type where the focus is."""
    focus = QApplication.focusWidget()
    assert focus is not None, "no widget has the focus"
    qtbot.keyClicks(focus, words)


def drag(qtbot: QtBot, window: DeskWindow, box: Box, keys: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    """Draw this box of the picture with the mouse."""
    canvas = window.film_place.canvas
    left, top = canvas.view.to_canvas((box.x, box.y))
    right, bottom = canvas.view.to_canvas((box.right, box.bottom))
    start, end = QPoint(round(left), round(top)), QPoint(round(right), round(bottom))
    qtbot.mousePress(canvas, Qt.MouseButton.LeftButton, keys, start)
    for share in (3, 2, 1):
        qtbot.mouseMove(canvas, start + (end - start) / share)
    qtbot.mouseRelease(canvas, Qt.MouseButton.LeftButton, keys, end)


def close_to(box: Box | None, wanted: Box, pixels: int = 2) -> bool:
    """Whether a box drawn by hand is the one wanted, give or take so many pixels of the picture."""
    if box is None:
        return False
    pairs = ((box.x, wanted.x), (box.y, wanted.y), (box.right, wanted.right), (box.bottom, wanted.bottom))
    return all(abs(one - other) <= pixels for one, other in pairs)

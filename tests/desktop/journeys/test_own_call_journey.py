"""An official reviews himself through the real window: no ruling in sight before his call, both after it."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QApplication, QComboBox, QFileDialog, QLabel, QLineEdit, QTableView, QWidget
from pytestqt.qtbot import QtBot

from filmreview.desktop.own_call_score import ScoreDialog
from filmreview.desktop.window import DeskWindow
from tests.desktop.desk_fixtures import FILMS
from tests.desktop.journeys.steps import WAIT, begin_review, press, settle, type_words
from tests.desktop.walk import nameless

CONTROL = Qt.KeyboardModifier.ControlModifier
LEAKS = ("illegal", "fix or leave", "technical", "3-5")


def texts(top: QWidget) -> Iterator[str]:
    """Everything a window says: labels, lines, cells, tool tips, names for screen readers, menus."""
    for one in (top, *top.findChildren(QWidget)):
        if isinstance(one, QLabel | QLineEdit):
            yield one.text()
        yield from (one.toolTip(), one.accessibleName(), one.accessibleDescription())
        yield from (action.text() for action in one.actions())
        if isinstance(one, QComboBox):
            yield from (one.itemText(row) for row in range(one.count()))
        if isinstance(one, QTableView) and one.model() is not None:
            yield from cells(one)


def cells(table: QTableView) -> Iterator[str]:
    """What the cells of a table show, tell and are read as."""
    model = table.model()
    for row in range(model.rowCount()):
        for column in range(model.columnCount()):
            for role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole):
                yield str(model.index(row, column).data(role) or "")


def told(window: DeskWindow) -> list[str]:
    """What gives the book's ruling away: not the choices of one's own call, nor the own call itself in the words of undo."""
    own = {window.people.own_calls.place.ruling, window.people.own_calls.place.consequence}
    mine = [one for box in own for one in (box, *box.findChildren(QWidget))]
    found = [text for text in texts(window) if any(leak in text.casefold() for leak in LEAKS)]
    offered = [text for box in mine for text in texts(box)]
    return [text for text in found if text not in offered and "own call on t1: illegal" not in text]


def tag(qtbot: QtBot, window: DeskWindow, words: str) -> None:
    press(qtbot, Qt.Key.Key_T, CONTROL)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is window.card.line.line, timeout=WAIT)
    type_words(qtbot, words)
    settle(qtbot, window)
    press(qtbot, Qt.Key.Key_Return)
    settle(qtbot, window)


@pytest.fixture
def hidden(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> DeskWindow:
    """A new review with rulings hidden from the start."""
    begin_review(qtbot, window, FILMS / "constant.mp4", tmp_path / "game.filmreview")
    settle(qtbot, window)
    window.actions_by_name["hide_rulings"].trigger()
    settle(qtbot, window)
    return window


def test_no_ruling_is_seen_or_heard_before_the_own_call(
    qtbot: QtBot, hidden: DeskWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An orange sleeve with a green jersey is illegal (worked example of the situation format), to be put right."""
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_given: (str(tmp_path / "sheet.html"), ""))
    press(qtbot, Qt.Key.Key_T, CONTROL)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is hidden.card.line.line, timeout=WAIT)
    type_words(qtbot, "v14 arm sleeve orange")
    settle(qtbot, hidden)
    assert told(hidden) == []
    assert any("hidden until your own call" in text for text in texts(hidden.card))
    press(qtbot, Qt.Key.Key_Return)
    settle(qtbot, hidden)
    assert hidden.messages.words.text() == "kept; Ctrl+E gives your own call, and then shows the ruling"
    for key in (Qt.Key.Key_5, Qt.Key.Key_6, Qt.Key.Key_4):
        press(qtbot, key, CONTROL)
        settle(qtbot, hidden)
        assert told(hidden) == []

    press(qtbot, Qt.Key.Key_S, CONTROL | Qt.KeyboardModifier.ShiftModifier)
    settle(qtbot, hidden)
    assert "rulings are hidden until your own call on t1" in hidden.messages.words.text()
    assert not (tmp_path / "sheet.html").exists()

    place = hidden.people.own_calls.place
    press(qtbot, Qt.Key.Key_E, CONTROL)
    assert place.isVisible()
    assert QApplication.focusWidget() is place.ruling
    assert "Ovvermire 14: arm sleeve" in place.about.text()
    type_words(qtbot, "ill")
    press(qtbot, Qt.Key.Key_Return)
    settle(qtbot, hidden)
    assert place.both.text().startswith("The book: illegal. Fix or leave")
    assert "agreed" in [place.table.item(0, column).text() for column in range(place.table.columnCount())]
    assert hidden.messages.words.text() == "your call is kept: illegal"
    assert told(hidden)

    press(qtbot, Qt.Key.Key_Z, CONTROL)
    settle(qtbot, hidden)
    assert told(hidden) == []


def test_the_score_and_showing_all_again(qtbot: QtBot, hidden: DeskWindow, start: Callable[[], DeskWindow]) -> None:
    for words in ("v14 arm sleeve orange", "h3 headband black"):
        tag(qtbot, hidden, words)
    place = hidden.people.own_calls.place
    hidden.ledger.choose("t1")
    for tag_id in ("t1", "t2"):  # the second one is the next that waits
        press(qtbot, Qt.Key.Key_E, CONTROL)
        assert place.chosen() == tag_id
        for key in (Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Return):
            press(qtbot, key)
        settle(qtbot, hidden)
    assert place.summary.text() == "every tag has your call; 1 of 2 agreed, 1 differed"
    assert nameless(hidden) == []
    qtbot.mouseClick(place.score, Qt.MouseButton.LeftButton)
    (dialog,) = [one for one in hidden.findChildren(ScoreDialog) if one.isVisible()]
    shown = [[dialog.items.item(row, column).text() for column in range(5)] for row in range(dialog.items.rowCount())]
    assert shown == [["headband", "0", "0", "1", "0"], ["arm sleeve", "1", "0", "0", "0"]]
    assert nameless(dialog) == []
    dialog.close()
    hidden.activateWindow()
    qtbot.waitUntil(hidden.isActiveWindow)
    qtbot.mouseClick(place.hide_rulings, Qt.MouseButton.LeftButton)
    settle(qtbot, hidden)
    assert not hidden.desk.review.game.rulings_hidden
    path = hidden.desk.review.path
    hidden.close()

    again = start()
    again.open_path(path)
    qtbot.waitUntil(lambda: again.desk.review is not None, timeout=WAIT)
    settle(qtbot, again)
    again.below.setCurrentWidget(again.people.own_calls.place)
    assert again.people.own_calls.place.summary.text() == "every tag has your call; 1 of 2 agreed, 1 differed"
    assert again.below.isTabVisible(again.below.indexOf(again.people.own_calls.place))


def test_the_tab_stays_away_while_nobody_reviews_himself(qtbot: QtBot, window: DeskWindow, tmp_path: Path) -> None:
    begin_review(qtbot, window, FILMS / "constant.mp4", tmp_path / "game.filmreview")
    settle(qtbot, window)
    assert not window.below.isTabVisible(window.below.indexOf(window.people.own_calls.place))
    assert window.actions_by_name["hide_rulings"].text() == "&Hide rulings until my own call"

"""Every deed of the menus, done in the real window: what it opens has names, a way round by Tab, room on a small screen."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PyQt6.QtCore import QSize, Qt, QTimer
from PyQt6.QtWidgets import QApplication, QDialog, QFileDialog, QWidget
from pytestqt.qtbot import QtBot

from filmreview.desktop import made_up, roomy
from filmreview.desktop.actions import DEEDS
from filmreview.desktop.window import DeskWindow
from filmreview.facts.region import Box
from filmreview.film.film import open_film
from tests.desktop.desk_fixtures import FILMS
from tests.desktop.evening import evening
from tests.desktop.journeys.steps import settle, stand
from tests.desktop.walk import cut_off, nameless, reachable, scrolls, tabbed

FILM = FILMS / "constant.mp4"
SMALL = QSize(683, 384)  # 1366 x 768 at 200 %
ENDING = ("quit", "close")
OPENS = {"setup", "keys", "about", "settings", "history"}
"""Deeds that are known to open a dialog by themselves: the walk must come to at least these."""


@pytest.fixture(scope="module")
def game(tmp_path_factory: pytest.TempPathFactory) -> Path:
    with open_film(FILM) as film:
        return evening(tmp_path_factory.mktemp("game") / "game.filmreview", film, 8)


@pytest.fixture
def opened(qtbot: QtBot, window: DeskWindow, game: Path, monkeypatch: pytest.MonkeyPatch) -> DeskWindow:
    """A review with a few tags, where every dialog of the system is left at once."""
    for name, answer in (("getOpenFileName", ("", "")), ("getSaveFileName", ("", "")), ("getExistingDirectory", "")):
        monkeypatch.setattr(QFileDialog, name, lambda *_given, answer=answer, **_more: answer)
    monkeypatch.setattr(made_up, "DRAW", "tests.desktop.alone_work:pretend_to_draw")
    window.open_path(game)
    stand(qtbot, window)
    settle(qtbot, window)
    window.ledger.choose(window.desk.review.tags[0].id)
    return window


@pytest.fixture
def leave_modal() -> Iterator[None]:
    """A dialog that waits inside a deed is left after a moment, so that the walk goes on."""

    def leave() -> None:
        modal = QApplication.activeModalWidget()
        if isinstance(modal, QDialog) and modal.property("looked at"):
            modal.reject()

    timer = QTimer()
    timer.timeout.connect(leave)
    timer.start(300)
    yield
    timer.stop()


def told(wrong: dict[str, list[str]]) -> str:
    """What is wrong, one place a line."""
    return "\n".join(f"{where}: {'; '.join(dict.fromkeys(found))}" for where, found in wrong.items())


def dialogs(window: QWidget) -> list[QDialog]:
    """What is open over the window."""
    return [one for one in QApplication.topLevelWidgets() if isinstance(one, QDialog) and one.isVisible() and one is not window]


def opened_by(qtbot: QtBot, window: DeskWindow, name: str) -> list[QDialog]:
    """Do the deed; the dialogs it opens."""
    before = dialogs(window)
    window.actions_by_name[name].trigger()
    settle(qtbot, window)
    return [one for one in dialogs(window) if one not in before]


def close_all(qtbot: QtBot, window: DeskWindow) -> None:
    for one in dialogs(window):
        one.reject()
        one.close()
    settle(qtbot, window)


@pytest.mark.usefixtures("leave_modal")
def test_all_that_the_deeds_open_has_names_and_fits(qtbot: QtBot, opened: DeskWindow, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(roomy, "room_on", lambda _window: SMALL - roomy._FRAME)
    opened.resize(SMALL)
    wrong: dict[str, list[str]] = {}
    came_to: set[str] = set()
    for deed in DEEDS:
        if deed.name in ENDING:
            continue
        for dialog in opened_by(qtbot, opened, deed.name):
            came_to.add(deed.name)
            qtbot.waitExposed(dialog)
            found = nameless(dialog)
            if dialog.size().boundedTo(SMALL) != dialog.size():
                found.append(f"{dialog.width()} x {dialog.height()} on a small screen")
            if found:
                wrong[f"{deed.name}: {type(dialog).__name__}"] = found
        close_all(qtbot, opened)
        found = nameless(opened)
        if found:
            wrong[deed.name] = found
    opened.card_presenter.drop()
    settle(qtbot, opened)
    assert told(wrong) == ""
    assert came_to >= OPENS


def test_every_place_over_the_ledger_has_names_and_fits(qtbot: QtBot, opened: DeskWindow) -> None:
    opened.resize(SMALL)
    wrong = {}
    for place in range(opened.below.count()):
        if opened.below.isTabVisible(place):
            opened.below.setCurrentIndex(place)
            qtbot.wait(20)
            found = nameless(opened) + cut_off(opened) + (["scrolls"] if scrolls(opened) else [])
            if found:
                wrong[opened.below.tabText(place)] = found
    assert (opened.width(), opened.height()) == (SMALL.width(), SMALL.height())
    assert told(wrong) == ""


def test_the_card_in_its_states_has_names_and_is_not_cut_off(qtbot: QtBot, opened: DeskWindow) -> None:
    card = opened.card_presenter
    wrong = {}
    for size in (SMALL, QSize(1366, 740), QSize(2560, 1400)):
        opened.resize(size)
        for words in ("", "v14", "v14 arm sleeve", "v14 arm sleeve orange crew late", "h3 headband black 2.5 in"):
            card.open_new(opened.film_place.frame, Box(40, 60, 40, 30))
            card.type(words)
            settle(qtbot, opened)
            qtbot.wait(20)
            found = nameless(opened) + cut_off(opened)
            if found:
                wrong[f"{size.width()} {words}"] = found
            card.drop()
    settle(qtbot, opened)
    assert told(wrong) == ""


def place_of(window: DeskWindow, widget: QWidget) -> str:
    film = window.film_place
    places = {"picture": film.compare, "controls": film.bar, "strip": film.strip, "below": window.below, "card": window.card}
    return next((name for name, place in places.items() if place is widget or place.isAncestorOf(widget)), "")


def test_tab_follows_the_work_round_the_window(qtbot: QtBot, opened: DeskWindow) -> None:
    opened.card_presenter.open_new(opened.film_place.frame, Box(40, 60, 40, 30))
    opened.card_presenter.type("v14 arm sleeve")
    settle(qtbot, opened)
    opened.card_presenter.type("v14 arm sleeve ")  # nothing to complete, which Tab would do
    settle(qtbot, opened)
    opened.activateWindow()
    opened.film_place.canvas.setFocus(Qt.FocusReason.OtherFocusReason)
    came = list(tabbed())
    places: list[str] = []
    for widget in came:
        place = place_of(opened, widget)
        if place != (places[-1] if places else None):
            places.append(place)
    assert places == ["picture", "controls", "strip", "below", "card"]
    assert [one.accessibleName() for one in reachable(opened) if one not in came] == []
    opened.card_presenter.drop()
    settle(qtbot, opened)

"""Tab in every dialog that the desk can open: it comes to everything, in the order in which one reads."""

import importlib
import pkgutil
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PyQt6.QtCore import QSize
from PyQt6.QtWidgets import QApplication, QDialog, QFileDialog, QMessageBox
from pytestqt.qtbot import QtBot

from filmreview import desktop
from filmreview.desktop.window import DeskWindow
from filmreview.film.film import open_film
from filmreview.review.changes import EditGame
from filmreview.review.model import CrewMember
from tests.desktop.desk_fixtures import FILMS
from tests.desktop.evening import evening
from tests.desktop.journeys.steps import WAIT, settle, stand
from tests.desktop.two_reviews import other_review
from tests.desktop.walk import backward, reachable, tabbed

FILM = FILMS / "constant.mp4"
LARGE = QSize(1500, 1300)  # all of every dialog is in sight


@pytest.fixture(scope="module")
def game(tmp_path_factory: pytest.TempPathFactory) -> Path:
    with open_film(FILM) as film:
        return evening(tmp_path_factory.mktemp("game") / "game.filmreview", film, 8)


class Asked:
    """The desk with a game, which is asked for its dialogs."""

    def __init__(self, qtbot: QtBot, window: DeskWindow, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.qtbot, self.window, self.folder, self._monkeypatch = qtbot, window, folder, monkeypatch

    def by_deed(self, name: str, file: Path | None = None) -> QDialog:
        """The dialog that a deed opens; file: what is chosen where the deed asks for one first."""
        self._monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_given: (str(file) if file else "", ""))
        before = self.open()
        self.window.actions_by_name[name].trigger()
        return self._new(before)

    def by_press(self, press: Callable[[], object]) -> QDialog:
        """The dialog that a press opens."""
        before = self.open()
        press()
        return self._new(before)

    def _new(self, before: list[QDialog]) -> QDialog:
        self.qtbot.waitUntil(lambda: len(self.open()) > len(before), timeout=WAIT)
        settle(self.qtbot, self.window)
        (dialog,) = [one for one in self.open() if one not in before]
        return dialog

    def open(self) -> list[QDialog]:
        """What is open."""
        return [one for one in QApplication.topLevelWidgets() if isinstance(one, QDialog) and one.isVisible()]


def with_crew(asked: Asked) -> QDialog:
    review = asked.window.desk.review
    assert review is not None
    asked.window.desk.try_change(EditGame(replace(review.game, crew=(CrewMember("referee", "J. Mosswell"),))))
    settle(asked.qtbot, asked.window)
    return asked.by_deed("letters")


def kit(asked: Asked) -> QDialog:
    setup = asked.by_deed("setup")
    return asked.by_press(setup.teams["home"].pick.click)


def faces(asked: Asked) -> QDialog:
    lesson = asked.by_deed("lesson")
    lesson.tabs.setCurrentWidget(lesson.faces)
    settle(asked.qtbot, asked.window)
    return lesson


def throwing(asked: Asked) -> QDialog:
    asked.window.card_presenter.open_new(asked.window.film_place.frame)
    asked.window.card_presenter.type("v14")
    return asked.by_deed("quit")


WAYS: dict[str, Callable[[Asked], QDialog]] = {
    **{
        name: lambda asked, name=name: asked.by_deed(name)
        for name in ("setup", "keys", "about", "settings", "history", "rule", "films", "lesson", "score")
    },
    "new": lambda asked: asked.by_deed("new", FILM),
    "other_review": lambda asked: asked.by_deed("other_review", other_review(asked.folder, ("0:01", "h3 headband black", ""))),
    "letters": with_crew,
    "kit colours": kit,
    "faces in a lesson": faces,
    "throwing away": throwing,
}
"""How every dialog of the desk is opened."""


def dialogs_of_the_desk() -> set[type[QDialog]]:
    """Every kind of dialog that the desk's code knows."""
    for module in pkgutil.iter_modules(desktop.__path__, f"{desktop.__name__}."):
        importlib.import_module(module.name)
    return {one for one in kinds_below(QDialog) if one.__module__.startswith(desktop.__name__)}


def kinds_below(kind: type[QDialog]) -> Iterator[type[QDialog]]:
    for one in kind.__subclasses__():
        yield one
        yield from kinds_below(one)


def close_all(asked: Asked) -> None:
    for one in sorted(asked.open(), key=lambda one: isinstance(one.parent(), QDialog), reverse=True):  # the upper ones first
        one.done(0)
    asked.window.card_presenter.drop()
    settle(asked.qtbot, asked.window)


@pytest.fixture
def asked(qtbot: QtBot, window: DeskWindow, game: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Asked]:
    window.open_path(game)
    stand(qtbot, window)
    settle(qtbot, window)
    window.ledger.choose(window.desk.review.tags[0].id)
    made = Asked(qtbot, window, tmp_path, monkeypatch)
    yield made
    close_all(made)


def test_every_dialog_of_the_desk_is_opened(asked: Asked) -> None:
    opened = set()
    for way in WAYS.values():
        opened.add(type(way(asked)))
        close_all(asked)
    assert opened == dialogs_of_the_desk() | {QMessageBox}


@pytest.mark.parametrize("way", WAYS)
def test_tab_comes_to_everything_in_reading_order(qtbot: QtBot, asked: Asked, way: str) -> None:
    dialog = WAYS[way](asked)
    dialog.resize(LARGE)
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow, timeout=WAIT)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is not None, timeout=WAIT)
    came = list(tabbed())
    assert [f"{type(one).__name__} {one.accessibleName()}" for one in reachable(dialog) if one not in came] == []
    assert backward(came) == []

"""Whole journeys through the real window."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PyQt6.QtCore import QSettings
from pytestqt.qtbot import QtBot

from filmreview.desktop.settings import Settings
from filmreview.desktop.window import DeskWindow


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    """Settings of nobody: nothing recent, nothing of the machine's own person touched."""
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(tmp_path / "settings"))
    made = Settings()
    made.set_who("R. Valdrune")
    return made


@pytest.fixture
def start(qtbot: QtBot, settings: Settings) -> Iterator[Callable[[], DeskWindow]]:
    """Starts the desk on its start page, as often as it is called, and closes all in the end."""
    windows: list[DeskWindow] = []

    def begin() -> DeskWindow:
        made = DeskWindow(settings)
        windows.append(made)
        made.resize(1366, 740)
        made.show()
        qtbot.waitExposed(made)
        made.activateWindow()
        qtbot.waitUntil(made.isActiveWindow)
        return made

    yield begin
    for made in windows:
        made.close()
        qtbot.waitUntil(lambda made=made: not made.jobs.busy)
        made.deleteLater()
    qtbot.wait(10)


@pytest.fixture
def window(start: Callable[[], DeskWindow]) -> DeskWindow:
    """The desk on its start page."""
    return start()

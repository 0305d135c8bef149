"""The row of controls under the picture: it wraps where the window is narrow, and says what the sound and the loop do."""

from collections.abc import Iterator

import pytest
from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from filmreview.desktop.film_bar import FilmBar
from filmreview.desktop.player import Player
from filmreview.desktop.region_tool import RegionTool


@pytest.fixture
def bar(qtbot: QtBot) -> Iterator[FilmBar]:
    around = QWidget()
    player = Player(around, "built-in")
    bar = FilmBar(player, RegionTool(around))
    bar.setParent(around)
    qtbot.addWidget(around)
    around.show()
    yield bar
    player.close()


def shown(bar: FilmBar) -> list[QWidget]:
    widgets = (bar.back, bar.play, bar.forward, bar.time, bar.region, bar.white, bar.loop, bar.rate, bar.sound)
    return [one for one in widgets if one.isVisible()]


@pytest.mark.parametrize(("width", "rows"), [(940, 1), (420, 2), (260, 3)])
def test_nothing_is_cut_off_however_narrow(bar: FilmBar, width: int, rows: int) -> None:
    bar.resize(width, bar.heightForWidth(width))
    bar.show()
    places = [(one.mapTo(bar, one.rect().topLeft()), one) for one in shown(bar)]
    for at, one in places:
        assert 0 <= at.x() <= width - one.width(), one.accessibleName()
        assert 0 <= at.y() <= bar.height() - one.height(), one.accessibleName()
    assert len({round((at.y() + one.height() / 2) / 30) for at, one in places}) >= rows - 1
    one_row = bar.heightForWidth(2000)
    assert (bar.heightForWidth(width) > one_row) == (rows > 1)


def test_the_sound_says_whether_it_is_on(qtbot: QtBot, bar: FilmBar) -> None:
    assert (bar.sound.isChecked(), bar.sound.accessibleName()) == (True, "sound on")
    qtbot.mouseClick(bar.sound, Qt.MouseButton.LeftButton)
    assert (bar.sound.isChecked(), bar.sound.accessibleName(), bar.sound.toolTip()) == (False, "sound off", "sound is off")


def test_the_loop_says_whether_there_is_one(bar: FilmBar) -> None:
    off = bar.loop.menu().actions()[2]
    assert (bar.loop.text(), off.isEnabled()) == ("Loop", False)
    bar.show_loop("0:01.000 up to 0:02.000")
    assert (bar.loop.text(), off.isEnabled()) == ("Loop on", True)
    assert bar.loop.accessibleName() == "loop: 0:01.000 up to 0:02.000"

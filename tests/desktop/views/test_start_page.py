"""The start page."""

from pathlib import Path

from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from filmreview.cautions import MINORS, SAFETY, STUDY_AID
from filmreview.desktop.start_page import StartPage


def test_a_recent_review_is_opened_by_key(qtbot: QtBot, tmp_path: Path) -> None:
    page = StartPage()
    qtbot.addWidget(page)
    page.show_recent([tmp_path / "a.filmreview", tmp_path / "b.filmreview"])
    page.recent.setCurrentRow(1)
    with qtbot.waitSignal(page.recent_wanted) as told:
        qtbot.keyClick(page.recent, Qt.Key.Key_Return)
    assert told.args == [tmp_path / "b.filmreview"]


def test_nothing_recent_cannot_be_opened(qtbot: QtBot) -> None:
    page = StartPage()
    qtbot.addWidget(page)
    page.show_recent([])
    (item,) = [page.recent.item(row) for row in range(page.recent.count())]
    assert item.flags() == Qt.ItemFlag.ItemIsEnabled, "words that nobody can read tell nothing"
    page.recent.setCurrentRow(0)
    with qtbot.assertNotEmitted(page.recent_wanted):
        qtbot.keyClick(page.recent, Qt.Key.Key_Return)


def test_each_way_to_begin_can_be_pressed(qtbot: QtBot) -> None:
    page = StartPage()
    qtbot.addWidget(page)
    for name, signal in (("film", page.film_wanted), ("review", page.review_wanted), ("made_up", page.made_up_wanted)):
        with qtbot.waitSignal(signal):
            qtbot.keyClick(page.buttons[name], Qt.Key.Key_Space)


def test_the_cautions_are_on_it(qtbot: QtBot) -> None:
    page = StartPage()
    qtbot.addWidget(page)
    words = " ".join(label.text() for label in page.findChildren(QLabel))
    assert all(caution in words for caution in (STUDY_AID, SAFETY, MINORS))


def test_a_fault_stands_in_plain_sight_until_it_is_taken_away(qtbot: QtBot) -> None:
    page = StartPage()
    qtbot.addWidget(page)
    assert page.fault.isHidden()
    page.show_fault("there is no such review")
    assert not page.fault.isHidden()
    assert page.fault.text() == "There is no such review"
    page.show_fault("")
    assert page.fault.isHidden()

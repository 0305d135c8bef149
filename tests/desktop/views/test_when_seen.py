"""What lies under another tab is written anew when it is looked at."""

from PyQt6.QtWidgets import QTabWidget, QWidget
from pytestqt.qtbot import QtBot

from filmreview.desktop.when_seen import WhenSeen


def test_it_waits_until_the_place_is_shown(qtbot: QtBot) -> None:
    tabs, front, behind = QTabWidget(), QWidget(), QWidget()
    tabs.addTab(front, "front")
    tabs.addTab(behind, "behind")
    qtbot.addWidget(tabs)
    tabs.show()
    qtbot.waitExposed(tabs)
    told: list[str] = []
    seen, unseen = WhenSeen(front, lambda: told.append("front")), WhenSeen(behind, lambda: told.append("behind"))
    for one in (seen, unseen, unseen):
        one()
    assert told == ["front"]
    tabs.setCurrentWidget(behind)
    assert told == ["front", "behind"]
    tabs.setCurrentWidget(front)
    tabs.setCurrentWidget(behind)  # nothing changed meanwhile
    assert told == ["front", "behind"]

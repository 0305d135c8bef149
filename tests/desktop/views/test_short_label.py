"""A label that is cut with dots."""

from PyQt6.QtCore import QPoint
from PyQt6.QtGui import QHelpEvent
from PyQt6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from filmreview.desktop.short_label import ShortLabel

WORDS = "12 findings, 5 illegal, 6 legal, 1 cannot be told"


def test_words_are_cut_with_dots_where_there_is_no_room(qtbot: QtBot) -> None:
    label = ShortLabel(name="how many findings")
    qtbot.addWidget(label)
    label.setText(WORDS)
    label.show()
    label.resize(label.sizeHint())
    assert label.shown() == WORDS
    label.resize(label.minimumSizeHint())
    assert label.shown() != WORDS
    assert label.shown().endswith("…")
    assert (label.text(), label.accessibleDescription()) == (WORDS, WORDS)
    assert label.minimumSizeHint().width() < label.sizeHint().width() / 3


def test_the_tool_tip_has_all_of_them_only_then(qtbot: QtBot) -> None:
    label = ShortLabel(name="message")
    qtbot.addWidget(label)
    label.setText("a line\nand   more " + WORDS)
    assert label.text() == "a line and more " + WORDS
    for width, tip in ((1000, ""), (60, label.text())):
        label.resize(width, 20)
        QApplication.sendEvent(label, QHelpEvent(QHelpEvent.Type.ToolTip, QPoint(2, 2), QPoint(2, 2)))
        assert label.toolTip() == tip

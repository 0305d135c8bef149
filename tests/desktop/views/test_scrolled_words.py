"""Words that take as much room as they need, up to so many lines."""

from PyQt6.QtCore import Qt
from pytestqt.qtbot import QtBot

from filmreview.desktop.scrolled_words import ScrolledWords


def test_it_grows_with_the_words_and_then_scrolls_by_key(qtbot: QtBot) -> None:
    words = ScrolledWords("choices", 2)
    qtbot.addWidget(words)
    words.resize(300, 40)
    words.show()
    qtbot.waitExposed(words)
    line = words.words.fontMetrics().lineSpacing()
    words.show_words("one")
    low = words.height()
    assert line <= low < 2 * line
    assert words.focusPolicy() == Qt.FocusPolicy.NoFocus
    words.show_words("one\ntwo")
    assert low + line - 2 <= words.height() <= low + line + 2
    words.show_words("\n".join("abcdefgh"))
    assert words.height() <= 2 * line + 4
    assert words.focusPolicy() == Qt.FocusPolicy.StrongFocus
    bar = words.verticalScrollBar()
    qtbot.waitUntil(lambda: bar.maximum() > 0)
    qtbot.keyClick(words, Qt.Key.Key_Down)
    assert bar.value() > 0


def test_a_narrow_one_breaks_its_lines(qtbot: QtBot) -> None:
    words = ScrolledWords("choices", 5)
    qtbot.addWidget(words)
    words.resize(600, 40)
    words.show()
    qtbot.waitExposed(words)
    words.show_words("keep black, 5 changes; or keep white, 14 and 22 change")
    wide = words.height()
    words.resize(120, wide)
    assert words.height() > wide

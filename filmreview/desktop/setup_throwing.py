"""Before what was put into a dialog is thrown away: one question, whose safe answer is the default."""

from __future__ import annotations

from collections.abc import Callable

from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QLabel, QMessageBox, QWidget

from filmreview.desktop.unkept import Unkept


def _nothing() -> None:
    """Whoever goes on is where he was."""


def ask_to_throw_away(
    parent: QWidget,
    question: str,
    go_on_words: str,
    throw: Callable[[], object],
    throw_words: str = "Throw away",
    go_on: Callable[[], object] = _nothing,
) -> None:
    """Ask; `throw` is called only when it is meant, and `go_on` when it is not. go_on_words, throw_words: on their buttons."""
    box = QMessageBox(QMessageBox.Icon.Question, parent.windowTitle(), question, parent=parent)
    for label in box.findChildren(QLabel):
        label.setWordWrap(True)  # a long question must not make the box wider than a small screen
    away = box.addButton(throw_words, QMessageBox.ButtonRole.DestructiveRole)
    stay = box.addButton(go_on_words, QMessageBox.ButtonRole.RejectRole)
    box.setDefaultButton(stay)
    box.setEscapeButton(stay)
    box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    assert away is not None, "it was just made"
    assert stay is not None, "it was just made"
    away.clicked.connect(lambda _checked=False: throw())
    stay.clicked.connect(lambda _checked=False: go_on())
    box.open()


def ask_unless_kept(window: QWidget, unkept: Unkept, do: Callable[[], object], back: Callable[[], object]) -> None:
    """Do it at once, or ask first when something would go that is not kept. back: brings the person to it."""
    if unkept.words:
        ask_to_throw_away(window, unkept.words, unkept.back_words, do, unkept.throw_words, back)
    else:
        do()

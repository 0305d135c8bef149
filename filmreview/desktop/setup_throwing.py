"""Before what was put into a dialog is thrown away: one question, whose safe answer is the default."""

from __future__ import annotations

from collections.abc import Callable

from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QLabel, QMessageBox, QWidget


def ask_to_throw_away(parent: QWidget, question: str, go_on_words: str, throw: Callable[[], object]) -> None:
    """Ask; `throw` is called only when it is meant. go_on_words: on the button that goes on instead."""
    box = QMessageBox(QMessageBox.Icon.Question, parent.windowTitle(), question, parent=parent)
    for label in box.findChildren(QLabel):
        label.setWordWrap(True)  # a long question must not make the box wider than a small screen
    away = box.addButton("Throw away", QMessageBox.ButtonRole.DestructiveRole)
    go_on = box.addButton(go_on_words, QMessageBox.ButtonRole.RejectRole)
    box.setDefaultButton(go_on)
    box.setEscapeButton(go_on)
    box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    assert away is not None, "it was just made"
    away.clicked.connect(lambda _checked=False: throw())
    box.open()


def ask_unless_kept(window: QWidget, question: str, do: Callable[[], object]) -> None:
    """Do it at once, or ask first when there is a question, since something would go that is not kept."""
    if question:
        ask_to_throw_away(window, question, "Go on with it", do)
    else:
        do()

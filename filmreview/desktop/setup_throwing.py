"""Before what was put into a dialog is thrown away: one question, whose safe answer is the default."""

from __future__ import annotations

from collections.abc import Callable

from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QMessageBox, QWidget


def ask_to_throw_away(parent: QWidget, question: str, go_on_words: str, throw: Callable[[], object]) -> None:
    """Ask; `throw` is called only when it is meant. go_on_words: on the button that goes on instead."""
    box = QMessageBox(QMessageBox.Icon.Question, parent.windowTitle(), question, parent=parent)
    away = box.addButton("Throw away", QMessageBox.ButtonRole.DestructiveRole)
    go_on = box.addButton(go_on_words, QMessageBox.ButtonRole.RejectRole)
    box.setDefaultButton(go_on)
    box.setEscapeButton(go_on)
    box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    assert away is not None, "it was just made"
    away.clicked.connect(lambda _checked=False: throw())
    box.open()


def ask_before_closing(window: QWidget, unsaved: bool, close: Callable[[], object]) -> None:
    """Close at once, or ask first when the card holds what is not kept."""
    if unsaved:
        ask_to_throw_away(window, "Close without what the card holds? It is not kept as a tag.", "Go on with it", close)
    else:
        close()

"""Parts that the dialogs of the desk share: buttons that Enter does not press from elsewhere, a size that fits the screen."""

from __future__ import annotations

import itertools

from PyQt6.QtGui import QShowEvent
from PyQt6.QtWidgets import QDialog, QDialogButtonBox, QPushButton, QWidget


def dialog_button(words: str) -> QPushButton:
    """A button that is pressed only when it has the focus or is clicked."""
    button = QPushButton(words)
    button.setAccessibleName(words)
    button.setAutoDefault(False)
    return button


def close_button() -> QDialogButtonBox:
    """The button that closes; Enter in a list or a line must not press it. Connect `rejected`."""
    buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
    close = buttons.button(QDialogButtonBox.StandardButton.Close)
    assert close is not None, "the standard button"
    close.setAutoDefault(False)
    close.setDefault(False)
    return buttons


class _AsLaidOut(QDialogButtonBox):
    """Systems lay these buttons out in either order: Tab comes to them as they stand, not as they were made."""

    def showEvent(self, event: QShowEvent | None) -> None:
        """Only now does Qt take the order."""
        super().showEvent(event)
        layout = self.layout()
        assert layout is not None, "a row of buttons"
        row = sorted(self.buttons(), key=layout.indexOf)
        for one, other in itertools.pairwise(row):
            QWidget.setTabOrder(one, other)


def take_buttons(words: str) -> tuple[QDialogButtonBox, QPushButton]:
    """Cancel, and the button with these words that takes what the dialog holds."""
    buttons = _AsLaidOut(QDialogButtonBox.StandardButton.Cancel)
    take = buttons.addButton(words, QDialogButtonBox.ButtonRole.AcceptRole)
    assert take is not None, "it was just made"
    return buttons, take


def sized(dialog: QDialog, letters: int, lines: int) -> None:
    """Begin as wide as so many letters and as high as so many lines, but never larger than the screen."""
    metrics, screen = dialog.fontMetrics(), dialog.screen()
    assert screen is not None, "a dialog is on a screen"
    room = screen.availableGeometry()
    dialog.resize(min(metrics.averageCharWidth() * letters, room.width()), min(metrics.height() * lines, room.height()))

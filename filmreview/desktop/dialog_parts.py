"""Parts that the dialogs of the desk share: buttons that Enter does not press from elsewhere, a size that fits the screen."""

from __future__ import annotations

from PyQt6.QtWidgets import QDialog, QDialogButtonBox, QPushButton


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


def sized(dialog: QDialog, letters: int, lines: int) -> None:
    """Begin as wide as so many letters and as high as so many lines, but never larger than the screen."""
    metrics, screen = dialog.fontMetrics(), dialog.screen()
    assert screen is not None, "a dialog is on a screen"
    room = screen.availableGeometry()
    dialog.resize(min(metrics.averageCharWidth() * letters, room.width()), min(metrics.height() * lines, room.height()))

"""Parts that the dialogs of the desk share: buttons that Enter does not press from elsewhere."""

from __future__ import annotations

from PyQt6.QtWidgets import QDialogButtonBox, QPushButton


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

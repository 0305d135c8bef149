"""The words about the program, with its cautions."""

from __future__ import annotations

from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QDialog, QDialogButtonBox, QVBoxLayout, QWidget

from filmreview import __version__
from filmreview.cautions import MINORS, OFFLINE, SAFETY, STUDY_AID
from filmreview.desktop.small_widgets import heading, wrapped


class AboutDialog(QDialog):
    """What this is, and its cautions."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("About and cautions")
        layout = QVBoxLayout(self)
        layout.setSpacing(8)
        layout.addWidget(heading(f"Film review {__version__}"))
        layout.addWidget(wrapped("Game film, looked at for what players wear, ruled by the book in force on the game's day."))
        for words in (STUDY_AID, SAFETY, MINORS, OFFLINE):
            layout.addWidget(wrapped(words))
        layout.addWidget(wrapped("Free software under the GNU General Public License, version 3 or later."))
        layout.addStretch(1)
        layout.addWidget(_close_button(self))
        width = self.fontMetrics().averageCharWidth() * 80
        self.setMinimumWidth(width)
        self.resize(width, layout.totalHeightForWidth(width))


def _close_button(dialog: QDialog) -> QDialogButtonBox:
    buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
    buttons.rejected.connect(dialog.reject)
    buttons.setOrientation(Qt.Orientation.Horizontal)
    return buttons

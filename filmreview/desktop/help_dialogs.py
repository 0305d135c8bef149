"""The list of keys under F1, and the words about the program with its cautions."""

from __future__ import annotations

from PyQt6.QtCore import Qt
from PyQt6.QtGui import QKeySequence
from PyQt6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QDialogButtonBox,
    QHeaderView,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from filmreview import __version__
from filmreview.cautions import MINORS, OFFLINE, SAFETY, STUDY_AID
from filmreview.desktop.actions import DEEDS, ELSEWHERE, Deed, plain_words
from filmreview.desktop.small_widgets import heading, wrapped


def key_rows() -> list[tuple[str, str, str]]:
    """Where, which key, what happens; for everything that has a key."""
    rows = [(deed.menu.replace("&", ""), _keys(deed), plain_words(deed)) for deed in DEEDS if deed.keys or deed.film_keys]
    return [*rows, *ELSEWHERE]


def _keys(deed: Deed) -> str:
    shown = [QKeySequence(deed.keys).toString(QKeySequence.SequenceFormat.NativeText)] if deed.keys else []
    if deed.film_keys:
        shown.append(" ".join(deed.film_keys) + " on the picture")
    return ", or ".join(shown)


class KeysDialog(QDialog):
    """Every key."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("Keys")
        rows = key_rows()
        self.table = QTableWidget(len(rows), 3)
        self.table.setAccessibleName("list of keys")
        self.table.setHorizontalHeaderLabels(["Where", "Key or mouse", "What it does"])
        self.table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setTabKeyNavigation(False)
        rows_at_left, head = self.table.verticalHeader(), self.table.horizontalHeader()
        assert rows_at_left is not None, "a table has headers"
        assert head is not None, "a table has headers"
        rows_at_left.hide()
        rows_at_left.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        head.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft)
        for number, row in enumerate(rows):
            for column, words in enumerate(row):
                self.table.setItem(number, column, QTableWidgetItem(words))
        head.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        head.setSectionResizeMode(2, QHeaderView.ResizeMode.Stretch)
        layout = QVBoxLayout(self)
        layout.addWidget(self.table)
        layout.addWidget(_close_button(self))
        letters = self.fontMetrics().averageCharWidth()
        self.resize(letters * 110, self.fontMetrics().height() * 32)


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

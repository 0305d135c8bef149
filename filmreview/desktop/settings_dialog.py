"""The settings: who reviews, what plays films, jumps, size of the text, what a new review begins with, sheets, keys."""

from __future__ import annotations

from pathlib import Path

from PyQt6.QtCore import pyqtSignal
from PyQt6.QtWidgets import (
    QDialog,
    QDoubleSpinBox,
    QFileDialog,
    QFormLayout,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from filmreview.desktop.dialog_parts import take_buttons
from filmreview.desktop.settings_values import LARGEST_JUMP, LARGEST_TEXT, LEAST_JUMP, LEAST_TEXT, Chosen
from filmreview.desktop.setup_dialog import ANY_LEVEL
from filmreview.desktop.setup_presenter import BOOK_WORDS
from filmreview.desktop.small_widgets import Choice, wrapped
from filmreview.facts.items import BOOKS, LEVELS

PLAYBACK = {"": "whichever works here", "vlc": "VLC", "built-in": "the built-in player"}
BESIDE = "beside the review"


class SettingsDialog(QDialog):
    """Asks for the choices. keys_wanted: the person wants to see or change the keys."""

    keys_wanted = pyqtSignal()

    def __init__(self, chosen: Chosen, login: str, trouble: str = "", parent: QWidget | None = None) -> None:
        """login: what the history has while no observer is named. trouble: one line about the settings file, "" for none."""
        super().__init__(parent)
        self.setWindowTitle("Settings")
        self.who = QLineEdit(chosen.who)
        self.who.setPlaceholderText(f"not named (login {login})")
        self.playback = Choice("what plays films", PLAYBACK.values())
        self.jump = QDoubleSpinBox()
        self.text = QSpinBox()
        self.book = Choice("rule book of a new review", [BOOK_WORDS[name] for name in BOOKS])
        self.level = Choice("level of a new review", (ANY_LEVEL, *LEVELS))
        self.sheets = QLineEdit(chosen.sheets)
        self.sheets.setPlaceholderText(BESIDE)
        self.choose = QPushButton("Choose ...")
        self.keys = QPushButton("Keys ...")
        self.trouble = wrapped(trouble[:1].upper() + trouble[1:], "what is wrong")
        self.trouble.setVisible(bool(trouble))
        self.buttons, _take = take_buttons("Take these settings")
        self._show(chosen)
        self._name_all()
        self._lay_out()
        self.choose.clicked.connect(lambda _checked=False: self._choose_folder())
        self.keys.clicked.connect(lambda _checked=False: self.keys_wanted.emit())
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)

    def chosen(self) -> Chosen:
        """The choices as they stand in the dialog."""
        level = self.level.currentText()
        return Chosen(
            who=self.who.text().strip(),
            playback=list(PLAYBACK)[self.playback.currentIndex()],
            jump=round(self.jump.value(), 1),
            text=self.text.value(),
            book=BOOKS[self.book.currentIndex()],
            level="" if level == ANY_LEVEL else level,
            sheets=self.sheets.text().strip(),
        )

    def accept(self) -> None:
        """Taken unless the folder is not there."""
        folder = self.sheets.text().strip()
        if folder and not Path(folder).expanduser().is_dir():
            self.trouble.setText(f"There is no folder {folder}: choose another one, or leave it empty")
            self.trouble.show()
            self.sheets.setFocus()
            return
        super().accept()

    def _choose_folder(self) -> None:
        folder = QFileDialog.getExistingDirectory(self, "Folder for sheets", self.sheets.text() or str(Path.home()))
        if folder:
            self.sheets.setText(folder)

    def _show(self, chosen: Chosen) -> None:
        self.playback.show_text(PLAYBACK[chosen.playback])
        self.jump.setRange(LEAST_JUMP, LARGEST_JUMP)
        self.jump.setDecimals(1)
        self.jump.setSingleStep(0.5)
        self.jump.setSuffix(" s")
        self.jump.setValue(chosen.jump)
        self.text.setRange(LEAST_TEXT, LARGEST_TEXT)
        self.text.setSingleStep(10)
        self.text.setSuffix(" %")
        self.text.setValue(chosen.text)
        self.book.setCurrentIndex(BOOKS.index(chosen.book))
        self.level.show_text(chosen.level or ANY_LEVEL)

    def _name_all(self) -> None:
        named = {
            "observer's name": self.who, "seconds of a jump": self.jump, "size of the text in per cent": self.text,
            "folder for sheets": self.sheets, "choose the folder for sheets": self.choose, "see and change the keys": self.keys,
        }  # fmt: skip
        for words, widget in named.items():
            widget.setAccessibleName(words)
        for button in (self.choose, self.keys):
            button.setAutoDefault(False)

    def _lay_out(self) -> None:
        folder = QHBoxLayout()
        folder.addWidget(self.sheets, 1)
        folder.addWidget(self.choose)
        form = QFormLayout()
        form.setVerticalSpacing(6)
        form.addRow("Observer's name", self.who)
        form.addRow("Films are played by", self.playback)
        form.addRow("A jump back or forward", self.jump)
        form.addRow("Size of the text", self.text)
        form.addRow("A new review: book", self.book)
        form.addRow("A new review: level", self.level)
        form.addRow("Sheets are proposed in", folder)
        bottom = QHBoxLayout()
        bottom.addWidget(self.keys)
        bottom.addStretch(1)
        bottom.addWidget(self.buttons)
        layout = QVBoxLayout(self)
        layout.setSpacing(10)
        layout.addLayout(form)
        layout.addWidget(self.trouble)
        layout.addStretch(1)
        layout.addLayout(bottom)
        self.resize(self.fontMetrics().averageCharWidth() * 80, self.sizeHint().height())

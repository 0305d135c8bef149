"""How the questions of a lesson are shown and written, as widgets; every change is told at once."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from PyQt6.QtCore import pyqtSignal
from PyQt6.QtWidgets import QCheckBox, QDoubleSpinBox, QFormLayout, QGridLayout, QLineEdit, QVBoxLayout, QWidget

from filmreview.desktop.small_widgets import Choice
from filmreview.lessons.plan import HEIGHTS, KEPT, LAYOUTS, MARKS, MUTED, Settings

SECONDS = {
    "lead_in": "Film before the moment", "slow": "Of it at half speed", "hold": "Question held",
    "answer": "Ruling held", "after": "Film played on after", "card": "Title and end card, at least",
}  # fmt: skip
MARK_WORDS = dict(zip(MARKS, ("all else dimmed", "a line around it", "not marked"), strict=True))
LAYOUT_WORDS = dict(zip(LAYOUTS, ("one film with chapters", "a file for each question"), strict=True))
VERSION_WORDS = {"question": "films that only ask", "answer": "films that ask and answer"}


class LessonSettings(QWidget):
    """changed: the name of a setting and its new value. words_changed: title and words of the end card."""

    changed = pyqtSignal(str, object)
    words_changed = pyqtSignal(str, str)

    def __init__(self, settings: Settings, title: str, end: str) -> None:
        super().__init__()
        self.title, self.end = QLineEdit(title), QLineEdit(end)
        self.seconds = {name: _seconds(words) for name, words in SECONDS.items()}
        self.mark = Choice("how the item is marked", MARK_WORDS.values())
        self.layout_choice = Choice("how the films are written", LAYOUT_WORDS.values())
        self.height_choice = Choice("lines of the films", [str(one) for one in HEIGHTS])
        self.inset = _check("Item enlarged in a corner")
        self.sound = _check("Sound kept")
        self.page = _check("Page that asks (lesson.html)")
        self.versions = {name: _check(words[:1].upper() + words[1:]) for name, words in VERSION_WORDS.items()}
        self._show(settings)
        self._name()
        self._lay_out()
        self._connect()

    def _show(self, settings: Settings) -> None:
        for name, box in self.seconds.items():
            box.setValue(float(getattr(settings, name)))
        self.mark.show_text(MARK_WORDS[settings.mark])
        self.layout_choice.show_text(LAYOUT_WORDS[settings.layout])
        self.height_choice.show_text(str(settings.height))
        self.inset.setChecked(settings.inset)
        self.sound.setChecked(settings.sound == KEPT)
        self.page.setChecked(settings.page)
        for name, check in self.versions.items():
            check.setChecked(name in settings.versions)

    def _name(self) -> None:
        self.title.setAccessibleName("title of the lesson")
        self.title.setPlaceholderText("What the players wear: ... (no names of schools or players)")
        self.end.setAccessibleName("words of the end card")
        self.end.setPlaceholderText("the cautions")

    def _lay_out(self) -> None:
        words = QFormLayout()
        words.addRow("Title", self.title)
        words.addRow("End card", self.end)
        times, others = QFormLayout(), QFormLayout()
        for name, box in self.seconds.items():
            times.addRow(SECONDS[name], box)
        others.addRow("Item", self.mark)
        others.addRow("Written as", self.layout_choice)
        others.addRow("Lines at most", self.height_choice)
        checks = QGridLayout()
        for place, check in enumerate((self.inset, self.sound, *self.versions.values(), self.page)):
            checks.addWidget(check, place // 2, place % 2)
        rest = QVBoxLayout()
        rest.addLayout(others)
        rest.addStretch(1)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.addLayout(words, 0, 0, 1, 2)
        grid.addLayout(times, 1, 0)
        grid.addLayout(rest, 1, 1)
        grid.addLayout(checks, 2, 0, 1, 2)
        for choice in (self.mark, self.layout_choice):
            choice.setMinimumContentsLength(20)
        for form in (words, times, others):
            form.setVerticalSpacing(4)

    def _connect(self) -> None:
        for name, box in self.seconds.items():
            box.valueChanged.connect(lambda value, name=name: self._tell(name, Fraction(str(round(value, 1)))))
        self.mark.chosen.connect(lambda text: self._tell("mark", _key(MARK_WORDS, text)))
        self.layout_choice.chosen.connect(lambda text: self._tell("layout", _key(LAYOUT_WORDS, text)))
        self.height_choice.chosen.connect(lambda text: self._tell("height", int(text)))
        self.inset.toggled.connect(lambda on: self._tell("inset", on))
        self.sound.toggled.connect(lambda on: self._tell("sound", KEPT if on else MUTED))
        self.page.toggled.connect(lambda on: self._tell("page", on))
        for check in self.versions.values():
            check.toggled.connect(lambda _on: self._tell("versions", self._versions()))
        for line in (self.title, self.end):
            line.textChanged.connect(lambda _text: self.words_changed.emit(self.title.text(), self.end.text()))

    def _versions(self) -> tuple[str, ...]:
        return tuple(name for name, check in self.versions.items() if check.isChecked())

    def _tell(self, name: str, value: Any) -> None:
        self.changed.emit(name, value)


def _seconds(words: str) -> QDoubleSpinBox:
    box = QDoubleSpinBox()
    box.setRange(0, 60)
    box.setDecimals(1)
    box.setSingleStep(0.5)
    box.setSuffix(" s")
    box.setAccessibleName(f"{words}, seconds")
    return box


def _check(words: str) -> QCheckBox:
    box = QCheckBox(words)
    box.setAccessibleName(words)
    return box


def _key(words: dict[str, str], text: str) -> str:
    return next(name for name, said in words.items() if said == text)

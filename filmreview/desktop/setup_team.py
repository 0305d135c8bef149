"""One team in the set-up: its name, the colours of its kit, its roster."""

from __future__ import annotations

from PyQt6.QtCore import pyqtSignal
from PyQt6.QtWidgets import QComboBox, QFormLayout, QGroupBox, QLineEdit, QPlainTextEdit, QWidget

from filmreview.colour.palette import PALETTE
from filmreview.desktop.setup_presenter import KIT_WORDS, TeamForm
from filmreview.review.model import TEAM_FACTS


class TeamSetup(QGroupBox):
    """The form of "home" or "visitor". typed: anything in it changed."""

    typed = pyqtSignal()

    def __init__(self, side: str) -> None:
        super().__init__(side[:1].upper() + side[1:])
        self.side = side
        self.name = QLineEdit()
        self.name.setPlaceholderText("name of the school or club")
        self.kit = {part: self._colours(part) for part in TEAM_FACTS}
        self.roster = QPlainTextEdit()
        self.roster.setTabChangesFocus(True)
        self.roster.setPlaceholderText(
            "Numbers, typed or pasted: 3, 10, 14 ...\nor one player a line;\nonly the numbers are kept"
        )
        self.roster.setFixedHeight(self.fontMetrics().height() * 4 + 10)
        self._lay_out()
        self.name.textChanged.connect(self.typed)
        self.roster.textChanged.connect(self.typed)

    def form(self) -> TeamForm:
        """What was typed."""
        kit = {part: box.currentText().strip() for part, box in self.kit.items()}
        return TeamForm(self.name.text(), {part: text for part, text in kit.items() if text}, self.roster.toPlainText())

    def show_form(self, form: TeamForm) -> None:
        """Show this form."""
        self.name.setText(form.name)
        self.roster.setPlainText(form.roster)
        for part, box in self.kit.items():
            box.setCurrentText(form.kit.get(part, ""))

    def part(self, name: str) -> QWidget:
        """The widget of a part of the form: "name", "roster" or a part of the kit."""
        return {"name": self.name, "roster": self.roster, **self.kit}[name]

    def _colours(self, part: str) -> QComboBox:
        box = QComboBox()
        box.setEditable(True)
        box.addItems(["", *PALETTE])
        line = box.lineEdit()
        assert line is not None, "an editable box has a line"
        line.setPlaceholderText("a colour, or several: red, white" if part == "jersey" else "not declared")
        line.setAccessibleName(f"{self.side} {KIT_WORDS[part].casefold()} colour")
        box.setAccessibleName(f"{self.side} {KIT_WORDS[part].casefold()} colour")
        box.currentTextChanged.connect(lambda _text: self.typed.emit())
        return box

    def _lay_out(self) -> None:
        layout = QFormLayout(self)
        layout.setVerticalSpacing(4)
        self.name.setAccessibleName(f"{self.side} team name")
        self.roster.setAccessibleName(f"{self.side} roster")
        layout.addRow("Name", self.name)
        for part, box in self.kit.items():
            layout.addRow(KIT_WORDS[part], box)
        layout.addRow("Roster", self.roster)

"""One team in the set-up: its name, the colours of its kit, its roster."""

from __future__ import annotations

from PyQt6.QtCore import pyqtSignal
from PyQt6.QtWidgets import (
    QComboBox,
    QFormLayout,
    QGroupBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QWidget,
)

from filmreview.colour.palette import PALETTE
from filmreview.desktop.setup_presenter import KIT_WORDS, TeamForm, colours_text
from filmreview.facts.fact import Fact, Origin
from filmreview.review.model import TEAM_FACTS


class TeamSetup(QGroupBox):
    """The form of "home" or "visitor". typed: anything in it changed."""

    typed = pyqtSignal()
    pick_wanted = pyqtSignal()  # the kit's colours are to be picked from the film

    def __init__(self, side: str, can_pick: bool = False) -> None:
        super().__init__(side[:1].upper() + side[1:])
        self.side = side
        self.name = QLineEdit()
        self.name.setPlaceholderText("name of the school or club")
        self.picked: dict[str, Fact] = {}
        self.origins = {part: QLabel() for part in TEAM_FACTS}
        self.kit = {part: self._colours(part) for part in TEAM_FACTS}
        self.pick = QPushButton("Pick from the film ...")
        self.pick.setAutoDefault(False)
        self.pick.setVisible(can_pick)
        self.pick.clicked.connect(lambda _checked=False: self.pick_wanted.emit())
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
        typed = {part: text for part, text in kit.items() if text}
        return TeamForm(self.name.text(), typed, self.roster.toPlainText(), dict(self.picked))

    def show_form(self, form: TeamForm) -> None:
        """Show this form."""
        self.name.setText(form.name)
        self.roster.setPlainText(form.roster)
        self.picked = dict(form.picked)
        for part, box in self.kit.items():
            box.setCurrentText(form.kit.get(part, ""))

    def take_picked(self, part: str, fact: Fact) -> None:
        """A colour picked from the film stands in the kit now; typing another one overrules it."""
        self.picked[part] = fact
        self.kit[part].setCurrentText(colours_text(fact))
        self._show_origins()
        self.typed.emit()

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
        box.currentTextChanged.connect(lambda _text: self._kit_typed())
        return box

    def _kit_typed(self) -> None:
        self._show_origins()
        self.typed.emit()

    def _show_origins(self) -> None:
        """Beside each colour that comes from the film: how."""
        form = TeamForm(kit={part: box.currentText().strip() for part, box in self.kit.items()}, picked=self.picked)
        for part, label in self.origins.items():
            fact = form.picked_fact(part)
            label.setText("" if fact is None else "measured" if fact.origin is Origin.MEASURED else "by eye")
            label.setVisible(fact is not None)
            label.setToolTip(fact.why if fact is not None else "")
            label.setAccessibleName(f"{self.side} {KIT_WORDS[part].casefold()}: {label.text() or 'declared'}")

    def _lay_out(self) -> None:
        layout = QFormLayout(self)
        layout.setVerticalSpacing(4)
        self.name.setAccessibleName(f"{self.side} team name")
        self.roster.setAccessibleName(f"{self.side} roster")
        layout.addRow("Name", self.name)
        for part, box in self.kit.items():
            row = QHBoxLayout()
            row.addWidget(box, 1)
            row.addWidget(self.origins[part])
            layout.addRow(KIT_WORDS[part], row)
        self.pick.setAccessibleName(f"{self.side}: pick the kit's colours from the film")
        layout.addRow("", self.pick)
        layout.addRow("Roster", self.roster)

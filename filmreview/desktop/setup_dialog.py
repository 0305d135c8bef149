"""The set-up of a game: its day, the book in force that day, both teams as worn, the crew, and where the review is kept."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import (
    QComboBox,
    QDialog,
    QFileDialog,
    QFormLayout,
    QGridLayout,
    QGroupBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from filmreview.cautions import MINORS, STUDY_AID
from filmreview.desktop.dialog_parts import take_buttons
from filmreview.desktop.kit_colours_picking import KitPicking
from filmreview.desktop.kit_colours_presenter import Part
from filmreview.desktop.setup_presenter import (
    BOOK_WORDS,
    CREW_POSITIONS,
    DAY_SHAPE,
    Problem,
    SetupForm,
    problems_of,
    season_words,
)
from filmreview.desktop.setup_room import fit_to_screen, scrolled
from filmreview.desktop.setup_team import TeamSetup
from filmreview.desktop.setup_throwing import ask_to_throw_away
from filmreview.desktop.small_widgets import WholeLine, wrapped
from filmreview.facts.fact import Fact
from filmreview.facts.items import BOOKS, LEVELS
from filmreview.review.model import TEAM_FACTS

ANY_LEVEL = "not said"
NO_ADOPTION = "none"


class SetupDialog(QDialog):
    """Ask for a game. adoptions: names that ship. path: where a new review is to be kept, None when changing a set-up.
    picking: how kit colours are picked from the film, None where there is no film."""

    def __init__(
        self,
        form: SetupForm,
        adoptions: tuple[str, ...],
        path: Path | None,
        parent: QWidget | None = None,
        picking: KitPicking | None = None,
    ) -> None:
        super().__init__(parent)
        self.picking = picking
        self.setWindowTitle("New review: the game" if path else "The game's set-up")
        self.day = WholeLine()  # one text, not a date box: there typed digits go into whichever part the cursor is in
        self.day.setPlaceholderText(DAY_SHAPE)
        self.level = _box((ANY_LEVEL, *LEVELS))
        self.book = _box(tuple(BOOK_WORDS[name] for name in BOOKS))
        self.adoption = _box((NO_ADOPTION, *adoptions))
        self.adoption.setEditable(True)
        self.observer = QLineEdit()
        self.observer.setPlaceholderText("your name, for sheet and history")
        self.teams = {side: TeamSetup(side, picking is not None) for side in ("home", "visitor")}
        self.crew = [(QLineEdit(position), QLineEdit()) for position in CREW_POSITIONS]
        self.path = QLineEdit(str(path) if path else "")
        self._new = path is not None
        self.season = QLabel()
        self.problem = wrapped(name="what is still missing")
        self.buttons, _take = take_buttons("Begin the review" if path else "Take this set-up")
        self._lay_out()
        self._name_all()
        self._show(form)
        self._shown = (self.form(), self.path.text())
        self._connect()
        self._typed()

    def form(self) -> SetupForm:
        """What was typed."""
        level, adoption = self.level.currentText(), self.adoption.currentText().strip()
        return SetupForm(
            self.day.text(),
            "" if level == ANY_LEVEL else level,
            BOOKS[self.book.currentIndex()],
            "" if adoption == NO_ADOPTION else adoption,
            self.observer.text(),
            self.teams["home"].form(),
            self.teams["visitor"].form(),
            tuple((position.text(), name.text()) for position, name in self.crew),
        )

    def accept(self) -> None:
        """Only a form without a problem is taken; the first problem gets the focus."""
        problems = self._problems()
        if problems:
            self._typed()
            self._widget_of(problems[0]).setFocus(Qt.FocusReason.OtherFocusReason)
            return
        super().accept()

    def reject(self) -> None:
        """Esc, Cancel and the window's own button: what was typed is thrown away only when that is meant."""
        if (self.form(), self.path.text()) == self._shown:
            super().reject()
            return
        ask_to_throw_away(self, "Throw away what was typed here?", "Go on typing", self._throw_away)

    def _throw_away(self) -> None:
        super().reject()

    def _pick(self, side: str) -> None:
        if self.picking is not None:
            names = {one: team.name.text().strip() for one, team in self.teams.items()}
            self.picking.ask((side, TEAM_FACTS[0]), names, self, self._picked, self.problem.setText)

    def _picked(self, facts: Mapping[Part, Fact]) -> None:
        for (side, part), fact in facts.items():
            self.teams[side].take_picked(part, fact)

    def _problems(self) -> tuple[Problem, ...]:
        found = problems_of(self.form())
        if self._new and not self.path.text().strip():
            found = (*found, Problem("path", "say where to keep the review"))
        return found

    def _typed(self) -> None:
        problems = self._problems()
        words = problems[0].words if problems else ""
        self.problem.setText(f"Not ready: {words}" if words else "Ready.")
        self.season.setText(season_words(self.day.text()))

    def _widget_of(self, problem: Problem) -> QWidget:
        side, dot, part = problem.field.partition(".")
        if dot:
            return self.teams[side].part(part)
        return {"day": self.day, "book": self.book, "level": self.level, "path": self.path}[problem.field]

    def _show(self, form: SetupForm) -> None:
        self.day.setText(form.day)
        self.level.setCurrentText(form.level or ANY_LEVEL)
        self.book.setCurrentIndex(BOOKS.index(form.book) if form.book in BOOKS else 0)
        self.adoption.setCurrentText(form.adoption or NO_ADOPTION)
        self.observer.setText(form.observer)
        for side, team in self.teams.items():
            team.show_form(form.team(side))
        for (position, name), given in zip(self.crew, form.crew, strict=False):
            position.setText(given[0])
            name.setText(given[1])

    def _connect(self) -> None:
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)
        for team in self.teams.values():
            team.typed.connect(self._typed)
            team.pick_wanted.connect(lambda side=team.side: self._pick(side))
        self.day.textChanged.connect(lambda _text: self._typed())
        self.path.textChanged.connect(lambda _text: self._typed())

    def _name_all(self) -> None:
        named: dict[str, QWidget] = {
            "game day": self.day, "level of play": self.level, "rule book": self.book, "adoption": self.adoption,
            "observer": self.observer, "file of the review": self.path,
        }  # fmt: skip
        for words, widget in named.items():
            widget.setAccessibleName(words)
        for number, (position, name) in enumerate(self.crew, 1):
            position.setAccessibleName(f"crew position {number}")
            name.setAccessibleName(f"crew name {number}")

    def _lay_out(self) -> None:
        body = QWidget()
        layout = QVBoxLayout(body)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        top = QHBoxLayout()
        top.addWidget(self._game_part(), 1)
        top.addWidget(self._crew_part(), 1)
        teams = QHBoxLayout()
        for team in self.teams.values():
            teams.addWidget(team, 1)
        layout.addLayout(top)
        layout.addLayout(teams)
        if self._new:
            layout.addLayout(self._path_part())
        layout.addWidget(wrapped(f"{STUDY_AID} {MINORS}"))
        bottom = QHBoxLayout()
        bottom.addWidget(self.problem, 1)
        bottom.addWidget(self.buttons)
        around = QVBoxLayout(self)
        around.addWidget(scrolled(body), 1)
        around.addLayout(bottom)
        width = self.fontMetrics().averageCharWidth() * 120
        margins = around.contentsMargins()
        needed = layout.totalHeightForWidth(width - margins.left() - margins.right())
        fit_to_screen(self, width, needed + bottom.sizeHint().height() + margins.top() + margins.bottom() + around.spacing())

    def _game_part(self) -> QWidget:
        part = QGroupBox("Game")
        form = QFormLayout(part)
        form.setVerticalSpacing(4)
        day = QHBoxLayout()
        day.setSpacing(6)  # a layout inside a form has none of its own
        day.addWidget(self.day, 1)
        day.addWidget(self.season)
        form.addRow("Day", day)
        form.addRow("Level", self.level)
        form.addRow("Book", self.book)
        form.addRow("Adoption", self.adoption)
        return part

    def _crew_part(self) -> QWidget:
        part = QGroupBox("Crew and observer")
        grid = QGridLayout(part)
        grid.setVerticalSpacing(4)
        for row, (position, name) in enumerate(self.crew):
            name.setPlaceholderText("name")
            grid.addWidget(position, row, 0)
            grid.addWidget(name, row, 1)
        grid.addWidget(QLabel("observer"), len(self.crew), 0)
        grid.addWidget(self.observer, len(self.crew), 1)
        grid.setColumnStretch(1, 2)
        grid.setColumnStretch(0, 1)
        return part

    def _path_part(self) -> QHBoxLayout:
        row = QHBoxLayout()
        choose = QPushButton("Choose ...")
        choose.setAccessibleName("choose the file of the review")
        choose.setAutoDefault(False)
        choose.clicked.connect(self._choose_path)
        row.addWidget(QLabel("Keep the review in"))
        row.addWidget(self.path, 1)
        row.addWidget(choose)
        return row

    def _choose_path(self) -> None:
        path, _kind = QFileDialog.getSaveFileName(self, "Keep the review in", self.path.text(), "Reviews (*.filmreview)")
        if path:
            self.path.setText(path if path.endswith(".filmreview") else f"{path}.filmreview")


def _box(words: tuple[str, ...]) -> QComboBox:
    box = QComboBox()
    box.addItems(words)
    return box

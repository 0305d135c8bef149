"""The questions on the card: only those whose answer can still change the ruling, the most decisive first."""

from __future__ import annotations

from collections.abc import Callable

from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.ruling_words import need_said, presumed_words, question_words, questions_of, waiting_words
from filmreview.desktop.small_widgets import Choice, ColourChoice, answer_button, in_bold, wrapped
from filmreview.errors import FilmReviewError
from filmreview.facts.keys import KEYS, Key, Kind, parse_value
from filmreview.rules.ruling import Need

MOST = 3
LETTERS = 20
"""A choice with more letters than this on its buttons is a list: the card is narrow."""
CHOOSE = "choose"
EXAMPLES = {"in": "2.5 +- 0.3", "sq in": "2.2 +- 0.4", "pieces": "2"}
"""What an amount may look like, by its unit."""
IN_SET_UP = "; the game's set-up says it"


class CardQuestions(QWidget):
    """At most three questions at a time; the next ones come when these are answered."""

    def __init__(self, presenter: CardPresenter, refused: Callable[[str], None]) -> None:
        super().__init__()
        self._presenter = presenter
        self._refused = refused
        self._shown: tuple[object, ...] = ()
        self.setAccessibleName("questions that can still change the ruling")
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(4)
        presenter.events.on("ruling", self.refresh)
        presenter.events.on("open", self.refresh)

    def refresh(self) -> None:
        """Ask what the ruling needs."""
        ruling = self._presenter.ruling
        asked, heads = questions_of(ruling, MOST), (waiting_words(ruling), presumed_words(ruling))
        said = tuple(tuple(need_said(need, ruling) for need in needs if ruling is not None) for needs in asked)
        if (asked, heads, said) == self._shown:
            return
        self._shown = (asked, heads, said)
        self._empty()
        for head, needs, words in zip(heads, asked, said, strict=True):
            for widget in (*([in_bold(wrapped(head))] if needs else []), *map(self._question, needs, words)):
                self._layout.addWidget(widget)
                widget.show()  # at once, not when the event loop comes round
        self.setVisible(any(asked))

    def controls(self) -> list[QWidget]:
        """What can be answered now, from above."""
        found = [one for one in self.findChildren(QWidget) if one.focusPolicy() == Qt.FocusPolicy.StrongFocus]
        return [one for one in found if one.isVisibleTo(self) and not isinstance(one.parent(), QComboBox)]

    def _empty(self) -> None:
        while self._layout.count():
            taken = self._layout.takeAt(0)
            widget = taken.widget() if taken else None
            if widget is not None:
                widget.hide()
                widget.deleteLater()

    def _question(self, need: Need, words: str) -> QWidget:
        asked = QWidget()
        layout = QVBoxLayout(asked)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        if need.fact not in KEYS:
            layout.addWidget(wrapped(_sentence(words) + IN_SET_UP))
            return asked
        key = KEYS[need.fact]
        row = QHBoxLayout()
        row.addWidget(wrapped(question_words(need.fact)), 1)
        for widget in self._answers(key, need):
            row.addWidget(widget)
        layout.addLayout(row)
        asked.setToolTip(words)
        return asked

    def _answers(self, key: Key, need: Need) -> list[QWidget]:
        if key.kind is Kind.YES_NO:
            return [self._button(key, text, need) for text in ("yes", "no")]
        if key.kind is Kind.CHOICE and sum(map(len, key.choices)) <= LETTERS:
            return [self._button(key, text, need) for text in key.choices]
        if key.kind in (Kind.CHOICE, Kind.COLOURS):
            name = question_words(key.name)
            box = ColourChoice(name, CHOOSE) if key.kind is Kind.COLOURS else Choice(name, (CHOOSE, *key.choices))
            box.chosen.connect(lambda text: self._answer(key, text))
            return [box]
        line = QLineEdit()
        line.setAccessibleName(question_words(key.name))
        line.setMaximumWidth(line.fontMetrics().averageCharWidth() * 14)
        line.setPlaceholderText(EXAMPLES.get(key.unit, ""))
        line.editingFinished.connect(lambda: self._answer(key, line.text()))
        return [line]

    def _button(self, key: Key, text: str, need: Need) -> QWidget:
        button = answer_button(text, f"{question_words(key.name)} {text}")
        ruling = need.outcomes.get(text)
        if ruling:
            button.setToolTip(f"then: {ruling}")
        button.clicked.connect(lambda: self._answer(key, text))
        return button

    def _answer(self, key: Key, text: str) -> None:
        if text == CHOOSE or not text.strip():
            return
        try:
            value = parse_value(key.name, text)
        except FilmReviewError as error:
            self._refused(str(error))
            return
        self._presenter.answer(key.name, value)


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]

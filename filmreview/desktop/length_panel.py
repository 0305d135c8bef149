"""The panel under the picture while a length is measured: choices, what to do now, the length live, buttons."""

from __future__ import annotations

from collections.abc import Callable

from PyQt6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from filmreview.desktop.length_presenter import LengthPresenter
from filmreview.desktop.length_step import OWN_SIZE, Step
from filmreview.desktop.small_widgets import Choice, in_bold, wrapped
from filmreview.facts.keys import KEYS
from filmreview.measure.courts import COURTS
from filmreview.measure.size import SIZE_KEYS

_DEPTHS = (0.0, 1.0, 2.0, 5.0, 7.0, 10.0, 15.0)
NO_MORE = "no more points"
_LEANS = (0.0, 5.0, 10.0, 15.0, 30.0, 45.0)


class LengthPanel(QFrame):
    """Shows a presenter; hidden while nothing is measured."""

    def __init__(self, presenter: LengthPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self.setAccessibleName("measure a length")
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self.key = Choice("which length", [KEYS[name].words for name in SIZE_KEYS])
        self.against = Choice("what its size is known by", ())
        self.nearer = Choice("how much nearer or farther the item may be", [_percent(share) for share in _DEPTHS])
        self.lean = Choice("how far the item may lean away", [_degrees(angle) for angle in _LEANS])
        self.own = QLineEdit()
        self.own.setAccessibleName("the size that you know")
        self.own.setPlaceholderText("8 +- 0.25 in")
        self.court = Choice("court", tuple(COURTS))
        names = tuple(COURTS["school"])
        self.corners = [Choice(f"court point {number + 1}", names) for number in range(4)]
        self.corners += [Choice(f"court point {number + 1}", (NO_MORE, *names)) for number in range(4, 6)]
        self.limit = QLineEdit()
        self.limit.setAccessibleName("limit in inches")
        self.limit.setPlaceholderText("limit: at most 3")
        self.limit.setMinimumWidth(self.limit.fontMetrics().horizontalAdvance(self.limit.placeholderText()) + 16)  # read whole
        self.todo = in_bold(wrapped(name="what to do now"))
        self.value, self.behind, self.notes = (wrapped(name=name) for name in ("the length", "its parts", "what it rests on"))
        self.next = self._button("Next (Enter)", "the points are where they belong", presenter.go_on)
        self.back = self._button("Known thing again", "place the known thing again", presenter.back)
        self.draws = self._button("Check the ±", "check the ± by random draws too", presenter.draw)
        self.stop = self._button("Stop (Esc)", "stop measuring", presenter.stop)
        self._lay_out()
        self._connect()
        self.refresh()

    def refresh(self) -> None:
        """Show what the presenter says."""
        presenter = self._presenter
        self.setVisible(presenter.on)
        if not presenter.on:
            return
        self.key.show_text(KEYS[presenter.key].words)
        self.against.refill(presenter.choices)
        self.against.show_text(presenter.against)
        self.nearer.show_text(_percent(presenter.depth))
        self.lean.show_text(_degrees(presenter.lean))
        self.court.show_text(presenter.court)
        for number, corner in enumerate(self.corners):
            corner.show_text(presenter.corners[number] if number < len(presenter.corners) else NO_MORE)
            corner.setEnabled(number <= len(presenter.corners))
        self.own.setVisible(presenter.against == OWN_SIZE)
        self._known.setVisible(not presenter.by_floor)
        self._floor.setVisible(presenter.by_floor)
        texts = presenter.texts
        for label, words in zip((self.todo, self.value, self.behind, self.notes), vars(texts).values(), strict=True):
            label.setText(words)
            label.setVisible(bool(words))
        item = presenter.step is Step.ITEM
        self.next.setText("Onto the card (Enter)" if item else "Next (Enter)")
        self.next.setEnabled(presenter.seen is not None if item else bool(presenter.asked and presenter.asked.whole))
        self.back.setEnabled(item)
        self.draws.setEnabled(presenter.seen is not None)

    def _connect(self) -> None:
        presenter = self._presenter
        self.key.chosen.connect(lambda _text: presenter.choose_key(SIZE_KEYS[self.key.currentIndex()]))
        self.against.chosen.connect(presenter.choose_against)
        self.nearer.chosen.connect(lambda _text: presenter.set_depth(_DEPTHS[self.nearer.currentIndex()]))
        self.lean.chosen.connect(lambda _text: presenter.set_lean(_LEANS[self.lean.currentIndex()]))
        self.court.chosen.connect(presenter.choose_court)
        for number, corner in enumerate(self.corners):
            corner.chosen.connect(lambda name, number=number: presenter.choose_corner(number, "" if name == NO_MORE else name))
        self.own.textEdited.connect(presenter.set_own_size)
        self.limit.textEdited.connect(presenter.set_limit)
        presenter.events.on("measured", self.refresh)
        presenter.events.on("asked", self.refresh)

    def _button(self, words: str, name: str, do: Callable[[], None]) -> QPushButton:
        button = QPushButton(words)
        button.setAccessibleName(name)
        button.setAutoDefault(False)
        button.clicked.connect(lambda _checked=False: do())
        return button

    def _lay_out(self) -> None:
        self._known, self._floor = QWidget(), QWidget()
        known = _row(self._known)
        for widget in (QLabel("nearer or farther by"), self.nearer, QLabel("leaning up to"), self.lean):
            known.addWidget(widget)
        floor = QGridLayout(self._floor)
        floor.setContentsMargins(0, 0, 0, 0)
        floor.addWidget(QLabel("court"), 0, 0)
        floor.addWidget(self.court, 1, 0)
        for number, corner in enumerate(self.corners):
            floor.addWidget(corner, number // 3, 1 + number % 3)
        for column in (1, 2, 3):
            floor.setColumnStretch(column, 1)
        top, buttons = QHBoxLayout(), QHBoxLayout()
        parts: list[tuple[QWidget, int]] = [(QLabel("Measure"), 0), (self.key, 1), (QLabel("by"), 0), (self.against, 2)]
        for part, share in (*parts, (self.own, 1)):
            top.addWidget(part, share)
        top.addWidget(self._known)
        top.addWidget(self.limit, 1)
        buttons.addWidget(self.todo, 1)
        for button in (self.next, self.back, self.draws, self.stop):
            buttons.addWidget(button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(6, 4, 6, 4)
        layout.setSpacing(3)
        layout.addLayout(top)
        layout.addWidget(self._floor)
        layout.addLayout(buttons)
        for label in (self.value, self.behind, self.notes):
            layout.addWidget(label)
        in_bold(self.value)


def _row(widget: QWidget) -> QHBoxLayout:
    layout = QHBoxLayout(widget)
    layout.setContentsMargins(0, 0, 0, 0)
    return layout


def _percent(share: float) -> str:
    return f"{share:g} %"


def _degrees(angle: float) -> str:
    return f"{angle:g} deg"

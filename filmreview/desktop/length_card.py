"""On the card: what was measured by hand, each fact with its plus-minus, its frame and a button that takes it back."""

from __future__ import annotations

from PyQt6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.small_widgets import answer_button, wrapped
from filmreview.facts.fact import Fact
from filmreview.facts.keys import KEYS
from filmreview.film.moment import format_time


class MeasuredByHand(QWidget):
    """Hidden while nothing was measured by hand."""

    def __init__(self, presenter: CardPresenter, desk: Desk) -> None:
        super().__init__()
        self._presenter, self._desk = presenter, desk
        self._shown: tuple[Fact, ...] = ()
        self._at = ""
        self.setAccessibleName("measured by hand")
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(2)
        for event in ("open", "measured"):
            presenter.events.on(event, self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Show what the draft holds."""
        draft = self._presenter.draft
        facts = draft.by_hand if draft is not None else ()
        self.setVisible(bool(facts))
        at = format_time(self._desk.seconds_of(draft.film, draft.moment)) if draft is not None and facts else ""
        if (facts, at) == (self._shown, self._at):
            return
        self._shown, self._at = facts, at
        while self._layout.count():
            taken = self._layout.takeAt(0)
            widget = taken.widget() if taken else None
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for line in map(self._line, facts):
            self._layout.addWidget(line)
            line.show()  # at once, not when the event loop comes round

    def controls(self) -> list[QWidget]:
        """The buttons, from above."""
        return [button for button in self.findChildren(QWidget) if button.accessibleName().startswith("take back")]

    def _line(self, fact: Fact) -> QWidget:
        line = QWidget()
        row = QHBoxLayout(line)
        row.setContentsMargins(0, 0, 0, 0)
        name = KEYS[fact.key].words
        words = f"{fact.why}; holds for the frame at {self._at}" if fact.key != "colour" else f"of the number: {fact.why}"
        row.addWidget(wrapped(f"measured {name}: {words}", f"measured {name}"), 1)
        button = answer_button("Take back", f"take back the measured {name}")
        button.clicked.connect(lambda: self._presenter.take_back(fact.key))
        row.addWidget(button)
        return line

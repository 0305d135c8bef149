"""The parts of a tag as widgets: whose, which item, its colour. They write the same line that can be typed."""

from __future__ import annotations

from PyQt6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QWidget

from filmreview.colour.palette import colour_named
from filmreview.colour.value import Colour
from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.ruling_words import measured_words
from filmreview.desktop.small_widgets import Choice, ColourChoice, Patch, wrapped
from filmreview.desktop.white_words import light_words
from filmreview.facts.items import ITEMS, TEAMS
from filmreview.review.line import UNREADABLE

NOBODY = "team"
NO_NUMBER = "number"
UNREAD = "not read"
NO_ITEM = "item"
BY_FILM = "as measured"
NOT_SEEN = "by eye: not said"


class CardParts(QWidget):
    """Team, number, item, and the colour with its patch."""

    def __init__(self, presenter: CardPresenter, desk: Desk) -> None:
        super().__init__()
        self._presenter = presenter
        self._desk = desk
        self.team = Choice("team", (NOBODY, *TEAMS))
        self.player = Choice("player number", (NO_NUMBER,))
        self.item = Choice("item", (NO_ITEM, *ITEMS))
        self.patch = Patch("measured colour")
        self.by_eye = ColourChoice("colour by the eye", NOT_SEEN)
        self._measured = wrapped(name="measured colour in words")
        self.team.chosen.connect(lambda _text: self._whose())
        self.player.chosen.connect(lambda _text: self._whose())
        self.item.chosen.connect(lambda text: presenter.set_item(None if text == NO_ITEM else text))
        self.by_eye.chosen.connect(self._by_eye)
        self._lay_out()
        for event in ("open", "line", "measured"):
            presenter.events.on(event, self.refresh)

    def refresh(self) -> None:
        """Show what the line says and what was measured."""
        draft = self._presenter.draft
        if draft is None:
            return
        said = draft.understood
        self.team.show_text(said.team or NOBODY)
        self._fill_players(said.team, said.player)
        self.item.show_text(said.item or NO_ITEM)
        self._show_colour()

    def _fill_players(self, team: str | None, player: str | None) -> None:
        roster = list(self._desk.rosters.get(team or "", ()))
        shown = UNREAD if player == UNREADABLE else player
        extra = [shown] if shown and shown not in (*roster, UNREAD) else []
        self.player.refill([NO_NUMBER, *roster, *extra, UNREAD])
        self.player.show_text(shown or NO_NUMBER)

    def _whose(self) -> None:
        team, player = self.team.currentText(), self.player.currentText()
        number = {NO_NUMBER: None, UNREAD: UNREADABLE}.get(player, player)
        self._presenter.set_who(None if team == NOBODY else team, number)

    def _by_eye(self, text: str) -> None:
        unsaid = text in (NOT_SEEN, BY_FILM)
        self._presenter.answer("colour", None if unsaid else (colour_named(text),))

    def _show_colour(self) -> None:
        draft = self._presenter.draft
        assert draft is not None, "the card is open"
        seen = next((one.value for one in draft.understood.facts if one.key == "colour"), None)
        on_film = next((one for one in draft.measured if one.key == "colour"), None)
        measured = on_film.value[0] if on_film and isinstance(on_film.value, tuple) else None
        first = BY_FILM if measured else NOT_SEEN
        self.by_eye.show_first(first)
        self.by_eye.show_text(seen[0].name if isinstance(seen, tuple) else first)
        self.patch.show_colour(seen[0] if isinstance(seen, tuple) and not measured else measured)
        self._measured.setText(self._measured_words(measured))

    def _measured_words(self, measured: Colour | None) -> str:
        draft = self._presenter.draft
        assert draft is not None, "the card is open"
        if self._presenter.measuring:
            return "measuring the colour ..."
        if measured is not None:
            here = self._presenter.measured
            light = f"; {light_words(here.reference, here.elsewhere)}" if here is not None else ""
            return f"measured: {measured_words(measured)}{light}"
        why_not = self._presenter.measured.why_not if self._presenter.measured else ""
        if why_not:
            return f"the colour cannot be told: {why_not}"
        return "no region drawn, nothing measured" if draft.region is None else "nothing measured"

    def _lay_out(self) -> None:
        whose = QHBoxLayout()
        whose.addWidget(self.team, 1)
        whose.addWidget(self.player, 1)
        colour = QHBoxLayout()
        colour.addWidget(self.patch)
        colour.addWidget(self.by_eye, 1)
        layout = QGridLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setVerticalSpacing(4)
        for row, words in enumerate(("Whose", "Item", "Colour")):
            layout.addWidget(QLabel(words), row, 0)
        layout.addLayout(whose, 0, 1)
        layout.addWidget(self.item, 1, 1)
        layout.addLayout(colour, 2, 1)
        layout.addWidget(self._measured, 3, 1)
        layout.setColumnStretch(1, 1)

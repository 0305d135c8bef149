"""Own calls in the window: their tab beside the ledger, hiding the rulings, the score."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from PyQt6.QtGui import QAction
from PyQt6.QtWidgets import QApplication, QTabWidget, QWidget

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.own_call_place import OwnCallPlace
from filmreview.desktop.own_call_presenter import OwnCallPresenter
from filmreview.desktop.own_call_score import ScoreDialog
from filmreview.desktop.unkept import Unkept
from filmreview.desktop.when_seen import WhenSeen

TAB = "Own calls"
HIDE, SHOW = "&Hide rulings until my own call", "S&how all rulings"


class OwnCallsInForce:
    """The own calls of one window. tabs: where the tab goes, seen only while the review has to do with own calls. chosen: the
    id of the tag that is meant now, "" for none."""

    def __init__(self, desk: Desk, tabs: QTabWidget, chosen: Callable[[], str], window: QWidget) -> None:
        self._tabs, self._chosen, self._window = tabs, chosen, window
        self.presenter = OwnCallPresenter(desk)
        self.place = OwnCallPlace(self.presenter)
        self._refresh_place = WhenSeen(self.place, self.place.refresh)
        self._action: QAction | None = None
        tabs.addTab(self.place, TAB)
        self.place.score_wanted.connect(self.show_score)
        for event in ("review", "findings"):
            desk.events.on(event, self.refresh)
        self.refresh()

    def handlers(self) -> Mapping[str, Callable[[], object]]:
        """What happens for the deeds about own calls."""
        return {"own_call": self.ask, "hide_rulings": self._turn, "score": self.show_score}

    def take_action(self, action: QAction) -> None:
        """The menu line that hides or shows, whose words follow."""
        self._action = action
        self.refresh()

    def ask(self) -> None:
        """Be ready for the call on the tag that is meant, or the next one that waits, its moment on the picture."""
        calling = self.place.isAncestorOf(QApplication.focusWidget())
        self._tabs.setTabVisible(self._tabs.indexOf(self.place), True)
        self._tabs.setCurrentWidget(self.place)
        self.place.take_keys("" if calling else self._chosen())
        if self.place.chosen():
            self.place.jump_wanted.emit(self.place.chosen())

    def show_score(self) -> None:
        """The score by rule and by item."""
        score = self.presenter.score()
        if score is not None:
            ScoreDialog(score, self._window).open()

    def unkept(self) -> Unkept:
        """The calls that are typed and not given, which would be lost when the review is let go."""
        tags = self.place.not_given()
        return Unkept(calls=self.presenter.not_given_words(tags), many=len(tags))

    def go_to_typed(self) -> None:
        """Be ready to give the first call that is typed and not given."""
        tags = self.place.not_given()
        if tags:
            self._tabs.setCurrentWidget(self.place)
            self.place.take_keys(tags[0])

    def refresh(self) -> None:
        """The review or its findings changed."""
        place = self._tabs.indexOf(self.place)
        if self._tabs.currentWidget() is not self.place:
            self._tabs.setTabVisible(place, self.presenter.wanted)
        self._refresh_place()
        if self._action is not None:
            self._action.setText(SHOW if self.presenter.hidden else HIDE)

    def _turn(self) -> None:
        self.presenter.set_hidden(not self.presenter.hidden)

"""The window: lays out the four places and joins them. It decides nothing; presenters do.

The picture is left and largest, the film strip under it, the ledger at the bottom, the card on the right; all of them are
always in sight. While no review is open the start page stands in their place.
"""

from __future__ import annotations

from pathlib import Path

from PyQt6.QtCore import QSize, Qt
from PyQt6.QtGui import QCloseEvent, QResizeEvent
from PyQt6.QtWidgets import QMainWindow, QSplitter, QStackedWidget

from filmreview.desktop.actions import DEEDS, make_actions
from filmreview.desktop.card import Card
from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.deeds import Deeds
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.film_place import FilmPlace
from filmreview.desktop.jobs import Jobs
from filmreview.desktop.keys_in_force import KeysInForce
from filmreview.desktop.ledger import Ledger
from filmreview.desktop.ledger_pictures import LedgerPictures
from filmreview.desktop.ledger_presenter import LedgerPresenter
from filmreview.desktop.ledger_tabs import LedgerTabs
from filmreview.desktop.length_by_hand import ByHand
from filmreview.desktop.made_up import MadeUp
from filmreview.desktop.message_line import MessageLine
from filmreview.desktop.opening import Opening
from filmreview.desktop.people import People
from filmreview.desktop.reading_dialogs import ReadingDialogs
from filmreview.desktop.roomy import FitDialogs, Roomy, room_on
from filmreview.desktop.settings import Settings
from filmreview.desktop.settings_in_force import SettingsInForce
from filmreview.desktop.start_page import StartPage
from filmreview.desktop.undo import Undo
from filmreview.errors import FilmReviewError
from filmreview.review.model import Review

TITLE = "Film review"
NARROW = 1100
"""Pixels of width under which the card is as narrow as it can be."""
CARD_WIDTH = 420


class DeskWindow(QMainWindow):
    """One review at a time."""

    def __init__(self, settings: Settings) -> None:
        super().__init__()
        self._settings = settings
        self._fault = ""
        self.jobs = Jobs(self.tell_fault, self)
        self.undo = Undo(self.jobs.in_turn, self._take_review, self.tell_fault, self)
        self.desk = Desk(self.jobs.start, self.jobs.in_turn, self._forget, self.undo.push)
        self.card_presenter = CardPresenter(self.desk)
        self.ledger_presenter = LedgerPresenter(self.desk)
        self.opening = Opening(self.desk, self.jobs, settings, self, self._opened)
        self.start_page = StartPage()
        self.film_place = FilmPlace(self.desk, self.card_presenter, self.ledger_presenter, settings.playback())
        self.card = Card(self.card_presenter, self.desk)
        self.ledger = Ledger(self.ledger_presenter)
        self.pictures = LedgerPictures(self.jobs, self.desk.films)
        self.messages = MessageLine(self.desk, self.jobs)
        self.made_up = MadeUp(self.desk, self.jobs, self.messages, self.opening, self)
        self._lay_out()
        self.people = People(self)
        self.by_hand = ByHand(self.film_place, self.below, self.desk, self.card_presenter)
        self.reading = ReadingDialogs(self.desk, self.undo, self.card_presenter, self.ledger, self, settings.stand_in)
        self.deeds = Deeds(self)
        self.actions_by_name = make_actions(self, self.deeds.handlers())
        self.keys = KeysInForce(settings, self.actions_by_name, self.film_place, self)
        self.opening.keys_of = lambda name: self.keys.presenter.given(name).both
        self.settings = SettingsInForce(settings, self.desk, self.film_place, self.keys, self)
        self._connect()
        self.people.join()
        self._refresh()
        self._restore()
        self.settings.tell_trouble(self.tell_fault)

    def tell_fault(self, error: FilmReviewError) -> None:
        """Show a fault of the world as one line; the window lives on."""
        self._fault = str(error)
        self.desk.message(self._fault)

    def open_path(self, path: Path) -> None:
        """Open a review, or begin one from a film."""
        self.opening.open_any(path)

    def sheet_folder(self) -> str:
        """The folder that sheets are proposed in, as the settings have it."""
        return self._settings.chosen().sheets

    def resizeEvent(self, event: QResizeEvent | None) -> None:
        """Where it becomes narrow, the card gives the picture what it can spare."""
        super().resizeEvent(event)
        if event is not None and event.size().width() < NARROW <= event.oldSize().width():
            self.sides.setSizes(self._side_sizes())

    def closeEvent(self, event: QCloseEvent | None) -> None:
        """Let go of film, review and jobs. What is on its way to the disk gets there first; where it cannot, the window stays
        with the tag on its card. Closed by hand while the card or an own call holds what is not kept: it asks first."""
        if event is not None and event.spontaneous() and self.deeds.unkept.words:
            event.ignore()
            self.deeds.quit()
            return
        self.people.letters.close()
        keeping = self.card_presenter.keeping
        self.jobs.finish_turns()
        if keeping and self.card_presenter.draft is not None and event is not None:
            event.ignore()
            return
        self._settings.keep_layout("window", self.saveGeometry())
        self._settings.keep_layout("sides", self.sides.saveState())
        self._settings.keep_layout("left", self.left.saveState())
        self.reading.close()
        self.hide()  # letting go may take a moment
        self.film_place.close_film()
        self.undo.take(None)
        self.desk.close()
        self.jobs.close()
        if event is not None:
            super().closeEvent(event)

    def _take_review(self, review: Review) -> None:
        self.desk.take_review(review)

    def _forget(self, *names: str) -> None:
        for name in names:
            self.jobs.drop(name)

    def _lay_out(self) -> None:
        self.below = LedgerTabs(self.desk, self.ledger, self.film_place)
        self.left = QSplitter(Qt.Orientation.Vertical)
        self.left.addWidget(self.film_place)
        self.left.addWidget(self.below)
        self.left.setStretchFactor(0, 3)
        self.left.setStretchFactor(1, 1)
        self.left.setChildrenCollapsible(False)
        self.sides = QSplitter(Qt.Orientation.Horizontal)
        self.sides.addWidget(self.left)
        self.sides.addWidget(self.card)
        self.sides.setStretchFactor(0, 1)
        self.sides.setStretchFactor(1, 0)
        self.sides.setChildrenCollapsible(False)
        self.card.setMinimumWidth(self.fontMetrics().averageCharWidth() * 44)
        self.pages = QStackedWidget()
        for page in (self.start_page, self.sides):
            self.pages.addWidget(Roomy(page))
        FitDialogs(self)
        self.setCentralWidget(self.pages)
        self.setStatusBar(self.messages)

    def _restore(self) -> None:
        self.resize(QSize(1366, 740).boundedTo(room_on(self)))
        geometry = self._settings.layout("window")
        if geometry is not None:
            self.restoreGeometry(geometry)
        for name, splitter, sizes in (("sides", self.sides, self._side_sizes()), ("left", self.left, [480, 220])):
            state = self._settings.layout(name)
            if state is None or not splitter.restoreState(state):
                splitter.setSizes(sizes)

    def _side_sizes(self) -> list[int]:
        card = self.card.minimumWidth() if self.width() < NARROW else CARD_WIDTH
        return [self.width() - card, card]

    def _connect(self) -> None:
        start, film, ledger = self.start_page, self.film_place, self.ledger
        start.film_wanted.connect(self.opening.ask_film)
        start.review_wanted.connect(self.opening.ask_review)
        start.made_up_wanted.connect(self.made_up.ask)
        start.recent_wanted.connect(self.opening.open_review)
        film.card_wanted.connect(self.card.take_keys)
        film.tag_chosen.connect(self.deeds.go_to_tag)
        film.tag_opened.connect(self.deeds.change_tag)
        film.bar.film_wanted.connect(self.opening.show_film)
        self.card.ruling.rule_wanted.connect(self.reading.handlers()["rule"])
        self.below.tag_wanted.connect(self.deeds.go_to_tag)
        self.below.change_wanted.connect(self.deeds.change_tag)
        self.card.closed.connect(film.canvas.setFocus)
        self.card.here_wanted.connect(film.give_crew_moment)
        self.pictures.made.connect(ledger.set_picture)
        self.undo.stack.indexChanged.connect(self._refresh)
        self.undo.stack.indexChanged.connect(self.opening.follow_review)
        self.desk.events.on("review", self._review_changed)
        self.desk.events.on("findings", ledger.refresh)
        self.desk.events.on("film", self._refresh)
        self.desk.events.on("message", self._show_fault)
        self.card_presenter.events.on("open", self._refresh)
        film.regions.history.events.on("steps", self._refresh)
        self.card_presenter.events.on("kept", lambda: ledger.choose(self.card_presenter.last_kept))

    def _opened(self, _path: Path) -> None:
        self.undo.take(self.desk.store)
        self.ledger.model.forget_pictures()
        self.pictures.want(None)
        self.pictures.want(self.desk.review)
        self.film_place.canvas.setFocus()

    def _show_fault(self) -> None:
        """On the start page a fault stands in plain sight until something else is said."""
        words = self.desk.last_message
        self.start_page.show_fault(words if words == self._fault else "")

    def _review_changed(self) -> None:
        self.ledger.refresh()
        self.pictures.want(self.desk.review)
        self._refresh()

    def _refresh(self, _index: int = 0) -> None:
        """Title, page, and what can be done now."""
        review = self.desk.review
        self.pages.setCurrentIndex(0 if review is None else 1)
        if review is None:
            self.start_page.show_recent(self._settings.recent())
        game = review.game if review else None
        self.setWindowTitle(f"{game.home.name} against {game.visitor.name}, {game.day} - {TITLE}" if game else TITLE)
        have = {"": True, "review": review is not None, "film": self.desk.film is not None}
        for deed in DEEDS:
            self.actions_by_name[deed.name].setEnabled(have[deed.needs])
        stack, actions, region = self.undo.stack, self.actions_by_name, self.film_place.regions.history
        undo, redo = region.undo_words or stack.undoText(), region.redo_words or stack.redoText()
        for name, can, words in (("undo", bool(undo), undo), ("redo", bool(redo), redo)):
            actions[name].setEnabled(can)
            actions[name].setText(f"&{name[:1].upper()}{name[1:]}" + (f": {_short(words)}" if can and words else ""))
        for name in ("keep", "drop"):
            actions[name].setEnabled(self.card_presenter.draft is not None)


def _short(words: str) -> str:
    return words if len(words) <= 60 else words[:57] + "..."

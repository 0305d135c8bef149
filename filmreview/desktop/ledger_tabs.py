"""The place at the bottom: the ledger, and over it as tabs the wear board, the procedure clock and the list of stoppages."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from PyQt6.QtCore import Qt, pyqtSignal
from PyQt6.QtWidgets import QTableView, QTabWidget, QWidget

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.film_place import FilmPlace
from filmreview.desktop.ledger import Ledger
from filmreview.desktop.procedure_clock import ProcedureClock
from filmreview.desktop.procedure_clock_keys import EventKeys
from filmreview.desktop.procedure_clock_presenter import ProcedureClockPresenter
from filmreview.desktop.stoppage_place import StoppagePlace
from filmreview.desktop.stoppage_presenter import StoppagePresenter
from filmreview.desktop.stoppage_shades import StoppageShades
from filmreview.desktop.wear_board import WearBoardPlace
from filmreview.desktop.wear_board_presenter import WearBoardPresenter
from filmreview.film.moment import Moment

Place = tuple[str, Moment]
_REASON = Qt.FocusReason.ShortcutFocusReason


class LedgerTabs(QTabWidget):
    """Four tabs. What they want of the film goes straight to it; tags are gone to by the window."""

    tag_wanted = pyqtSignal(str)  # a tag's id: go to its moment
    change_wanted = pyqtSignal(str)  # a tag's id: open it on the card

    def __init__(self, desk: Desk, ledger: Ledger, film_place: FilmPlace) -> None:
        super().__init__()
        self._desk, self._film_place = desk, film_place
        self.ledger = ledger
        self.clock_presenter, self.stoppage_presenter = ProcedureClockPresenter(desk), StoppagePresenter(desk)
        self.wear = WearBoardPlace(WearBoardPresenter(desk))
        self.clock = ProcedureClock(self.clock_presenter)
        self.stoppages = StoppagePlace(self.stoppage_presenter)
        self.shades = StoppageShades(desk, self.stoppage_presenter, film_place)
        self.event_keys = EventKeys((film_place, self.clock), self._note)
        self.setDocumentMode(True)
        self.setAccessibleName("ledger, wear board, procedure clock, stoppages")
        for place, words in ((ledger, "Ledger"), (self.wear, "Wear board"), (self.clock, "Procedure clock")):
            self.addTab(place, words)
        self.addTab(self.stoppages, "Stoppages")
        self._connect()

    def handlers(self) -> Mapping[str, Callable[[], object]]:
        """What happens for the deeds of `actions.DEEDS` that belong here."""
        return {
            "go_ledger": lambda: self._show(self.ledger, self.ledger.table),
            "look_for": lambda: self._show(self.ledger, self.ledger.look_for),
            "go_wear": lambda: self._show(self.wear, self.wear.table),
            "go_clock": lambda: self._show(self.clock, self.clock.table),
            "go_stoppages": lambda: self._show(self.stoppages, self.stoppages.table),
            "note_event": self._note_in_words,
            "event_whose": self._say_whose,
            "event_here": self.clock.take_moment,
            "event_remove": lambda: self.clock_presenter.remove(self.clock.chosen()),
            "stoppage": self._mark,
            "stoppage_kind": self._ask_kind,
            "stoppage_drop": self.stoppage_presenter.drop,
            "stoppage_right": lambda: self.stoppage_presenter.accept(self._stoppages_meant()),
            "stoppage_remove": lambda: self.stoppage_presenter.remove(self._stoppages_meant()),
            "next_stoppage": lambda: self._to_stoppage(1),
            "previous_stoppage": lambda: self._to_stoppage(-1),
        }

    def _connect(self) -> None:
        for tagged in (self.ledger, self.wear):
            tagged.jump_wanted.connect(self.tag_wanted)
            tagged.change_wanted.connect(self.change_wanted)
        for placed in (self.clock, self.stoppages):
            placed.jump_wanted.connect(self._film_place.go_to)
        self.clock.note_wanted.connect(self._note)
        self.clock.moment_wanted.connect(lambda: self.clock_presenter.begin(self._film_place.place_now()))
        self.clock.here_wanted.connect(lambda event: self.clock_presenter.move(event, self._film_place.place_now()))
        self.clock.left.connect(lambda: self._film_place.canvas.setFocus(_REASON))
        self.stoppages.mark_wanted.connect(self._mark)
        self.stoppages.edge_wanted.connect(
            lambda stoppage, end: self.stoppage_presenter.set_edge(stoppage, self._film_place.place_now(), end)
        )
        self.currentChanged.connect(lambda _tab: self._tab_changed())
        self._film_place.player.time_changed.connect(lambda seconds: self.clock.show_now(self._desk.film_id, seconds))
        self.clock_presenter.events.on("events", self._show_now)
        self._desk.events.on("film", self._keys_alive)

    def _show(self, place: QWidget, focus: QWidget) -> None:
        self.setCurrentWidget(place)
        focus.setFocus(_REASON)
        selection = focus.selectionModel() if isinstance(focus, QTableView) else None
        if isinstance(focus, QTableView) and selection is not None and not selection.hasSelection():
            focus.selectRow(0)

    def _tab_changed(self) -> None:
        self._keys_alive()
        self._show_now()

    def _show_now(self) -> None:
        self.clock.show_now(self._desk.film_id, self._film_place.player.time)

    def _keys_alive(self) -> None:
        self.event_keys.set_alive(self.currentWidget() is self.clock and self._desk.film is not None)

    def _note(self, what: str) -> None:
        self.clock_presenter.note(what, self._film_place.place_now())

    def _note_in_words(self) -> None:
        self.clock_presenter.begin(self._film_place.place_now())
        self._show(self.clock, self.clock.line.line)

    def _say_whose(self) -> None:
        self.setCurrentWidget(self.clock)
        self.clock.change_chosen()

    def _mark(self) -> None:
        self.stoppage_presenter.mark(self._film_place.place_now())

    def _ask_kind(self) -> None:
        """Of the stoppage that the picture stands in, or else of the one put down last."""
        place = self._film_place.place_now()
        here = self.stoppage_presenter.at(place) if place is not None else None
        self.setCurrentWidget(self.stoppages)
        self.stoppages.ask_kind(here.stoppage if here else self.stoppage_presenter.last)

    def _stoppages_meant(self) -> tuple[str, ...]:
        """Those chosen in the list while it is open; else the one that the picture stands in."""
        if self.currentWidget() is self.stoppages:
            return self.stoppages.chosen()
        place = self._film_place.place_now()
        here = self.stoppage_presenter.at(place) if place is not None else None
        if here is None:
            self._desk.message("the picture stands in no stoppage")
        return (here.stoppage,) if here else ()

    def _to_stoppage(self, way: int) -> None:
        place = self._film_place.place_now()
        if place is None:
            return
        find = self.stoppage_presenter.following if way > 0 else self.stoppage_presenter.preceding
        row = find(place)
        target = self.stoppage_presenter.place(row.stoppage) if row else None
        if row is None or target is None:
            self._desk.message("no stoppage after this moment" if way > 0 else "no stoppage before this moment")
            return
        self.stoppages.choose(row.stoppage)
        self._film_place.go_to(*target)
        self._desk.message(f"{row.words}, {row.start_time} to {row.end_time}")

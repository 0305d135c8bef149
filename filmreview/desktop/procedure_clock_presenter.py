"""The procedure clock without a screen: events with film times, the seconds between them, and where the crew departed from the
procedure that the book lays down."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from filmreview.cautions import SAFETY, STUDY_AID
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.events import Events
from filmreview.desktop.procedure_clock_words import EventSaid, event_line, more_words, read_event_line, whose_is_missing
from filmreview.desktop.ruling_words import MARK_WORDS
from filmreview.film.moment import Moment
from filmreview.review.changes import AddEvent, EditEvent, RemoveEvent, Together
from filmreview.review.common_time import title_of
from filmreview.review.game_time import place_at
from filmreview.review.model import PlacedEvent, Review
from filmreview.review.own_calls import HIDDEN, all_shown
from filmreview.review.ruled import rules_event
from filmreview.rules.procedures.laid_down import procedures_of
from filmreview.rules.procedures.missing_words import missing_words
from filmreview.rules.procedures.result import Departure, ProcedureResult

_SAFETY_WORDS = ("blood", "injury", "concussion")
Place = tuple[str, Moment]
"""A film's id and a moment of it."""


@dataclass(frozen=True)
class EventRow:
    """One event. at: seconds as the procedures count them. seconds: from the start of its film. since: seconds from the event
    before it, None for the first. dead: seconds since play was stopped, None while the ball is live. against: what was done
    there otherwise than the book asks."""

    event: str
    film: str
    at: Fraction
    seconds: Fraction
    time: str
    since: Fraction | None
    dead: Fraction | None
    what: str
    who: str
    more: str
    against: str


@dataclass(frozen=True)
class DepartureRow:
    """One departure from the procedure. place: where it is on the films."""

    words: str
    place: Place


class ProcedureClockPresenter:
    """The events of the open review. Events: "events" when rows or departures have changed, "line" when what the line is about
    has."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self.events = Events("events", "line")
        self.begun: Place | None = None
        """The moment of the new event that the line is about."""
        self.changing: str | None = None
        """The event that the line is about."""
        self.last = ""
        """The event put down last."""
        self._made: tuple[object, object] = (None, None)
        self._rows: tuple[EventRow, ...] = ()
        desk.events.on("review", self._review_changed)
        desk.events.on("findings", lambda: self.events.tell("events"))

    def rows(self) -> tuple[EventRow, ...]:
        """The events in the order of their times; made once for each state of the review."""
        review, found = self._desk.review, self._desk.findings
        if self._made[0] is not review or self._made[1] is not found:
            self._made, self._rows = (review, found), self._made_rows(review) if review else ()
        return self._rows

    def _made_rows(self, review: Review) -> tuple[EventRow, ...]:
        placed = sorted(((_at(review, event), event) for event in review.events), key=lambda pair: pair[0])
        rows: list[EventRow] = []
        stopped: Fraction | None = None
        for at, event in placed:
            if event.what == "play stopped" and stopped is None:
                stopped = at
            dead = at - stopped if stopped is not None else None
            since = at - rows[-1].at if rows else None
            rows.append(self._row(review, event, at, since, dead))
            if event.what == "play resumes":
                stopped = None
        return tuple(rows)

    def departures(self) -> tuple[DepartureRow, ...]:
        """What the crew did otherwise than the book asks, in the order of time."""
        review, result = self._desk.review, self._result()
        if review is None or result is None or not review.films:
            return ()
        rows = []
        events = {_at(review, event): event for event in review.events}
        for one in result.departures:
            event = events.get(one.at)
            place = (event.film, event.moment) if event else _place_at(review, one.at)
            rows.append(DepartureRow(_departure_words(one, review.time_text(*place)), place))
        return tuple(rows)

    def summary(self) -> tuple[str, ...]:
        """How the crew did by the book: the procedures followed with how many departures, then what is missing to tell, and
        where the text is from."""
        review, result = self._desk.review, self._result()
        if review is None or not review.events:
            return (
                "No event is put down yet. The keys at the right put one down while the film runs; "
                f"{self._desk.key('note_event')} asks for it in words.",
            )
        if not all_shown(review):
            return (f"By the book: {HIDDEN}",)
        if result is None:
            return ("The events so far call for no procedure of the book.",)
        count = len(result.departures)
        told = "no departure seen" if not count else f"{count} departure{'s' if count > 1 else ''}"
        missing = (f"not known: {missing_words(one)}" for one in result.missing)
        rule = f"Rule {result.reference}" if result.reference else ""
        source = ", ".join(part for part in (rule, result.edition, MARK_WORDS.get(result.mark, result.mark)) if part)
        laid_down = procedures_of(review.game.book)
        followed = "; ".join(laid_down[name].title if name in laid_down else name for name in result.names)
        return (f"{followed}: {told}", *missing, *([source] if source else []))

    def caution(self) -> str:
        """The caution that belongs beside the events: the safety words for blood, injury and concussion."""
        result, review = self._result(), self._desk.review
        told = [*(result.names if result else ()), *(event.what for event in (review.events if review else ()))]
        return SAFETY if any(word in one for one in told for word in _SAFETY_WORDS) else STUDY_AID

    def place(self, event_id: str) -> Place | None:
        """Film and moment of an event; None when it has gone."""
        event = self._event(event_id)
        return (event.film, event.moment) if event else None

    def between(self, event_ids: Sequence[str]) -> str:
        """The seconds from the first to the last of several events chosen: "play stopped to substitute enters: 14.400 s"."""
        rows = [row for row in self.rows() if row.event in event_ids]
        if len(rows) < 2:
            return ""
        return f"{rows[0].what} to {rows[-1].what}: {seconds_words(rows[-1].at - rows[0].at)}"

    def running(self, film_id: str | None, seconds: Fraction) -> str:
        """The seconds from the last event before this time of a film up to it: "3.2 s since coach told"; "" before any."""
        here = [row for row in self.rows() if row.film == film_id and row.seconds <= seconds]
        return f"{float(seconds - here[-1].seconds):.1f} s since {here[-1].what}" if here else ""

    # Putting events down

    def note(self, what: str, place: Place | None) -> None:
        """Put an event down by its word alone, at this film and moment."""
        if place is None:
            self._desk.message("no film stands on the picture: an event needs its moment")
        else:
            self._add(EventSaid(what), place)

    def begin(self, place: Place | None) -> None:
        """The line is about a new event at this moment."""
        if place is None:
            self._desk.message("no film stands on the picture: an event needs its moment")
            return
        self.begun, self.changing = place, None
        self.events.tell("line")

    def change(self, event_id: str) -> None:
        """The line is about an event that is put down already."""
        if self._event(event_id) is not None:
            self.begun, self.changing = None, event_id
            self.events.tell("line")

    def drop(self) -> None:
        """The line is about nothing any more; nothing is changed."""
        self.begun = self.changing = None
        self.events.tell("line")

    def line(self) -> str:
        """The line as it stands before anything is typed."""
        event = self._event(self.changing) if self.changing else None
        return event_line(event) if event else ""

    def line_head(self) -> str:
        """What the line is about: "new event at 0:12.345", "change the event at 0:12.345", ""."""
        review = self._desk.review
        event = self._event(self.changing) if self.changing else None
        if review is None or (event is None and self.begun is None):
            return ""
        if event is not None:
            return f"Change the event at {review.time_text(event.film, event.moment)}"
        assert self.begun is not None, "one of the two is there"
        return f"New event at {review.time_text(*self.begun)}"

    def read(self, text: str) -> EventSaid:
        """How the line is read."""
        return read_event_line(text, self._desk.rosters)

    def keep(self, text: str) -> bool:
        """Keep the line: a new event, or the change of one. What stands in the way is told as a message. True when taken."""
        said, event = self.read(text), self._event(self.changing) if self.changing else None
        if not said.complete or (event is None and self.begun is None):
            self._desk.message("not kept yet: " + ("; ".join(said.asks) or "choose a moment first"))
            return False
        if event is None:
            assert self.begun is not None, "asked above"
            taken = self._add(said, self.begun)
        else:
            taken = self._edit(event, said)
        if taken:
            self.drop()
        return taken

    def move(self, event_id: str, place: Place | None) -> bool:
        """Give the event another moment."""
        event = self._event(event_id)
        if event is None or place is None:
            return False
        return self._desk.try_change(EditEvent(replace(event, film=place[0], moment=place[1])))

    def remove(self, event_ids: Sequence[str]) -> bool:
        """Take these events out, as one change."""
        changes = tuple(RemoveEvent(one) for one in event_ids)
        return bool(changes) and self._desk.try_change(changes[0] if len(changes) == 1 else Together(changes))

    def _add(self, said: EventSaid, place: Place) -> bool:
        assert said.what is not None, "a line without it is not kept"

        def noted(ids: tuple[str, ...]) -> None:
            self.last = ids[0]
            self._desk.message(f"put down: {said.says}" + self._whose_hint(said))
            self.events.tell("events")

        return self._desk.try_change(AddEvent(*place, said.what, **said.besides), noted)

    def _edit(self, event: PlacedEvent, said: EventSaid) -> bool:
        assert said.what is not None, "a line without it is not kept"
        changed = replace(event, what=said.what, **said.besides)
        return self._desk.try_change(EditEvent(changed), lambda _ids: self._desk.message(f"changed: {said.says}"))

    def _whose_hint(self, said: EventSaid) -> str:
        missing = whose_is_missing(said.what or "", said.team, said.player) if said.what else ""
        return f"; {self._desk.key('event_whose')} says which {missing}" if missing else ""

    def _row(self, review: Review, event: PlacedEvent, at: Fraction, since: Fraction | None, dead: Fraction | None) -> EventRow:
        name = review.game.team(event.team).name if event.team else ""
        missing = whose_is_missing(event.what, event.team, event.player)
        who = " ".join(part for part in (name, event.player or "") if part)
        who = who if not missing else f"{who}, which player?" if who else f"which {missing}?"
        result = self._result()
        here = [one.what for one in (result.departures if result else ()) if one.at == at]
        time = review.time_text(event.film, event.moment)
        if len(review.films) > 1:
            time = f"{title_of(review.film(event.film))} {time}"
        seconds = review.film(event.film).seconds_of(event.moment)
        return EventRow(
            event.id, event.film, at, seconds, time, since, dead, event.what, who, more_words(event), "; ".join(here)
        )

    def _result(self) -> ProcedureResult | None:
        found = self._desk.findings  # false while there is no tag, though there may be events
        return found.procedure if found is not None else None

    def _event(self, event_id: str) -> PlacedEvent | None:
        events = self._desk.review.events if self._desk.review else ()
        return next((event for event in events if event.id == event_id), None)

    def _review_changed(self) -> None:
        if self.changing is not None and self._event(self.changing) is None:
            self.drop()
        if self._desk.review is None:
            self.begun = None
        self.events.tell("events")


def seconds_words(seconds: Fraction | None) -> str:
    """Seconds to the millisecond: "14.400 s"; "" for none."""
    return "" if seconds is None else f"{float(seconds):.3f} s"


def _at(review: Review, event: PlacedEvent) -> Fraction:
    at = rules_event(review, event).at
    assert at is not None, "an event on a film has its time"
    return at


def _place_at(review: Review, at: Fraction) -> Place:
    film, seconds = place_at(review, at)
    return film.id, Moment(film.start.pts + round(seconds / film.start.time_base), film.start.time_base)


def _departure_words(one: Departure, time: str) -> str:
    over = f"; {seconds_words(one.seconds)} over" if one.seconds is not None else ""
    place = f"rule {one.reference}" if one.reference else ""
    source = ", ".join(part for part in (place, MARK_WORDS.get(one.mark, one.mark)) if part)
    return f"{time}  {one.what}. The book asks: {one.asks}{over}" + (f" ({source})" if source else "")

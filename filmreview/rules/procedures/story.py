"""The events in order, and asking them: who, when, within which stoppage."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from filmreview.rules.procedures.event import Event, Found


def the_team(team: str | None) -> str:
    """A team in words, for sentences."""
    return {"home": "the home team", "visitor": "the visitors"}.get(team or "", "a team")


def of_team(team: str | None) -> str:
    """What belongs to a team: "the visitors'"."""
    named = the_team(team)
    return f"{named}'" if named.endswith("s") else f"{named}'s"


@dataclass(frozen=True)
class Who:
    """A player of a team; None = not said."""

    team: str | None
    player: str | None

    def __str__(self) -> str:
        """In words: "the visitors' 27", "a player of the home team", "player 27", "the player"."""
        if self.team is None:
            return f"player {self.player}" if self.player else "the player"
        return f"{of_team(self.team)} {self.player}" if self.player else f"a player of {the_team(self.team)}"


@dataclass(frozen=True)
class Placed:
    """An event with its place in the story. at: film time in seconds; of an event without one, that of the event before it."""

    place: int
    event: Event
    at: Fraction

    @property
    def timed(self) -> bool:
        """False when its film time was not said: then no clock can be read from it."""
        return self.event.at is not None


@dataclass(frozen=True)
class Stoppage:
    """A stretch of dead ball: from the place and film time it starts to the event that ends it, None while it lasts. timed:
    whether the time it starts was said."""

    first: int
    start: Fraction
    resumed: Placed | None
    timed: bool = True

    @property
    def last(self) -> int | None:
        """The place of the event that ends it."""
        return None if self.resumed is None else self.resumed.place


class Story:
    """All events in order of film time (events at one time, or without one, in the order given), and what was found on whom."""

    def __init__(self, events: Sequence[Event], found: Sequence[Found] = ()) -> None:
        times: list[Fraction] = []
        for event in events:
            times.append(event.at if event.at is not None else (times[-1] if times else Fraction(0)))
        ordered = sorted(zip(times, events, strict=True), key=lambda pair: pair[0])
        self.events = tuple(Placed(place, event, at) for place, (at, event) in enumerate(ordered))
        self.found = tuple(found)

    def all(
        self,
        *words: str,
        after: int = -1,
        before: int | None = None,
        who: Who | None = None,
        team: str | None = None,
        loose: bool = True,
    ) -> Iterator[Placed]:
        """Events of these words whose place lies between, in order. who, team: only theirs; a name left out in the file
        fits anybody, unless `loose` is off."""
        for one in self.events:
            if one.event.what in words and after < one.place and (before is None or one.place < before):
                fits_who = who is None or _fits(one.event, who, loose)
                if fits_who and (team is None or one.event.team in ((team, None) if loose else (team,))):
                    yield one

    def first(
        self,
        *words: str,
        after: int = -1,
        before: int | None = None,
        who: Who | None = None,
        team: str | None = None,
        loose: bool = True,
    ) -> Placed | None:
        """The first of `all`, or None."""
        return next(self.all(*words, after=after, before=before, who=who, team=team, loose=loose), None)

    def has(self, *words: str) -> bool:
        """True when any event is one of these words."""
        return any(one.event.what in words for one in self.events)

    def stoppage(self, place: int) -> Stoppage:
        """The stoppage that the event at this place belongs to, or leads to when the ball is live."""
        turned = list(self.all("play stopped", "play resumes", before=place + 1))
        dead = bool(turned) and turned[-1].event.what == "play stopped"
        if dead:
            first = turned[-1].place
        else:
            resumes = self.first("play resumes", after=place)
            stops = self.first("play stopped", after=place, before=None if resumes is None else resumes.place)
            first = place if stops is None else stops.place
        begins = self.events[first]
        return Stoppage(first, begins.at, self.first("play resumes", after=first), begins.timed)


def _fits(event: Event, who: Who, loose: bool) -> bool:
    if not loose:
        return event.team == who.team and event.player == who.player
    same_team = event.team is None or who.team is None or event.team == who.team
    return same_team and (event.player is None or who.player is None or event.player == who.player)

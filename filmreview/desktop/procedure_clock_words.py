"""The events of a procedure in short words: the key that notes each, the line that says whose one is, and how one is shown.

A line holds, in any order: what happened (`blood seen`, or its beginning: `sub rep`), whose it is (`v14`, `h 3`, `home`), and
what some events need besides: `60` or `30` of a time-out, `technical`, `head coach` of a foul, `before 10:00` of a scorebook
change, a note in quotation marks. Nothing here is decided: what an event means is the rules' matter.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TypedDict

from filmreview.errors import FilmReviewError, nearest
from filmreview.film.moment import format_time
from filmreview.review.model import PlacedEvent
from filmreview.rules.procedures.event import CHARGED_TO, EVENT_WORDS, FOUL_KINDS, TIME_OUT_LENGTHS, read_seconds

KEY_OF: Mapping[str, str] = {
    "blood seen": "B", "injury": "I", "concussion signs": "C", "play stopped": "S", "staff beckoned": "K", "staff enters": "A",
    "directed to leave": "L", "coach told": "T", "put right": "P", "substitute reports": "Q", "withdrawn at table": "W",
    "substitute enters": "E", "time-out granted": "O", "warning horn": "H", "time-out ends": "N", "returns": "R",
    "free throw": "F", "foul charged": "X", "book number changed": "M", "jersey removed": "J", "blood wiped on another": "D",
    "unreported number": "U", "play resumes": "G",
}  # fmt: skip
"""Event word -> the key that puts it down while the procedure clock is open."""
_PIECE = re.compile(r'"[^"]*"?|[^\s,]+')
_WHO = re.compile(r"(h|v|home|visitors?)?#?(\d{1,2})?")
_SIDES = {"h": "home", "home": "home", "v": "visitor", "visitor": "visitor", "visitors": "visitor"}
_LONGEST = 4  # words of an event word


class Besides(TypedDict):
    """What an event holds besides its word, film and moment."""

    team: str | None
    player: str | None
    length: int | None
    before_start: Fraction | None
    note: str
    kind: str | None
    charged_to: str | None


@dataclass(frozen=True)
class EventSaid:
    """What a line was read as. unread: pieces not understood, as typed. asks: what would still be good to know; only the
    unread and a missing `what` stand in the way of keeping it."""

    what: str | None = None
    team: str | None = None
    player: str | None = None
    length: int | None = None
    before_start: Fraction | None = None
    kind: str | None = None
    charged_to: str | None = None
    note: str = ""
    unread: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()

    @property
    def complete(self) -> bool:
        """True when an event can be made of it."""
        return self.what is not None and not self.unread

    @property
    def besides(self) -> Besides:
        """Everything but what happened, by the names that changes and events have for it."""
        return Besides(
            team=self.team,
            player=self.player,
            length=self.length,
            before_start=self.before_start,
            note=self.note,
            kind=self.kind,
            charged_to=self.charged_to,
        )

    @property
    def says(self) -> str:
        """What was understood, in one line."""
        return ", ".join(part for part in (self.what or "", _who(self.team, self.player), more_words(self)) if part)


def read_event_line(text: str, rosters: Mapping[str, Sequence[str]] | None = None) -> EventSaid:
    """Read a line, finished or not. Never raises: what cannot be read is in `unread`."""
    pieces = _PIECE.findall(text)
    said, pieces = _with_what(pieces)
    said = _with_rest(said, pieces)
    if said.team is None and said.player is not None:
        holders = [side for side, roster in (rosters or {}).items() if said.player in roster]
        said = replace(said, team=holders[0] if len(holders) == 1 else None)
    return replace(said, asks=tuple(_asks(said, rosters or {})))


def completions(text: str, most: int = 4) -> tuple[str, ...]:
    """The lines that the last words could become, while no event word is whole; at most so many."""
    pieces = text.split()
    if not pieces or text[-1:].isspace() or read_event_line(" ".join(pieces[:-1])).what is not None:
        return ()
    for length in range(min(_LONGEST, len(pieces)), 0, -1):
        words = [piece.casefold() for piece in pieces[-length:]]
        begun = [word for word in EVENT_WORDS if _begins(words, word.split()) and word.split() != words]
        if begun:
            return tuple(" ".join([*pieces[:-length], word]) for word in begun[:most])
    return ()


def event_line(event: PlacedEvent) -> str:
    """The line that is read as this event."""
    side = {"home": "h", "visitor": "v"}.get(event.team or "", "")
    parts = [event.what, f"{side}{event.player or ''}" if side else event.player or ""]
    parts += [str(event.length or ""), event.kind or "", event.charged_to or ""]
    parts += [f"before {format_time(event.before_start)}"] if event.before_start is not None else []
    parts += ['"' + event.note.replace('"', "'") + '"'] if event.note else []
    return " ".join(part for part in parts if part)


def more_words(event: PlacedEvent | EventSaid) -> str:
    """What there is besides what and whose: "60 s", "technical, head coach", "10:00.000 before the start", the note."""
    before = f"{format_time(event.before_start)} before the start" if event.before_start is not None else ""
    length = f"{event.length} s" if event.length else ""
    note = f'"{event.note}"' if event.note else ""
    return ", ".join(part for part in (length, event.kind or "", event.charged_to or "", before, note) if part)


def whose_is_missing(what: str, team: str | None, player: str | None) -> str:
    """ "player", "team" or "": what an event of this word is about that was not said."""
    who = EVENT_WORDS[what].who
    if who == "player" and (team is None or player is None):
        return "player"
    return "team" if who == "team" and team is None else ""


def _with_what(pieces: Sequence[str]) -> tuple[EventSaid, list[str]]:
    """The event word, wherever on the line it stands, and the pieces that are left."""
    for length in range(min(_LONGEST, len(pieces)), 0, -1):
        for at in range(len(pieces) - length + 1):
            words = [piece.casefold() for piece in pieces[at : at + length]]
            begun = [word for word in EVENT_WORDS if _begins(words, word.split())]
            whole = [word for word in begun if word.split() == words]
            if whole or (len(begun) == 1 and (length > 1 or len(words[0]) > 1)):
                return EventSaid((whole or begun)[0]), [*pieces[:at], *pieces[at + length :]]
    return EventSaid(), list(pieces)


def _with_rest(said: EventSaid, pieces: Sequence[str]) -> EventSaid:
    at = 0
    while at < len(pieces):
        taken, said = _one(said, [piece.casefold() for piece in pieces[at : at + 2]], pieces[at])
        if not taken:
            said = replace(said, unread=(*said.unread, pieces[at]))
        at += max(1, taken)
    return said


def _one(said: EventSaid, here: Sequence[str], typed: str) -> tuple[int, EventSaid]:
    """How many pieces were understood, and what is said with them."""
    if typed.startswith('"'):
        return 1, replace(said, note=typed.strip('"'))
    if here[0] == "before" and len(here) > 1:
        return _before(said, here[1])
    if said.what == "foul charged":
        for length in (2, 1):
            words = list(here[:length])
            kinds = [kind for kind in FOUL_KINDS if _begins(words, kind.split())]
            if said.kind is None and (len(kinds) == 1 or " ".join(words) in kinds):
                return length, replace(said, kind=kinds[0] if len(kinds) == 1 else " ".join(words))
            bearers = [one for one in CHARGED_TO if _begins(words, one.split()) and len(words[0]) > 1]
            if said.charged_to is None and len(bearers) == 1:
                return length, replace(said, charged_to=bearers[0])
    if said.what == "time-out granted" and here[0] in map(str, TIME_OUT_LENGTHS) and said.length is None:
        return 1, replace(said, length=int(here[0]))
    return _whose(said, here[0])


def _before(said: EventSaid, time: str) -> tuple[int, EventSaid]:
    try:
        return 2, replace(said, before_start=read_seconds(time))
    except FilmReviewError:
        return 0, said


def _whose(said: EventSaid, piece: str) -> tuple[int, EventSaid]:
    match = _WHO.fullmatch(piece)
    if match is None:
        return 0, said
    team, player = _SIDES.get(match[1] or ""), match[2]
    if (team and said.team) or (player and said.player):
        return 0, said
    return 1, replace(said, team=team or said.team, player=player or said.player)


def _asks(said: EventSaid, rosters: Mapping[str, Sequence[str]]) -> Iterable[str]:
    if said.what is None:
        yield "what happened?"
    for piece in said.unread:
        close = nearest(piece, EVENT_WORDS)
        yield f'"{piece}" is not understood' + (f'; "{close}"?' if close else "")
    missing = whose_is_missing(said.what, said.team, said.player) if said.what else ""
    if missing:
        yield "whose is it? such as v14 or h3" if missing == "player" else "which team? home or visitor"
    roster = rosters.get(said.team or "", ())
    if said.player and roster and said.player not in roster:
        yield f"{said.player} is not on the {said.team} roster"


def _who(team: str | None, player: str | None) -> str:
    return " ".join(part for part in (team, player) if part)


def _begins(words: Sequence[str], whole: Sequence[str]) -> bool:
    return len(words) <= len(whole) and all(full.startswith(part) for part, full in zip(words, whole, strict=False))

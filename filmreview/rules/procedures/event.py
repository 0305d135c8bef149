"""What happened on the film during a procedure: the closed list of event words, one event, and reading it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from filmreview.errors import FilmReviewError, unknown
from filmreview.facts.items import check_player, check_team
from filmreview.facts.times import parse_time


@dataclass(frozen=True)
class Word:
    """One event word. who: whose the event is, as a screen asks for it ("player", "team" or "nobody")."""

    what: str
    who: str
    words: str


EVENT_WORDS: Mapping[str, Word] = {
    word.what: word
    for word in (
        Word("blood seen", "player", "an official sees blood on the player or the uniform"),
        Word("injury", "player", "a player is down or hurt"),
        Word("concussion signs", "player", "a player shows signs of a concussion"),
        Word("play stopped", "nobody", "the whistle: the ball is dead"),
        Word("staff beckoned", "team", "an official waves the team's coach or medical staff on"),
        Word("staff enters", "team", "a coach or medical staff comes onto the floor"),
        Word("directed to leave", "player", "an official sends the player out"),
        Word("coach told", "team", "an official or the table tells the coach"),
        Word("put right", "player", "the fault is gone: cleaned, covered, taken off, fixed"),
        Word("substitute reports", "player", "a substitute is at the table"),
        Word("withdrawn at table", "player", "a substitute at the table goes back to the bench"),
        Word("substitute enters", "player", "a substitute becomes a player; the player is the one who comes on"),
        Word("time-out granted", "team", "a time-out is granted; length 60 or 30"),
        Word("warning horn", "nobody", "the warning horn of a time-out or interval"),
        Word("time-out ends", "nobody", "the last horn of a time-out"),
        Word("returns", "player", "the player who was sent out, or tended to, is a player again"),
        Word("free throw", "player", "a free throw is tried; the player is the shooter"),
        Word("foul charged", "team", "a foul is charged to the team, its coach or the player"),
        Word("book number changed", "team", "a number in the scorebook is changed; before_start says how long before the game"),
        Word("jersey removed", "player", "a jersey comes off within sight of the playing area"),
        Word("blood wiped on another", "player", "a player wipes blood on somebody; the player is the one who does it"),
        Word("unreported number", "player", "a player plays in another number than the one reported"),
        Word("play resumes", "nobody", "the ball is live and the clock runs again"),
    )
}
FOUL_KINDS: tuple[str, ...] = ("technical", "flagrant technical", "personal", "disqualifying")
CHARGED_TO: tuple[str, ...] = ("head coach", "team", "player", "bench")
TIME_OUT_LENGTHS: tuple[int, ...] = (60, 30)
_KEYS = ("at", "what", "team", "player", "length", "before_start", "kind", "charged_to")


@dataclass(frozen=True)
class Event:
    """One thing that happened.

    what: one of `EVENT_WORDS`. at: seconds from the film's start, None = not said. team, player: whose; None when not said.
    length: seconds of a time-out granted. before_start: seconds before the game of a scorebook change, None = after the start.
    kind, charged_to: of a foul charged, None = not said (a technical foul in a procedure about kit).
    """

    what: str
    at: Fraction | None = None
    team: str | None = None
    player: str | None = None
    length: int | None = None
    before_start: Fraction | None = None
    kind: str | None = None
    charged_to: str | None = None


@dataclass(frozen=True)
class Found:
    """Something on a player that starts a procedure, as the tags of the same game show it.

    kind: "uniform" (illegal, costs a technical foul), "equipment" (illegal, fix or leave), "untucked" or "blood".
    when: pre-game, warm-up, at table, playing; ball: live or dead; in_play: has become a player with it; None = not known.
    item: the word of the item, for the sentences. hazard: of equipment; minor: of blood, False when it is excessive;
    left_floor: had left the floor before it was found.
    """

    team: str
    player: str | None
    kind: str
    item: str
    when: str | None = None
    ball: str | None = None
    in_play: bool | None = None
    hazard: bool | None = None
    minor: bool | None = None
    left_floor: bool | None = None


FOUND_KINDS: tuple[str, ...] = ("uniform", "equipment", "untucked", "blood")


def check_word(text: str, where: str | None = None) -> str:
    """The event word as given; raises FilmReviewError with the nearest known one."""
    if text not in EVENT_WORDS:
        raise unknown("event", text, EVENT_WORDS, where=where)
    return text


def read_seconds(raw: Any, where: str | None = None) -> Fraction:
    """Exact seconds from "m:ss.mmm", "h:mm:ss.mmm", "ss.mmm" or a number of 0 or more; raises FilmReviewError otherwise."""
    if isinstance(raw, int | float | Fraction) and not isinstance(raw, bool) and 0 <= raw < 1e6:
        return raw if isinstance(raw, Fraction) else Fraction(str(raw))
    if not isinstance(raw, str):
        raise FilmReviewError(f"{raw!r} is not a time", where=where, todo="write m:ss.mmm, h:mm:ss.mmm or seconds")
    return parse_time(raw, where)


def read_event(raw: Mapping[str, Any], where: str | None = None) -> Event:
    """One `[[event]]` of a situation file. Raises FilmReviewError for an unknown key or word, a bad time, team or player."""
    for key in raw:
        if key not in _KEYS:
            raise unknown("key", key, _KEYS, where=where)
    if "what" not in raw:
        raise FilmReviewError('an event without "what"', where=where, todo='add what = "..."')
    what = check_word(_text(raw, "what", where) or "", where)
    team, player = _text(raw, "team", where), _text(raw, "player", where)
    return Event(
        what=what,
        at=_seconds(raw, "at", where),
        team=None if team is None else check_team(team, where),
        player=None if player is None else check_player(player, where),
        length=_length(raw, what, where),
        before_start=_seconds(raw, "before_start", where),
        kind=_choice(raw, "kind", FOUL_KINDS, where),
        charged_to=_choice(raw, "charged_to", CHARGED_TO, where),
    )


def _seconds(raw: Mapping[str, Any], key: str, where: str | None) -> Fraction | None:
    value = raw.get(key)
    return None if value is None else read_seconds(value, _place(where, key))


def _place(where: str | None, key: str) -> str:
    return f"{where}, {key}" if where else key


def _text(raw: Mapping[str, Any], key: str, where: str | None) -> str | None:
    value = raw.get(key)
    if value is not None and not isinstance(value, str):
        raise FilmReviewError(f"{value!r} is not text", where=_place(where, key), todo="write it in quotation marks")
    return value


def _choice(raw: Mapping[str, Any], key: str, known: tuple[str, ...], where: str | None) -> str | None:
    value = _text(raw, key, where)
    if value is not None and value not in known:
        raise unknown(key, value, known, where=where)
    return value


def _length(raw: Mapping[str, Any], what: str, where: str | None) -> int | None:
    value = raw.get("length")
    if value is None:
        return None
    if isinstance(value, bool) or value not in TIME_OUT_LENGTHS:
        raise FilmReviewError(f"{value!r} is not a length of a time-out", where=where, todo="write length = 60 or length = 30")
    if what != "time-out granted":
        raise FilmReviewError(f'"{what}" has no length', where=where, todo='only "time-out granted" has one')
    return int(value)

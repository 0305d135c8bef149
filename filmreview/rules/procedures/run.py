"""Run the events of a game against the procedures of its book.

The story of events is searched for players in trouble (blood, injury, kit, sent out). Each is followed within its stoppage:
stayed or went, covered by whose time-out, replaced how fast, who shot. Time-outs and the fouls charged are followed by
themselves. All parts are joined into one result.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date

from filmreview.rules.procedures.charging import (
    PLAYER_FOULS,
    Due,
    follow_charges,
    other_dues,
    sent_out_for_uniform,
    technicals,
    uniform_due,
)
from filmreview.rules.procedures.event import Event, Found
from filmreview.rules.procedures.laid_down import Edition, Procedure, procedures_of, season_of
from filmreview.rules.procedures.replacing import follow_interval, follow_told, follow_whole
from filmreview.rules.procedures.result import Followed, Missing, ProcedureResult, joined
from filmreview.rules.procedures.shooting import follow_shooter, follow_waiting
from filmreview.rules.procedures.staying import course_of, follow_later, follow_staying
from filmreview.rules.procedures.story import Story
from filmreview.rules.procedures.timing_out import follow_time_outs
from filmreview.rules.procedures.trouble import BLOOD, CONCUSSION, EQUIPMENT, INJURY, SENT_OUT, UNTUCKED, Trouble, troubles

_NAMES = {
    BLOOD: "blood",
    INJURY: "injury",
    CONCUSSION: "concussion",
    UNTUCKED: "untucked",
    EQUIPMENT: "illegal equipment found during live ball",
    SENT_OUT: "replacement interval",
}
_REPLACEMENT, _SHOOTER, _TIME_OUT, _UNIFORM = (
    "replacement interval",
    "shooter must be replaced",
    "time-out",
    "illegal uniform found",
)


def run(
    events: Sequence[Event], *, book: str, day: date, found: Sequence[Found] = (), teams: Mapping[str, object] | None = None
) -> ProcedureResult | None:
    """What the crew did beside what the book asks, or None when the events call for no procedure.

    book: code of a shipped book. day: the game's day. found: what tags of the same game show on whom. teams: not used by any
    procedure yet; taken so that callers pass a whole situation.
    """
    del teams
    story = Story(events, found)
    shipped = procedures_of(book)
    laws = {name: law for name, procedure in shipped.items() if (law := procedure.on(day)) is not None}
    concerned = _without_uniform(troubles(story), found)
    parts = _follow_all(story, laws, concerned, day)
    if concerned and _TIME_OUT in laws and laws[_TIME_OUT].gap is not None:
        pass  # whom the time-out covers is told; its length and horns are not asked about
    elif _TIME_OUT in laws:
        parts += _some(follow_time_outs(story, laws[_TIME_OUT], concerned))
    elif story.has("time-out granted"):
        parts.append(_gap(_TIME_OUT, day))
    charged = _charges(story, laws, found)
    parts += charged
    if not concerned and not charged and not _kit_told(story, found) and _REPLACEMENT in laws:
        parts += _some(follow_told(story, laws[_REPLACEMENT]))
    return _result(parts, shipped, day, book)


def _follow_all(story: Story, laws: Mapping[str, Edition], concerned: tuple[Trouble, ...], day: date) -> list[Followed]:
    """Every trouble in order. A player in two troubles of one stoppage (hurt and bleeding) departs once."""
    parts: list[Followed] = []
    told: set[tuple[object, int]] = set()
    for trouble in concerned:
        mine = _follow(story, trouble, laws, concerned, day)
        key = (trouble.who, trouble.stoppage.first)
        if key in told:
            mine = [replace(part, departures=()) for part in mine]
        if any(part.departures for part in mine):
            told.add(key)
        parts += mine
    return parts


def _follow(
    story: Story, trouble: Trouble, laws: Mapping[str, Edition], concerned: tuple[Trouble, ...], day: date
) -> list[Followed]:
    """All parts of one player's trouble."""
    law = laws.get(_NAMES[trouble.kind])
    if law is None:
        return [_gap(_NAMES[trouble.kind], day)]
    course = course_of(story, trouble, law.covered_by, concerned)
    parts: list[Followed | None] = [Followed(law) if law.gap else follow_staying(story, trouble, law, concerned)]
    parts.append(_only_departures(follow_later(story, trouble, law)))
    if _SHOOTER in laws and law.gap is None:
        parts += _some(follow_shooter(story, trouble, laws[_SHOOTER], course))
        parts.append(_only_departures(follow_waiting(story, trouble, laws[_SHOOTER], course)))
    if _REPLACEMENT in laws:
        replacing = laws[_REPLACEMENT]
        parts.append(_only_departures(follow_interval(story, trouble, replacing, course)))
        interval = replacing.clock("replacement")
        if interval is not None and law.gap is None and not any(part.departures for part in parts if part is not None):
            parts.append(_only_departures(follow_whole(story, trouble, law, interval.seconds)))
    return [part for part in parts if part is not None]


def _only_departures(part: Followed) -> Followed | None:
    """A part that is named only when it has something to say."""
    return part if part.departures or part.missing or part.measured else None


def _some(part: Followed | None) -> list[Followed]:
    return [] if part is None else [part]


def _without_uniform(concerned: tuple[Trouble, ...], found: Sequence[Found]) -> tuple[Trouble, ...]:
    """A player sent out for an illegal uniform is no trouble of its own: the charges tell of it."""
    wearers = {(one.team, one.player) for one in found if one.kind == "uniform"}
    return tuple(one for one in concerned if one.kind != SENT_OUT or (one.who.team, one.who.player) not in wearers)


def _charges(story: Story, laws: Mapping[str, Edition], found: Sequence[Found]) -> list[Followed]:
    parts: list[Followed] = []
    for team in ("home", "visitor"):
        worn = [one for one in found if one.kind == "uniform" and one.team == team]
        dues: list[Due] = []
        if worn and _UNIFORM in laws and _uniform_told(story, team):
            dues.append(uniform_due(story, laws[_UNIFORM], worn))
        dues += other_dues(story, team, laws, found)
        if not (technicals(story, team) or story.has("play resumes")):
            dues = [due for due in dues if due.law.procedure == _UNIFORM]
        part = follow_charges(story, team, dues)
        if part is not None:
            parts.append(part.but(*(sent_out_for_uniform(story, laws[_UNIFORM], worn) if worn and _UNIFORM in laws else ())))
    return parts


def _uniform_told(story: Story, team: str) -> bool:
    """The events speak of this team's kit: a foul, the coach told, a substitute withdrawn or sent out."""
    words = ("foul charged", "coach told", "withdrawn at table", "directed to leave", "substitute enters", "play resumes")
    return any(one.event.team in (team, None) for one in story.all(*words))


def _kit_told(story: Story, found: Sequence[Found]) -> bool:
    """The coach was told of kit, not of a player to replace."""
    return any(one.kind in ("uniform", "equipment") for one in found) or story.has("withdrawn at table", *PLAYER_FOULS)


def _gap(name: str, day: date) -> Followed:
    law = Edition(name, (), day, season_of(day), "", "", "unsure", gap=f'the book here has no text for the procedure "{name}"')
    return Followed(law)


def _result(parts: Sequence[Followed], shipped: Mapping[str, Procedure], day: date, book: str) -> ProcedureResult | None:
    if not parts:
        return None
    law = parts[0].law
    gaps = [part.law for part in parts if part.law.gap is not None]
    first = shipped.get(law.procedure) or Procedure(law.procedure, law.procedure, "", (), day, (law,))
    missing = tuple(Followed(one, missing=(Missing("the book's text", one.gap or ""),)) for one in gaps)
    result = joined(first, law, (*parts, *missing))
    del book
    return result

"""Technical fouls that events themselves cost: scorebook numbers changed too late, jerseys removed.

What the book asks, not what the crew did.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from filmreview.rules.procedures.charging import PLAYER_FOULS, changed_late
from filmreview.rules.procedures.event import Event, Found
from filmreview.rules.procedures.laid_down import Edition, procedures_of
from filmreview.rules.procedures.story import Placed, Story

OFFSET = (
    "both teams changed a number before the start: the fouls offset, no free throws, jump ball to start (case book)",
    "each team's foul is shot as any technical foul before the start",
)


@dataclass(frozen=True)
class Charge:
    """One penalty that events call for.

    kind: "technical foul". charged_to: "team" or "player". players: whose act it was. disputed: both readings when the
    sources do not settle it, else empty.
    """

    team: str
    kind: str
    count: int
    charged_to: str
    free_throws: int
    coaching_box: str
    players: tuple[str, ...]
    then: str
    procedure: str
    reference: str
    source: str
    mark: str
    disputed: tuple[str, ...] = ()


_FLAGRANT: Mapping[str, str] = {
    "blood wiped on another": "flagrant if so judged: then the player is out of the game",
    "unreported number": "flagrant: the player is out of the game",
}


def charges(events: Sequence[Event], *, book: str, day: date, found: Sequence[Found] = ()) -> tuple[Charge, ...]:
    """The penalties of these events by the shipped book on this day, the home team's first."""
    story = Story(events, found)
    known = procedures_of(book)
    laws = {name: law for name, procedure in known.items() if (law := procedure.on(day)) is not None and law.gap is None}
    result: list[Charge] = []
    for team in ("home", "visitor"):
        if "scorebook number changed" in laws:
            result.extend(_scorebook(story, team, laws["scorebook number changed"]))
        for name in PLAYER_FOULS:
            if name in laws:
                result.extend(_player_fouls(story, team, name, laws[name]))
    return _offset(tuple(result), story)


def _scorebook(story: Story, team: str, law: Edition) -> list[Charge]:
    late = [one for one in story.all("book number changed", team=team, loose=False) if changed_late(story, one, law)]
    if not late or not law.technicals:
        return []
    return [_charge(law, team, late, "team", law.technicals)]


def _player_fouls(story: Story, team: str, name: str, law: Edition) -> list[Charge]:
    """One each for the players who did it."""
    by_player = {one.event.player: one for one in story.all(name, team=team, loose=False)}
    charged = [_charge(law, team, [one], "player", law.technicals or 0) for one in by_player.values()]
    return [replace(one, then=f"{_FLAGRANT[name]}; {one.then}") if name in _FLAGRANT else one for one in charged]


def _charge(law: Edition, team: str, events: Sequence[Placed], charged_to: str, count: int) -> Charge:
    players = tuple(dict.fromkeys(one.event.player for one in events if one.event.player is not None))
    return Charge(
        team=team,
        kind="technical foul",
        count=count,
        charged_to=charged_to,
        free_throws=2 * count,
        coaching_box="kept",
        players=players,
        then="throw-in at the division line opposite the table",
        procedure=law.procedure,
        reference=law.reference,
        source=law.source,
        mark=law.mark,
    )


def _offset(result: tuple[Charge, ...], story: Story) -> tuple[Charge, ...]:
    """Both teams late before the start: the readings differ, a person has to confirm."""
    before = {one.event.team for one in story.all("book number changed") if one.event.before_start is not None}
    books = [one for one in result if one.procedure == "scorebook number changed"]
    if len(books) < 2 or before != {"home", "visitor"}:
        return result
    both = {id(one) for one in books}
    return tuple(_disputed(one) if id(one) in both else one for one in result)


def _disputed(one: Charge) -> Charge:
    return Charge(**{**one.__dict__, "disputed": OFFSET})

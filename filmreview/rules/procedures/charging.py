"""Fouls that the crew charged for kit, against what the book asks: how many, to whom, and when none."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from filmreview.rules.procedures.event import Found
from filmreview.rules.procedures.laid_down import Edition
from filmreview.rules.procedures.result import Departure, Followed, Missing, departure
from filmreview.rules.procedures.story import Placed, Story, Who, the_team

UNIFORM, SCOREBOOK, DEED, EQUIPMENT = "uniform", "scorebook", "deed", "equipment"
PLAYER_FOULS: tuple[str, ...] = ("jersey removed", "blood wiped on another", "unreported number")
"""Deeds that cost the player a technical foul: event word and name of the procedure at once."""
EQUIPMENT_NAME = "illegal equipment found during live ball"
LEFT = "found after the player had left the floor: charged when discovered, or no longer; the readings differ"


@dataclass(frozen=True)
class Due:
    """Technical fouls that one procedure asks of a team. most: None when it is not settled. law: where it stands."""

    kind: str
    law: Edition
    most: int | None
    charged_to: tuple[str, ...] = ()
    missing: tuple[Missing, ...] = ()


def technicals(story: Story, team: str) -> list[Placed]:
    """The technical fouls charged to a team; a foul of no kind given counts as one."""
    return [
        one
        for one in story.all("foul charged", team=team, loose=False)
        if one.event.kind in (None, "technical", "flagrant technical")
    ]


def uniform_due(story: Story, law: Edition, found: Sequence[Found]) -> Due:
    """One a team once somebody plays in it (where the edition names no number: one for each player); none when it was put
    right or withdrawn before."""
    states = [_became_player(story, one) for one in found if not one.left_floor]
    wearing = states.count(True)
    if law.technicals is None and None not in states and not any(one.left_floor for one in found):
        return Due(UNIFORM, law, wearing)
    if law.technicals is not None and wearing:
        return Due(UNIFORM, law, law.technicals, ("head coach",))
    if any(one.left_floor for one in found) and None not in states:
        return Due(UNIFORM, law, None, ("head coach",), (Missing("left_floor", LEFT),))
    if None in states:
        why = "only a player who has come on in it costs a technical foul"
        return Due(UNIFORM, law, None, ("head coach",), (Missing("in_play", why),))
    return Due(UNIFORM, law, 0)


def _became_player(story: Story, found: Found) -> bool | None:
    who = Who(found.team, found.player)
    if found.in_play is not None:
        return found.in_play
    if story.first("withdrawn at table", who=who, loose=False):
        return False
    if story.first("substitute enters", who=who, loose=False) or found.when == "playing":
        return True
    return False if found.when in ("pre-game", "warm-up", "at table") else None


def other_dues(story: Story, team: str, laws: Mapping[str, Edition], found: Sequence[Found]) -> list[Due]:
    """What scorebook changes, players' own deeds and illegal equipment ask of this team."""
    dues = []
    changes = list(story.all("book number changed", team=team, loose=False))
    if changes and "scorebook number changed" in laws:
        law = laws["scorebook number changed"]
        late = any(changed_late(story, one, law) for one in changes)
        dues.append(Due(SCOREBOOK, law, law.technicals if late else 0, ("team",)))
    for name in PLAYER_FOULS:
        players = {one.event.player for one in story.all(name, team=team, loose=False)}
        if players and name in laws:
            dues.append(Due(DEED, laws[name], (laws[name].technicals or 0) * len(players), ("player", "bench")))
    if (
        any(one.kind == "equipment" and one.team == team for one in found)
        and EQUIPMENT_NAME in laws
        and technicals(story, team)
    ):
        dues.append(Due(EQUIPMENT, laws[EQUIPMENT_NAME], laws[EQUIPMENT_NAME].technicals))
    return dues


def changed_late(story: Story, change: Placed, law: Edition) -> bool:
    """True when a scorebook change costs a technical foul: after the deadline, and not for blood on that player."""
    event, deadline = change.event, law.clock("deadline before the start")
    if event.before_start is not None:
        return deadline is not None and event.before_start < deadline.seconds
    return not any(_for_blood(story, one) for one in story.all("book number changed", before=change.place + 1, team=event.team))


def _for_blood(story: Story, change: Placed) -> bool:
    """The player had blood on the kit: another jersey costs nothing, nor does changing back later."""
    event = change.event
    bled = story.first("blood seen", before=change.place, who=Who(event.team, event.player))
    tagged = any(one.kind == "blood" and one.team == event.team and event.player in (one.player, None) for one in story.found)
    return bled is not None or tagged


def follow_charges(story: Story, team: str, dues: Sequence[Due]) -> Followed | None:
    """Compare what was charged to one team with all that was due. None when nothing about kit was due or barred."""
    if not dues:
        return None
    first = dues[0]
    charged = technicals(story, team)
    missing = tuple(gone for due in dues for gone in due.missing)
    if any(due.most is None for due in dues):
        return Followed(first.law, missing=missing)
    allowed = sum(due.most or 0 for due in dues)
    followed = Followed(first.law, _path(allowed), missing=missing)
    for extra in charged[allowed:]:
        followed = followed.but(_too_many(dues, team, extra, allowed))
    if len(charged) < allowed and story.has("play resumes"):
        followed = followed.but(_not_charged(dues, team, story, allowed - len(charged)))
    return followed.but(*_wrongly_charged(dues, charged[:allowed]))


def _path(allowed: int) -> str:
    if allowed == 0:
        return "no technical foul is due"
    return "one technical foul is due" if allowed == 1 else f"{allowed} technical fouls are due"


def _too_many(dues: Sequence[Due], team: str, extra: Placed, allowed: int) -> Departure:
    law = dues[0].law
    if allowed == 0:
        reason = (
            "illegal equipment never costs a foul"
            if dues[0].kind == EQUIPMENT
            else "no technical foul: it was put right in time"
        )
        return departure(law, f"a technical foul was charged to {the_team(team)}", reason, extra.at)
    return departure(
        law,
        f"one technical foul too many was charged to {the_team(team)}",
        "one technical foul a team, however many wear it",
        extra.at,
    )


def _not_charged(dues: Sequence[Due], team: str, story: Story, count: int) -> Departure:
    due = next(due for due in dues if due.most)
    resumes = list(story.all("play resumes"))[-1]
    fouls = "the technical foul was" if count == 1 else f"{count} technical fouls were"
    return departure(due.law, f"{fouls} not charged to {the_team(team)}", "charge it when found", resumes.at)


def _wrongly_charged(dues: Sequence[Due], charged: Sequence[Placed]) -> tuple[Departure, ...]:
    to = {word for due in dues if due.most for word in due.charged_to}
    return tuple(
        departure(
            dues[0].law,
            f"the technical foul was charged to the {one.event.charged_to}",
            f"charge it to the {' or '.join(sorted(to))}",
            one.at,
        )
        for one in charged
        if to and one.event.charged_to is not None and one.event.charged_to not in to
    )


def sent_out_for_uniform(story: Story, law: Edition, found: Sequence[Found]) -> tuple[Departure, ...]:
    """After the penalty a player may go on in the illegal uniform: sending the player out is more than the book asks."""
    departures = []
    for one in found:
        direction = story.first("directed to leave", who=Who(one.team, one.player), loose=False)
        if direction is not None and law.technicals is not None and _became_player(story, one):
            what = f"{Who(one.team, one.player)} was sent out for the {one.item}"
            departures.append(departure(law, what, "after the penalty the player may go on and need not change", direction.at))
    return tuple(departures)

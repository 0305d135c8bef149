"""What the teams are charged for what they wear: by group, one a team or one a player, as the book of the day says."""

from __future__ import annotations

from collections import Counter

from filmreview.rules.book import Group
from filmreview.rules.explain import Case
from filmreview.rules.force import Force
from filmreview.rules.mates import by_number
from filmreview.rules.penalty import Penalty

Offenders = dict[tuple[str, str], Counter[str]]
"""(team, group of the consequences) -> how many breaches each player has that cost a technical foul now."""


def offences(case: Case) -> list[str]:
    """The groups in which the tag costs a technical foul now; none while the trigger is not known or the text disputed."""
    pairs = zip(case.standings, case.weighed.costs, strict=False)
    return [standing.group.code for standing, cost in pairs if cost == "technical foul"]


def penalties(offenders: Offenders, force: Force) -> tuple[Penalty, ...]:
    """All technical fouls that the breaches found call for, home first. A group that costs one a team costs one however many
    wear it and however often it was found."""
    groups = {standing.group.code: standing.group for item in force.items.values() for standing in item}
    found = []
    for team, code in sorted(offenders):
        players = {player for player, count in offenders[team, code].items() if count > 0}
        if players:
            found.append(_penalty(team, groups[code], players, force))
    return tuple(found)


def _penalty(team: str, group: Group, players: set[str], force: Force) -> Penalty:
    cost = group.on(force.day)
    assert cost is not None, "a breach was weighed by this cost"
    return Penalty(
        team=team,
        kind=cost.kind or "technical foul",
        count=1 if cost.per == "team" else len(players),
        charged_to=cost.charged_to,
        free_throws=cost.free_throws,
        coaching_box=cost.coaching_box,
        then=cost.then,
        rule=group.code,
        reference=cost.reference,
        source=cost.source,
        mark=cost.mark,
        players=tuple(sorted(players, key=by_number)),
    )

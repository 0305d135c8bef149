"""What the teams are charged for what they wear: by group, one a team or one a player, as the book of the day says."""

from __future__ import annotations

from collections.abc import Iterable

from filmreview.rules.explain import Case
from filmreview.rules.force import Standing
from filmreview.rules.mates import by_number
from filmreview.rules.penalty import Penalty


def penalties(cases: Iterable[Case]) -> tuple[Penalty, ...]:
    """All technical fouls that the breaches found call for, home first. A group that costs one a team costs one however many
    wear it and however often it was found; nothing is charged while the trigger is not known or the text is disputed."""
    offenders: dict[tuple[str, str], tuple[Standing, set[str]]] = {}
    for case in cases:
        for standing, cost in zip(case.standings, case.weighed.costs, strict=False):
            if cost == "technical foul":
                key = (case.worn.tag.team, standing.group.code)
                offenders.setdefault(key, (standing, set()))[1].add(case.worn.tag.player)
    return tuple(_penalty(team, *offenders[team, code]) for team, code in sorted(offenders))


def _penalty(team: str, standing: Standing, players: set[str]) -> Penalty:
    cost = standing.cost
    return Penalty(
        team=team,
        kind=cost.kind or "technical foul",
        count=1 if cost.per == "team" else len(players),
        charged_to=cost.charged_to,
        free_throws=cost.free_throws,
        coaching_box=cost.coaching_box,
        then=cost.then,
        rule=standing.group.code,
        reference=cost.reference,
        source=cost.source,
        mark=cost.mark,
        players=tuple(sorted(players, key=by_number)),
    )

"""Weigh one tag: run every rule in force on its item and put the answers together. No words are made here."""

from __future__ import annotations

from dataclasses import replace
from typing import Final, NamedTuple

from filmreview.rules.book import COSTS, Cost
from filmreview.rules.checks.answer import DISPUTED, FAILS, HOLDS, PRESUMED, UNKNOWN
from filmreview.rules.checks.worn import Worn
from filmreview.rules.force import Standing

LEGAL: Final = "legal"
ILLEGAL: Final = "illegal"
CANNOT_BE_TOLD: Final = "cannot be told"
NO_CONSEQUENCE: Final = "none"
_WEIGHT = {"none": 0, "fix or leave": 1, "leave": 2, CANNOT_BE_TOLD: 3, "technical foul": 4}
"""The gravest consequence of several breaches is the one that is named."""
assert set(COSTS) < set(_WEIGHT)


class Weighed(NamedTuple):
    """The outcome for one tag. answers: of each rule in force on the item, in order. decides: the place of the rule that
    decides; None when the book has none. costs: of each rule that fails, in order of `answers`; None for the others."""

    ruling: str
    consequence: str
    answers: tuple[int, ...]
    decides: int | None
    costs: tuple[str | None, ...]


_NOTHING = Weighed(CANNOT_BE_TOLD, NO_CONSEQUENCE, (), None, ())


def weigh(worn: Worn, standings: tuple[Standing, ...]) -> Weighed:
    """Illegal if a rule fails, else cannot be told if one is open, else legal; without any rule it cannot be told."""
    if not standings:
        return _NOTHING
    told = worn.tag.facts.keys()
    touched = [not standing.own.isdisjoint(told) for standing in standings]
    any_touched = any(not standing.tells.isdisjoint(told) for standing in standings)
    answers = []
    least: int = HOLDS
    for standing, mine in zip(standings, touched, strict=True):
        check = standing.check
        if check is None:
            answer = PRESUMED if standing.fixed == DISPUTED and any_touched and not mine else standing.fixed
        else:
            answer = check.run(worn)
            if answer == UNKNOWN and any_touched and _told_otherwise(standing, standings, worn):
                answer = check.run(replace(worn, presuming=True))
        if answer < least:
            least = answer
        answers.append(answer)
    if least == FAILS:
        return _illegal(worn, standings, tuple(answers))
    if least <= UNKNOWN:
        return Weighed(CANNOT_BE_TOLD, NO_CONSEQUENCE, tuple(answers), answers.index(least), ())
    return Weighed(LEGAL, NO_CONSEQUENCE, tuple(answers), _upholding(worn, standings, answers, touched), ())


def consequence(cost: Cost, worn: Worn) -> str:
    """What a breach costs now: by the trigger, "cannot be told" when that is not known or when the text is disputed."""
    if cost.trigger is None:
        return _unless_disputed(cost, worn, cost.costs)
    trigger = worn.facts.get(cost.trigger)
    if trigger is None:
        return CANNOT_BE_TOLD
    return _unless_disputed(cost, worn, cost.costs) if trigger.value else cost.otherwise


def weight(of: str) -> int:
    """How grave a consequence is; the gravest of several breaches is the one that is named."""
    return _WEIGHT[of]


def gravest_of(cost: Cost) -> int:
    """The weight of the gravest that a breach may come to."""
    hangs = bool(cost.trigger or cost.disputed)
    return max(_WEIGHT[cost.costs], _WEIGHT[cost.otherwise] if cost.trigger else 0, _WEIGHT[CANNOT_BE_TOLD] if hangs else 0)


def disputes(cost: Cost, worn: Worn) -> list[str]:
    """The disputed readings that arise, each a sentence."""
    return ["disputed: " + "; or: ".join(one.readings) for one in cost.disputed if one.when.run(worn) == HOLDS]


def _told_otherwise(standing: Standing, standings: tuple[Standing, ...], worn: Worn) -> bool:
    """Whether the tag tells nothing that this rule needs and nothing against it, but tells what another rule is about: then
    this one is presumed kept."""
    told = worn.tag.facts.keys()
    if standing.check is None or not standing.main.isdisjoint(told) or standing.check.waits(worn):
        return False
    mine = [leaf for leaf in standing.check.leaves() if not told.isdisjoint(leaf.facts)]
    if any(leaf.run(worn) < PRESUMED for leaf in mine):
        return False
    return any(key in other.tells for key in told if key not in standing.own for other in standings)


def _unless_disputed(cost: Cost, worn: Worn, costs: str) -> str:
    return CANNOT_BE_TOLD if cost.disputed and any(one.when.run(worn) == HOLDS for one in cost.disputed) else costs


def _illegal(worn: Worn, standings: tuple[Standing, ...], answers: tuple[int, ...]) -> Weighed:
    costs = tuple(
        consequence(standing.cost, worn) if answer == FAILS else None
        for standing, answer in zip(standings, answers, strict=True)
    )
    gravest = max((one for one in costs if one is not None), key=_WEIGHT.__getitem__)
    return Weighed(ILLEGAL, gravest, answers, costs.index(gravest), costs)


def _upholding(worn: Worn, standings: tuple[Standing, ...], answers: list[int], touched: list[bool]) -> int:
    """The rule named for a legal tag: one that was told a fact it looks at and has a text, of these the one that looks at most
    of what was told, else one that holds, else the first."""
    if touched.count(True) == 1:
        return touched.index(True)

    told = worn.tag.facts.keys()

    def rank(place: int) -> tuple[bool, bool, bool, int, bool, int]:
        standing = standings[place]
        concerned = touched[place] and (standing.check is None or standing.check.concerns(worn))
        has_text = standing.kind in ("checks", "waived")
        looked_at = len(told & standing.own) if concerned else 0
        return (concerned, touched[place], has_text, looked_at, answers[place] == HOLDS, -place)

    return max(range(len(answers)), key=rank)

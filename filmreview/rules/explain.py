"""One judged tag, and its outcome in words: reasons, rules, what to do, what is ahead."""

from __future__ import annotations

from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace

from filmreview.facts.fact import Fact
from filmreview.rules.checks.answer import DISPUTED, FAILS, HOLDS, PRESUMED, UNKNOWN, holds
from filmreview.rules.checks.check import Check, words_of
from filmreview.rules.checks.worn import Worn
from filmreview.rules.force import Force, Standing
from filmreview.rules.mates import Team
from filmreview.rules.needs import needs
from filmreview.rules.ruling import Ahead, Need, RuleAnswer, Todo
from filmreview.rules.weigh import CANNOT_BE_TOLD, ILLEGAL, LEGAL, Weighed, disputes

_WEARER_WORDS = {"in_play": "has become a player in it"}
"""A fact of the wearer where a sentence says it of the wearer, in other words than the list of facts."""
_NAMED = 4
"""How many of the things taken as ordinary are named before "and 9 more"."""
_WEAKNESS = ("published", "deduced", "memory", "unsure")
_MARK_WORDS = {
    "deduced": "deduced from a published text, not itself published",
    "memory": "from memory, no text was at hand",
    "unsure": "unsure: the sources at hand do not settle it",
}


@dataclass(frozen=True, eq=False)
class Case:
    """Everything one ruling was made of; an `Explainer`."""

    worn: Worn
    standings: tuple[Standing, ...]
    force: Force
    weighed: Weighed
    team: Team

    def reasons(self) -> tuple[str, ...]:
        """Sentences, the deciding one first."""
        if self.weighed.decides is None:
            return (_no_text(self),)
        return tuple(dict.fromkeys([*self._deciding(), *self._costs(), *self._presumptions(), *self._marks()]))

    def needs(self) -> tuple[Need, ...]:
        """Facts that could still change the outcome."""
        return needs(self.worn, self.standings, self.weighed, self.team)

    def ahead(self) -> tuple[Ahead, ...]:
        """Editions known that day that would make this legal thing illegal."""
        if self.weighed.ruling != LEGAL:
            return ()
        found = []
        for later in self.force.later[self.worn.tag.item]:
            edition = later.edition
            worn = replace(self.worn, mates=self.team.on(edition.starts))
            if edition.check is not None and edition.check.run(worn) == FAILS:
                found.append(Ahead(later.rule.code, edition.starts, ILLEGAL, edition.reference, edition.says.removesuffix(".")))
        return tuple({one.rule: one for one in reversed(found)}.values())

    def rules(self) -> tuple[RuleAnswer, ...]:
        """Every rule in force on the item."""
        return tuple(
            RuleAnswer(
                rule=standing.rule.code,
                title=standing.rule.title,
                holds=holds(answer),
                presumed=answer == PRESUMED,
                reference=standing.edition.reference,
                says=standing.edition.says,
            )
            for standing, answer in zip(self.standings, self.weighed.answers, strict=True)
        )

    def todo(self) -> tuple[Todo, ...]:
        """What to do about an illegal thing, by when it was found; all times when that is not known."""
        if self.weighed.ruling != ILLEGAL or self.weighed.decides is None:
            return ()
        cost = self.standings[self.weighed.decides].cost
        todo, found = cost.todo, _found(self.worn, cost.trigger)
        return tuple(Todo(key, what) for key, what in todo.items() if found is None or key in found)

    def facts_used(self) -> tuple[Fact, ...]:
        """The facts the rules looked at: the tag's and the teams'."""
        keys = dict.fromkeys(key for standing in self.standings for key in sorted(standing.own))
        mine = [self.worn.facts[key] for key in keys if key in self.worn.facts]
        words = dict.fromkeys(word for one in self.standings if one.check for word in one.check.team_words)
        return (*mine, *(fact for word in words if (fact := self.worn.word(word)) is not None))

    def _deciding(self) -> list[str]:
        wanted = {ILLEGAL: (FAILS,), CANNOT_BE_TOLD: (DISPUTED, UNKNOWN), LEGAL: (HOLDS,)}[self.weighed.ruling]
        pairs = list(zip(self.standings, self.weighed.answers, strict=True))
        decides = self.weighed.decides or 0
        ordered = [pairs[decides], *pairs[:decides], *pairs[decides + 1 :]]
        told = self.worn.tag.facts.keys()
        first = ordered[0][0]
        chosen = [
            (standing, answer)
            for standing, answer in ordered
            if standing is first or (answer in wanted and (self.weighed.ruling != LEGAL or self._upholds(standing, told)))
        ]
        return [_sentence(standing, answer, self) for standing, answer in chosen or ordered[:1]]

    def _upholds(self, standing: Standing, told: AbstractSet[str]) -> bool:
        """Whether the rule has something to say of what was told."""
        return not standing.own.isdisjoint(told) and (standing.check is None or bool(standing.check.say(self.worn)))

    def _costs(self) -> list[str]:
        if self.weighed.ruling != ILLEGAL or self.weighed.decides is None:
            return []
        standing = self.standings[self.weighed.decides]
        said = disputes(standing.cost, self.worn)
        trigger = standing.cost.trigger
        if trigger and trigger not in self.worn.facts:
            either = f"{standing.cost.costs} or {standing.cost.otherwise}"
            said.append(f"the consequence ({either}) hangs on whether the wearer {_of_wearer(trigger)}")
        says, due = standing.group.says_of(standing.cost), self.worn.facts.get(trigger) if trigger else None
        if trigger and due is not None and due.value is False:
            says = f"{standing.cost.otherwise} until the wearer {_of_wearer(trigger)}; then {says}"
        return [*said, f"consequence by {standing.group.title} ({standing.cost.reference}): {says}"]

    def _presumptions(self) -> list[str]:
        if self.weighed.ruling == ILLEGAL:
            return []
        open_keys: dict[str, None] = {}
        pairs = list(zip(self.standings, self.weighed.answers, strict=True))
        decides = self.weighed.decides or 0
        for standing, answer in (pairs[decides], *pairs):
            if standing.check is not None and answer >= PRESUMED:
                open_keys.update(dict.fromkeys(_presumed_keys(standing.check, self.worn)))
        if not open_keys:
            return []
        named = [words_of(key) for key in open_keys]
        more = f" and {len(named) - _NAMED} more" if len(named) > _NAMED + 1 else ""
        return ["taken as ordinary, nothing was seen: " + ", ".join(named[:_NAMED] if more else named) + more]

    def _marks(self) -> list[str]:
        said = []
        standing = self.standings[self.weighed.decides or 0]
        for mark, place in ((standing.edition.mark, standing.edition.reference), (standing.cost.mark, standing.cost.reference)):
            if mark in _MARK_WORDS and (place is standing.edition.reference or self.weighed.ruling == ILLEGAL):
                said.append(f"rests on {place}, {_MARK_WORDS[mark]}")
        adoption = standing.rule.adoption or (standing.group.adoption if self.weighed.ruling == ILLEGAL else None)
        if adoption:
            said.append(f"decided by the adoption {adoption}")
        return [*said, self.force.unseen] if self.force.unseen else said


def _of_wearer(trigger: str) -> str:
    return _WEARER_WORDS.get(trigger) or words_of(trigger)


def worst_mark(case: Case) -> str:
    """The weakest mark of what the ruling rests on: the deciding edition, its consequence, the season's text."""
    standing = case.standings[case.weighed.decides or 0]
    marks = [standing.edition.mark]
    if case.weighed.ruling == ILLEGAL:
        marks.append(standing.cost.mark)
    if case.force.unseen:
        marks.append("unsure")
    return max(marks, key=_WEAKNESS.index)


def _sentence(standing: Standing, answer: int, case: Case) -> str:
    title, reference = standing.rule.title, standing.edition.reference
    if standing.check is not None:
        said = standing.check.say(case.worn)
        waiting = " (cannot be told)" if answer == UNKNOWN else ""
        return f"{title} ({reference}){': ' if said else ''}{said}{waiting}"
    if standing.kind == "no text":
        return f"{title}: the book here has no text for it before {standing.edition.starts}"
    if standing.kind == "no rule":
        return f"{title}: no such rule before {standing.edition.starts}"
    if standing.kind == "waived":
        return f"{title} ({reference}): set aside by the adoption {standing.rule.adoption}"
    if standing.kind == "repealed":
        return f"{title}: no longer a rule since {standing.edition.starts} ({reference})"
    return f"{title} ({reference}): the book sets no limit that season"


def _no_text(case: Case) -> str:
    book, item = case.force.book, case.worn.tag.item
    if not case.force.begun:
        return f"the book here has no text for days before {book.first_day}"
    notes = [gap.says for gap in book.gaps if item in gap.items]
    return f"the book here has no text for: {item}" + (f" ({'; '.join(notes)})" if notes else "")


def _found(worn: Worn, trigger: str | None) -> tuple[str, ...] | None:
    """The keys of what to do that count: by when it was found and, while playing, by the ball. Once the trigger of the
    penalty (has become a player) is there, it is dealt with as playing, wherever it was seen."""
    when, ball = worn.facts.get("when"), worn.facts.get("ball")
    due = worn.facts.get(trigger) if trigger else None
    if when is not None and when.value != "playing" and not (due is not None and due.value is True):
        return (str(when.value),)
    if ball is not None:
        return (str(ball.value),)
    return ("live", "dead") if when is not None else None


def _presumed_keys(check: Check, worn: Worn) -> list[str]:
    return [
        key for leaf in check.leaves() for key in leaf.facts if key not in worn.facts and leaf.run(worn) in (PRESUMED, UNKNOWN)
    ]

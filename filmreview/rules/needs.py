"""Which unknown facts could still change the outcome, found by trying every kind of answer that makes a difference.

A fact is listed exactly when some answer to it changes ruling or consequence, with the other open facts left open or all
answered in some way. Each check names the answers that matter to it (`Check.answers`), so the tries are few. Open facts are
those that an open rule waits for, and the triggers of consequences; presumed facts stay presumed while others are tried.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import product

from filmreview.colour.palette import colour_named
from filmreview.facts.fact import Amount, Fact, Origin, Value
from filmreview.facts.keys import KEYS, Kind
from filmreview.rules.checks.amounts import in_bands
from filmreview.rules.checks.answer import DISPUTED, FAILS, UNKNOWN
from filmreview.rules.checks.check import Bound, Check
from filmreview.rules.checks.worn import Worn, with_fallbacks
from filmreview.rules.force import Standing
from filmreview.rules.mates import Team
from filmreview.rules.need_words import Outcome, turning_words
from filmreview.rules.ruling import Need
from filmreview.rules.weigh import CANNOT_BE_TOLD, ILLEGAL, Weighed, gravest_of, weigh, weight

_MOST_TRIES = 4_000
"""Joint answers of the other open facts that are tried at most; then the fact is listed. No book comes near it."""


def needs(worn: Worn, standings: tuple[Standing, ...], weighed: Weighed, team: Team) -> tuple[Need, ...]:
    """The needs of one tag: those it waits for first, then presumed ones; the most decisive first."""
    trial = _Trial(worn, standings, weighed, team)
    found = [need for key in trial.unknown if (need := trial.need(key)) is not None]
    return tuple(sorted(found, key=_decisiveness))


@dataclass
class _Trial:
    """Tries answers on one tag."""

    worn: Worn
    standings: tuple[Standing, ...]
    weighed: Weighed
    team: Team

    @cached_property
    def now(self) -> Outcome:
        """The outcome as things are."""
        return (self.weighed.ruling, self.weighed.consequence)

    @cached_property
    def unknown(self) -> dict[str, Mapping[str, Value]]:
        """Every fact and team word that could matter and is not surely known -> its answers."""
        found: dict[str, Mapping[str, Value]] = {}
        for check in self._leaves():
            for key in (*check.facts, *check.team_words):
                if not self._known(key):
                    found[key] = {**found.get(key, {}), **check.answers(key, self.worn)}
        for standing in self._relevant:
            if standing.kind == "no text":
                found.update((key, _any_answer(key)) for key in sorted(standing.own) if not self._known(key))
        for trigger in self._triggers:
            found[trigger] = {"yes": True, "no": False}
            if trigger == "in_play":
                found["when"] = {choice: choice for choice in KEYS["when"].choices}
        return found

    @cached_property
    def waiting(self) -> tuple[str, ...]:
        """The facts that are open rather than presumed."""
        return tuple(key for key in self.unknown if key in self._open or key in self._triggers)

    def need(self, key: str) -> Need | None:
        """The need for one fact, or None when no answer to it can change anything."""
        outcomes = self._outcomes(key)
        if all(outcome == self.now for outcome in outcomes.values()) and not self._matters_together(key):
            return None
        presumed = key not in self.waiting and not (key == "when" and "in_play" in self.waiting)
        return Need(
            fact=key,
            why=f"{'presumed ordinary, ' if presumed else ''}{turning_words(key, outcomes, self.now)}",
            outcomes={word: outcome[0] for word, outcome in outcomes.items()},
            consequences={word: outcome[1] for word, outcome in outcomes.items()},
            presumed=presumed,
        )

    def _outcomes(self, key: str) -> dict[str, Outcome]:
        """The outcome of each answer; amounts that several limits part, in the bands that differ."""
        outcomes = {word: self._outcome({key: value}) for word, value in self.unknown[key].items()}
        bounds = dict.fromkeys(check.bound for check in self._leaves() if check.bound is not None and key in check.facts)
        if len(bounds) < 2:
            return outcomes
        amounts = {value: outcomes[word] for word, value in self.unknown[key].items() if isinstance(value, Amount)}
        parting = [bound for bound in bounds if _parts(bound, amounts)] or list(bounds)[:1]
        bands = in_bands(key, amounts, parting)
        return {word: amounts[amount] for word, amount in bands.items() if isinstance(amount, Amount)}

    def _matters_together(self, key: str) -> bool:
        """Whether it matters once the other open facts are answered. Facts of rules that are not open cannot: such a rule's
        answer does not hang on the open facts."""
        asked = "in_play" if key == "when" else key
        if asked not in self.waiting:
            return False
        others = [other for other in self.waiting if other != asked]
        if not others:
            return False
        tries = 0
        for values in product(*(self.unknown[other].values() for other in others)):
            answered = dict(zip(others, values, strict=True))
            before = self._outcome(answered)
            for value in self.unknown[key].values():
                tries += 1
                if self._outcome({**answered, key: value}) != before:
                    return True
            if tries > _MOST_TRIES:
                return True
        return False

    def _outcome(self, answered: Mapping[str, Value]) -> Outcome:
        facts = {key: Fact(key, value, Origin.SEEN) for key, value in answered.items()}
        told = {key: fact for key, fact in facts.items() if key in KEYS}
        words = {key: fact for key, fact in facts.items() if key not in KEYS}
        tag = replace(self.worn.tag, facts={**self.worn.tag.facts, **told}) if told else self.worn.tag
        own = {**self.worn.words, **{key: fact for key, fact in words.items() if "." not in key}}
        opponent = {**self.worn.opponent, **{key.partition(".")[2]: fact for key, fact in words.items() if "." in key}}
        team = self.team.with_words(own, opponent) if words else self.team
        worn = Worn(tag, self.worn.level, with_fallbacks(tag, own), own, opponent, team)
        weighed = weigh(worn, self.standings)
        return (weighed.ruling, weighed.consequence)

    @cached_property
    def _relevant(self) -> tuple[Standing, ...]:
        """The rules that could still change the outcome. After a sure breach only those whose breach is graver."""
        if self.weighed.ruling != ILLEGAL:
            return self.standings
        broken = {standing.group.code for standing in self._broken}
        now = weight(self.weighed.consequence)
        return tuple(one for one in self.standings if one.group.code not in broken and gravest_of(one.cost) > now)

    @cached_property
    def _broken(self) -> tuple[Standing, ...]:
        pairs = zip(self.standings, self.weighed.answers, strict=True)
        return tuple(standing for standing, answer in pairs if answer == FAILS)

    @cached_property
    def _open(self) -> frozenset[str]:
        """Facts and words that an open rule waits for."""
        found: set[str] = set()
        for standing, answer in zip(self.standings, self.weighed.answers, strict=True):
            if answer in (UNKNOWN, DISPUTED) and standing.check is not None and standing in self._relevant:
                for leaf in standing.check.leaves():
                    if leaf.run(self.worn) == UNKNOWN:
                        found.update((*leaf.facts, *leaf.team_words))
        return frozenset(found)

    @cached_property
    def _triggers(self) -> tuple[str, ...]:
        """Facts that a consequence hangs on and that are not known."""
        triggers = [one.cost.trigger for one in (*self._broken, *self._relevant) if one.cost.trigger is not None]
        return tuple(key for key in dict.fromkeys(triggers) if not self._known(key))

    def _leaves(self) -> Iterator[Check]:
        for standing in self._relevant:
            if standing.check is not None:
                yield from standing.check.leaves()
        for standing in self._broken:
            if standing.check is not None:
                yield from (leaf for leaf in standing.check.leaves() if leaf.excuses)
        for standing in (*self._broken, *self._relevant):
            for reading in standing.cost.disputed:
                yield from reading.when.leaves()

    def _known(self, key: str) -> bool:
        fact = self.worn.facts.get(key) if key in KEYS else self.worn.word(key)
        return fact is not None and not _uncertain(fact)


def _any_answer(key: str) -> Mapping[str, Value]:
    """Answers where the book has no text: whatever is told, it cannot be told."""
    kind = KEYS[key].kind
    if kind is Kind.CHOICE:
        return {choice: choice for choice in KEYS[key].choices}
    if kind is Kind.YES_NO:
        return {"yes": True, "no": False}
    if kind is Kind.COLOURS:
        return {"white": (colour_named("white"),)}
    return {"1": Amount(1.0)} if kind is Kind.AMOUNT else {"12": "12"}


def _uncertain(fact: Fact) -> bool:
    if isinstance(fact.value, Amount):
        return fact.value.plus_minus > 0
    return isinstance(fact.value, tuple) and any(colour.measured for colour in fact.value)


def _parts(bound: Bound, amounts: Mapping[Amount, Outcome]) -> bool:
    """Whether the outcome changes at the limit."""
    ordered = sorted(amounts, key=lambda amount: amount.value)
    below = [amounts[one] for one in ordered if one.value < bound.limit or (one.value == bound.limit and not bound.least)]
    above = [amounts[one] for one in ordered if one.value > bound.limit or (one.value == bound.limit and bound.least)]
    return bool(below and above) and below[-1] != above[0]


def _decisiveness(need: Need) -> tuple[bool, float]:
    decided = sum(
        ruling != CANNOT_BE_TOLD and need.consequences[word] != CANNOT_BE_TOLD for word, ruling in need.outcomes.items()
    )
    return (need.presumed, -decided / max(len(need.outcomes), 1))

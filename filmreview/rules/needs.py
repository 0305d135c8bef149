"""Which unknown facts could still change the outcome, found by trying every kind of answer that makes a difference.

A fact is listed exactly when some answer to it changes ruling or consequence, with the other open facts left open or all
answered in some way. Each check names the answers that matter to it (`Check.answers`), so the tries are few.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import product

from filmreview.facts.fact import Amount, Fact, Origin, Value
from filmreview.facts.keys import KEYS
from filmreview.rules.checks.answer import UNKNOWN
from filmreview.rules.checks.check import Check, words_of
from filmreview.rules.checks.worn import Worn, with_fallbacks
from filmreview.rules.force import Force, Standing
from filmreview.rules.mates import Team
from filmreview.rules.ruling import Need
from filmreview.rules.weigh import CANNOT_BE_TOLD, ILLEGAL, Weighed, weigh

Outcome = tuple[str, str]
_MOST_TRIES = 20_000
"""Joint answers of the other open facts that are tried at most; no book comes near it."""


def needs(worn: Worn, standings: tuple[Standing, ...], force: Force, weighed: Weighed, team: Team) -> tuple[Need, ...]:
    """The needs of one tag, those it waits for first, then presumed ones; the most decisive first."""
    if not standings or _settled(standings, weighed, worn):
        return ()
    trial = _Trial(worn, standings, force, team, (weighed.ruling, weighed.consequence))
    unknown = trial.unknown()
    waiting = [key for key in unknown if trial.waits_for(key)]
    found = [need for key in unknown if (need := trial.need(key, unknown, waiting, key not in waiting)) is not None]
    return tuple(sorted(found, key=_decisiveness))


@dataclass
class _Trial:
    """Tries answers on one tag."""

    worn: Worn
    standings: tuple[Standing, ...]
    force: Force
    team: Team
    now: Outcome

    def unknown(self) -> dict[str, Mapping[str, Value]]:
        """Every fact and team word that a rule or a consequence looks at and that is not surely known -> its answers."""
        found: dict[str, Mapping[str, Value]] = {}
        for check in self._leaves():
            for key in (*check.facts, *check.team_words):
                if not self._known(key):
                    found[key] = {**found.get(key, {}), **check.answers(key, self.worn)}
        for standing in self.standings:
            if standing.cost.trigger and not self._known(standing.cost.trigger):
                found[standing.cost.trigger] = {"yes": True, "no": False}
                if standing.cost.trigger == "in_play":
                    found["when"] = {choice: choice for choice in KEYS["when"].choices}
        return found

    def waits_for(self, key: str) -> bool:
        """Whether a rule is open over it, or a consequence hangs on it; the rest is presumed."""
        triggers = {standing.cost.trigger for standing in self.standings}
        if key in triggers or (key == "when" and "in_play" in triggers):
            return True
        return any(key in (*check.facts, *check.team_words) and check.run(self.worn) == UNKNOWN for check in self._leaves())

    def need(self, key: str, unknown: Mapping[str, Mapping[str, Value]], waiting: list[str], presumed: bool) -> Need | None:
        """The need for one fact, or None when no answer to it can change anything."""
        outcomes = {word: self._outcome({key: value}) for word, value in unknown[key].items()}
        if all(outcome == self.now for outcome in outcomes.values()) and not self._matters_together(key, unknown, waiting):
            return None
        return Need(
            fact=key,
            why=_why(key, outcomes, presumed),
            outcomes={word: outcome[0] for word, outcome in outcomes.items()},
            consequences={word: outcome[1] for word, outcome in outcomes.items()},
            presumed=presumed,
        )

    def _matters_together(self, key: str, unknown: Mapping[str, Mapping[str, Value]], waiting: list[str]) -> bool:
        others = [other for other in waiting if other != key and (key, other) not in _ONE_QUESTION]
        tries = 0
        for values in product(*(unknown[other].values() for other in others)):
            answered = dict(zip(others, values, strict=True))
            before = self._outcome(answered)
            for value in unknown[key].values():
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

    def _known(self, key: str) -> bool:
        fact = self.worn.facts.get(key) if key in KEYS else self.worn.word(key)
        if fact is None or (key in KEYS and key not in self.worn.tag.facts and key == "number"):
            return fact is not None
        return not _uncertain(fact)

    def _leaves(self) -> Iterator[Check]:
        for standing in self.standings:
            if standing.check is not None:
                yield from standing.check.leaves()
            for reading in standing.cost.disputed:
                yield from reading.when.leaves()


_ONE_QUESTION = {("in_play", "when"), ("when", "in_play")}
"""Two facts that answer each other."""


def _uncertain(fact: Fact) -> bool:
    if isinstance(fact.value, Amount):
        return fact.value.plus_minus > 0
    return isinstance(fact.value, tuple) and any(colour.measured for colour in fact.value)


def _settled(standings: tuple[Standing, ...], weighed: Weighed, worn: Worn) -> bool:
    """Whether a sure breach leaves nothing open: its consequence is known, no graver one can come."""
    if weighed.ruling != ILLEGAL or weighed.consequence == CANNOT_BE_TOLD:
        return False
    if any(one.cost.disputed for one in standings):
        return False
    possible = {one.cost.costs for one in standings} | {one.cost.otherwise for one in standings if one.cost.trigger}
    return possible == {weighed.consequence} and worn.tag.id != ""


def _decisiveness(need: Need) -> tuple[bool, float]:
    decided = sum(
        ruling != CANNOT_BE_TOLD and need.consequences[word] != CANNOT_BE_TOLD for word, ruling in need.outcomes.items()
    )
    return (need.presumed, -decided / max(len(need.outcomes), 1))


def _why(key: str, outcomes: Mapping[str, Outcome], presumed: bool) -> str:
    by_outcome: dict[Outcome, list[str]] = {}
    for word, outcome in outcomes.items():
        by_outcome.setdefault(outcome, []).append(word)
    parts = [f"{', '.join(words)}: {_said(outcome)}" for outcome, words in by_outcome.items()]
    lead = f"presumed ordinary, {words_of(key)}" if presumed else words_of(key)
    return f"{lead} - {'; '.join(parts)}"


def _said(outcome: Outcome) -> str:
    ruling, consequence = outcome
    return ruling if consequence == "none" else f"{ruling}, consequence {consequence}"

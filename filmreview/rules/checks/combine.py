"""Combinations of checks: all, any, and when."""

from __future__ import annotations

from dataclasses import dataclass

from filmreview.rules.checks.answer import DISPUTED, FAILS, HOLDS, PRESUMED, UNKNOWN
from filmreview.rules.checks.check import Answers, Check
from filmreview.rules.checks.worn import Worn


@dataclass(frozen=True, eq=False)
class _Together(Check):
    """Several checks as one."""

    parts: tuple[Check, ...]

    @property
    def facts(self) -> tuple[str, ...]:
        """Keys of the facts its parts read, each once."""
        return tuple(dict.fromkeys(key for part in self.parts for key in part.facts))

    @property
    def team_words(self) -> tuple[str, ...]:
        """Team words its parts read, each once."""
        return tuple(dict.fromkeys(word for part in self.parts for word in part.team_words))

    def concerns(self, worn: Worn) -> bool:
        """Whether the tag tells something that a part looks at."""
        return any(part.concerns(worn) for part in self.parts)

    def waits(self, worn: Worn) -> bool:
        """Whether a part does."""
        return any(part.waits(worn) for part in self.parts)

    def answers(self, fact: str, worn: Worn) -> Answers:
        """The answers of every part that reads it."""
        found: dict[str, object] = {}
        for part in self.parts:
            if fact in part.facts or fact in part.team_words:
                found.update(part.answers(fact, worn))
        return found  # type: ignore[return-value] # each part's answers are values

    def leaves(self) -> tuple[Check, ...]:
        """The checks at the ends."""
        return tuple(leaf for part in self.parts for leaf in part.leaves())


@dataclass(frozen=True, eq=False)
class All(_Together):
    """Every part must hold."""

    def run(self, worn: Worn) -> int:
        """The least answer."""
        least: int = HOLDS
        for part in self.parts:
            answer = part.run(worn)
            if answer < least:
                if answer == FAILS:
                    return FAILS
                least = answer
        return least

    def say(self, worn: Worn) -> str:
        """Only what stands in the way; what holds when nothing does."""
        answers = [part.run(worn) for part in self.parts]
        least = min(answers, default=HOLDS)
        wanted = HOLDS if least == PRESUMED else least
        parts = [part for part, answer in zip(self.parts, answers, strict=True) if answer == wanted]
        if wanted == HOLDS:
            parts = [part for part in parts if not any(one.covers(part, worn) for one in parts)]
        return "; ".join(dict.fromkeys(filter(None, (part.say(worn) for part in parts))))


@dataclass(frozen=True, eq=False)
class AnyOf(_Together):
    """At least one part must hold."""

    def run(self, worn: Worn) -> int:
        """The greatest answer."""
        most: int = FAILS
        for part in self.parts:
            answer = part.run(worn)
            if answer > most:
                if answer == HOLDS:
                    return HOLDS
                most = answer
        return most

    def covers(self, other: Check, worn: Worn) -> bool:
        """Whether the part that holds does."""
        return any(part.covers(other, worn) for part in self.parts if part.run(worn) == HOLDS)

    def say(self, worn: Worn) -> str:
        """What decides: the part that holds, else every part."""
        parts = [part for part in self.parts if not _for_another(part, worn)] or self.parts
        answers = [part.run(worn) for part in parts]
        most = max(answers, default=FAILS)
        saying = [part.say(worn) for part, answer in zip(parts, answers, strict=True) if answer == most]
        different = list(dict.fromkeys(filter(None, saying)))
        return "; or ".join(different[:1] if most >= PRESUMED else different)


@dataclass(frozen=True, eq=False)
class When(_Together):
    """parts = (condition, check): where the condition is not met, the check does not apply. Inside a condition a missing
    fact that is not needed means that it is presumed not met."""

    def run(self, worn: Worn) -> int:
        """Holds where it does not apply; unknown when both the condition and the check are open."""
        condition, check = self.parts
        met = condition.run(worn)
        if met == FAILS:
            return HOLDS
        answer = check.run(worn)
        if met == HOLDS or answer == HOLDS:
            return answer
        if met == PRESUMED:
            return PRESUMED
        return answer if answer == PRESUMED else max(DISPUTED, min(met, answer if answer != FAILS else UNKNOWN))

    def concerns(self, worn: Worn) -> bool:
        """Whether the check applies and the tag tells something that it looks at."""
        condition, check = self.parts
        return condition.run(worn) != FAILS and check.concerns(worn)

    def waits(self, worn: Worn) -> bool:
        """Whether the condition is met by facts that were told, and the check is open."""
        condition, check = self.parts
        return condition.concerns(worn) and condition.run(worn) == HOLDS and check.run(worn) == UNKNOWN

    def say(self, worn: Worn) -> str:
        """The check's clause where it applies; the condition's where that is open."""
        condition, check = self.parts
        met = condition.run(worn)
        if met == FAILS:
            return ""
        if met == HOLDS:
            return check.say(worn)
        return f"{check.say(worn)} (if {condition.say(worn)})"


def _for_another(part: Check, worn: Worn) -> bool:
    """Whether the part is meant for another team, level or item: it is then no alternative worth a word."""
    if part.only_whose:
        return part.run(worn) == FAILS
    return isinstance(part, All) and any(_for_another(one, worn) for one in part.parts)

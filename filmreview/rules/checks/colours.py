"""Checks of colours; `KINDS` lists them by their name in a book."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from filmreview.colour.chance import SAME_LIMIT
from filmreview.colour.palette import PALETTE, colour_named
from filmreview.colour.value import Colour
from filmreview.errors import unknown
from filmreview.facts.fact import Amount, Fact
from filmreview.facts.keys import KEYS
from filmreview.facts.keys import Kind as FactKind
from filmreview.rules.checks.answer import FAILS, HOLDS, UNKNOWN, decide
from filmreview.rules.checks.check import Answers, Base, Build, Check, Kind, fact_of, words_of
from filmreview.rules.checks.colour_words import (
    DIFFERENCE_LIMIT,
    LIGHTNESS_LIMIT,
    any_of,
    anything_but,
    list_words,
    named,
    same,
    same_chance,
    stands_out,
)
from filmreview.rules.checks.worn import Worn
from filmreview.rules.strict import Table
from filmreview.rules.tag import TEAM_WORDS

_EITHER: tuple[Colour, ...] = (colour_named("white"), colour_named("black"))
"""Two answers that differ, where the other side is not known either."""
_ANY_DIFFERENCE = 1000.0
"""More than any dE00."""
WORDS: tuple[str, ...] = (*TEAM_WORDS, "opponent.jersey", "opponent.trim")


@dataclass(frozen=True, eq=False)
class _OneOfColours(Check):
    """Every colour of the item is one of these names or like one of the team's words."""

    fact: str
    colours: tuple[str, ...]
    team: tuple[str, ...]
    within: float

    @property
    def facts(self) -> tuple[str, ...]:
        return (self.fact,)

    @property
    def team_words(self) -> tuple[str, ...]:
        return self.team

    def run(self, worn: Worn) -> int:
        seen = worn.colours(self.fact)
        if seen is None:
            return self.missing(worn)
        if len(seen) == 1:
            return self._one(seen[0], worn)
        return min(self._one(colour, worn) for colour in seen)

    def _one(self, colour: Colour, worn: Worn) -> int:
        answer = any_of(self._chances(colour, worn))
        return UNKNOWN if answer == FAILS and any(worn.word_colours(word) is None for word in self.team) else answer

    def _chances(self, colour: Colour, worn: Worn) -> list[float]:
        """The chance that the colour is each of those allowed, as far as they are declared."""
        declared = [one for word in self.team for one in worn.word_colours(word) or ()]
        return [*(named(colour, name) for name in self.colours), *(same_chance(colour, one, self.within) for one in declared)]

    def say(self, worn: Worn) -> str:
        allowed = [*self.colours, *(_word_with_colour(worn, word) for word in self.team)]
        near = f" (the same: dE00 under {self.within:g}, our own limit)" if self.team else ""
        return f"{words_of(self.fact)} {_seen(worn, self.fact)}; allowed: {list_words(allowed)}{near}{self._chance(worn)}"

    def _chance(self, worn: Worn) -> str:
        """How likely a measured colour is one of those allowed: what decides, and not its likeliest name."""
        seen = worn.colours(self.fact)
        if seen is None or len(seen) != 1 or not seen[0].measured:
            return ""
        return f"; chance that it is one of them {min(sum(self._chances(seen[0], worn)), 1.0):.0%}"

    def answers(self, fact: str, worn: Worn) -> Answers:
        known = [colour for word in self.team for colour in worn.word_colours(word) or ()]
        exact = [colour_named(name) for name in self.colours]
        if fact in self.team:
            far = anything_but(*exact, *known).values()
            mine = _exact(worn.colours(self.fact) or [colour for answer in far for colour in answer])
            return {**{colour.name: (colour,) for colour in mine}, **anything_but(*mine)}
        allowed = {colour.name: (colour,) for colour in (*exact, *_exact(known))}
        return {**allowed, **anything_but(*exact, *known)}


@dataclass(frozen=True, eq=False)
class _LikeAnother(Check):
    """The colour is (same_as, similar_to) or is not (differs_from) like a team's word, a name or another fact. if_known: it
    fails while one of them is not known."""

    fact: str
    other: str
    within: float
    wanted: bool
    if_known: bool

    @property
    def excuses(self) -> bool:
        return self.if_known

    @property
    def facts(self) -> tuple[str, ...]:
        return (self.fact, self.other) if _is_fact(self.other) else (self.fact,)

    @property
    def team_words(self) -> tuple[str, ...]:
        return (self.other,) if _is_word(self.other) else ()

    def run(self, worn: Worn) -> int:
        mine, theirs = worn.colours(self.fact), _colours_of(worn, self.other)
        if mine is None or theirs is None:
            return FAILS if self.if_known else self.missing(worn)
        if self.wanted:
            return min(max(same(a, b, self.within) for b in theirs) for a in mine)
        return decide(1.0 - max(same_chance(a, b, self.within) for a in mine for b in theirs))

    def say(self, worn: Worn) -> str:
        ask = "the same as" if self.wanted else "different from"
        limit = f"dE00 {'under' if self.wanted else 'from'} {self.within:g}, our own limit"
        return f"{words_of(self.fact)} {_seen(worn, self.fact)}; it must be {ask} {_other_words(worn, self.other)} ({limit})"

    def answers(self, fact: str, worn: Worn) -> Answers:
        counterpart = (_colours_of(worn, self.other) if fact == self.fact else worn.colours(self.fact)) or _EITHER
        return {**{colour.name: (colour,) for colour in _exact(counterpart)}, **anything_but(*counterpart)}


@dataclass(frozen=True, eq=False)
class _ContrastsWith(Check):
    """The colour stands out from a team's word, a name or another fact; between the limits, or where a colour is
    not known, the eye (`contrasts`) decides."""

    fact: str
    other: str
    lightness: float
    difference: float

    @property
    def excuses(self) -> bool:
        return True  # what failed by eye alone may hold once the colours are known

    @property
    def facts(self) -> tuple[str, ...]:
        return (self.fact, self.other, "contrasts") if _is_fact(self.other) else (self.fact, "contrasts")

    @property
    def team_words(self) -> tuple[str, ...]:
        return (self.other,) if _is_word(self.other) else ()

    def run(self, worn: Worn) -> int:
        mine, theirs = worn.colours(self.fact), _colours_of(worn, self.other)
        eye = worn.facts.get("contrasts")
        if mine is None or theirs is None:
            return self.missing(worn) if eye is None else _by_eye(eye)
        answer = min(stands_out(a, b, self.lightness, self.difference) for a in mine for b in theirs)
        return _by_eye(eye) if answer == UNKNOWN and eye is not None else answer

    def say(self, worn: Worn) -> str:
        eye, mine, theirs = worn.facts.get("contrasts"), worn.colours(self.fact), _colours_of(worn, self.other)
        if mine and theirs and all(stands_out(a, b, self.lightness, self.difference) == HOLDS for a in mine for b in theirs):
            limit = f"L* {self.lightness:g} or more, our own limit"
            against = f"{_other_words(worn, self.other)} by {limit}"
            return f"{words_of(self.fact)} {_seen(worn, self.fact)}, which contrasts with {against}"
        by_eye = "" if eye is None else f"; by eye it {'stands' if eye.value else 'does not stand'} out"
        pair = f"{words_of(self.fact)} {_seen(worn, self.fact)} against {_other_words(worn, self.other)}"
        limits = f"L* apart by {self.lightness:g}"
        if self.difference < _ANY_DIFFERENCE:
            limits += f"; not at all when dE00 is under {self.difference:g}; between, the eye decides"
        return f"{pair}{by_eye}; it must contrast ({limits}; our own limit)"

    def covers(self, other: Check, worn: Worn) -> bool:  # noqa: ARG002 - whatever is worn
        alike = isinstance(other, _ContrastsWith) and (self.fact, self.other) == (other.fact, other.other)
        return alike and isinstance(other, _ContrastsWith) and self.lightness > other.lightness

    def answers(self, fact: str, worn: Worn) -> Answers:
        if fact == "contrasts":
            return {"yes": True, "no": False}
        counterpart = (_colours_of(worn, self.other) if fact == self.fact else worn.colours(self.fact)) or _EITHER
        far = max(("black", "white"), key=lambda name: min((abs(PALETTE[name][0] - c.lab[0]) for c in counterpart), default=0))
        return {**{colour.name: (colour,) for colour in _exact(counterpart)}, far: (colour_named(far),)}


@dataclass(frozen=True, eq=False)
class _LightnessLimit(Check):
    """L* of the colour is at least, or at most, the limit."""

    fact: str
    limit: float
    least: bool

    @property
    def facts(self) -> tuple[str, ...]:
        return (self.fact,)

    def run(self, worn: Worn) -> int:
        seen = worn.colours(self.fact)
        if seen is None:
            return self.missing(worn)
        return min(decide(_lightness_chance(colour, self.limit, self.least)) for colour in seen)

    def say(self, worn: Worn) -> str:
        ask = "light (L* at least" if self.least else "dark (L* at most"
        return f"{words_of(self.fact)} {_seen(worn, self.fact)}; it must be {ask} {self.limit:g}, our own limit)"

    def answers(self, fact: str, worn: Worn) -> Answers:  # noqa: ARG002 - one fact, whatever is worn
        return {"white": (colour_named("white"),), "black": (colour_named("black"),)}


@dataclass(frozen=True, eq=False)
class _Solid(Check):
    """One solid colour: the fact says so, or several colours were named, or only one."""

    @property
    def facts(self) -> tuple[str, ...]:
        return ("solid",)

    def run(self, worn: Worn) -> int:
        told = worn.facts.get("solid")
        if told is not None:
            return HOLDS if told.value else FAILS
        colours = worn.colours("colour")
        return FAILS if colours is not None and len(colours) > 1 else self.missing(worn)

    def say(self, worn: Worn) -> str:
        told = worn.facts.get("solid")
        several = len(worn.colours("colour") or ()) > 1
        seen = "several colours" if (several if told is None else not told.value) else "one solid colour"
        return f"{seen} seen; it must be one solid colour"

    def answers(self, fact: str, worn: Worn) -> Answers:  # noqa: ARG002 - one fact, whatever is worn
        return {"yes": True, "no": False}


@dataclass(frozen=True, eq=False)
class _ColoursAtMost(Check):
    """No more than so many different names of colours over several facts."""

    keys: tuple[str, ...]
    limit: int

    @property
    def facts(self) -> tuple[str, ...]:
        return self.keys

    def run(self, worn: Worn) -> int:
        found = {colour.name for key in self.keys for colour in worn.colours(key) or ()}
        if len(found) > self.limit:
            return FAILS
        return HOLDS if all(key in worn.facts for key in self.keys) else self.missing(worn)

    def say(self, worn: Worn) -> str:
        found = sorted({colour.name for key in self.keys for colour in worn.colours(key) or ()})
        return f"{len(found)} colours ({list_words(found, 'and')}); at most {self.limit}"

    def answers(self, fact: str, worn: Worn) -> Answers:
        mine = tuple(colour for key in self.keys if key != fact for colour in worn.colours(key) or ())
        taken = {colour.name for colour in mine}
        fresh = [colour_named(name) for name in PALETTE if name not in taken][: self.limit + 1]
        many = {f"{len(fresh)} more colours": tuple(fresh)} if len(fresh) > 1 else {}  # told apart from those of another limit
        return {"one more colour": (fresh[0],), **many}


def _lightness_chance(colour: Colour, limit: float, least: bool) -> float:
    spread = colour.covariance[0][0] ** 0.5 if colour.covariance else 0.0
    amount = Amount(colour.lab[0], spread)
    return amount.chance_at_least(limit) if least else amount.chance_at_most(limit)


def _by_eye(eye: Fact) -> int:
    return HOLDS if eye.value else FAILS


def _is_fact(other: str) -> bool:
    return other in KEYS


def _is_word(other: str) -> bool:
    return other in WORDS


def _colours_of(worn: Worn, other: str) -> tuple[Colour, ...] | None:
    if _is_word(other):
        return worn.word_colours(other)
    return worn.colours(other) if _is_fact(other) else (colour_named(other),)


def _exact(colours: Iterable[Colour]) -> list[Colour]:
    """The colours without their uncertainty: as an answer would give them."""
    return [Colour(colour.lab, colour.name) for colour in colours]


def _seen(worn: Worn, fact: str) -> str:
    colours = worn.colours(fact)
    return "not known" if colours is None else list_words([_shown(colour) for colour in colours], "and")


def _shown(colour: Colour) -> str:
    if not colour.measured or not colour.names:
        return colour.name
    return f"measured {colour.name} ({colour.names[0][1]:.0%})"


def _other_words(worn: Worn, other: str) -> str:
    return _word_with_colour(worn, other) if _is_word(other) else words_of(other) if _is_fact(other) else other


def _word_with_colour(worn: Worn, word: str) -> str:
    whose, _, plain = word.rpartition(".")
    declared = worn.word_colours(word)
    colour = "not declared" if declared is None else list_words([_shown(one) for one in declared], "and")
    return f"the {'opponents ' if whose else ''}{plain.replace('_', ' ')} ({colour})"


def _colour_fact(table: Table) -> str:
    return fact_of(table, "colour", (FactKind.COLOURS,))


def _limit(table: Table, key: str, default: float) -> float:
    return table.number(key) if key in table else default


def _other(table: Table) -> str:
    text = table.text("other")
    if text in WORDS or (text in KEYS and KEYS[text].kind is FactKind.COLOURS):
        return text
    if text in PALETTE:
        return text
    raise unknown("other", text, (*WORDS, "border_colours", *PALETTE), where=table.at("other"))


def _one_of_colours(table: Table, base: Base) -> Check:
    colours = table.choices("colours", tuple(PALETTE)) if "colours" in table else ()
    team = table.choices("team", WORDS) if "team" in table else ()
    if not colours and not team:
        table.need("colours")
    return _OneOfColours(*base, _colour_fact(table), colours, team, _limit(table, "within", SAME_LIMIT))


def _like(wanted: bool) -> Build:
    def build(table: Table, base: Base) -> Check:
        within, if_known = _limit(table, "within", SAME_LIMIT), table.yes_no("if_known", False)
        return _LikeAnother(*base, _colour_fact(table), _other(table), within, wanted, if_known)

    return build


def _contrasts_with(table: Table, base: Base) -> Check:
    lightness, difference = _limit(table, "lightness", LIGHTNESS_LIMIT), _limit(table, "difference", DIFFERENCE_LIMIT)
    return _ContrastsWith(*base, _colour_fact(table), _other(table), lightness, difference)


def _lightness_apart(table: Table, base: Base) -> Check:
    """Like contrasts_with, but only lightness counts: no difference of hue leaves it to the eye."""
    return _ContrastsWith(*base, _colour_fact(table), _other(table), table.number("limit"), _ANY_DIFFERENCE)


def _lightness(least: bool) -> Build:
    def build(table: Table, base: Base) -> Check:
        return _LightnessLimit(*base, _colour_fact(table), table.number("limit"), least)

    return build


def _colours_at_most(table: Table, base: Base) -> Check:
    keys = table.choices("facts", tuple(key for key, one in KEYS.items() if one.kind is FactKind.COLOURS))
    return _ColoursAtMost(*base, keys, table.whole("limit"))


KINDS: Mapping[str, Kind] = {
    "one_of_colours": Kind(("fact", "colours", "team", "within"), _one_of_colours, needed=True),
    "same_as": Kind(("fact", "other", "within", "if_known"), _like(True), needed=True),
    "similar_to": Kind(("fact", "other", "within", "if_known"), _like(True), needed=True),
    "differs_from": Kind(("fact", "other", "within", "if_known"), _like(False), needed=True),
    "contrasts_with": Kind(("fact", "other", "lightness", "difference"), _contrasts_with, needed=True),
    "lightness_apart": Kind(("fact", "other", "limit"), _lightness_apart, needed=True),
    "lightness_at_least": Kind(("fact", "limit"), _lightness(True), needed=True),
    "lightness_at_most": Kind(("fact", "limit"), _lightness(False), needed=True),
    "solid": Kind((), lambda _, base: _Solid(*base)),
    "colours_at_most": Kind(("facts", "limit"), _colours_at_most),
}

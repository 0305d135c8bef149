"""Teammates: who wears which colour on which items, the groups they form, and what a team could choose."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from filmreview.colour.value import Colour
from filmreview.facts.fact import Fact, Value
from filmreview.rules.checks.across import SameAcrossTeam
from filmreview.rules.checks.answer import FAILS, HOLDS, UNKNOWN
from filmreview.rules.checks.colour_words import same
from filmreview.rules.checks.worn import Worn, with_fallbacks
from filmreview.rules.force import Force, in_force
from filmreview.rules.tag import Tag

Values = tuple[tuple[str, Value], ...]


@dataclass
class ColourGroup:
    """Teammates' things of one colour. colour: of the first one. wearers: tag id -> player."""

    colour: Colour
    wearers: dict[str, str] = field(default_factory=dict)


@dataclass
class Look:
    """One look across a team for some items and a fact. groups: of things that may stay; out: tags whose own colour is
    forbidden anyhow, id -> player. stays: the tags that take part, by their id."""

    groups: list[ColourGroup]
    out: dict[str, str]
    stays: dict[str, Tag]
    answer: int

    def others(self, tag: str) -> list[Colour]:
        """A colour of each group that the tag's own thing is not alone in."""
        return [group.colour for group in self.groups if not (len(group.wearers) == 1 and tag in group.wearers)]


class Team:
    """The tags of one team, looked across as the checks ask; every look is kept."""

    def __init__(self, tags: Sequence[Tag], words: Mapping[str, Fact], opponent: Mapping[str, Fact], force: Force) -> None:
        self.tags, self.words, self.opponent, self.force = tags, words, opponent, force
        self._looks: dict[tuple[str, tuple[str, ...], float], Look] = {}
        self._numbers: frozenset[str] | None = None
        self._later: dict[date, Team] = {}
        self._reworded: dict[tuple[Values, Values], Team] = {}

    def on(self, day: date) -> Team:
        """The same tags under what is in force on another day."""
        if day not in self._later:
            force = in_force(self.force.book, day, self.force.level, self.force.adoption)
            self._later[day] = Team(self.tags, self.words, self.opponent, force)
        return self._later[day]

    def with_words(self, words: Mapping[str, Fact], opponent: Mapping[str, Fact]) -> Team:
        """The same tags under other words of the teams."""
        key = (_values(words), _values(opponent))
        if key not in self._reworded:
            self._reworded[key] = Team(self.tags, words, opponent, self.force)
        return self._reworded[key]

    def same_colour(self, worn: Worn, fact: str, items: tuple[str, ...], within: float) -> int:
        """As `worn.Mates` says. A colour that is forbidden anyhow takes no part."""
        look = self.look(fact, items, within)
        mine = worn.colours(fact)
        if mine is None or worn.tag.item not in items:
            return HOLDS
        if look.stays.get(worn.tag.id) is worn.tag:
            return look.answer
        if not _may_stay(worn, fact, self.force):
            return HOLDS
        others = look.others(worn.tag.id)
        answers = [same(mine[0], colour, within) for colour in others]
        return min([*answers, *_pairs(others, within)], default=HOLDS)

    def colours(self, worn: Worn, fact: str, items: tuple[str, ...], within: float) -> tuple[Colour, ...]:
        """As `worn.Mates` says."""
        return tuple(self.look(fact, items, within).others(worn.tag.id))

    def numbers(self) -> frozenset[str]:
        """As `worn.Mates` says: numbers told, and those of the tagged players."""
        if self._numbers is None:
            told = {str(tag.facts["number"].value) for tag in self.tags if "number" in tag.facts}
            self._numbers = frozenset(
                told | {tag.player for tag in self.tags if tag.item == "number" and "number" not in tag.facts}
            )
        return self._numbers

    def look(self, fact: str, items: tuple[str, ...], within: float) -> Look:
        """The groups for these items, made once."""
        key = (fact, items, within)
        if key not in self._looks:
            self._looks[key] = self._made(fact, items, within)
        return self._looks[key]

    def _made(self, fact: str, items: tuple[str, ...], within: float) -> Look:
        groups: list[ColourGroup] = []
        out: dict[str, str] = {}
        stays: dict[str, Tag] = {}
        by_colour: dict[Colour, ColourGroup] = {}
        for tag in self.tags:
            if tag.item not in items:
                continue
            worn = self.alone(tag)
            mine = worn.colours(fact)
            if mine is None:
                continue
            if not _may_stay(worn, fact, self.force):
                out[tag.id] = tag.player
                continue
            group = by_colour.get(mine[0]) or _joined(mine[0], groups, within)
            by_colour[mine[0]] = group
            stays[tag.id] = tag
            group.wearers[tag.id] = tag.player
        answer = min(_pairs([group.colour for group in groups], within), default=HOLDS)
        return Look(groups, out, stays, answer)

    def alone(self, tag: Tag) -> Worn:
        """The tag looked at without its teammates."""
        return Worn(tag, self.force.level, with_fallbacks(tag, self.words), self.words, self.opponent, None)


def options(look: Look) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Every consistent choice of a team: the colour kept, and the players who would have to change; least change first."""
    found = []
    for kept in look.groups:
        players = {player for group in look.groups if group is not kept for player in group.wearers.values()}
        found.append((kept.colour.name, tuple(sorted(players | set(look.out.values()), key=by_number))))
    return tuple(sorted(found, key=lambda one: (len(one[1]), one[0])))


def _values(words: Mapping[str, Fact]) -> Values:
    return tuple(sorted(((word, fact.value) for word, fact in words.items()), key=lambda pair: pair[0]))


def _may_stay(worn: Worn, fact: str, force: Force) -> bool:
    """Whether no rule forbids the thing's colour when it is looked at alone."""
    alone = Worn(worn.tag, worn.level, worn.facts, worn.words, worn.opponent, None)
    return not any(
        standing.check is not None and fact in standing.own and _forbids(standing.check, alone, fact)
        for standing in force.items[worn.tag.item]
    )


def _forbids(check: object, worn: Worn, fact: str) -> bool:
    parts = getattr(check, "parts", ())
    return any(fact in part.facts and not isinstance(part, SameAcrossTeam) and part.run(worn) == FAILS for part in parts)


def _joined(colour: Colour, groups: list[ColourGroup], within: float) -> ColourGroup:
    """The first group of the same colour, or a new one."""
    for group in groups:
        if same(colour, group.colour, within) == HOLDS:
            return group
    groups.append(ColourGroup(colour))
    return groups[-1]


def _pairs(colours: Sequence[Colour], within: float) -> list[int]:
    """The answers of every pair; two groups that may or may not be one make it unknown."""
    return [min(same(one, two, within), UNKNOWN) for place, one in enumerate(colours) for two in colours[place + 1 :]]


def by_number(player: str) -> tuple[int, int]:
    """The order of players: by number, 0 before 00; one without a number first."""
    return (int(player or -1), len(player))

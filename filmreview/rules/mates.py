"""Teammates: who wears which colour on which items, the groups they form, and what a team could choose."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property

from filmreview.colour.value import Colour
from filmreview.facts.fact import Fact, Value
from filmreview.rules.checks.across import NotTogether, SameAcrossTeam
from filmreview.rules.checks.answer import FAILS, HOLDS, UNKNOWN
from filmreview.rules.checks.colour_words import same
from filmreview.rules.checks.worn import Worn, declared_word, with_fallbacks
from filmreview.rules.force import Force, in_force
from filmreview.rules.tag import Tag

ALL_OTHERS = "all others"
"""Stands for the teammates who are not tagged and wear what the team declared."""
Values = tuple[tuple[str, Value], ...]


@dataclass(frozen=True)
class ColourGroup:
    """Teammates' things of one colour. colour: one of them. wearers: tag id -> player."""

    colour: Colour
    wearers: Mapping[str, str]


@dataclass(frozen=True, eq=False)
class Look:
    """One look across a team for some items and a fact.

    by_colour: of things that may stay, tag id -> player. out: tags whose own colour is forbidden anyhow, id -> player. stays:
    the tags that take part, by their id. within: dE00 under which two colours are one.
    """

    by_colour: Mapping[Colour, Mapping[str, str]]
    out: Mapping[str, str]
    stays: Mapping[str, Tag]
    within: float

    @cached_property
    def groups(self) -> tuple[ColourGroup, ...]:
        """Things of one colour together, in an order that does not hang on that of the tags."""
        groups: list[ColourGroup] = []
        for colour in sorted(self.by_colour, key=lambda one: (one.lab, one.name)):
            wearers = self.by_colour[colour]
            place = next((n for n, one in enumerate(groups) if same(colour, one.colour, self.within) == HOLDS), None)
            if place is None:
                groups.append(ColourGroup(colour, wearers))
            else:
                groups[place] = replace(groups[place], wearers={**groups[place].wearers, **wearers})
        return tuple(groups)

    @cached_property
    def answer(self) -> int:
        """Whether all that may stay are of one colour."""
        return min(_pairs([group.colour for group in self.groups], self.within), default=HOLDS)

    @cached_property
    def options(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """Every consistent choice of the team: the colour kept, and the players who would have to change; least change
        first. Where the team declared its colour, no other is a choice: it would change players nobody tagged."""
        players = [frozenset(group.wearers.values()) for group in self.groups]
        out = frozenset(self.out.values())
        found = []
        for kept, group in enumerate(self.groups):
            changing = out.union(*(one for place, one in enumerate(players) if place != kept))
            if ALL_OTHERS in changing:
                continue
            found.append((group.colour.name, tuple(sorted(changing, key=by_number))))
        return tuple(sorted(found, key=lambda one: (len(one[1]), one[0])))

    @cached_property
    def shape(self) -> tuple[int, tuple[tuple[Colour, int], ...]]:
        """What a teammate sees of it: the colours, and which of them is one tag's alone."""
        return (self.answer, tuple((group.colour, min(len(group.wearers), 2)) for group in self.groups))

    def others(self, tag: str) -> list[Colour]:
        """A colour of each group that the tag's own thing is not alone in."""
        return [group.colour for group in self.groups if not (len(group.wearers) == 1 and tag in group.wearers)]

    def changed(self, old: Tag, new: Tag | None, colours: tuple[Colour, ...] | None) -> Look:
        """The look with one tag changed; new: None when it no longer takes part. colours: as `Team.stays` says of it."""
        by_colour = dict(self.by_colour)
        for colour in [one for one, wearers in by_colour.items() if old.id in wearers]:
            left = {key: player for key, player in by_colour[colour].items() if key != old.id}
            by_colour[colour] = left
            if not left:
                del by_colour[colour]
        out = {key: player for key, player in self.out.items() if key != old.id}
        stays = {key: tag for key, tag in self.stays.items() if key != old.id}
        if new is not None and colours:
            by_colour[colours[0]] = {**by_colour.get(colours[0], {}), new.id: new.player}
            stays[new.id] = new
        elif new is not None and colours is not None:
            out[new.id] = new.player
        return Look(by_colour, out, stays, self.within)


class Team:
    """The tags of one team by their id, looked across as the checks ask; every look is kept."""

    def __init__(self, tags: Mapping[str, Tag], words: Mapping[str, Fact], opponent: Mapping[str, Fact], force: Force) -> None:
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

    def changed(self, old: Tag, new: Tag) -> tuple[Team, frozenset[str]]:
        """The team with one tag changed, and the items whose tags the team now looks different to."""
        team = Team({**self.tags, new.id: new}, self.words, self.opponent, self.force)
        otherwise: set[str] = set()
        for key, look in self._looks.items():
            if old.item in key[1] or new.item in key[1]:
                colours = team.stays(new, key[0]) if new.item in key[1] else None
                fresh = team._looks[key] = look.changed(old, new if new.item in key[1] else None, colours)
                if fresh.shape != look.shape:
                    otherwise.update(key[1])
            else:
                team._looks[key] = look
        if not any("number" in tag.facts or tag.item == "number" for tag in (old, new)):
            team._numbers = self._numbers
        else:
            otherwise.update(_minding(self.force, team.numbers() ^ self.numbers()))
        return team, frozenset(otherwise)

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
        declared = worn.word_colours(declared_word(fact, items))
        if declared is not None:
            return same(mine[0], declared[0], within)
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
            told = {str(tag.facts["number"].value) for tag in self.tags.values() if "number" in tag.facts}
            self._numbers = frozenset(
                told | {tag.player for tag in self.tags.values() if tag.item == "number" and "number" not in tag.facts}
            )
        return self._numbers

    def look(self, fact: str, items: tuple[str, ...], within: float) -> Look:
        """The groups for these items, made once."""
        key = (fact, items, within)
        if key not in self._looks:
            self._looks[key] = self._made(fact, items, within)
        return self._looks[key]

    def _made(self, fact: str, items: tuple[str, ...], within: float) -> Look:
        out: dict[str, str] = {}
        stays: dict[str, Tag] = {}
        by_colour: dict[Colour, dict[str, str]] = {}
        declared = self._declared(fact, items)
        if declared is not None:
            by_colour[declared] = {ALL_OTHERS: ALL_OTHERS}
        for tag in self.tags.values():
            colours = self.stays(tag, fact) if tag.item in items else None
            if colours:
                stays[tag.id] = tag
                by_colour.setdefault(colours[0], {})[tag.id] = tag.player
            elif colours is not None:
                out[tag.id] = tag.player
        return Look(by_colour, out, stays, within)

    def _declared(self, fact: str, items: tuple[str, ...]) -> Colour | None:
        """What the teammates who are not tagged wear, as the team declared it."""
        word = declared_word(fact, items)
        value = self.words[word].value if word in self.words else None
        return value[0] if isinstance(value, tuple) else None

    def stays(self, tag: Tag, fact: str) -> tuple[Colour, ...] | None:
        """The colours of a thing that may stay; empty when they are forbidden anyhow, None when they are not known."""
        worn = self.alone(tag)
        mine = worn.colours(fact)
        return mine if mine is None or _may_stay(worn, fact, self.force) else ()

    def alone(self, tag: Tag) -> Worn:
        """The tag looked at without its teammates."""
        return Worn(tag, self.force.level, with_fallbacks(tag, self.words), self.words, self.opponent, None)


def _minding(force: Force, numbers: frozenset[str]) -> set[str]:
    """The items with a rule to which it matters that these numbers came or went."""
    found = set()
    for item, standings in force.items.items() if numbers else ():
        checks = [leaf for one in standings if one.check for leaf in one.check.leaves()]
        if any(isinstance(leaf, NotTogether) and not numbers.isdisjoint(leaf.values) for leaf in checks):
            found.add(item)
    return found


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


def _pairs(colours: Sequence[Colour], within: float) -> list[int]:
    """The answers of every pair; two groups that may or may not be one make it unknown."""
    return [min(same(one, two, within), UNKNOWN) for place, one in enumerate(colours) for two in colours[place + 1 :]]


def by_number(player: str) -> tuple[int, int]:
    """The order of players: by number, 0 before 00; one without a number first."""
    return (int(player) if player.isdigit() else -1, len(player))

"""The wear board: what each player of a team was seen in, item by item, with the rulings, the odd ones out and the choices.

Derived from findings and pure; nothing is decided here. The choices come from the rules; who is odd is told in two ways: who
would have to change by the choice that changes least, and whose thing is of another colour than most of the team wear there.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from filmreview.colour.value import Colour
from filmreview.facts.fact import Fact
from filmreview.facts.items import ITEMS, TEAMS
from filmreview.review.ruled import Finding, Findings, deciding_facts
from filmreview.rules.book import Edition, Rule
from filmreview.rules.checks.across import SameAcrossTeam
from filmreview.rules.checks.answer import FAILS
from filmreview.rules.checks.colour_words import same
from filmreview.rules.mates import by_number
from filmreview.rules.ruling import Choice, Option

ONE_COLOUR = 10.0
"""dE00 under which two things count as of one colour on the board: the limit that `rules.checks.colour_words` explains."""
LEAST_FOR_MOST = 2
"""So many of one colour at least make "most of the team"."""
_WORST_FIRST = {"illegal": 0, "cannot be told": 1, "legal": 2}
_DECLARED_OF: Mapping[str, str] = {
    "jersey": "jersey", "number": "number_colour", "shorts": "shorts", "undershirt": "undershirt",
}  # fmt: skip
"""Item -> where the set-up declares its colour."""


@dataclass(frozen=True)
class WearCell:
    """One item on one player. findings: the worst ruling first, then by time; never empty. colours: seen or measured in the
    first of them, empty when no colour is known. odd: why it stands out, "" when it does not."""

    player: str
    item: str
    findings: tuple[Finding, ...]
    colours: tuple[Colour, ...]
    odd: str = ""

    @property
    def worst(self) -> Finding:
        """The finding that the cell shows."""
        return self.findings[0]

    @property
    def colour_words(self) -> str:
        """The colours by name: "navy", "black and white"; "colour not known" without one."""
        return " and ".join(colour.name for colour in self.colours) or "colour not known"


@dataclass(frozen=True)
class WearChoice:
    """What a team has to choose. rules: titles of the rules that leave the same choices. options: the least change first, none
    when no colour worn may stay."""

    rules: tuple[str, ...]
    options: tuple[Option, ...]

    @property
    def words(self) -> str:
        """In one line: "headbands and wristbands of one colour: keep black, 5 changes; or keep white, 11 and 24 change"."""
        told = "; or ".join(f"keep {one.keep}, {_who_changes(one.change)}" for one in self.options)
        return f"{', '.join(self.rules)}: {told or 'no colour worn may stay'}"


@dataclass(frozen=True)
class WearBoard:
    """One team. items: those tagged, in the order of the list of items. players: everybody on the roster or tagged, by
    number; "" is a player whose number was not read. cells: by player and item. declared: item -> colours as set up."""

    side: str
    name: str
    items: tuple[str, ...]
    players: tuple[str, ...]
    cells: Mapping[tuple[str, str], WearCell]
    declared: Mapping[str, tuple[Colour, ...]]
    choices: tuple[WearChoice, ...]

    def worn_by(self, player: str) -> tuple[WearCell, ...]:
        """The player's cells in the order of the items."""
        return tuple(self.cells[player, item] for item in self.items if (player, item) in self.cells)


def wear_boards(found: Findings) -> tuple[WearBoard, ...]:
    """The boards of both teams, the home team's first."""
    return tuple(_board(found, side) for side in TEAMS)


def _board(found: Findings, side: str) -> WearBoard:
    team = found.review.game.team(side)
    here: dict[tuple[str, str], list[Finding]] = {}
    for one in found:
        if one.tag.team == side:
            here.setdefault((one.tag.player or "", one.tag.item), []).append(one)
    choices = [choice for choice in found.rulings.choices if choice.team == side]
    cells = {place: _cell(*place, findings) for place, findings in here.items()}
    cells = _with_odd(cells, choices, _items_of_rules(found, choices))
    items = tuple(item for item in ITEMS if any(item == cell.item for cell in cells.values()))
    players = tuple(sorted({*team.roster, *(player for player, _item in cells)}, key=_place_of))
    declared = {item: _colours(team.facts[name]) for item, name in _DECLARED_OF.items() if name in team.facts}
    return WearBoard(side, team.name, items, players, cells, declared, _joined(found, choices))


def _cell(player: str, item: str, findings: Sequence[Finding]) -> WearCell:
    ordered = sorted(findings, key=lambda one: (_WORST_FIRST.get(one.ruling.ruling, 3), one.seconds))
    colour = deciding_facts(ordered[0].tag.facts).get("colour")
    return WearCell(player, item, tuple(ordered), _colours(colour) if colour else ())


def _colours(fact: Fact) -> tuple[Colour, ...]:
    return fact.value if isinstance(fact.value, tuple) else ()


def _place_of(player: str) -> tuple[int, tuple[int, int]]:
    """By number, the number that was not read last."""
    return (1 if player == "" else 0, by_number(player))


def _with_odd(
    cells: Mapping[tuple[str, str], WearCell], choices: Iterable[Choice], items_of: Mapping[str, frozenset[str]]
) -> dict[tuple[str, str], WearCell]:
    odd = _unlike_most(cells.values())
    for choice in choices:
        if choice.options:
            for cell in cells.values():
                if cell.item in items_of.get(choice.rule, ()) and _changes(cell, choice.options[0]):
                    odd[cell.player, cell.item] = f"would change where {choice.options[0].keep} is kept"
    return {place: WearCell(*place, cell.findings, cell.colours, odd.get(place, "")) for place, cell in cells.items()}


def _changes(cell: WearCell, option: Option) -> bool:
    """Whether it is this thing of the player's that would have to change: not one of the colour that is kept."""
    return cell.player in option.change and bool(cell.colours) and cell.colours[0].name != option.keep


def _unlike_most(cells: Iterable[WearCell]) -> dict[tuple[str, str], str]:
    by_item: dict[str, list[WearCell]] = {}
    for cell in cells:
        if cell.colours:
            by_item.setdefault(cell.item, []).append(cell)
    odd = {}
    for worn in by_item.values():
        most = max(_groups(worn), key=len)
        if len(most) >= LEAST_FOR_MOST and 2 * len(most) > len(worn):
            told = f"{len(most)} of {len(worn)} wear {most[0].colour_words}"
            unlike = [cell for cell in worn if cell not in most]
            odd.update({(cell.player, cell.item): told for cell in unlike})
    return odd


def _groups(cells: Sequence[WearCell]) -> list[list[WearCell]]:
    """Cells of one colour together; what may or may not be the same counts as the same, so that only sure ones stand out."""
    groups: list[list[WearCell]] = []
    for cell in sorted(cells, key=lambda one: (one.colours[0].lab, one.player)):
        home = next((group for group in groups if same(cell.colours[0], group[0].colours[0], ONE_COLOUR) != FAILS), None)
        if home is None:
            groups.append([cell])
        else:
            home.append(cell)
    return groups


def _items_of_rules(found: Findings, choices: Iterable[Choice]) -> dict[str, frozenset[str]]:
    """The items that each rule with a choice looks across on the game's day."""
    rules = _rules(found)
    editions = {choice.rule: rules[choice.rule].on(found.rulings.day) for choice in choices}
    return {code: frozenset(_looked_across(edition)) for code, edition in editions.items() if edition is not None}


def _looked_across(edition: Edition) -> Iterator[str]:
    yield from edition.items
    for leaf in edition.check.leaves() if edition.check else ():
        if isinstance(leaf, SameAcrossTeam):
            yield from leaf.among


def _rules(found: Findings) -> dict[str, Rule]:
    rulings = found.rulings
    book, adoption = rulings.book, rulings.adoption
    known = adoption.rules_of(book, rulings.day, rulings.level) if adoption else book.rules
    return {rule.code: rule for rule in known}


def _joined(found: Findings, choices: Iterable[Choice]) -> tuple[WearChoice, ...]:
    """Rules that leave the same choices share them."""
    rules, titles = _rules(found), dict[tuple[Option, ...], list[str]]()
    for choice in choices:
        titles.setdefault(choice.options, []).append(rules[choice.rule].title)
    return tuple(WearChoice(tuple(named), options) for options, named in titles.items())


def _who_changes(players: Sequence[str]) -> str:
    named = [player or "a player whose number was not read" for player in players]
    if not named:
        return "nobody changes"
    if len(named) == 1:
        return f"{named[0]} changes"
    return f"{', '.join(named[:-1])} and {named[-1]} change"

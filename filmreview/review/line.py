"""One typed line for one tag: `v14 arm sleeve orange`.

In: the text as far as it is typed, and the teams' rosters. Out: `Understood`, which says at once what was read, what was not,
and what is still missing; and the lines that the last word could become.

A line holds, in any order: whose it is (`v14`, `h 3`, `home 3`, `#14` where one roster alone has it, `v?` for a number that
cannot be read), one item, colours, sizes (`2.5 in wide`, `2.5 +- 0.3 in`), words of facts (`forehead`, `not solid`, `above
mascot`), `fact=value`, `crew late` (or `late`), and a note in quotation marks. A word may be cut short where nothing else
begins like it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from filmreview.errors import FilmReviewError, nearest
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.keys import KEYS, Kind, parse_value
from filmreview.review.line_words import (
    SIZE_WORDS,
    UNIT_WORDS,
    USUAL_SIZE,
    Meaning,
    Sort,
    chosen,
    phrases_begun_by,
    vocabulary,
)
from filmreview.review.model import CREW_MARKS

Rosters = Mapping[str, Sequence[str]]
"""The players' numbers of "home" and "visitor", as text. A team left out has no roster yet: any number goes."""

_PIECE = re.compile(r'\w+="[^"]*"|\w+=\S+|"[^"]*"|"[^"]*$|[^\s,]+')
_WHO = re.compile(r"(h|v|home|visitor)?#?(\d{1,2}|\?)")
UNREADABLE = "?"
"""Written for a player whose number cannot be read on the film."""
_NUMBER = re.compile(r'(\d+(?:\.\d+)?)(?:(?:\+-|±)(\d+(?:\.\d+)?))?(in|")?')
_COLOUR_CODE = re.compile(r"#[0-9a-f]{6}")
_LONGEST_PHRASE = 5
_ALONE = ("late", "as the book asks", "wrong consequence", "wrong procedure")
"""Crew marks that can mean nothing else, so that "crew" need not stand before them; "not seen" could be said of an item."""


@dataclass(frozen=True)
class Understood:
    """What a line was read as.

    team: "home", "visitor" or None. player: the number as text, UNREADABLE, or None when not typed yet. item: on the list of
    items or None. facts: all of origin "seen". note: the words in quotation marks. crew: a crew mark or None.
    unread: pieces that were not understood, as typed. asks: sentences on what stands in the way of keeping the tag.
    says: one line that repeats what was understood.
    """

    team: str | None = None
    player: str | None = None
    item: str | None = None
    facts: tuple[Fact, ...] = ()
    note: str = ""
    crew: str | None = None
    unread: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()
    says: str = ""

    @property
    def complete(self) -> bool:
        """True when the tag can be kept: whose and which item are known and nothing is left unread."""
        return None not in (self.team, self.player, self.item) and not self.unread


def parse_line(text: str, rosters: Rosters | None = None) -> Understood:
    """Read a line, finished or not. Never raises: what cannot be read is in `unread`, and `asks` says what to write."""
    return _Reader(_pieces(text), rosters or {}).read()


def completions(text: str, rosters: Rosters | None = None, most: int = 6) -> tuple[str, ...]:
    """The lines that the last word or words could become, at most so many; none when the line ends in a space."""
    pieces = text.split()
    if not pieces or text[-1:].isspace() or text.count('"') % 2:
        return ()
    return _players_begun(pieces, rosters or {})[:most] or _phrases_begun(pieces)[:most]


def _pieces(text: str) -> list[str]:
    outside_and_inside = re.split(r'("[^"]*(?:"|$))', text)  # notes stand at the odd places and stay as they are
    outside_and_inside[::2] = [re.sub(r"\s*(\+-|±)\s*", r"\1", part) for part in outside_and_inside[::2]]
    return _PIECE.findall("".join(outside_and_inside))


def _players_begun(pieces: list[str], rosters: Rosters) -> tuple[str, ...]:
    match = re.fullmatch(r"(h|v)(\d?)", pieces[-1].casefold())
    if not match:
        return ()
    side = "home" if match[1] == "h" else "visitor"
    numbers = [number for number in rosters.get(side, ()) if number.startswith(match[2]) and number != match[2]]
    return tuple(" ".join([*pieces[:-1], match[1] + number]) for number in numbers)


def _phrases_begun(pieces: list[str]) -> tuple[str, ...]:
    for length in (3, 2, 1):
        if length == 1 and len(pieces) > 1 and tuple(piece.casefold() for piece in pieces[-2:]) in vocabulary():
            break  # the last two words are one phrase: the second is not the beginning of another
        words = tuple(piece.casefold() for piece in pieces[-length:])
        if len(words) < length:
            continue
        begun = [phrase for phrase in phrases_begun_by(words) if phrase != words]
        items = [phrase for phrase in begun if vocabulary()[phrase][0].sort is Sort.ITEM]
        others = [phrase for phrase in begun if phrase not in items]
        item_known = parse_line(" ".join(pieces[:-length])).item is not None
        wanted = others if item_known else items or others  # one line, one item
        if wanted:
            return tuple(" ".join([*pieces[:-length], *phrase]) for phrase in wanted)
    return ()


@dataclass
class _Reader:
    """Walks over the pieces once, from left to right, taking the longest phrase it knows each time."""

    pieces: list[str]
    rosters: Rosters
    at: int = 0
    team: str | None = None
    player: str | None = None
    item: str | None = None
    note: str = ""
    crew: str | None = None
    label: str | None = None
    denied: bool = False
    values: dict[str, list[str]] = field(default_factory=dict)
    unread: list[str] = field(default_factory=list)
    asks: list[str] = field(default_factory=list)

    def read(self) -> Understood:
        while self.at < len(self.pieces):
            taken = (
                self._note()
                or self._pair()
                or self._crew()
                or self._crew_alone()
                or self._phrase()
                or self._who()
                or self._amount()
                or self._cut_short()
            )
            if not taken:
                self._leave()
                taken = 1
            self.at += taken
        facts = self._facts()
        self._ask_whose()
        if not self.item:
            self.asks.append("which item?")
        said = _say(self.team, self.player, self.item, facts, self.note, self.crew)
        return Understood(
            self.team, self.player, self.item, facts, self.note, self.crew, tuple(self.unread), tuple(self.asks), said
        )

    def _here(self) -> str:
        return self.pieces[self.at].casefold()

    def _note(self) -> int:
        piece = self.pieces[self.at]
        if not piece.startswith('"'):
            return 0
        self.note = piece.strip('"')  # with its spaces: it may be half typed
        return 1

    def _pair(self) -> int:
        name, equals, value = self.pieces[self.at].partition("=")
        if not equals or name not in KEYS:
            return 0
        self.values[name] = [value.strip('"')]
        return 1

    def _crew(self) -> int:
        if self._here() != "crew" or self.at + 1 >= len(self.pieces):
            return 0
        for length in range(min(4, len(self.pieces) - self.at - 1), 0, -1):
            words = [piece.casefold() for piece in self.pieces[self.at + 1 : self.at + 1 + length]]
            begun = [mark for mark in CREW_MARKS if _begins(words, mark.split())]
            if len(begun) == 1:
                self.crew = begun[0]
                return 1 + length
        return 0

    def _crew_alone(self) -> int:
        for mark in _ALONE:
            words = mark.split()
            if [piece.casefold() for piece in self.pieces[self.at : self.at + len(words)]] == words:
                self.crew = mark
                return len(words)
        return 0

    def _phrase(self) -> int:
        for length in range(min(_LONGEST_PHRASE, len(self.pieces) - self.at), 0, -1):
            words = tuple(piece.casefold() for piece in self.pieces[self.at : self.at + length])
            meanings = vocabulary().get(words)
            meaning = chosen(meanings, self.item, self.label, self.denied) if meanings else None
            if meaning and self._take(meaning):
                return length
        if _COLOUR_CODE.fullmatch(self._here()):
            self._take(Meaning(Sort.COLOUR, self._here()))
            return 1
        return 0

    def _take(self, meaning: Meaning) -> bool:
        if meaning.sort is Sort.TEAM:
            return self._take_team(meaning.word)
        if meaning.sort is Sort.ITEM:
            self.item = meaning.word
        elif meaning.sort is Sort.DENIAL:
            self.denied = True
        elif meaning.sort is Sort.LABEL:
            self.label = meaning.key
        elif meaning.sort is Sort.COLOUR:
            key = self.label if self.label and KEYS[self.label].kind is Kind.COLOURS else "colour"
            self.values.setdefault(key, []).append(meaning.word)
        elif meaning.sort is Sort.VALUE:
            self.values[meaning.key] = ["no" if self.denied else meaning.word]
            self.label, self.denied = None, False
        return True

    def _take_team(self, side: str) -> bool:
        following = self.pieces[self.at + 1] if self.at + 1 < len(self.pieces) else ""
        if self.team or not (re.fullmatch(r"#?\d{1,2}", following) or not following):
            return False
        self.team = side
        return True

    def _who(self) -> int:
        match = _WHO.fullmatch(self._here())
        if not match or self.player is not None or (not match[1] and self._measure_follows()):
            return self._number_shown()
        if match[1]:
            self.team = "home" if match[1].startswith("h") else "visitor"
        self.player = match[2]
        return 1

    def _measure_follows(self) -> bool:
        following = self.pieces[self.at + 1].casefold() if self.at + 1 < len(self.pieces) else ""
        return following in UNIT_WORDS or following in SIZE_WORDS or following == "sq"

    def _number_shown(self) -> int:
        wants = self.label == "number" or (self.item == "number" and "number" not in self.values and self.label is None)
        if not wants or not re.fullmatch(r"\d{1,2}", self._here()) or self._measure_follows():
            return 0
        self.values["number"] = [self._here()]
        self.label = None
        return 1

    def _amount(self) -> int:
        match = _NUMBER.fullmatch(self._here())
        if not match:
            return 0
        rest = [piece.casefold() for piece in self.pieces[self.at + 1 : self.at + 4]]
        unit = match[3] or (rest[0] if rest and rest[0] in (*UNIT_WORDS, "sq") else "")
        used = 1 if unit and not match[3] else 0
        if unit == "sq":
            used += 1 if len(rest) > 1 and rest[1] in UNIT_WORDS else 0
        following = rest[used] if len(rest) > used else ""
        key = self._size_key(unit, following)
        if not key:
            return 0
        self.values[key] = [match[1] + (f" +- {match[2]}" if match[2] else "")]
        self.label = None
        return 1 + used + (1 if following in SIZE_WORDS else 0)

    def _size_key(self, unit: str, following: str) -> str | None:
        if unit == "sq":
            return "area_sq_in"
        if following in SIZE_WORDS:
            return SIZE_WORDS[following]
        if self.label and KEYS[self.label].kind is Kind.AMOUNT:
            return self.label
        return USUAL_SIZE.get(self.item or "", "width_in") if unit else None

    def _cut_short(self) -> int:
        for length in range(min(3, len(self.pieces) - self.at), 0, -1):
            words = tuple(piece.casefold() for piece in self.pieces[self.at : self.at + length])
            fitting = {
                meaning
                for phrase in phrases_begun_by(words)
                if (meaning := chosen(vocabulary()[phrase], self.item, self.label, self.denied))
            }
            if self.item is None and any(meaning.sort is Sort.ITEM for meaning in fitting):
                fitting = {meaning for meaning in fitting if meaning.sort is Sort.ITEM}
            if len(fitting) == 1 and self._take(fitting.pop()):
                return length
        return 0

    def _leave(self) -> None:
        piece = self.pieces[self.at]
        self.unread.append(piece)
        close = nearest(piece, (" ".join(phrase) for phrase in vocabulary() if len(phrase) == 1))
        begun = phrases_begun_by((piece.casefold(),))
        if len(begun) > 1:
            self.asks.append(f'"{piece}": {_either([" ".join(phrase) for phrase in begun[:4]])}?')
        else:
            self.asks.append(f'"{piece}" is not understood' + (f'; "{close}"?' if close else ""))

    def _facts(self) -> tuple[Fact, ...]:
        facts = []
        for key, texts in self.values.items():
            try:
                facts.append(Fact(key, parse_value(key, ", ".join(texts)), Origin.SEEN))
            except FilmReviewError as error:
                self.unread.append(", ".join(texts))
                self.asks.append(str(error))
        return tuple(facts)

    def _ask_whose(self) -> None:
        if self.player is None:
            self.asks.insert(0, "whose is it? for example v14 or h3")
            return
        holders = [side for side in ("home", "visitor") if self.player in self.rosters.get(side, ())]
        if self.team is None and len(holders) == 1:
            self.team = holders[0]
        if self.team is None:
            self.asks.insert(0, f"{self.player} of which team? h{self.player} or v{self.player}")
        elif self.player != UNREADABLE and self.rosters.get(self.team) and self.player not in self.rosters[self.team]:
            self.asks.append(f"{self.player} is not on the {self.team} roster")


def _begins(words: Sequence[str], whole: Sequence[str]) -> bool:
    return len(words) <= len(whole) and all(word.startswith(part) for part, word in zip(words, whole, strict=False))


def _either(words: Sequence[str]) -> str:
    return ", ".join(words[:-1]) + " or " + words[-1]


def _say(team: str | None, player: str | None, item: str | None, facts: Sequence[Fact], note: str, crew: str | None) -> str:
    number = "number not read" if player == UNREADABLE else player
    parts = [" ".join(part for part in (team, number) if part), item or "", *(fact_in_words(fact) for fact in facts)]
    parts += [f"crew {crew}"] if crew else []
    parts += [f'note "{note}"'] if note else []
    return ", ".join(part for part in parts if part)


def write_line(understood: Understood) -> str:
    """The line that is read as this, in its plain order; `unread` and `asks` are left out, quotation marks in the note made
    single."""
    parts = [f"{'h' if understood.team == 'home' else 'v'}{understood.player or ''}" if understood.team else understood.player]
    parts += [understood.item, *(_typed(fact) for fact in understood.facts)]
    parts += [f"crew {understood.crew}"] if understood.crew else []
    note = understood.note.replace('"', "'")  # the line knows no other way to hold one quotation inside another
    parts += [f'"{note}"'] if note else []
    return " ".join(part for part in parts if part)


def _typed(fact: Fact) -> str:
    value = value_in_words(fact).removesuffix(f" {KEYS[fact.key].unit}") if KEYS[fact.key].unit else value_in_words(fact)
    if fact.key == "colour":
        return value
    value = value.replace(" and ", ", ") if KEYS[fact.key].kind is Kind.COLOURS else value
    return f"{fact.key}={value}" if value.isalnum() else f'{fact.key}="{value}"'


def fact_in_words(fact: Fact) -> str:
    """A fact as a screen says it: "colour orange", "not one solid colour", "width 2.5 +- 0.3 in", "worn at forehead"."""
    key = KEYS[fact.key]
    if key.kind is Kind.YES_NO:
        return key.words if fact.value else f"not {key.words}"
    return f"{key.words} {value_in_words(fact)}"


def value_in_words(fact: Fact) -> str:
    """The value alone: "orange and white", "2.5 +- 0.3 in", "yes", "forehead"."""
    key = KEYS[fact.key]
    if isinstance(fact.value, bool):
        return "yes" if fact.value else "no"
    if isinstance(fact.value, str):
        return fact.value
    if isinstance(fact.value, tuple):
        return " and ".join(colour.name for colour in fact.value)
    spread = f" +- {fact.value.plus_minus:g}" if fact.value.plus_minus else ""
    return f"{fact.value.value:g}{spread} {key.unit}".strip()

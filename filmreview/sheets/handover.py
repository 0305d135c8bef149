"""The hand-over: one model of what leaves the house, that every kind of sheet is written from.

`telling.hand_over` builds it from the findings of a review and a source of pictures. Everything is settled there and said in
words; the writers only lay it out. Nothing is decided: rulings come from the rules, marks from the observer.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from filmreview.colour.value import Colour
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Region
from filmreview.film.moment import Moment
from filmreview.review.model import CREW_MARKS, FilmRef, Game
from filmreview.sheets import sheet_words as words
from filmreview.sheets.blurring import blurred
from filmreview.sheets.inert import one_line
from filmreview.sheets.marking import Marked, marked
from filmreview.sheets.pictures import PictureSource

COORDINATOR, CREW = "coordinator", "crew"
READERS: tuple[str, ...] = (COORDINATOR, CREW)
"""Whom a sheet is made for: the coordinator gets all; the crew gets no notes, no replies, and blurred pictures."""
RULINGS: tuple[str, ...] = ("illegal", "cannot be told", "legal")
MARK_ORDER: tuple[str, ...] = (*CREW_MARKS, words.NOT_MARKED)


@dataclass(frozen=True)
class Ahead:
    """What changes for a finding on a later day. starts: that day in words."""

    rule: str
    starts: str
    ruling: str


@dataclass(frozen=True)
class Line:
    """One finding as the sheet tells it.

    number: from 1, in the order of films and times. tag: the stable id. seconds: from the start of the film; time: the same for
    people. side: "home" or "visitor"; team: the school. seen: what was seen or measured, a fact each. asks: what would change
    the ruling. earlier: what another version of the program ruled of the same facts. crew_time: when, "" when not told.
    colours: of the item, as they ruled; empty when not told.
    official: position and name of whose finding it is, "" for the whole crew's. replies: what readers of an earlier sheet
    answered. key: tells which finding a row of a returned workbook is (`keys`).
    hangs_on: what decides between the cases that the book asks for, "" where the facts leave one.
    """

    number: int
    tag: str
    film: FilmRef
    moment: Moment
    seconds: Fraction
    time: str
    side: str
    team: str
    player: str | None
    item: str
    region: Region | None
    seen: tuple[str, ...]
    ruling: str
    reasons: tuple[str, ...]
    consequence: str
    todo: str
    rule: str
    reference: str
    edition: str
    adoption: str
    source: str
    mark: str
    asks: tuple[str, ...]
    ahead: tuple[Ahead, ...]
    earlier: str
    crew_mark: str
    crew_time: str
    did: str
    could_have_done: str
    note: str
    colours: tuple[Colour, ...] = ()
    official: str = ""
    replies: tuple[str, ...] = ()
    key: str = ""
    hangs_on: str = ""

    @property
    def whose(self) -> str:
        """The school and the number."""
        return words.whose_words(self.team, self.player)


@dataclass(frozen=True)
class Charge:
    """What a team is charged by the book. whose: the players whose faults brought it. coaching_box: "" where the book is
    silent. lines: numbers of the findings."""

    team: str
    kind: str
    count: int
    charged_to: str
    free_throws: int
    coaching_box: str
    then: str
    reference: str
    source: str
    mark: str
    players: tuple[str, ...]


@dataclass(frozen=True)
class Choice:
    """One way out where all of a team must match. change: the players who would then change. first: the least change."""

    team: str
    rule: str
    keep: str
    change: tuple[str, ...]
    first: bool


@dataclass(frozen=True)
class Cited:
    """A rule that decided findings. says: in our own words. by: the numbers of the lines."""

    rule: str
    title: str
    reference: str
    edition: str
    says: str
    source: str
    mark: str
    by: tuple[int, ...]


@dataclass(frozen=True)
class Departure:
    """One thing the crew did otherwise than a procedure asks. over: seconds over the book's clock, "" where there is none."""

    procedure: str
    film: str
    time: str
    what: str
    asks: str
    over: str
    reference: str
    source: str
    mark: str


@dataclass(frozen=True)
class Procedure:
    """The events laid beside the book. ruling: "legal" when nothing departs. missing: what would have to be known.
    titles: name of a procedure -> what it is called for people."""

    names: tuple[str, ...]
    path: str
    ruling: str
    departures: tuple[Departure, ...]
    missing: tuple[str, ...]
    reference: str
    edition: str
    titles: Mapping[str, str] = field(default_factory=dict)

    def title(self, name: str) -> str:
        """What the procedure of that name is called for people."""
        return self.titles.get(name, name)

    @property
    def followed(self) -> str:
        """Every procedure that was followed, in one line."""
        return "; ".join(self.title(name) for name in self.names)


@dataclass(frozen=True)
class LetterTo:
    """What one official is told. built: by the sheet, from the findings; else written by the observer."""

    position: str
    name: str
    words: str
    built: bool


@dataclass(frozen=True)
class HandOver:
    """Everything the sheet tells.

    counts: (ruling, crew mark or NOT_MARKED) -> how many. program: name and version. procedure: None when the events call for
    none. disputed: sentences on penalties whose readings differ. pictures: None for a sheet without any.
    made_for: one of READERS; in pictures for the crew all but the marked region is blurred.
    """

    game: Game
    book: str
    edition: str
    adoption: str
    films: tuple[FilmRef, ...]
    lines: tuple[Line, ...]
    counts: Mapping[tuple[str, str], int]
    charges: tuple[Charge, ...]
    choices: tuple[Choice, ...]
    cited: tuple[Cited, ...]
    cautions: tuple[str, ...]
    program: str
    procedure: Procedure | None = None
    disputed: tuple[str, ...] = ()
    pictures: PictureSource | None = None
    letters: tuple[LetterTo, ...] = ()
    made_for: str = COORDINATOR

    @property
    def title(self) -> str:
        """Who played whom."""
        return f"{one_line(self.game.home.name)} against {one_line(self.game.visitor.name)}"

    @property
    def footer(self) -> str:
        """One line for the foot of a page."""
        return f"{self.title}, {words.day_words(self.game.day)} - a study aid: the official book and officials decide"

    def count(self, ruling: str | None = None, mark: str | None = None) -> int:
        """How many findings have this ruling and this crew mark; None counts all."""
        return sum(many for (one, crew), many in self.counts.items() if ruling in (None, one) and mark in (None, crew))

    def picture(self, line: Line) -> Marked:
        """The frame of a line with its region marked; raises FilmReviewError when it cannot be had."""
        if self.pictures is None:
            raise FilmReviewError("made without pictures")
        picture = self.pictures(line.film, line.moment)
        if self.made_for == CREW:
            picture = blurred(picture, line.region, line.item)
        return marked(picture, line.region)

    @property
    def uncharged(self) -> tuple[str, ...]:
        """What keeps the penalties from being whole, a sentence each: findings of which it cannot be told what follows, and
        penalties whose readings differ."""
        unknown = ", ".join(f"No {line.number}" for line in self.lines if line.consequence == "cannot be told")
        return (*((f"{unknown}: {words.FOUL_UNKNOWN}",) if unknown else ()), *self.disputed)

    @property
    def praise(self) -> tuple[Line, ...]:
        """Where the crew did as the book asks."""
        return tuple(line for line in self.lines if line.crew_mark == "as the book asks")

    @property
    def to_talk_about(self) -> tuple[Line, ...]:
        """Where the crew could have done something else, the gravest consequence first."""
        open_lines = [line for line in self.lines if line.could_have_done]
        return tuple(sorted(open_lines, key=lambda line: (-_GRAVITY.get(line.consequence, 0), line.number)))


_GRAVITY: Mapping[str, int] = {"none": 0, "fix or leave": 1, "leave": 2, "cannot be told": 3, "technical foul": 4}

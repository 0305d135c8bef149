"""What a person put down about one game, as values that never change.

A `Review` is a snapshot: the store hands out a new one after every change. Films are referred to, never copied. Rulings are not
here; `ruled` derives them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from pathlib import Path

from filmreview.colour.value import Colour
from filmreview.errors import unknown
from filmreview.facts.fact import Fact
from filmreview.facts.region import Region
from filmreview.film.moment import Moment, format_time

CREW_MARKS: tuple[str, ...] = (
    "as the book asks", "late", "wrong consequence", "wrong procedure", "not seen", "nothing to do", "cannot be told",
)  # fmt: skip
REPLIES: tuple[str, ...] = ("agreed", "seen otherwise", "please explain")
"""What a reader of the findings sheet may answer to a finding; more is said in words."""
LONGEST_WORDS = 2000  # characters of a reply or a letter
TEAM_FACTS: tuple[str, ...] = ("jersey", "trim", "number_colour", "shorts", "undershirt")


@dataclass(frozen=True)
class Team:
    """One team as set up. facts: what was declared of its kit, by the names in TEAM_FACTS. roster: player numbers as text."""

    name: str
    facts: Mapping[str, Fact] = field(default_factory=dict)
    roster: tuple[str, ...] = ()


@dataclass(frozen=True)
class CrewMember:
    """One official: the position worked and the name."""

    position: str
    name: str


@dataclass(frozen=True)
class Game:
    """One game as set up. day: the day it was played, which decides the edition of the book. adoption: a name or a path."""

    day: date
    level: str | None
    book: str
    adoption: str | None
    home: Team
    visitor: Team
    crew: tuple[CrewMember, ...] = ()
    observer: str = ""

    def team(self, side: str) -> Team:
        """The team of that side, "home" or "visitor"."""
        return self.home if side == "home" else self.visitor


@dataclass(frozen=True)
class FilmRef:
    """A film the review refers to.

    path: where it was, absolute. beside: the same as seen from the review's folder, so that both can move together; "" when
    there is no such way. size: bytes. length: seconds. digest: of parts of the file. start: its first moment.
    width, height: of the upright picture in pixels, 0 when not known.
    """

    id: str
    path: str
    size: int
    length: Fraction
    digest: str
    start: Moment
    width: int = 0
    height: int = 0
    beside: str = ""

    @property
    def name(self) -> str:
        """The file's name without its folders, whichever system wrote the path."""
        return self.path.replace("\\", "/").rpartition("/")[2]

    def seconds_of(self, moment: Moment) -> Fraction:
        """Seconds from the start of the film."""
        return moment.seconds - self.start.seconds

    def time_text(self, moment: Moment) -> str:
        """Time from the start of the film as a person reads it."""
        return format_time(self.seconds_of(moment))


@dataclass(frozen=True)
class CrewResponse:
    """How the crew dealt with a tag. mark: one of CREW_MARKS. moment: when, None when not told. did: what they did, in words.
    film: the film of the moment when it is not the tag's own."""

    mark: str
    moment: Moment | None = None
    did: str = ""
    film: str | None = None


@dataclass(frozen=True)
class PlacedTag:
    """A tag at a moment of a film. player: the number as text, None when it could not be read. region: in the upright picture.
    facts: as they came, measured and seen ones of one key side by side (`ruled.deciding_facts` says which one rules)."""

    id: str
    film: str
    moment: Moment
    team: str
    player: str | None
    item: str
    region: Region | None = None
    facts: tuple[Fact, ...] = ()
    note: str = ""
    crew: CrewResponse | None = None


@dataclass(frozen=True)
class PlacedEvent:
    """Something that happened, for the procedures. what: one of the rules' event words. length: of a time-out, seconds.
    before_start: seconds before the game of a scorebook change. kind, charged_to: of a foul charged. None = not said."""

    id: str
    film: str
    moment: Moment
    what: str
    team: str | None = None
    player: str | None = None
    length: int | None = None
    before_start: Fraction | None = None
    note: str = ""
    kind: str | None = None
    charged_to: str | None = None


@dataclass(frozen=True)
class PlacedReference:
    """A region of known colour in one view of a film, for correcting the light. colour: as declared."""

    id: str
    film: str
    moment: Moment
    region: Region
    colour: Colour


@dataclass(frozen=True)
class KeptRuling:
    """What one version of the program ruled of a tag. inputs: digest of everything the tag and the set-up gave it. at: UTC, ISO
    8601. The rest as in the rules' `Ruling`."""

    tag: str
    program: str
    inputs: str
    at: str
    book: str
    edition: str
    ruling: str
    consequence: str
    rule: str
    reference: str
    reasons: tuple[str, ...] = ()


@dataclass(frozen=True)
class TagOfficial:
    """Whose finding a tag is: the position of the official who had it to see. A tag without one is the whole crew's."""

    id: str
    tag: str
    position: str


@dataclass(frozen=True)
class Reply:
    """What a reader of the sheet answered to a finding. by: the position, "" when not told. answer: one of REPLIES, "" for
    words alone. There is one a tag and position."""

    id: str
    tag: str
    by: str
    answer: str
    words: str = ""


@dataclass(frozen=True)
class Letter:
    """What the observer wrote to one official, in place of the paragraph that the sheet builds from the findings."""

    id: str
    position: str
    words: str


Placed = PlacedTag | PlacedEvent | PlacedReference
Thing = Game | FilmRef | Placed | TagOfficial | Reply | Letter


@dataclass(frozen=True)
class Review:
    """Everything put down about one game. path: the review's file. Each part in the order made.
    ruled: the rulings kept so far, derived and so no part of what makes two reviews equal."""

    path: Path
    game: Game
    films: tuple[FilmRef, ...] = ()
    tags: tuple[PlacedTag, ...] = ()
    events: tuple[PlacedEvent, ...] = ()
    references: tuple[PlacedReference, ...] = ()
    officials: tuple[TagOfficial, ...] = ()
    replies: tuple[Reply, ...] = ()
    letters: tuple[Letter, ...] = ()
    ruled: tuple[KeptRuling, ...] = field(default=(), compare=False)
    _by_id: dict[str, FilmRef | PlacedTag | PlacedEvent | PlacedReference] = field(
        init=False, repr=False, compare=False, default_factory=dict
    )

    def __post_init__(self) -> None:
        for part in (self.films, self.tags, self.events, self.references):
            self._by_id.update({thing.id: thing for thing in part})

    @property
    def kit(self) -> Mapping[str, Mapping[str, Fact]]:
        """What was declared of the kit, by team and by the names in TEAM_FACTS."""
        return {"home": self.game.home.facts, "visitor": self.game.visitor.facts}

    def official_of(self, tag_id: str) -> TagOfficial | None:
        """Whose finding a tag is; None when it is the whole crew's."""
        return next((one for one in self.officials if one.tag == tag_id), None)

    def replies_to(self, tag_id: str) -> tuple[Reply, ...]:
        """The replies to a finding, in the order they came."""
        return tuple(one for one in self.replies if one.tag == tag_id)

    def letter_to(self, position: str) -> Letter | None:
        """What the observer wrote to the official at a position; None when nothing."""
        return next((one for one in self.letters if one.position == position), None)

    def film(self, film_id: str) -> FilmRef:
        """The film of that id; raises FilmReviewError for an unknown one."""
        found = self._by_id.get(film_id)
        if not isinstance(found, FilmRef):
            raise unknown("film", film_id, [film.id for film in self.films], where=self.path.name)
        return found

    def tag(self, tag_id: str) -> PlacedTag:
        """The tag of that id; raises FilmReviewError for an unknown one."""
        found = self._by_id.get(tag_id)
        if not isinstance(found, PlacedTag):
            raise unknown("tag", tag_id, [tag.id for tag in self.tags], where=self.path.name)
        return found

    def event(self, event_id: str) -> PlacedEvent:
        """The event of that id; raises FilmReviewError for an unknown one."""
        found = self._by_id.get(event_id)
        if not isinstance(found, PlacedEvent):
            raise unknown("event", event_id, [event.id for event in self.events], where=self.path.name)
        return found

    def reference(self, reference_id: str) -> PlacedReference:
        """The reference region of that id; raises FilmReviewError for an unknown one."""
        found = self._by_id.get(reference_id)
        if not isinstance(found, PlacedReference):
            raise unknown("reference", reference_id, [one.id for one in self.references], where=self.path.name)
        return found

    def time_text(self, film_id: str, moment: Moment) -> str:
        """A moment as the time from the start of its film."""
        return self.film(film_id).time_text(moment)

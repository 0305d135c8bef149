"""What a person put down about one game, as values that never change.

A `Review` is a snapshot: the store hands out a new one after every change. Films are referred to, never copied. Rulings are not
here; `ruled` derives them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import TypeVar

from filmreview.colour.value import Colour
from filmreview.errors import unknown
from filmreview.facts.fact import Fact
from filmreview.facts.region import Box, Region
from filmreview.film.moment import Moment, format_time

CREW_MARKS: tuple[str, ...] = (
    "as the book asks", "late", "wrong consequence", "wrong procedure", "not seen", "nothing to do", "cannot be told",
)  # fmt: skip
REPLIES: tuple[str, ...] = ("agreed", "seen otherwise", "please explain")
"""What a reader of the findings sheet may answer to a finding; more is said in words."""
LONGEST_WORDS = 2000  # characters of a reply or a letter
STOPPAGE_KINDS: tuple[str, ...] = (
    "free throws", "substitution", "time-out", "end of period", "warm-up", "injury", "other",
)  # fmt: skip
PUT_DOWN: tuple[str, ...] = ("by hand", "proposed")
"""How a stoppage or a blur came into the review: put down by a person, or proposed by the program and not yet looked at."""
FACE_CHOICES: tuple[str, ...] = ("blurred", "consent held", "nobody on it")
"""What a person answered for the faces of a stretch of film, before a clip of it may be written."""
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
    """One game as set up. day: the day it was played, which decides the edition of the book. adoption: a name or a path.
    rulings_hidden: an official who reviews himself sees the ruling of a tag only after his own call."""

    day: date
    level: str | None
    book: str
    adoption: str | None
    home: Team
    visitor: Team
    crew: tuple[CrewMember, ...] = ()
    observer: str = ""
    rulings_hidden: bool = False

    def team(self, side: str) -> Team:
        """The team of that side, "home" or "visitor"."""
        return self.home if side == "home" else self.visitor


@dataclass(frozen=True)
class FilmRef:
    """A film the review refers to.

    path: where it was, absolute; where it lay in the review's folder or below, as seen from there. beside: the same as seen
    from the review's folder, so that both can move together; "" when there is no such way (another drive). size: bytes.
    length: seconds. digest: of parts of the file. start: its first moment. width, height: of the upright picture in pixels,
    0 when not known. what: which part or angle of the game it shows, in words ("first half", "second angle"), "" when not
    told.
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
    what: str = ""

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


@dataclass(frozen=True)
class Stoppage:
    """A stretch of dead ball on a film, from start up to end (not included). kind: one of STOPPAGE_KINDS, "" when not told.
    origin: one of PUT_DOWN."""

    id: str
    film: str
    start: Moment
    end: Moment
    kind: str = ""
    note: str = ""
    origin: str = "by hand"


@dataclass(frozen=True)
class CommonMoment:
    """One instant of the game seen on two films: `moment` of `film` is `other_moment` of `other`. There is one a pair."""

    id: str
    film: str
    moment: Moment
    other: str
    other_moment: Moment


@dataclass(frozen=True)
class OwnCall:
    """What an official who reviews himself called on a tag: a ruling and a consequence in the rules' words, "" for one
    not told. There is one call a tag; it never leaves the review."""

    id: str
    tag: str
    ruling: str
    consequence: str = ""
    words: str = ""


@dataclass(frozen=True)
class BlurAt:
    """Where a face is at one moment. box: in pixels of the upright picture."""

    moment: Moment
    box: Box


@dataclass(frozen=True)
class Blur:
    """A face followed over time. The boxes lie in order of time; between two of them the box is interpolated, the last holds
    up to end (not included). origin: one of PUT_DOWN."""

    id: str
    film: str
    regions: tuple[BlurAt, ...]
    end: Moment
    origin: str = "by hand"

    @property
    def start(self) -> Moment:
        """The moment from which the face is blurred."""
        return self.regions[0].moment


@dataclass(frozen=True)
class FaceChoice:
    """What a person answered for the faces from start up to end (not included) of a film. choice: one of FACE_CHOICES."""

    id: str
    film: str
    start: Moment
    end: Moment
    choice: str


@dataclass(frozen=True)
class Lesson:
    """A lesson as it was last made. plan: JSON text, written and read by the room `lessons`."""

    id: str
    title: str
    plan: str


Placed = PlacedTag | PlacedEvent | PlacedReference | Stoppage | Blur | FaceChoice
T = TypeVar("T", FilmRef, PlacedTag, PlacedEvent, PlacedReference, Stoppage, Blur, Lesson)
Thing = Game | FilmRef | Placed | TagOfficial | Reply | Letter | CommonMoment | OwnCall | Lesson


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
    stoppages: tuple[Stoppage, ...] = ()
    commons: tuple[CommonMoment, ...] = ()
    own_calls: tuple[OwnCall, ...] = ()
    blurs: tuple[Blur, ...] = ()
    face_choices: tuple[FaceChoice, ...] = ()
    lessons: tuple[Lesson, ...] = ()
    ruled: tuple[KeptRuling, ...] = field(default=(), compare=False)
    _by_id: dict[str, FilmRef | Placed | Lesson] = field(init=False, repr=False, compare=False, default_factory=dict)

    def __post_init__(self) -> None:
        for part in (self.films, self.placed, self.lessons):
            self._by_id.update({thing.id: thing for thing in part})

    @property
    def placed(self) -> tuple[Placed, ...]:
        """Everything that lies on a film."""
        return (*self.tags, *self.events, *self.references, *self.stoppages, *self.blurs, *self.face_choices)

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

    def own_call_on(self, tag_id: str) -> OwnCall | None:
        """The own call on a tag; None when there is none."""
        return next((one for one in self.own_calls if one.tag == tag_id), None)

    def common_of(self, film_id: str, other_id: str) -> CommonMoment | None:
        """The instant that two films share, seen from the first; None when none was set."""
        for one in self.commons:
            if (one.film, one.other) == (film_id, other_id):
                return one
            if (one.other, one.film) == (film_id, other_id):
                return CommonMoment(one.id, one.other, one.other_moment, one.film, one.moment)
        return None

    def film(self, film_id: str) -> FilmRef:
        """The film of that id; raises FilmReviewError for an unknown one."""
        return self._found("film", film_id, FilmRef, self.films)

    def tag(self, tag_id: str) -> PlacedTag:
        """The tag of that id; raises FilmReviewError for an unknown one."""
        return self._found("tag", tag_id, PlacedTag, self.tags)

    def event(self, event_id: str) -> PlacedEvent:
        """The event of that id; raises FilmReviewError for an unknown one."""
        return self._found("event", event_id, PlacedEvent, self.events)

    def reference(self, reference_id: str) -> PlacedReference:
        """The reference region of that id; raises FilmReviewError for an unknown one."""
        return self._found("reference", reference_id, PlacedReference, self.references)

    def stoppage(self, stoppage_id: str) -> Stoppage:
        """The stoppage of that id; raises FilmReviewError for an unknown one."""
        return self._found("stoppage", stoppage_id, Stoppage, self.stoppages)

    def blur(self, blur_id: str) -> Blur:
        """The blur of that id; raises FilmReviewError for an unknown one."""
        return self._found("blur", blur_id, Blur, self.blurs)

    def lesson(self, lesson_id: str) -> Lesson:
        """The lesson of that id; raises FilmReviewError for an unknown one."""
        return self._found("lesson", lesson_id, Lesson, self.lessons)

    def _found(self, kind: str, one_id: str, form: type[T], known: Sequence[T]) -> T:
        found = self._by_id.get(one_id)
        if not isinstance(found, form):
            raise unknown(kind, one_id, [one.id for one in known], where=self.path.name)
        return found

    def time_text(self, film_id: str, moment: Moment) -> str:
        """A moment as the time from the start of its film."""
        return self.film(film_id).time_text(moment)

"""The closed set of changes to a review.

A change is a small frozen value that says what a person did. `plan` checks it against the review and gives the edits, forward
and back, with the words that the history keeps; nothing is changed here. `store.Store.apply` makes it so, in one transaction.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from filmreview.colour.value import Colour
from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Fact
from filmreview.facts.region import Region
from filmreview.film.moment import Moment
from filmreview.review import checks
from filmreview.review.crew_changes import RemoveReply, SetLetter, SetOfficial, SetReply
from filmreview.review.edits import Edit, Ids, with_edits
from filmreview.review.lesson_changes import (
    AddBlur,
    EditBlur,
    RemoveBlur,
    RemoveFaceChoice,
    RemoveLesson,
    RemoveOwnCall,
    SetFaceChoice,
    SetLesson,
    SetOwnCall,
)
from filmreview.review.model import (
    CommonMoment,
    CrewResponse,
    FaceChoice,
    FilmRef,
    Game,
    OwnCall,
    PlacedEvent,
    PlacedReference,
    PlacedTag,
    Reply,
    Review,
    TagOfficial,
)
from filmreview.review.plan import Plan, tag_words, unless_same
from filmreview.review.stretch_changes import (
    AddStoppage,
    EditStoppage,
    NameFilm,
    RemoveCommonMoment,
    RemoveStoppage,
    SetCommonMoment,
)


@dataclass(frozen=True)
class CreateGame:
    """The set-up a new review starts with; `store.create` applies it."""

    game: Game

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that put the game in."""
        return Plan((Edit(None, checks.check_game(self.game)),), f"set up {_game_words(self.game)}")


@dataclass(frozen=True)
class EditGame:
    """Another set-up in place of the present one."""

    game: Game

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that replace the game; none when nothing differs."""
        return Plan(unless_same(review.game, checks.check_game(self.game)), f"change the set-up of {_game_words(self.game)}")


@dataclass(frozen=True)
class AddFilm:
    """A film the review refers to from now on. Fields as in `model.FilmRef`."""

    path: str
    size: int
    length: Fraction
    digest: str
    start: Moment
    width: int = 0
    height: int = 0
    beside: str = ""
    what: str = ""

    def plan(self, review: Review, ids: Ids) -> Plan:
        """Edits that add the film; raises FilmReviewError when the same film is there already."""
        for known in review.films:
            if (known.size, known.digest) == (self.size, self.digest):
                raise FilmReviewError("this film is in the review already", where=known.name, todo=f"use it as {known.id}")
        fields = (self.path, self.size, self.length, self.digest, self.start, self.width, self.height, self.beside, self.what)
        film = checks.check_film(FilmRef(ids.next("film"), *fields))
        return Plan((Edit(None, film),), f"add the film {film.name} as {film.id}")


@dataclass(frozen=True)
class MoveFilm:
    """The film is to be found at another path. It is the caller who knows that it is the same film."""

    film: str
    path: str
    beside: str = ""

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that change the film's path."""
        before = review.film(self.film)
        after = replace(before, path=self.path, beside=self.beside)
        return Plan(unless_same(before, after), f"find the film {before.id} at {after.name}")


@dataclass(frozen=True)
class RemoveFilm:
    """The film is no longer part of the review, nor what tied it to another film, nor what was answered for the faces on it."""

    film: str

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that take the film out; raises FilmReviewError while anything lies on it."""
        before = review.film(self.film)
        for thing in review.placed:
            if isinstance(thing, FaceChoice):
                continue
            crew_film = thing.crew.film if isinstance(thing, PlacedTag) and thing.crew else None
            if self.film in (thing.film, crew_film):
                raise FilmReviewError(f"{thing.id} lies on this film", where=before.name, todo="remove what lies on it first")
        tied: list[CommonMoment | FaceChoice] = [one for one in review.commons if self.film in (one.film, one.other)]
        tied += [one for one in review.face_choices if one.film == self.film]
        return Plan((*(Edit(one, None) for one in tied), Edit(before, None)), f"remove the film {before.name}")


@dataclass(frozen=True)
class AddTag:
    """A new tag. Fields as in `model.PlacedTag`; the store gives the id. official: position in the crew whose finding it is."""

    film: str
    moment: Moment
    team: str
    player: str | None
    item: str
    region: Region | None = None
    facts: tuple[Fact, ...] = ()
    note: str = ""
    crew: CrewResponse | None = None
    official: str | None = None

    def plan(self, review: Review, ids: Ids) -> Plan:
        """Edits that add the tag, and whose finding it is where the crew has that position."""
        fields = (self.film, self.moment, self.team, self.player, self.item, self.region, self.facts, self.note, self.crew)
        tag = checks.check_tag(review, PlacedTag(ids.next("tag"), *fields))
        known = any(one.position == self.official for one in review.game.crew)
        whose = (Edit(None, TagOfficial(ids.next("official"), tag.id, self.official)),) if self.official and known else ()
        return Plan((Edit(None, tag), *whose), f"tag {tag_words(review, tag)}")


@dataclass(frozen=True)
class EditTag:
    """The tag of the same id as it is to be; make it with `dataclasses.replace` from the present one."""

    tag: PlacedTag

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that replace the tag; none when nothing differs."""
        before = review.tag(self.tag.id)
        after = checks.check_tag(review, self.tag)
        return Plan(unless_same(before, after), f"change {tag_words(review, after)}")


@dataclass(frozen=True)
class RemoveTag:
    """The tag goes, and with it whose it was, the replies to it and the own call on it."""

    tag: str

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that take the tag out."""
        before = review.tag(self.tag)
        lists: tuple[Iterable[TagOfficial | Reply | OwnCall], ...] = (review.officials, review.replies, review.own_calls)
        tied = [one for things in lists for one in things if one.tag == before.id]
        edits = (*(Edit(one, None) for one in tied), Edit(before, None))
        return Plan(edits, f"remove {tag_words(review, before)}")


@dataclass(frozen=True)
class SetCrew:
    """How the crew dealt with a tag; None takes the mark away."""

    tag: str
    crew: CrewResponse | None

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that set the crew response."""
        before = review.tag(self.tag)
        if self.crew is not None:
            checks.check_crew(review, before, self.crew)
        mark = self.crew.mark if self.crew else "not marked"
        return Plan(unless_same(before, replace(before, crew=self.crew)), f"crew on {before.id}: {mark}")


@dataclass(frozen=True)
class AddEvent:
    """A new event. Fields as in `model.PlacedEvent`; the store gives the id."""

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

    def plan(self, review: Review, ids: Ids) -> Plan:
        """Edits that add the event."""
        fields = (self.film, self.moment, self.what, self.team, self.player, self.length, self.before_start, self.note)
        event = checks.check_event(review, PlacedEvent(ids.next("event"), *fields, self.kind, self.charged_to))
        return Plan((Edit(None, event),), f"event {_event_words(review, event)}")


@dataclass(frozen=True)
class EditEvent:
    """The event of the same id as it is to be."""

    event: PlacedEvent

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that replace the event; none when nothing differs."""
        before = review.event(self.event.id)
        after = checks.check_event(review, self.event)
        return Plan(unless_same(before, after), f"change {_event_words(review, after)}")


@dataclass(frozen=True)
class RemoveEvent:
    """The event goes."""

    event: str

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that take the event out."""
        before = review.event(self.event)
        return Plan((Edit(before, None),), f"remove {_event_words(review, before)}")


@dataclass(frozen=True)
class SetReference:
    """A region of known colour in one view: a new one, or another in place of the one already at that moment."""

    film: str
    moment: Moment
    region: Region
    colour: Colour

    def plan(self, review: Review, ids: Ids) -> Plan:
        """Edits that add or replace the reference of this film and moment."""
        place = (self.film, self.moment)
        before = next((one for one in review.references if (one.film, one.moment) == place), None)
        one_id = before.id if before else ids.next("reference")
        after = checks.check_reference(review, PlacedReference(one_id, self.film, self.moment, self.region, self.colour))
        words = f"point at {self.colour.name} at {review.time_text(self.film, self.moment)}"
        return Plan(unless_same(before, after), words)


@dataclass(frozen=True)
class RemoveReference:
    """The reference goes."""

    reference: str

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that take the reference out."""
        before = review.reference(self.reference)
        words = f"remove the {before.colour.name} at {review.time_text(before.film, before.moment)}"
        return Plan((Edit(before, None),), words)


@dataclass(frozen=True)
class Together:
    """Many changes as one: one transaction, one step of the history, one undo.

    words: what the person did, "" to join the words of each.
    """

    changes: tuple[Change, ...]
    words: str = ""

    def plan(self, review: Review, ids: Ids) -> Plan:
        """The edits of all, each planned on what the ones before it leave."""
        edits: list[Edit] = []
        words: list[str] = []
        for change in self.changes:
            plan = change.plan(review, ids)
            edits.extend(plan.edits)
            words.append(plan.words)
            review = with_edits(review, plan.edits)
        return Plan(tuple(edits), self.words or "; ".join(words))


Change = (
    CreateGame | EditGame | AddFilm | MoveFilm | RemoveFilm | AddTag | EditTag | RemoveTag | SetCrew
    | AddEvent | EditEvent | RemoveEvent | SetReference | RemoveReference | SetOfficial | SetReply | RemoveReply | SetLetter
    | AddStoppage | EditStoppage | RemoveStoppage | NameFilm | SetCommonMoment | RemoveCommonMoment | SetOwnCall | RemoveOwnCall
    | AddBlur | EditBlur | RemoveBlur | SetFaceChoice | RemoveFaceChoice | SetLesson | RemoveLesson | Together
)  # fmt: skip


def _game_words(game: Game) -> str:
    return f"{game.home.name} against {game.visitor.name}, {game.day.isoformat()}"


def _event_words(review: Review, event: PlacedEvent) -> str:
    who = " ".join(part for part in (event.team, event.player) if part is not None)
    return f"{event.id}: {event.what}{', ' + who if who else ''} at {review.time_text(event.film, event.moment)}"

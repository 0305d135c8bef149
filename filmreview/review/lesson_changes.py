"""The changes about learning: the own calls of an official, the faces that are blurred, and the lessons made.

`changes` is the whole closed set.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from itertools import pairwise

from filmreview.errors import FilmReviewError, unknown
from filmreview.film.moment import Moment
from filmreview.review.checks import check_moment, check_region, check_stretch
from filmreview.review.crew_changes import check_length, one_line
from filmreview.review.edits import Edit, Ids
from filmreview.review.model import FACE_CHOICES, PUT_DOWN, Blur, BlurAt, FaceChoice, Lesson, OwnCall, Review
from filmreview.review.plan import Plan, unless_same
from filmreview.rules.setting import CONSEQUENCES, RULINGS


@dataclass(frozen=True)
class SetOwnCall:
    """What an official called on a tag himself, in place of his earlier call. Fields as in `model.OwnCall`."""

    tag: str
    ruling: str
    consequence: str = ""
    words: str = ""

    def plan(self, review: Review, ids: Ids) -> Plan:
        """Edits that keep the call; raises FilmReviewError for a word that is no ruling or consequence."""
        tag, before = review.tag(self.tag), review.own_call_on(self.tag)
        if self.ruling not in RULINGS:
            raise unknown("ruling", self.ruling, RULINGS, where=tag.id)
        if self.consequence and self.consequence not in CONSEQUENCES:
            raise unknown("consequence", self.consequence, CONSEQUENCES, where=tag.id)
        check_length(self.words, tag.id)
        one_id = before.id if before else ids.next("own_call")
        after = OwnCall(one_id, tag.id, self.ruling, self.consequence, self.words)
        return Plan(unless_same(before, after), f"own call on {tag.id}: {self.ruling}")


@dataclass(frozen=True)
class RemoveOwnCall:
    """The own call on a tag goes."""

    tag: str

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that take the call out; none when there is none."""
        before = review.own_call_on(review.tag(self.tag).id)
        return Plan(() if before is None else (Edit(before, None),), f"remove the own call on {self.tag}")


@dataclass(frozen=True)
class AddBlur:
    """A face to blur. Fields as in `model.Blur`; the store gives the id."""

    film: str
    regions: tuple[BlurAt, ...]
    end: Moment
    origin: str = "by hand"

    def plan(self, review: Review, ids: Ids) -> Plan:
        """Edits that add the blur."""
        after = _checked(review, Blur(ids.next("blur"), self.film, self.regions, self.end, self.origin))
        return Plan((Edit(None, after),), f"blur {_words(review, after)}")


@dataclass(frozen=True)
class EditBlur:
    """The blur of the same id as it is to be."""

    blur: Blur

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that replace the blur; none when nothing differs."""
        before, after = review.blur(self.blur.id), _checked(review, self.blur)
        return Plan(unless_same(before, after), f"change the blur {_words(review, after)}")


@dataclass(frozen=True)
class RemoveBlur:
    """The blur goes."""

    blur: str

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that take the blur out."""
        before = review.blur(self.blur)
        return Plan((Edit(before, None),), f"remove the blur {_words(review, before)}")


@dataclass(frozen=True)
class SetFaceChoice:
    """What a person answered for the faces of a stretch, in place of the answer for the very same stretch. Fields as in
    `model.FaceChoice`."""

    film: str
    start: Moment
    end: Moment
    choice: str

    def plan(self, review: Review, ids: Ids) -> Plan:
        """Edits that keep the choice; raises FilmReviewError for an unknown one or a stretch outside the film."""
        film = review.film(self.film)
        check_stretch(film, self.start, self.end)
        if self.choice not in FACE_CHOICES:
            raise unknown("choice for the faces", self.choice, FACE_CHOICES, where=film.name)
        place = (self.film, self.start, self.end)
        before = next((one for one in review.face_choices if (one.film, one.start, one.end) == place), None)
        after = FaceChoice(before.id if before else ids.next("face_choice"), *place, self.choice)
        times = f"{film.time_text(self.start)} to {film.time_text(self.end)}"
        return Plan(unless_same(before, after), f"faces from {times}: {self.choice}")


@dataclass(frozen=True)
class RemoveFaceChoice:
    """The choice for the faces of a stretch goes: they are to be asked about again."""

    face_choice: str

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that take the choice out; raises FilmReviewError for an unknown one."""
        before = next((one for one in review.face_choices if one.id == self.face_choice), None)
        if before is None:
            raise unknown("choice", self.face_choice, [one.id for one in review.face_choices], where=review.path.name)
        return Plan((Edit(before, None),), f"ask again about the faces at {review.time_text(before.film, before.start)}")


@dataclass(frozen=True)
class SetLesson:
    """A lesson as it was made. lesson: the id of the one it takes the place of, None for a new one. plan: JSON text."""

    lesson: str | None
    title: str
    text: str

    def plan(self, review: Review, ids: Ids) -> Plan:
        """Edits that keep the lesson; raises FilmReviewError for one without a title or whose plan is no JSON."""
        if not self.title.strip():
            raise FilmReviewError("the lesson has no title", where=review.path.name)
        try:
            json.loads(self.text)
        except ValueError as error:
            raise FilmReviewError(f"the plan of the lesson is no JSON: {error}", where=self.title) from error
        before = None if self.lesson is None else review.lesson(self.lesson)
        after = Lesson(before.id if before else ids.next("lesson"), one_line(self.title, "title"), self.text)
        return Plan(unless_same(before, after), f"lesson {after.id}: {after.title}")


@dataclass(frozen=True)
class RemoveLesson:
    """The lesson goes; what was written of it stays where it is."""

    lesson: str

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that take the lesson out."""
        before = review.lesson(self.lesson)
        return Plan((Edit(before, None),), f"remove the lesson {before.id}: {before.title}")


def _checked(review: Review, one: Blur) -> Blur:
    film = review.film(one.film)
    if not one.regions:
        raise FilmReviewError("the blur has no region", where=one.id, todo="give a moment and a box")
    for at in one.regions:
        check_moment(film, at.moment)
        check_region(film, at.box)
    if any(later.moment.seconds <= earlier.moment.seconds for earlier, later in pairwise(one.regions)):
        raise FilmReviewError("the regions of the blur do not lie in order of time", where=one.id)
    check_stretch(film, one.regions[-1].moment, one.end)
    if one.origin not in PUT_DOWN:
        raise unknown("origin of a blur", one.origin, PUT_DOWN, where=one.id)
    return one


def _words(review: Review, one: Blur) -> str:
    return f"{one.id} from {review.time_text(one.film, one.start)} to {review.film(one.film).time_text(one.end)}"

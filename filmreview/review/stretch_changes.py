"""The changes about stretches of film: stoppages, and how the films of one game lie to each other.

`changes` is the whole closed set.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from filmreview.errors import FilmReviewError, unknown
from filmreview.film.moment import Moment
from filmreview.review.checks import check_moment, check_stretch
from filmreview.review.crew_changes import one_line
from filmreview.review.edits import Edit, Ids
from filmreview.review.model import PUT_DOWN, STOPPAGE_KINDS, CommonMoment, Review, Stoppage
from filmreview.review.plan import Plan, unless_same


@dataclass(frozen=True)
class AddStoppage:
    """A new stoppage. Fields as in `model.Stoppage`; the store gives the id."""

    film: str
    start: Moment
    end: Moment
    kind: str = ""
    note: str = ""
    origin: str = "by hand"

    def plan(self, review: Review, ids: Ids) -> Plan:
        """Edits that add the stoppage."""
        fields = (self.film, self.start, self.end, self.kind, self.note, self.origin)
        after = _checked(review, Stoppage(ids.next("stoppage"), *fields))
        return Plan((Edit(None, after),), f"stoppage {_words(review, after)}")


@dataclass(frozen=True)
class EditStoppage:
    """The stoppage of the same id as it is to be."""

    stoppage: Stoppage

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that replace the stoppage; none when nothing differs."""
        before, after = review.stoppage(self.stoppage.id), _checked(review, self.stoppage)
        return Plan(unless_same(before, after), f"change the stoppage {_words(review, after)}")


@dataclass(frozen=True)
class RemoveStoppage:
    """The stoppage goes."""

    stoppage: str

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that take the stoppage out."""
        before = review.stoppage(self.stoppage)
        return Plan((Edit(before, None),), f"remove the stoppage {_words(review, before)}")


@dataclass(frozen=True)
class NameFilm:
    """Which part or angle of the game a film shows, in words; "" to leave it untold."""

    film: str
    what: str

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that set what the film shows."""
        before = review.film(self.film)
        after = replace(before, what=one_line(self.what, before.name))
        return Plan(unless_same(before, after), f"{before.id} shows {after.what or 'what is not told'}")


@dataclass(frozen=True)
class SetCommonMoment:
    """One instant of the game on two films, in place of the one they had. Fields as in `model.CommonMoment`."""

    film: str
    moment: Moment
    other: str
    other_moment: Moment

    def plan(self, review: Review, ids: Ids) -> Plan:
        """Edits that tie the two films; raises FilmReviewError for one film with itself or a moment outside its film."""
        if self.film == self.other:
            raise FilmReviewError("a film shares every moment with itself", where=self.film, todo="give two films")
        for film, moment in ((self.film, self.moment), (self.other, self.other_moment)):
            check_moment(review.film(film), moment)
        known = review.common_of(self.film, self.other)
        before = next((one for one in review.commons if known is not None and one.id == known.id), None)
        one_id = before.id if before else ids.next("common")
        after = CommonMoment(one_id, self.film, self.moment, self.other, self.other_moment)
        here, there = review.time_text(self.film, self.moment), review.time_text(self.other, self.other_moment)
        return Plan(unless_same(before, after), f"{here} of {self.film} is {there} of {self.other}")


@dataclass(frozen=True)
class RemoveCommonMoment:
    """The two films are no longer tied."""

    common: str

    def plan(self, review: Review, ids: Ids) -> Plan:  # noqa: ARG002 - every change has this form
        """Edits that take the common moment out; raises FilmReviewError for an unknown one."""
        before = next((one for one in review.commons if one.id == self.common), None)
        if before is None:
            raise unknown("shared instant", self.common, [one.id for one in review.commons], where=review.path.name)
        return Plan((Edit(before, None),), f"untie {before.film} and {before.other}")


def _checked(review: Review, one: Stoppage) -> Stoppage:
    check_stretch(review.film(one.film), one.start, one.end)
    if one.kind and one.kind not in STOPPAGE_KINDS:
        raise unknown("kind of stoppage", one.kind, STOPPAGE_KINDS, where=one.id)
    if one.origin not in PUT_DOWN:
        raise unknown("origin of a stoppage", one.origin, PUT_DOWN, where=one.id)
    return replace(one, note=one_line(one.note, one.id))


def _words(review: Review, one: Stoppage) -> str:
    times = f"{review.time_text(one.film, one.start)} to {review.film(one.film).time_text(one.end)}"
    return f"{one.id}: {one.kind + ', ' if one.kind else ''}{times}"

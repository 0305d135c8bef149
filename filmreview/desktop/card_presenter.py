"""The card without a screen: the draft of one tag, its measured colour, its live ruling, and keeping or dropping it.

In: what the person does (a region, a typed line, an answer, a crew mark). Out: events that say what changed ("open", "line",
"measured", "ruling"), and one change to the review when the tag is kept. Measuring and ruling run as jobs; an answer that
comes late, for a draft that has moved on, is dropped. While a tag is on its way to the disk the draft stays as it is: what
would begin or open another tag waits until it is kept, and is forgotten when it is refused.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.draft import NEW, Draft, draft_of, plain_line, with_fact
from filmreview.desktop.events import Events
from filmreview.errors import FilmReviewError, Stopped
from filmreview.facts.fact import Fact, Value
from filmreview.facts.region import Region
from filmreview.film.frame import Frame
from filmreview.film.moment import Moment
from filmreview.measure.colour import MeasuredColour, measure_colour
from filmreview.progress import Progress
from filmreview.review.changes import AddTag, EditTag
from filmreview.review.line import Understood, completions, parse_line
from filmreview.rules.ruling import Ruling


class CardPresenter:
    """What the card knows. draft: None while the card is closed. keeping: True while the draft is on its way to the disk.
    last_kept: the id of the tag kept last."""

    def __init__(self, desk: Desk) -> None:
        self.events = Events("open", "line", "measured", "ruling", "keeping", "refused", "kept", "resumed")
        self._desk = desk
        self._frame: Frame | None = None
        self.draft: Draft | None = None
        self.measured: MeasuredColour | None = None
        self.measuring = False
        self.ruling: Ruling | None = None
        self.not_ruled = ""
        self.last_kept = ""
        self.keeping = False
        self._waiting: list[Callable[[], object]] = []
        desk.events.on("review", self._review_changed)

    @property
    def is_new(self) -> bool:
        """True while the draft is no tag yet."""
        return self.draft is not None and self.draft.id == NEW

    @property
    def unsaved(self) -> bool:
        """True when something on the card would be lost by putting another tag in its place."""
        draft, review = self.draft, self._desk.review
        if draft is None or review is None:
            return False
        if self.is_new:
            return bool(draft.line.strip() or draft.by_hand)
        return not draft.can_be_ruled or draft.tag() != review.tag(draft.id)

    def draw(self, frame: Frame, region: Region) -> bool:
        """A region was drawn: it belongs to the tag on the card, or begins a new one where that tag is kept and elsewhere.

        False when the card holds a change to a kept tag that must be kept or dropped first.
        """
        if self.waits(lambda: self.draw(frame, region)):
            return True
        elsewhere = self.draft is not None and not self.is_new and not self._is_at(frame)
        if elsewhere and self.unsaved:
            self._desk.message("keep or drop the change on the card first: Enter or Esc")
            return False
        if elsewhere:
            self.open_new(frame, region)
        else:
            self.set_region(frame, region)
        return True

    def open_new(self, frame: Frame, region: Region | None = None) -> None:
        """Begin a tag at this frame, or give the tag already begun this frame and region."""
        film = self._desk.film_id
        if film is None or self.waits(lambda: self.open_new(frame, region)):
            return
        self._frame = frame
        begun = self.draft if self.is_new else None
        line, understood = (begun.line, begun.understood) if begun else ("", parse_line(""))
        by_hand = begun.by_hand if begun and self._is_at(frame) else ()
        self.draft = Draft(NEW, film, frame.moment, region, line, understood, by_hand=by_hand)
        self.measured = None
        self.events.tell("open")
        self._measure()
        self._rule()

    def open_tag(self, tag_id: str, frame: Frame | None = None) -> None:
        """Open a kept tag to change it. frame: the one it is at, when it is on the picture."""
        review = self._desk.review
        if review is None or self.waits(lambda: self.open_tag(tag_id, frame)):
            return
        self._frame = frame
        self.draft = draft_of(review.tag(tag_id))
        self.measured = None
        self.events.tell("open")
        self._rule()

    def set_region(self, frame: Frame, region: Region | None) -> None:
        """The region was drawn, moved, reshaped or taken away on this frame."""
        if self.waits(lambda: self.set_region(frame, region)):
            return
        if self.draft is None:
            self.open_new(frame, region)
            return
        self._frame = frame
        by_hand = self.draft.by_hand if self._is_at(frame) else ()
        film = (self._desk.film_id or self.draft.film) if self.is_new else self.draft.film
        self.draft = replace(self.draft, film=film, moment=frame.moment, region=region, measured=(), by_hand=by_hand)
        self.measured = None
        self.events.tell("measured")
        self._measure()
        self._rule()

    def _is_at(self, frame: Frame) -> bool:
        """Whether the draft is at this frame of the film on the picture: moments of two films may be equal."""
        draft = self.draft
        return draft is not None and (draft.film, draft.moment) == (self._desk.film_id, frame.moment)

    def put(self, frame: Frame, fact: Fact) -> bool:
        """A fact was measured by hand on this frame: it belongs to the tag on the card, or begins a new one.

        False when the card holds a tag of another frame that must be kept or dropped first.
        """
        if self.waits(lambda: self.put(frame, fact)):
            return True
        here = self._is_at(frame)
        if self.draft is not None and not here and self.unsaved:
            self._desk.message("the card's tag is at another moment: keep or drop it first, Enter or Esc")
            return False
        if not here:
            self.open_new(frame)
        if self.draft is None:
            return False
        others = tuple(one for one in self.draft.by_hand if one.key != fact.key)
        self._take_by_hand((*others, fact))
        return True

    def take_back(self, key: str) -> None:
        """A fact measured by hand is not to count."""
        if self.draft is not None and not self.keeping:
            self._take_by_hand(tuple(one for one in self.draft.by_hand if one.key != key))

    def _take_by_hand(self, facts: tuple[Fact, ...]) -> None:
        assert self.draft is not None, "the card is open"
        self.draft = replace(self.draft, by_hand=facts)
        self.events.tell("measured")
        self._rule()

    def type(self, text: str) -> None:
        """The line as typed so far."""
        if self.draft is None or text == self.draft.line:
            return
        self._take(text, parse_line(text, self._desk.rosters))

    def completions(self) -> tuple[str, ...]:
        """The lines that the last word could become."""
        return completions(self.draft.line, self._desk.rosters) if self.draft else ()

    def set_who(self, team: str | None, player: str | None) -> None:
        """Whose it is, from the widgets."""
        self._write(lambda said: replace(said, team=team, player=player))

    def set_item(self, item: str | None) -> None:
        """Which item, from the widget."""
        self._write(lambda said: replace(said, item=item))

    def answer(self, key: str, value: Value | None) -> None:
        """A fact seen by the eye: an answer to a question, or a measured value overruled; None takes it away."""
        self._write(lambda said: with_fact(said, key, value))

    def set_crew(self, mark: str | None, did: str = "") -> None:
        """How the crew dealt with it."""
        if self.draft is not None and not self.keeping:
            self.draft = replace(self.draft, did=did)
            self._write(lambda said: replace(said, crew=mark))

    def set_crew_moment(self, film: str, moment: Moment) -> None:
        """When the crew acted."""
        if self.draft is not None and self.draft.understood.crew is not None and not self.keeping:
            other = film if film != self.draft.film else None
            self.draft = replace(self.draft, crew_moment=moment, crew_film=other)
            self.events.tell("line")

    def set_note(self, note: str) -> None:
        """The note."""
        self._write(lambda said: replace(said, note=note.replace('"', "'")))

    def keep(self) -> bool:
        """Put the tag on its way to the disk; the card closes when it is there. False when it was refused already. What
        stands in the way is told as a message, and the draft stays."""
        draft = self.draft
        if draft is None or self.keeping:
            return False
        if not draft.understood.complete:
            self._desk.message("not kept yet: " + "; ".join(draft.asks))
            return False
        self.keeping = True
        self._desk.forget("measure", "rule")  # what is not known yet does not come into the tag that is kept
        self.events.tell("keeping")
        return self._desk.change(_change(draft), lambda touched: self._kept(draft, touched), self._not_kept)

    def _kept(self, draft: Draft, touched: tuple[str, ...]) -> None:
        self.keeping = False
        self.last_kept = touched[0] if touched else draft.id
        self._desk.message(f"kept: {draft.understood.says}")
        if self.draft is not None:
            self._close()
        self.events.tell("kept")
        waiting, self._waiting = self._waiting, []
        for do in waiting:
            do()
        if waiting and self.draft is not None:
            self.events.tell("resumed")

    def _not_kept(self, error: FilmReviewError) -> None:
        self.keeping = False
        self._waiting.clear()
        self._desk.message(f"not kept: {error}")
        if self.draft is not None and not self.draft.measured:
            self._measure()
        self._review_changed()
        self.events.tell("refused")

    def waits(self, do: Callable[[], object]) -> bool:
        """True while a tag is being kept: it is done after that."""
        if self.keeping:
            self._waiting.append(do)
        return self.keeping

    def drop(self) -> None:
        """Drop the draft; a kept tag stays as it was."""
        if self.draft is not None and not self.keeping:
            self._close()

    def _close(self) -> None:
        self.draft, self.measured, self.ruling, self._frame, self.measuring = None, None, None, None, False
        self._desk.forget("measure", "rule")
        self.events.tell("open")

    def _write(self, edit: Callable[[Understood], Understood]) -> None:
        if self.draft is None:
            return
        text = plain_line(edit(self.draft.understood))
        self._take(" ".join([text, *self.draft.understood.unread]), None)

    def _take(self, text: str, understood: Understood | None) -> None:
        assert self.draft is not None, "the card is open"
        if self.keeping:
            self.events.tell("line")  # the widgets show again what is being kept
            return
        before = self.draft
        self.draft = replace(before, line=text, understood=understood or parse_line(text, self._desk.rosters))
        self.events.tell("line")
        if self.draft.understood != before.understood or self.draft.did != before.did:
            self._rule()

    def _measure(self) -> None:
        draft, frame = self.draft, self._frame
        self.measuring = draft is not None and draft.region is not None and frame is not None
        if draft is None or frame is None or draft.region is None:
            self._desk.forget("measure")
            return
        region = draft.region

        def work(progress: Progress) -> MeasuredColour:
            try:
                return self._desk.measure(frame, region, progress)
            except Stopped:
                raise
            except FilmReviewError as refused:
                if self._desk.white_of(frame.moment, region) is None:
                    raise
                return _only_seen(frame, region, str(refused))

        self._desk.start(work, self._take_measured, self._not_measured, "measure")

    def _take_measured(self, measured: MeasuredColour) -> None:
        if self.draft is None:
            return
        self.measuring = False
        self.measured = measured
        self.draft = replace(self.draft, measured=tuple(measured.facts()))
        self.events.tell("measured")
        self._rule()

    def _not_measured(self, error: FilmReviewError) -> None:
        self.measuring = False
        self.events.tell("measured")
        self._desk.message(str(error))

    def _rule(self) -> None:
        draft = self.draft
        if draft is None or not draft.can_be_ruled:
            self._desk.forget("rule")
            self._take_ruling(None)
            return
        self._desk.rule_with(draft.tag(), self._take_ruling, self._not_ruled)

    def _take_ruling(self, ruling: Ruling | None) -> None:
        self.ruling, self.not_ruled = ruling, ""
        self.events.tell("ruling")

    def _not_ruled(self, error: FilmReviewError) -> None:
        self.ruling, self.not_ruled = None, str(error)
        self.events.tell("ruling")

    def _review_changed(self) -> None:
        draft, review = self.draft, self._desk.review
        if draft is None or (self.keeping and review is not None):
            return
        if review is None or (draft.id != NEW and all(tag.id != draft.id for tag in review.tags)):
            self._close()
        else:
            self._rule()


def _only_seen(frame: Frame, region: Region, why_not: str) -> MeasuredColour:
    """How well a region is seen, and why its colour is not told."""
    seen = measure_colour(frame.exact_picture(), region)
    return MeasuredColour(None, why_not, None, (), seen.pixels, seen.clipped, seen.view)


def _change(draft: Draft) -> AddTag | EditTag:
    tag = draft.tag()
    if draft.id != NEW:
        return EditTag(tag)
    return AddTag(tag.film, tag.moment, tag.team, tag.player, tag.item, tag.region, tag.facts, tag.note, tag.crew)

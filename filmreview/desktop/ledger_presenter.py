"""The ledger without a screen: one row a finding, filtered by what is typed, and the edits made in its cells."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from filmreview.desktop.desk_presenter import Desk
from filmreview.errors import FilmReviewError
from filmreview.film.moment import format_time
from filmreview.review.changes import Change, EditTag, RemoveTag, SetCrew, Together
from filmreview.review.crew_changes import SetOfficial
from filmreview.review.model import CrewResponse, FilmRef, PlacedTag, Review
from filmreview.review.own_calls import shown
from filmreview.review.ruled import Findings
from filmreview.rules.ruling import Ruling

NOT_MARKED = "not marked"
WHOLE_CREW = "whole crew"
"""Stands for the official of a finding that is nobody's alone."""


@dataclass(frozen=True)
class LedgerRow:
    """One finding as a row. order: of its film in the review. seconds: from the start of its film. ruling: the word, "" while
    it is being ruled or hidden."""

    tag: str
    film: str
    order: int
    seconds: Fraction
    time: str
    who: str
    team: str
    player: str
    item: str
    ruling: str
    ahead: bool
    consequence: str
    reference: str
    official: str
    crew: str
    note: str
    hidden: bool = False

    @property
    def ruling_words(self) -> str:
        """The ruling as the row says it: "legal, ahead", "being ruled", "hidden"."""
        if self.hidden:
            return "hidden"
        return (self.ruling or "being ruled") + (", ahead" if self.ahead else "")

    def holds(self, words: Sequence[str]) -> bool:
        """True when every word (folded) stands somewhere in the row."""
        return all(word in self._folded for word in words)

    @cached_property
    def _folded(self) -> str:
        parts = (self.time, self.who, self.item, self.ruling_words, self.consequence, self.reference, self.official, self.crew)
        return " ".join((*parts, self.note)).casefold()


class LedgerPresenter:
    """Rows of the open review and what can be done to them."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._made: tuple[Review | None, Findings | None] = (None, None)
        self._rows: tuple[LedgerRow, ...] = ()
        self._of_tags: dict[str, tuple[_From, LedgerRow]] = {}

    def rows(self) -> tuple[LedgerRow, ...]:
        """One row a tag, in the order of film and time. A row whose tag and ruling stay as they are stays the same object."""
        review, found = self._desk.review, self._desk.findings
        if self._made[0] is not review or self._made[1] is not found:
            sources = _sources(review, found) if review else []
            self._of_tags = {one.tag.id: self._row_again(one) for one in sources}
            rows = [row for _source, row in self._of_tags.values()]
            self._made, self._rows = (review, found), tuple(sorted(rows, key=lambda row: (row.order, row.seconds)))
        return self._rows

    def _row_again(self, source: _From) -> tuple[_From, LedgerRow]:
        known = self._of_tags.get(source.tag.id)
        return known if known is not None and known[0].says_the_same(source) else (source, _row(source))

    def summary(self) -> str:
        """One line: how many, and how they were ruled."""
        rows = self.rows()
        counts = [(word, sum(row.ruling == word for row in rows)) for word in ("illegal", "legal", "cannot be told")]
        head = f"{len(rows)} finding" + ("" if len(rows) == 1 else "s")
        return ", ".join([head, *(f"{count} {word}" for word, count in counts if count)]) + self._penalty_words()

    def _penalty_words(self) -> str:
        found = self._desk.findings
        penalties = found.rulings.penalties if found is not None else ()  # events alone may bring one
        return "".join(f"; {one.count} {one.kind} to {one.team}" for one in penalties)

    def set_crew(self, tag_ids: Sequence[str], mark: str) -> bool:
        """The crew mark chosen for these rows, as one change; NOT_MARKED takes it away. True when it was taken."""
        tags = [tag for one in tag_ids if (tag := self._tag(one))]
        changes = tuple(SetCrew(tag.id, _crew_with(tag, mark)) for tag in tags)
        return self._change_all(changes, f"crew mark: {mark}", f"crew mark of {len(changes)} findings: {mark}")

    @property
    def films(self) -> int:
        """How many films the review has."""
        return len(self._desk.review.films) if self._desk.review else 0

    @property
    def officials(self) -> tuple[str, ...]:
        """Whose a finding can be: the whole crew's, or that of a position of the crew."""
        review = self._desk.review
        return (WHOLE_CREW, *(one.position for one in (review.game.crew if review else ())))

    def set_official(self, tag_ids: Sequence[str], position: str) -> bool:
        """Whose findings these are, as one change. True when it was taken."""
        wanted = None if position == WHOLE_CREW else position
        changes = tuple(SetOfficial(tag.id, wanted) for one in tag_ids if (tag := self._tag(one)))
        many = f"whose {len(changes)} findings these are: {position}"
        return self._change_all(changes, f"whose finding it is: {position}", many)

    def set_note(self, tag_id: str, note: str) -> bool:
        """The note typed in a row."""
        tag = self._tag(tag_id)
        return tag is not None and self._desk.try_change(EditTag(replace(tag, note=note)))

    def remove(self, tag_ids: Sequence[str]) -> bool:
        """Take these tags out of the review, as one change."""
        changes = tuple(RemoveTag(one) for one in tag_ids)
        back = f"{len(changes)} tags removed; undo brings them back"
        return self._change_all(changes, "1 tag removed; undo brings it back", f"remove {len(changes)} tags", back)

    def _change_all(self, changes: Sequence[Change], one: str, many: str, said: str = "") -> bool:
        """Make these changes as one, called `many` where they are several, and say what was done. one: said of a single one,
        said: of several, where that is not what it is called."""
        if not changes:
            return False
        change, done = (changes[0], one) if len(changes) == 1 else (Together(tuple(changes), many), said or many)
        return self._desk.try_change(change, lambda _ids: self._desk.message(done))

    def _tag(self, tag_id: str) -> PlacedTag | None:
        review = self._desk.review
        if review is None:
            return None
        try:
            return review.tag(tag_id)
        except FilmReviewError as error:
            self._desk.message(str(error))
            return None


def _crew_with(tag: PlacedTag, mark: str) -> CrewResponse | None:
    if mark == NOT_MARKED:
        return None
    return replace(tag.crew, mark=mark) if tag.crew else CrewResponse(mark)


def words_of(text: str) -> tuple[str, ...]:
    """The words a filter looks for."""
    return tuple(text.casefold().split())


@dataclass(frozen=True)
class _From:
    """What a row is made from. said: of the ruling, None while there is none."""

    review: Review
    tag: PlacedTag
    film: FilmRef
    order: int
    films: int
    official: str
    hidden: bool
    said: tuple[str, bool, str, str] | None

    def says_the_same(self, other: _From) -> bool:
        """Whether the same row would be made. Values of the review that did not change stay the same objects."""
        same = self.tag is other.tag and self.film is other.film and self.review.game is other.review.game
        beside = (self.order, self.films, self.official, self.hidden, self.said)
        return same and beside == (other.order, other.films, other.official, other.hidden, other.said)


def _sources(review: Review, found: Findings | None) -> list[_From]:
    rulings = {one.tag.id: one.ruling for one in found} if found else {}
    films = {film.id: (film, place) for place, film in enumerate(review.films)}
    officials = {one.tag: one.position for one in review.officials}
    made = []
    for tag in review.tags:
        hidden = not shown(review, tag.id)
        said = None if hidden else _said(rulings.get(tag.id))
        made.append(_From(review, tag, *films[tag.film], len(films), officials.get(tag.id, WHOLE_CREW), hidden, said))
    return made


def _said(ruling: Ruling | None) -> tuple[str, bool, str, str] | None:
    return (ruling.ruling, bool(ruling.ahead), ruling.consequence, ruling.reference) if ruling else None


def _row(source: _From) -> LedgerRow:
    review, tag, film = source.review, source.tag, source.film
    seconds = film.seconds_of(tag.moment)
    ruling, ahead, consequence, reference = source.said or ("", False, "", "")
    return LedgerRow(
        tag=tag.id,
        film=tag.film,
        order=source.order,
        seconds=seconds,
        time=format_time(seconds) if source.films == 1 else f"{film.what or film.id} {format_time(seconds)}",
        who=who_words(review, tag),
        team=tag.team,
        player=tag.player or "",
        item=tag.item,
        ruling=ruling,
        ahead=ahead,
        consequence=consequence,
        reference=reference,
        official=source.official,
        crew=tag.crew.mark if tag.crew else NOT_MARKED,
        note=tag.note,
        hidden=source.hidden,
    )


def who_words(review: Review, tag: PlacedTag) -> str:
    """Whose it is: "Thrunnockby 14", or "Thrunnockby, number not read"."""
    name = review.game.team(tag.team).name
    return f"{name} {tag.player}" if tag.player else f"{name}, number not read"

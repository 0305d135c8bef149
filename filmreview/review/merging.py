"""Two observers of one game: another observer's tags beside one's own, and taking them over.

In: the findings of both reviews. Out: pairs, the ones that differ first, and one change that takes what was chosen. Pure: the
other review is only read. A film is the same when its size and the digest of its parts are; names and paths do not matter.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import islice

from filmreview.errors import FilmReviewError
from filmreview.facts.items import TEAMS
from filmreview.facts.region import Box
from filmreview.measure.shape import bounds_of
from filmreview.review.changes import AddTag, EditTag, Together
from filmreview.review.facts_beside import NOT_SAID, FactBeside, colour_names, facts_beside
from filmreview.review.model import TEAM_FACTS, CrewResponse, PlacedEvent, PlacedTag, Review, Team
from filmreview.review.own_calls import HIDDEN, shown
from filmreview.review.ruled import Finding, Findings

WITHIN = Fraction(10)
"""Seconds: two tags of the same thing on the same player that lie no further apart are one observation of two people."""
SAME_INSTANT = Fraction(1)
"""Seconds: regions that cover each other this near are one observation, even if item or number were read differently."""
LEAST_COVER = 0.5
"""Part of the smaller region that the two must share for that."""
RULING, FACTS, CREW, WHOSE, ITEM, NOTE = "ruling", "facts", "crew mark", "whose it is", "item", "note"
ONLY_MINE, ONLY_THEIRS = "only mine", "only theirs"
DIFFERENCES: tuple[str, ...] = (RULING, WHOSE, ITEM, FACTS, CREW, ONLY_THEIRS, ONLY_MINE, NOTE)
"""What two observers can differ in, the gravest first."""


@dataclass(frozen=True)
class Pair:
    """One observation: my tag, theirs, or both. differs: of DIFFERENCES, in that order; empty when both say the same.

    rulings: mine and theirs, "" where there is no tag, HIDDEN while it may not be seen. facts: the keys on which they differ.
    time: on my film, in seconds from its start.
    """

    mine: PlacedTag | None
    theirs: PlacedTag | None
    film: str
    time: Fraction
    differs: tuple[str, ...]
    rulings: tuple[str, str]
    facts: tuple[FactBeside, ...] = ()


@dataclass(frozen=True)
class Beside:
    """Two reviews side by side. who: the other observer. films: their film id -> mine. pairs: the ones that differ first.
    told: what else differs between the reviews, a line each. whose: their tag -> the position whose finding it is."""

    who: str
    films: Mapping[str, str]
    pairs: tuple[Pair, ...]
    told: tuple[str, ...] = ()
    whose: Mapping[str, str] = field(default_factory=dict)

    @property
    def differing(self) -> tuple[Pair, ...]:
        """The pairs that differ in anything."""
        return tuple(one for one in self.pairs if one.differs)

    @property
    def missing(self) -> tuple[Pair, ...]:
        """What only they have."""
        return tuple(one for one in self.pairs if one.mine is None)


def beside(mine: Findings, theirs: Findings, within: Fraction = WITHIN) -> Beside:
    """Lay another observer's findings beside one's own. within: seconds that two tags of one thing may lie apart.

    Raises FilmReviewError when the other review is of another game, or shares no film with this one.
    """
    films = same_films(mine.review, theirs.review)
    placed = [tag for tag in theirs.review.tags if tag.film in films]
    matches = _matched(mine.review, theirs.review, placed, films, within)
    my_rulings, their_rulings = _by_tag(mine), _by_tag(theirs)
    pairs = [_pair(mine.review, one, other, films, my_rulings, their_rulings) for one, other in matches]
    whose = {one.tag: one.position for one in theirs.review.officials}
    told = _told(mine.review, theirs.review, films)
    return Beside(who_of(theirs.review), films, tuple(sorted(pairs, key=_order)), told, whose)


def who_of(review: Review) -> str:
    """Who made a review, as its set-up says."""
    return review.game.observer.strip() or "the other observer"


def same_films(mine: Review, theirs: Review) -> Mapping[str, str]:
    """Their film id -> mine, of the films that both have. Raises FilmReviewError when there is none, or the games differ."""
    ours, other = mine.game, theirs.game
    where = theirs.path.name
    if theirs.path == mine.path:
        raise FilmReviewError("this is the review itself", where=where, todo="choose the other observer's file")
    known = {(film.size, film.digest): film.id for film in mine.films}
    films = {film.id: known[film.size, film.digest] for film in theirs.films if (film.size, film.digest) in known}
    if not films:
        raise FilmReviewError("it is of other films than this review", where=where, todo="both must be of the same recording")
    if ours.day != other.day:
        raise FilmReviewError(
            f"its game was on {other.day}, this one on {ours.day}", where=where, todo="set the same day in both reviews"
        )
    if _folded(ours.home.name) == _folded(other.visitor.name) or _folded(ours.visitor.name) == _folded(other.home.name):
        raise FilmReviewError("it has home and visitor the other way round", where=where, todo="set them up alike first")
    return films


def take(laid: Beside, mine: Review, chosen: Iterable[Pair]) -> Together:
    """The one change that takes their tags of the chosen pairs; a tag of mine keeps its id, whose it is and its replies.

    Raises FilmReviewError when nothing is to be taken.
    """
    taken = [one for one in chosen if one.theirs is not None]
    if not taken:
        raise FilmReviewError("nothing of theirs was chosen", todo="choose what to take")
    changes = tuple(_taken(laid, mine, pair, pair.theirs) for pair in taken if pair.theirs is not None)
    many = f"{len(changes)} tag{'s' if len(changes) > 1 else ''}"
    return Together(changes, f"take {many} from {laid.who}")


def _taken(laid: Beside, mine: Review, pair: Pair, theirs: PlacedTag) -> AddTag | EditTag:
    film, crew = laid.films[theirs.film], _crew_here(theirs, laid.films)
    if pair.mine is not None:
        return EditTag(replace(theirs, id=pair.mine.id, film=film, crew=crew))
    mine.film(film)
    what = (theirs.team, theirs.player, theirs.item, theirs.region, theirs.facts, theirs.note, crew)
    return AddTag(film, theirs.moment, *what, laid.whose.get(theirs.id))


def _crew_here(theirs: PlacedTag, films: Mapping[str, str]) -> CrewResponse | None:
    """Their crew mark on my films; its moment is left out where it lies on a film that is not here."""
    crew = theirs.crew
    if crew is None or crew.film is None:
        return crew
    here = films.get(crew.film)
    if here is None:
        return replace(crew, film=None, moment=None)
    return replace(crew, film=None if here == films[theirs.film] else here)


def _matched(
    mine: Review, theirs: Review, placed: Sequence[PlacedTag], films: Mapping[str, str], within: Fraction
) -> list[tuple[PlacedTag | None, PlacedTag | None]]:
    """Every tag of both, each once: pairs made nearest first, the same thing on the same player before the same place."""
    near = sorted(
        _near(mine, theirs, placed, films, max(within, SAME_INSTANT)), key=lambda found: (found[0], found[1].id, found[2].id)
    )
    same = [pair for pair in near if pair[0] <= within and _whose(pair[1]) == _whose(pair[2])]
    place = [pair for pair in near if pair[0] <= SAME_INSTANT and _cover(pair[1], pair[2]) >= LEAST_COVER]
    left, right = {tag.id for tag in mine.tags}, {tag.id for tag in placed}
    matches: list[tuple[PlacedTag | None, PlacedTag | None]] = []
    for _seconds, one, other in (*same, *place):
        if one.id in left and other.id in right:
            left.remove(one.id)
            right.remove(other.id)
            matches.append((one, other))
    matches += [(tag, None) for tag in mine.tags if tag.id in left]
    return matches + [(None, tag) for tag in placed if tag.id in right]


def _near(
    mine: Review, theirs: Review, placed: Sequence[PlacedTag], films: Mapping[str, str], most: Fraction
) -> Iterator[tuple[Fraction, PlacedTag, PlacedTag]]:
    """Every two tags of one film that lie no further apart than that, with the seconds between them."""
    by_film: dict[str, list[tuple[Fraction, PlacedTag]]] = {}
    for other in placed:
        at = theirs.film(other.film).seconds_of(other.moment)
        by_film.setdefault(films[other.film], []).append((at, other))
    for there in by_film.values():
        there.sort(key=lambda one: one[0])
    for one in mine.tags:
        at = mine.film(one.film).seconds_of(one.moment)
        there = by_film.get(one.film, [])
        first = bisect_left(there, at - most, key=lambda found: found[0])
        for seconds, other in islice(there, first, None):
            if seconds > at + most:
                break
            yield abs(seconds - at), one, other


def _whose(tag: PlacedTag) -> tuple[str, str | None, str]:
    return tag.team, tag.player, tag.item


def _cover(one: PlacedTag, other: PlacedTag) -> float:
    """The part of the smaller region that lies in the other one; 0 without two regions."""
    if one.region is None or other.region is None:
        return 0.0
    a, b = bounds_of(one.region), bounds_of(other.region)
    across = min(a.right, b.right) - max(a.x, b.x)
    down = min(a.bottom, b.bottom) - max(a.y, b.y)
    return max(0, across) * max(0, down) / max(1, min(_area(a), _area(b)))


def _area(box: Box) -> int:
    return box.width * box.height


def _pair(
    review: Review,
    one: PlacedTag | None,
    other: PlacedTag | None,
    films: Mapping[str, str],
    my_rulings: Mapping[str, Finding],
    their_rulings: Mapping[str, Finding],
) -> Pair:
    here = one or other
    assert here is not None, "a pair has a side"
    film = one.film if one else films[here.film]
    mine, theirs = my_rulings.get(one.id) if one else None, their_rulings.get(other.id) if other else None
    see = shown(review, one.id if one else "")
    rulings = (_ruling(mine, one, see), _ruling(theirs, other, see))
    facts = facts_beside(one.facts, other.facts) if one and other else ()
    time = review.film(film).seconds_of(here.moment)
    return Pair(one, other, film, time, _differs(one, other, mine, theirs, facts, see), rulings, facts)


def _ruling(finding: Finding | None, tag: PlacedTag | None, see: bool) -> str:
    if tag is None:
        return ""
    if not see:
        return HIDDEN
    return "" if finding is None else _outcome(finding)


def _outcome(finding: Finding) -> str:
    ruling = finding.ruling
    return ruling.ruling if ruling.consequence in ("none", "cannot be told") else f"{ruling.ruling}, {ruling.consequence}"


def _differs(
    one: PlacedTag | None,
    other: PlacedTag | None,
    mine: Finding | None,
    theirs: Finding | None,
    facts: tuple[FactBeside, ...],
    see: bool,
) -> tuple[str, ...]:
    if one is None or other is None:
        return (ONLY_MINE,) if other is None else (ONLY_THEIRS,)
    found = {
        RULING: see and mine is not None and theirs is not None and _outcome(mine) != _outcome(theirs),
        WHOSE: (one.team, one.player) != (other.team, other.player),
        ITEM: one.item != other.item,
        FACTS: bool(facts),
        CREW: _mark(one) != _mark(other),
        NOTE: one.note.strip() != other.note.strip(),
    }
    return tuple(word for word in DIFFERENCES if found.get(word))


def _mark(tag: PlacedTag) -> str:
    return tag.crew.mark if tag.crew else ""


def _order(pair: Pair) -> tuple[int, str, Fraction]:
    return DIFFERENCES.index(pair.differs[0]) if pair.differs else len(DIFFERENCES), pair.film, pair.time


def _by_tag(found: Findings) -> dict[str, Finding]:
    return {one.tag.id: one for one in found}


def _told(mine: Review, theirs: Review, films: Mapping[str, str]) -> tuple[str, ...]:
    ours, other = mine.game, theirs.game
    pairs = (
        ("rule book", ours.book, other.book), ("level", ours.level or "not said", other.level or "not said"),
        ("adoption", ours.adoption or "none", other.adoption or "none"),
        ("home team", ours.home.name, other.home.name), ("visiting team", ours.visitor.name, other.visitor.name),
    )  # fmt: skip
    lines = [f"{what}: {one} here, {there} in theirs" for what, one, there in pairs if _folded(one) != _folded(there)]
    for side in TEAMS:
        for part in TEAM_FACTS:
            one, there = _kit(ours.team(side), part), _kit(other.team(side), part)
            if one != there:
                lines.append(f"{side} {part.replace('_', ' ')}: {one} here, {there} in theirs")
    left = sum(tag.film not in films for tag in theirs.tags)
    if left:
        lines.append(f"{left} of their tags lie on a film that this review does not have")
    events = sum(not _has_event(mine, theirs, event, films) for event in theirs.events)
    if events:
        lines.append(f"{events} of their events have no like here; only tags are taken over, put events down by hand")
    return tuple(lines)


def _has_event(mine: Review, theirs: Review, event: PlacedEvent, films: Mapping[str, str]) -> bool:
    at = theirs.film(event.film).seconds_of(event.moment)
    return any(
        (one.film, one.what, one.team, one.player) == (films.get(event.film), event.what, event.team, event.player)
        and abs(mine.film(one.film).seconds_of(one.moment) - at) <= WITHIN
        for one in mine.events
    )


def _kit(team: Team, part: str) -> str:
    fact = team.facts.get(part)
    return " and ".join(sorted(colour_names(fact.value))) if fact and isinstance(fact.value, tuple) else NOT_SAID


def _folded(text: str) -> str:
    return " ".join(text.casefold().split())

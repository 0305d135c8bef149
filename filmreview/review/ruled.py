"""Findings: every tag of a review with what the book says of it.

`findings` asks the rules; it is pure and may run anywhere. `keep` also writes the rulings into the review, one for each tag and
version of the program, so that an old review still reads right: where a newer program rules the same facts otherwise, the
finding carries both.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path

from filmreview.facts.fact import Fact, Origin
from filmreview.review.game_time import game_seconds
from filmreview.review.kept import earlier, renewed
from filmreview.review.model import CrewResponse, FilmRef, KeptRuling, PlacedEvent, PlacedTag, Review
from filmreview.review.store import Store
from filmreview.rules.library import adoption_named, book_named
from filmreview.rules.procedures.event import Event
from filmreview.rules.procedures.result import ProcedureResult
from filmreview.rules.ruling import Ruling, Rulings
from filmreview.rules.setting import Setting
from filmreview.rules.situation_ruling import rule_setting
from filmreview.rules.tag import Tag, TeamFacts
from filmreview.rules.todo_words import todo_line

NOTHING_TO_DO = "nothing was to be done: the book allows it"
"""What is said of a wrong call on a thing that the book allows."""
_NOTHING_LEFT = ("as the book asks", "nothing to do", "cannot be told")
_WEIGHT = {Origin.DECLARED: 0, Origin.MEASURED: 1, Origin.SEEN: 2}


@dataclass(frozen=True)
class Finding:
    """A tag, what the book says of it, and what the crew did. time: from the start of its film. could_have_done: what the book
    asks of the crew, "" where nothing was left to do. earlier: what another version of the program ruled of the same facts,
    when it differs."""

    tag: PlacedTag
    ruling: Ruling
    film: FilmRef
    seconds: Fraction
    time: str
    could_have_done: str
    earlier: KeptRuling | None = None

    @property
    def crew(self) -> CrewResponse | None:
        """How the crew dealt with it; None while it is not marked."""
        return self.tag.crew


@dataclass(frozen=True)
class Findings:
    """All findings of a review, in the order of its tags; penalties, choices and the book are in `rulings`. procedure: what the
    events show beside what the book lays down, None when they call for none. disputed: penalties whose readings differ."""

    review: Review
    findings: tuple[Finding, ...]
    rulings: Rulings
    procedure: ProcedureResult | None = None
    disputed: tuple[str, ...] = ()

    def __iter__(self) -> Iterator[Finding]:
        return iter(self.findings)

    def __len__(self) -> int:
        return len(self.findings)

    def of(self, tag_id: str) -> Finding:
        """The finding of a tag; raises FilmReviewError for an unknown one."""
        tag = self.review.tag(tag_id)
        return next(one for one in self.findings if one.tag.id == tag.id)


def findings(review: Review, folders: Sequence[Path] | None = None) -> Findings:
    """Judge everything in the review by the book of its day. folders: with books and adoptions; left out, the user's own.

    Raises FilmReviewError when the book or the adoption is not known.
    """
    game = review.game
    book = book_named(game.book, folders, review.path.name)
    adoption = None if game.adoption is None else adoption_named(game.adoption, book, folders, review.path.name)
    teams = {side: TeamFacts(facts) for side, facts in review.kit.items()}
    tags = tuple(rules_tag(tag) for tag in review.tags)
    events = tuple(rules_event(review, event) for event in review.events)
    ruled = rule_setting(Setting(teams, tags, events, ()), book, game.day, adoption, game.level)
    by_id = {ruling.id: ruling for ruling in ruled.rulings.rulings}
    every = tuple(_finding(review, tag, by_id[tag.id]) for tag in review.tags)
    return Findings(review, every, ruled.rulings, ruled.procedure, ruled.disputed)


def deciding_facts(facts: Iterable[Fact]) -> dict[str, Fact]:
    """The one fact of each key that rules: what the eye saw before what was measured, measured before declared; of two of
    one origin the later one. The others stay in the review."""
    deciding: dict[str, Fact] = {}
    for fact in facts:
        known = deciding.get(fact.key)
        if known is None or _WEIGHT[fact.origin] >= _WEIGHT[known.origin]:
            deciding[fact.key] = fact
    return deciding


def rules_tag(tag: PlacedTag) -> Tag:
    """The tag as the rules take it; a player whose number could not be read has the number ""."""
    return Tag(tag.id, tag.team, tag.player or "", tag.item, deciding_facts(tag.facts))


def rules_event(review: Review, event: PlacedEvent) -> Event:
    """The event as the procedures take it: its time is that of the game's time line (`game_time`)."""
    at = game_seconds(review, event.film, event.moment)
    return Event(event.what, at, event.team, event.player, event.length, event.before_start, event.kind, event.charged_to)


def could_have_done(ruling: Ruling, tag: PlacedTag) -> str:
    """What the book asks of the crew where it was not done, NOTHING_TO_DO where a wrong call was made on what it allows;
    "" where nothing was left to do or the ruling is open."""
    mark = tag.crew.mark if tag.crew else ""
    if mark in _NOTHING_LEFT or ruling.ruling == "cannot be told":
        return ""
    if ruling.ruling == "legal":
        return NOTHING_TO_DO if mark.startswith("wrong") else ""
    return todo_words(ruling, tag)


def todo_words(ruling: Ruling, tag: PlacedTag) -> str:
    """What the book asks and when, in one line: "while the ball is dead: put right at once, or the player leaves".

    Once the wearer has become a player, only what can still be done during play is told.
    """
    in_play = deciding_facts(tag.facts).get("in_play")
    return todo_line(ruling.todo, in_play is not None and in_play.value is True)


def keep(store: Store, found: Findings) -> Findings:
    """Write the rulings into the review where they are new; returns the findings with the rulings kept since."""
    store.keep_rulings(*renewed(found.review, {one.tag.id: one.ruling for one in found}))
    return replace(found, review=replace(found.review, ruled=store.review.ruled))


def _finding(review: Review, tag: PlacedTag, ruling: Ruling) -> Finding:
    film = review.film(tag.film)
    seconds = film.seconds_of(tag.moment)
    could = could_have_done(ruling, tag)
    return Finding(tag, ruling, film, seconds, film.time_text(tag.moment), could, earlier(review, tag, ruling))

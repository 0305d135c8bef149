"""An official who reviews himself: which rulings he may see already, and how his own calls compare with the book's.

While `Game.rulings_hidden` holds, the ruling of a tag is shown only once there is an own call on it. Every view asks `shown`,
or takes its findings through `veiled`, so that no ruling is seen, heard or worked out before. What is written for others
(sheets, lessons) asks `check_all_shown`. The score is derived and stays in the review: it is on no sheet.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from filmreview.errors import FilmReviewError
from filmreview.review.model import OwnCall, PlacedTag, Review
from filmreview.review.ruled import Finding, Findings
from filmreview.rules.ruling import Ruling

HIDDEN = "hidden until your own call"
"""What stands where a ruling will be."""
AGREED, CONSEQUENCE, DIFFERED, OPEN = "agreed", "consequence differed", "differed", "cannot be told"
OUTCOMES: tuple[str, ...] = (AGREED, CONSEQUENCE, DIFFERED, OPEN)
"""How an own call compares: the same ruling and, where told, the same consequence; the same ruling with another consequence;
another ruling; the book cannot tell although a call was given."""
NO_RULE = "no rule of the book"


def shown(review: Review, tag_id: str) -> bool:
    """Whether the ruling of a tag may be shown; tag_id may be that of a tag not kept yet."""
    return not review.game.rulings_hidden or review.own_call_on(tag_id) is not None


def waiting(review: Review) -> tuple[PlacedTag, ...]:
    """The tags whose ruling is still hidden, in the order made."""
    if not review.game.rulings_hidden:
        return ()
    called = {call.tag for call in review.own_calls}
    return tuple(tag for tag in review.tags if tag.id not in called)


def all_shown(review: Review) -> bool:
    """Whether nothing is hidden: then penalties, choices and procedures may be shown too, which look at all tags."""
    return not waiting(review)


def check_all_shown(review: Review) -> None:
    """Raise FilmReviewError while any ruling is hidden: for whatever is made of all rulings."""
    tags = [tag.id for tag in waiting(review)]
    if tags:
        named = ", ".join(tags[:5]) + (f" and {len(tags) - 5} more" if len(tags) > 5 else "")
        raise FilmReviewError(
            f"rulings are hidden until your own call on {named}",
            where=review.path.name,
            todo="give your calls, or show the rulings",
        )


def veiled(found: Findings) -> Findings:
    """The findings that may be shown. While any ruling is hidden, what looks at all tags is left out too."""
    hidden = {tag.id for tag in waiting(found.review)}
    if not hidden:
        return found
    seen = tuple(one for one in found if one.tag.id not in hidden)
    rulings = tuple(one for one in found.rulings.rulings if one.id not in hidden)
    return Findings(found.review, seen, replace(found.rulings, rulings=rulings, penalties=(), choices=()))


@dataclass(frozen=True)
class Called:
    """An own call beside the book's ruling. outcome: one of OUTCOMES. rule: title and reference, NO_RULE without one."""

    tag: PlacedTag
    call: OwnCall
    ruling: str
    consequence: str
    rule: str
    outcome: str


@dataclass(frozen=True)
class Tally:
    """How many own calls came out how."""

    agreed: int = 0
    consequence: int = 0
    differed: int = 0
    open: int = 0

    @property
    def told(self) -> int:
        """How many could be compared."""
        return self.agreed + self.consequence + self.differed

    @property
    def words(self) -> str:
        """ "4 of 6 agreed, 1 consequence differed, 1 differed; 2 cannot be told"."""
        parts = [f"{self.agreed} of {self.told} agreed"]
        parts += [f"{many} {word}" for many, word in ((self.consequence, CONSEQUENCE), (self.differed, DIFFERED)) if many]
        return ", ".join(parts) + (f"; {self.open} {OPEN}" if self.open else "")


@dataclass(frozen=True)
class Score:
    """The own calls of a review. called: in the order the tags were made. waiting: ids of tags without a call. by_rule and
    by_item: the same calls by what they are about, most differing first."""

    called: tuple[Called, ...]
    waiting: tuple[str, ...]
    whole: Tally
    by_rule: Mapping[str, Tally]
    by_item: Mapping[str, Tally]

    @property
    def words(self) -> str:
        """The whole in words, or that there is no call."""
        return self.whole.words if self.called else "no call of yours yet"


def score(found: Findings) -> Score:
    """The score of the own calls. found: the findings of the review, veiled or not: a tag with a call is in both."""
    review = found.review
    calls = {call.tag: call for call in review.own_calls}
    called = tuple(_called(one, calls[one.tag.id]) for one in found if one.tag.id in calls)
    left = tuple(tag.id for tag in review.tags if tag.id not in calls)
    by_rule = _grouped((one.rule, one.outcome) for one in called)
    by_item = _grouped((one.tag.item, one.outcome) for one in called)
    return Score(called, left, _tally(one.outcome for one in called), by_rule, by_item)


def outcome_of(call: OwnCall, ruling: Ruling) -> str:
    """How an own call compares with the book's ruling: one of OUTCOMES."""
    if call.ruling != ruling.ruling:
        return OPEN if ruling.ruling == OPEN else DIFFERED
    told = ruling.ruling != OPEN  # what the film cannot tell has no consequence that could be called wrong
    return CONSEQUENCE if told and call.consequence not in ("", ruling.consequence) else AGREED


def _called(one: Finding, call: OwnCall) -> Called:
    ruling = one.ruling
    return Called(one.tag, call, ruling.ruling, ruling.consequence, _rule_words(ruling), outcome_of(call, ruling))


def _rule_words(ruling: Ruling) -> str:
    if not ruling.rule:
        return NO_RULE
    title = next((one.title for one in ruling.rules if one.rule == ruling.rule), ruling.rule)
    return f"{title} ({ruling.reference})" if ruling.reference else title


def _tally(outcomes: Iterable[str]) -> Tally:
    listed = list(outcomes)
    return Tally(*(listed.count(one) for one in OUTCOMES))


def _grouped(pairs: Iterable[tuple[str, str]]) -> Mapping[str, Tally]:
    groups: dict[str, list[str]] = {}
    for name, outcome in pairs:
        groups.setdefault(name, []).append(outcome)
    tallies = {name: _tally(outcomes) for name, outcomes in groups.items()}
    return dict(sorted(tallies.items(), key=lambda pair: (-pair[1].differed - pair[1].consequence, -pair[1].told, pair[0])))

"""Another observer's review beside this one, without a screen: the pairs, what is to be taken, the one change that takes it.

In: the findings of the other review, read once; this review as it changes. Out: rows, differences first, and a message.
"""

from __future__ import annotations

from dataclasses import dataclass

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.events import Events
from filmreview.errors import FilmReviewError
from filmreview.film.moment import format_time
from filmreview.review.facts_beside import NOT_SAID
from filmreview.review.line import fact_in_words
from filmreview.review.merging import Beside, Pair, beside, take
from filmreview.review.model import PlacedTag, Review
from filmreview.review.own_calls import HIDDEN
from filmreview.review.ruled import Findings, deciding_facts

SAME = "nothing"
MINE, THEIRS = "keep mine", "take theirs"
NO_TAG = "no tag"
Key = tuple[str, str]
"""A pair by the ids of its tags, "" where there is none."""


@dataclass(frozen=True)
class OtherRow:
    """One pair. mine, theirs: each side in a few words. differs: in what, SAME for nothing. choice: MINE or THEIRS."""

    key: Key
    film: str
    time: str
    who: str
    item: str
    differs: str
    mine: str
    theirs: str
    choice: str

    @property
    def can_take(self) -> bool:
        """Whether there is anything of theirs that is not mine already."""
        return self.theirs != NO_TAG and self.differs != SAME


class OtherReviewPresenter:
    """Two reviews side by side. theirs: findings of the other one. Events: "pairs" when anything has changed."""

    def __init__(self, desk: Desk) -> None:
        self.events = Events("pairs")
        self._desk = desk
        self._theirs: Findings | None = None
        self.laid: Beside | None = None
        self.refused = ""
        self._taking: set[Key] = set()
        desk.events.on("findings", self._findings_changed)

    def lay(self, theirs: Findings) -> None:
        """Lay this review beside mine. Raises FilmReviewError for another game or other films."""
        review, found = self._desk.review, self._desk.findings
        if review is None or found is None:
            raise FilmReviewError("this review is not ruled yet", todo="try again in a moment")
        self.laid = beside(found, theirs)
        self._theirs = theirs
        self._taking = set()
        self.events.tell("pairs")

    def let_go(self) -> None:
        """Nobody looks at it any more."""
        self._theirs = self.laid = None
        self._taking = set()

    @property
    def who(self) -> tuple[str, str]:
        """Whose reviews these are: mine and theirs."""
        review = self._desk.review
        return (review.game.observer if review else "") or "me", self.laid.who if self.laid else ""

    def rows(self, only_differing: bool = True) -> tuple[OtherRow, ...]:
        """One row a pair, the ones that differ first."""
        review = self._desk.review
        if self.laid is None or review is None:
            return ()
        pairs = self.laid.differing if only_differing else self.laid.pairs
        return tuple(self._row(review, one) for one in pairs)

    def summary(self) -> str:
        """One line: how many differ, how many are missing, how many are to be taken."""
        if self.laid is None:
            return ""
        both = sum(one.mine is not None and one.theirs is not None for one in self.laid.pairs)
        mine = sum(one.theirs is None for one in self.laid.pairs)
        differ = sum(bool(one.differs) for one in self.laid.pairs if one.mine and one.theirs)
        parts = (
            f"{both} seen by both, {differ} of them with differences",
            f"{len(self.laid.missing)} only theirs",
            f"{mine} only mine",
        )
        return "; ".join(parts)

    def choose(self, key: Key, choice: str) -> None:
        """Keep mine or take theirs, for one pair."""
        if choice == THEIRS and any(row.key == key and row.can_take for row in self.rows()):
            self._taking.add(key)
        else:
            self._taking.discard(key)
        self.events.tell("pairs")

    def choose_missing(self) -> None:
        """Take all that only they have."""
        self._taking |= {_key(one) for one in self.laid.missing} if self.laid else set()
        self.events.tell("pairs")

    @property
    def taking(self) -> int:
        """How many are to be taken."""
        return len(self._chosen())

    def take(self) -> bool:
        """Take what was chosen, as one change. True when it is on its way."""
        review = self._desk.review
        if self.laid is None or review is None:
            return False
        try:
            change = take(self.laid, review, self._chosen())
        except FilmReviewError as error:
            self._desk.message(str(error))
            return False
        many = len(self._chosen())
        said = f"{many} tag{'s' if many > 1 else ''} of {self.laid.who} taken; one undo takes all back"
        return self._desk.try_change(change, lambda _ids: self._taken(said))

    def place(self, key: Key) -> tuple[str, PlacedTag] | None:
        """Film and tag to look at for a pair: mine, or theirs on my film."""
        pair = self._pair(key)
        tag = (pair.mine or pair.theirs) if pair else None
        return (pair.film, tag) if pair is not None and tag is not None else None

    def sides(self, key: Key) -> tuple[str, str]:
        """Everything that either side says of a pair, a line each; the lines that differ begin with the word for it."""
        pair = self._pair(key)
        if pair is None:
            return "", ""
        return _told(pair.mine, pair.rulings[0]), _told(pair.theirs, pair.rulings[1])

    def _taken(self, said: str) -> None:
        self._taking = set()
        self._desk.message(said)

    def _chosen(self) -> tuple[Pair, ...]:
        return tuple(one for one in self.laid.pairs if _key(one) in self._taking) if self.laid else ()

    def _pair(self, key: Key) -> Pair | None:
        return next((one for one in self.laid.pairs if _key(one) == key), None) if self.laid else None

    def _row(self, review: Review, pair: Pair) -> OtherRow:
        tag = pair.mine or pair.theirs
        assert tag is not None, "a pair has a side"
        name = review.game.team(tag.team).name
        return OtherRow(
            key=_key(pair),
            film=pair.film,
            time=format_time(pair.time),
            who=f"{name} {tag.player}" if tag.player else f"{name}, number not read",
            item=tag.item,
            differs=_differs_words(pair),
            mine=_short(pair.mine, pair.rulings[0]),
            theirs=_short(pair.theirs, pair.rulings[1]),
            choice=THEIRS if _key(pair) in self._taking else MINE,
        )

    def _findings_changed(self) -> None:
        """My review has changed: lay it out anew, and keep what was chosen where it is still there."""
        found = self._desk.findings
        if self._theirs is None:
            return
        if found is None:
            if self._desk.review is None:
                self.let_go()
                self.events.tell("pairs")
            return
        try:
            self.laid = beside(found, self._theirs)
        except FilmReviewError as error:  # the films or the day of my review were changed meanwhile
            self._desk.message(str(error))
            self.let_go()
        else:
            self._taking &= {_key(one) for one in self.laid.pairs if one.differs}
        self.events.tell("pairs")


def _key(pair: Pair) -> Key:
    return pair.mine.id if pair.mine else "", pair.theirs.id if pair.theirs else ""


def _differs_words(pair: Pair) -> str:
    words = [*pair.differs]
    if pair.facts:
        words[words.index("facts")] = ", ".join(one.words for one in pair.facts)
    return ", ".join(words) or SAME


def _short(tag: PlacedTag | None, ruling: str) -> str:
    if tag is None:
        return NO_TAG
    if ruling == HIDDEN:  # a crew mark or a note would give it away
        return HIDDEN
    return "; ".join(part for part in (ruling, tag.crew.mark if tag.crew else "") if part) or "not ruled"


def _told(tag: PlacedTag | None, ruling: str) -> str:
    if tag is None:
        return NO_TAG
    facts = [fact_in_words(fact) for fact in deciding_facts(tag.facts).values()]
    hidden, crew = ruling == HIDDEN, tag.crew
    lines = (
        f"{tag.team} {tag.player or 'number not read'}, {tag.item}",
        f"ruling: {ruling}" if ruling else "",
        "seen: " + (", ".join(facts) or NOT_SAID),
        "" if hidden else f"crew: {crew.mark}" + (f", {crew.did}" if crew.did else "") if crew else "crew: not marked",
        f"note: {tag.note}" if tag.note and not hidden else "",
    )
    return "\n".join(line for line in lines if line)

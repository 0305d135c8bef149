"""The tag being written on the card, as a value: where it is, what was typed, what was measured. No Qt."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from filmreview.facts.fact import Fact, Origin, Value
from filmreview.facts.region import Region
from filmreview.film.moment import Moment
from filmreview.review.line import UNREADABLE, Understood, fact_in_words, parse_line, write_line
from filmreview.review.line_words import Meaning, Sort, vocabulary
from filmreview.review.model import CrewResponse, PlacedTag

NEW = "new"
"""The id of a draft that is no tag yet."""
OWN_WORDS = 'words of your own go in "quotes" or under Note'
_OF_A_REGION = ("colour", "solid")


@dataclass(frozen=True)
class Draft:
    """A tag as far as it is written. id: NEW, or the tag being changed. line: as typed. measured: facts from the region.
    by_hand: facts that the person measured on the frame, a length or a number's colour, in place of the region's own.
    kept_facts: of the tag being changed, in the order they came."""

    id: str
    film: str
    moment: Moment
    region: Region | None = None
    line: str = ""
    understood: Understood = field(default_factory=Understood)
    measured: tuple[Fact, ...] = ()
    did: str = ""
    crew_moment: Moment | None = None
    crew_film: str | None = None
    kept_facts: tuple[Fact, ...] = ()
    by_hand: tuple[Fact, ...] = ()

    @property
    def facts(self) -> tuple[Fact, ...]:
        """Measured and seen facts side by side; the player's number is what the item "number" shows when nothing else is
        typed."""
        seen = self.understood.facts
        player = self.understood.player
        if self.understood.item == "number" and player not in (None, UNREADABLE) and all(one.key != "number" for one in seen):
            seen = (*seen, Fact("number", str(player), Origin.SEEN))
        # a number's colour by hand: what the region as a whole measured is number and jersey together
        region = () if any(one.key == "colour" for one in self.by_hand) else self.measured
        now = (*region, *self.by_hand, *seen)
        return self.kept_facts if set(now) == set(self.kept_facts) else now

    @property
    def can_be_ruled(self) -> bool:
        """True when whose and which item are known; the book can then say something."""
        return self.understood.team is not None and self.understood.item is not None

    @property
    def asks(self) -> tuple[str, ...]:
        """What is missing or was not understood, and then where words that are no fact go."""
        asks = self.understood.asks
        return (*asks, OWN_WORDS) if any("is not understood" in ask for ask in asks) else asks

    def tag(self) -> PlacedTag:
        """The tag it stands for; only when `can_be_ruled`."""
        understood = self.understood
        assert understood.team is not None, "a draft with a team"
        assert understood.item is not None, "a draft with an item"
        player = None if understood.player in (None, UNREADABLE) else understood.player
        return PlacedTag(
            self.id, self.film, self.moment, understood.team, player, understood.item, self.region, self.facts,
            understood.note.strip(), self.crew,
        )  # fmt: skip

    @property
    def crew(self) -> CrewResponse | None:
        """How the crew dealt with it, as far as it is said."""
        mark = self.understood.crew
        return CrewResponse(mark, self.crew_moment, self.did, self.crew_film) if mark else None


def draft_of(tag: PlacedTag) -> Draft:
    """The draft that changes a kept tag: its line written again, its measured facts taken over."""
    seen = tuple(fact for fact in tag.facts if fact.origin is not Origin.MEASURED)
    on_film = tuple(fact for fact in tag.facts if fact.origin is Origin.MEASURED)
    measured = tuple(fact for fact in on_film if fact.key in _OF_A_REGION)
    by_hand = tuple(fact for fact in on_film if fact.key not in _OF_A_REGION)
    crew = tag.crew
    understood = Understood(
        tag.team, tag.player if tag.player is not None else UNREADABLE, tag.item, seen, tag.note, crew.mark if crew else None
    )
    line = plain_line(understood)
    draft = Draft(tag.id, tag.film, tag.moment, tag.region, line, understood, measured, kept_facts=tag.facts, by_hand=by_hand)
    return replace(draft, did=crew.did, crew_moment=crew.moment, crew_film=crew.film) if crew else draft


def plain_line(understood: Understood) -> str:
    """The line that is read as this, its facts in words ("not solid") wherever the line reads these words back as that fact."""
    head = write_line(replace(understood, facts=(), note="", crew=None))
    tail = write_line(Understood(note=understood.note, crew=understood.crew))
    line = " ".join(part for part in (head, *map(_plain, understood.facts), tail) if part)
    again = parse_line(line)
    same = (again.facts, again.item, again.unread) == (understood.facts, understood.item, ())
    return line if same else write_line(understood)  # a word that beside another one is read otherwise


def _plain(fact: Fact) -> str:
    words = fact_in_words(fact)
    if isinstance(fact.value, bool):
        yes = next((phrase for phrase, meanings in vocabulary().items() if _says_yes(meanings, fact.key)), ())
        words = " ".join(yes if fact.value else ("not", *yes))
    elif fact.key == "colour":
        words = words.removeprefix("colour ")
    again = parse_line(words)
    alone = again == replace(Understood(facts=(fact,)), asks=again.asks, says=again.says)
    return words if alone else write_line(Understood(facts=(fact,)))


def _says_yes(meanings: tuple[Meaning, ...], key: str) -> bool:
    return Meaning(Sort.VALUE, "yes", key) in meanings


def with_fact(understood: Understood, key: str, value: Value | None) -> Understood:
    """The same with one fact seen by the eye set, or taken away when the value is None."""
    others = tuple(fact for fact in understood.facts if fact.key != key)
    return replace(understood, facts=others if value is None else (*others, Fact(key, value, Origin.SEEN)))

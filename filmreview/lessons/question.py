"""A question of a lesson and its answer, as values: what is asked, what is told with it, and what the book says.

Questions are made from findings (`questions_asked`) and from situations without film (`situations_asked`). What is asked never
holds the ruling, the reasons or a note; a player is named by team and number alone. The answer is the ruling as the rules gave
it: a lesson decides nothing.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from dataclasses import dataclass, replace

from filmreview.facts.region import Region
from filmreview.film.moment import Moment
from filmreview.rules.setting import CONSEQUENCES, RULINGS
from filmreview.sheets import sheet_words as words

LONGEST_ASKED = 200  # characters of the question: it must be read in seconds, on a film too
RULING_CHOICES: tuple[str, ...] = RULINGS
CONSEQUENCE_CHOICES: tuple[str, ...] = CONSEQUENCES
"""What a participant may call, in the rules' own words."""


@dataclass(frozen=True)
class OnFilm:
    """Where a question is seen. film: id in the review. time: from the start of the film, for people."""

    film: str
    moment: Moment
    region: Region | None
    time: str


@dataclass(frozen=True)
class Answer:
    """What the book says. consequence: in the rules' words. todo: what the book asks and when. ahead: what changes on a later
    day. asks: what would tell, where it cannot be told. sure: how well the source is known, in words. case: the title of a
    situation, told with the answer only, as a title may give it away."""

    ruling: str
    consequence: str
    reasons: tuple[str, ...]
    todo: str
    reference: str
    edition: str
    adoption: str = ""
    source: str = ""
    sure: str = ""
    ahead: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()
    case: str = ""

    @property
    def consequence_words(self) -> str:
        """The consequence as sheets say it."""
        return words.CONSEQUENCES[self.consequence]

    @property
    def follows(self) -> str:
        """What follows, to stand beside the ruling; that nothing follows is said of what is illegal only, else it is ""."""
        if self.ruling != "illegal":
            return "" if self.consequence in ("none", self.ruling) else self.consequence_words
        return words.follows_words(self.ruling, self.consequence) or "no consequence"

    @property
    def rule(self) -> str:
        """ "3-5-3, so since 2023-24, changed by ...", "" where the book has none."""
        if not self.reference:
            return ""
        changed = f", changed by {self.adoption}" if self.adoption else ""
        return f"{self.reference}, {words.so_since(self.edition)}{changed}"

    @property
    def short(self) -> str:
        """One line: "illegal: fix or leave (3-5-3)"."""
        said = words.ruled_words(self.ruling, self.follows)
        return said + (f" ({self.reference})" if self.reference else "")


@dataclass(frozen=True)
class Question:
    """One question. id: stable, from the tag or the situation. who: "Visitor 14". asked: one sentence. told: what the film does
    not show but the call needs, a line each. setting: level, book, season and kits in one line. caution: that belongs beside
    the answer. place: None for a situation without film."""

    id: str
    who: str
    item: str
    asked: str
    told: tuple[str, ...]
    setting: str
    answer: Answer
    caution: str
    place: OnFilm | None = None

    def asked_as(self, own: str) -> Question:
        """The same question in the instructor's own words, unless they are empty."""
        return replace(self, asked=own) if own else self


def who_words(team: str, player: str | None) -> str:
    """A player by team and number alone: "Visitor 14", "Home, number not read"."""
    side = team.capitalize()
    return f"{side} {player}" if player else f"{side}, {words.NO_NUMBER}"


def question_words(who: str, item: str) -> str:
    """The sentence that asks."""
    return f"{who}, {item}: what is your call, and what follows?"


def key_of(questions: Iterable[Question]) -> str:
    """What a result is known by: 16 hexadecimal digits over the questions and what the book says of each, in any order."""
    told = sorted([one.id, one.asked, list(one.told), one.answer.ruling, one.answer.consequence] for one in questions)
    return hashlib.sha256(json.dumps(told, ensure_ascii=False).encode()).hexdigest()[:16]

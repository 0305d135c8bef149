"""Letters to the crew and their replies, without a screen: what each official is told, and what came back.

In: letters as the sheet builds them, a letter as it was written. Out: one entry an official, one row a reply, and the changes.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.ledger_presenter import who_words
from filmreview.review.crew_changes import SetLetter
from filmreview.review.model import LONGEST_WORDS, Review
from filmreview.review.own_calls import check_all_shown
from filmreview.review.ruled import findings
from filmreview.sheets.handover import LetterTo
from filmreview.sheets.telling import hand_over

NO_CREW = "the review names no crew: give it at Review, Game set-up"


@dataclass(frozen=True)
class LetterEntry:
    """What one official is told. words: as the sheet will give them. written: by the observer; else built by the sheet."""

    position: str
    name: str
    words: str
    written: bool

    @property
    def title(self) -> str:
        """ "umpire 1: U. Thornvex (written by you)"."""
        return f"{self.position}: {self.name}" + (" (written by you)" if self.written else "")


@dataclass(frozen=True)
class ReplyRow:
    """One reply. tag: the finding it is to."""

    tag: str
    time: str
    who: str
    item: str
    by: str
    answer: str
    words: str


class LettersPresenter:
    """Letters and replies of the open review."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._built: tuple[LetterTo, ...] = ()

    def take(self, built: tuple[LetterTo, ...]) -> None:
        """These letters are what the sheet gives."""
        self._built = built

    def entries(self) -> tuple[LetterEntry, ...]:
        """One an official, in the order of the crew; what was written since comes first."""
        review = self._desk.review
        if review is None:
            return ()
        found = []
        for one in self._built:
            letter = review.letter_to(one.position)
            found.append(LetterEntry(one.position, one.name, letter.words if letter else one.words, letter is not None))
        return tuple(found)

    def replies(self) -> tuple[ReplyRow, ...]:
        """The replies, in the order of the findings."""
        review = self._desk.review
        if review is None:
            return ()
        order = {film.id: place for place, film in enumerate(review.films)}
        tags = sorted(review.tags, key=lambda tag: (order[tag.film], review.film(tag.film).seconds_of(tag.moment)))
        return tuple(
            ReplyRow(
                tag.id, review.time_text(tag.film, tag.moment), who_words(review, tag), tag.item,
                one.by or "crew", one.answer or "in words", one.words,
            )
            for tag in tags
            for one in review.replies_to(tag.id)
        )  # fmt: skip

    def keep(self, position: str, words: str) -> bool:
        """Keep a letter as it was written: the sheet gives it in place of its own. The sheet's own words are no letter."""
        if words.strip() == self.built(position).strip():
            return self.anew(position)
        return self._desk.try_change(
            SetLetter(position, words.strip()), lambda _ids: self._desk.message(f"letter to {position}: kept")
        )

    def anew(self, position: str) -> bool:
        """Leave the letter to the sheet again."""
        said = f"letter to {position}: built by the sheet"
        return self._desk.try_change(SetLetter(position, ""), lambda _ids: self._desk.message(said))

    def built(self, position: str) -> str:
        """What the sheet builds by itself for an official."""
        return next((one.words for one in self._built if one.position == position), "")

    def count_words(self, text: str) -> str:
        """How much room is left; "" while there is plenty."""
        left = LONGEST_WORDS - len(text)
        if left < 0:
            return f"{_characters(-left)} too many"
        return f"{_characters(left)} left" if left < 200 else ""


def _characters(many: int) -> str:
    return f"{many} character{'' if many == 1 else 's'}"


def build(review: Review) -> tuple[LetterTo, ...]:
    """The letters that the sheet builds by itself, as if none had been written. Slow on a large review: for a job.

    Raises FilmReviewError while rulings are hidden.
    """
    check_all_shown(review)
    return hand_over(findings(replace(review, letters=()))).letters

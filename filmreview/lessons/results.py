"""Which questions split the room: the calls of all participants counted against the ruling, the hardest question first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from filmreview.lessons.lesson_key import Keyed, LessonKey
from filmreview.lessons.question import CONSEQUENCE_CHOICES, RULING_CHOICES
from filmreview.lessons.results_reading import Result
from filmreview.sheets.share import Share, share_of


@dataclass(frozen=True)
class Counted:
    """One question counted. rulings, consequences: how many called each, in the order of the closed lists, those nobody called
    left out. as_ruled: the ruling as the book says; as_book: consequence too. answered: how many answered it. split: 0 when all
    called the same, 1 when no two did: the chance that two of those who answered called differently (Gini-Simpson index,
    without replacement; Simpson 1949, Nature 163, 688)."""

    question: Keyed
    rulings: Mapping[str, int]
    consequences: Mapping[str, int]
    as_ruled: Share
    as_book: Share
    answered: int
    split: float


@dataclass(frozen=True)
class Person:
    """One participant: how many rulings as the book says, and how many with the consequence too."""

    name: str
    answered: int
    as_ruled: int
    as_book: int


@dataclass(frozen=True)
class Room:
    """All results of one lesson. questions: the hardest first: fewest calls as the book says, then the most split."""

    title: str
    people: tuple[Person, ...]
    questions: tuple[Counted, ...]


def count_room(results: Sequence[Result], key: LessonKey) -> Room:
    """Count the results of a lesson against its key. Pure."""
    counted = [_counted(one, results) for one in key.questions]
    hardest = sorted(counted, key=lambda one: (_right(one), -one.split, one.question.number))
    return Room(key.title, tuple(_person(one, key) for one in results), tuple(hardest))


def room_to_json(room: Room) -> dict[str, Any]:
    """The document that `filmreview lesson results --json` prints."""
    return {
        "title": room.title,
        "participants": [
            {"name": one.name, "answered": one.answered, "as_ruled": one.as_ruled, "as_book": one.as_book}
            for one in room.people
        ],
        "questions": [_to_json(one) for one in room.questions],
    }


def _counted(question: Keyed, results: Sequence[Result]) -> Counted:
    calls = [one.calls[question.id] for one in results if question.id in one.calls]
    rulings = Counter(call.ruling for call in calls)
    consequences = Counter(call.consequence for call in calls)
    both = Counter((call.ruling, call.consequence) for call in calls)
    return Counted(
        question,
        {one: rulings[one] for one in RULING_CHOICES if rulings[one]},
        {one: consequences[one] for one in CONSEQUENCE_CHOICES if consequences[one]},
        share_of(rulings[question.ruling], len(calls)),
        share_of(sum(question.is_said_by(*call) * many for call, many in both.items()), len(calls)),
        len(calls),
        _chance_of_two(both.values(), len(calls)),
    )


def _chance_of_two(counts: Iterable[int], total: int) -> float:
    pairs = total * (total - 1)
    return 1 - sum(one * (one - 1) for one in counts) / pairs if pairs else 0.0


def _right(one: Counted) -> float:
    return one.as_book.count / one.as_book.total if one.as_book.total else 2.0  # a question nobody answered comes last


def _person(result: Result, key: LessonKey) -> Person:
    answered = [(one, result.calls[one.id]) for one in key.questions if one.id in result.calls]
    ruled = [(one, call) for one, call in answered if call.ruling == one.ruling]
    both = sum(one.is_said_by(call.ruling, call.consequence) for one, call in ruled)
    return Person(result.who, len(answered), len(ruled), both)


def _to_json(one: Counted) -> dict[str, Any]:
    question = one.question
    return {
        "id": question.id, "number": question.number, "asked": question.asked, "ruling": question.ruling,
        "consequence": question.consequence, "reference": question.reference, "answered": one.answered,
        "rulings": dict(one.rulings), "consequences": dict(one.consequences), "as_ruled": one.as_ruled.count,
        "as_book": one.as_book.count, "as_book_low": round(one.as_book.low, 4), "as_book_high": round(one.as_book.high, 4),
        "split": round(one.split, 4),
    }  # fmt: skip

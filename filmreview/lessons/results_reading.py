"""Reading what participants handed in: the small files that the page saves.

A file that is wrong, of another lesson, given twice or longer than a page can make it is told in one line; the others are read.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from filmreview.errors import FilmReviewError, unknown
from filmreview.lessons.lesson_key import LessonKey, read_small_json
from filmreview.lessons.page import LONGEST_NAME, LONGEST_WHY
from filmreview.lessons.question import CONSEQUENCE_CHOICES, RULING_CHOICES

WHAT = "result of a lesson"
FORM = 1
MOST_BYTES = 1_000_000
_LONGEST_TIME = 40


@dataclass(frozen=True)
class Call:
    """What a participant called on one question, in the rules' words. why: his own, "" when he wrote nothing."""

    ruling: str
    consequence: str
    why: str = ""


@dataclass(frozen=True)
class Result:
    """One participant's calls by the id of the question; questions left open are missing. name: as he typed it. ended: when, as
    his machine's clock had it (UTC, ISO 8601)."""

    path: Path
    name: str
    ended: str
    calls: Mapping[str, Call]

    @property
    def who(self) -> str:
        """The name, or the file's where none was typed."""
        return self.name or self.path.stem


def read_results(paths: Iterable[Path], key: LessonKey) -> tuple[tuple[Result, ...], tuple[str, ...]]:
    """The results of one lesson, in the order given, and one line for every file that was not taken."""
    results: list[Result] = []
    told: list[str] = []
    for path in paths:
        try:
            results.append(_new(read_result(path, key), results))
        except FilmReviewError as error:
            told.append(str(error))
    return tuple(results), tuple(told)


def read_result(path: Path, key: LessonKey) -> Result:
    """One result; raises FilmReviewError in one line when it is none of this lesson or cannot be what the page saved."""
    data = read_small_json(path, MOST_BYTES)
    where = str(path)
    if not isinstance(data, Mapping) or data.get("what") != WHAT:
        raise FilmReviewError("this is not the result of a lesson", where=where, todo="give the file that the page saved")
    if data.get("form") != FORM:
        raise FilmReviewError(
            f"a result of form {str(data.get('form'))[:20]}", where=where, todo="read it with a newer version"
        )
    if data.get("lesson") != key.lesson:
        raise FilmReviewError(
            "the result of another lesson, or of this one before it was changed",
            where=where,
            todo="give its own key with --key",
        )
    name, ended = _text(data, "name", LONGEST_NAME, where), _text(data, "ended", _LONGEST_TIME, where)
    return Result(path, name.strip(), ended, _calls(data.get("calls"), key, where))


def _calls(data: Any, key: LessonKey, where: str) -> Mapping[str, Call]:
    known = [one.id for one in key.questions]
    if not isinstance(data, list) or len(data) > len(known):
        raise FilmReviewError("the calls are not as the page saves them", where=where, todo="ask for the file again")
    calls: dict[str, Call] = {}
    for one in data:
        if not isinstance(one, Mapping):
            raise FilmReviewError("a call is not as the page saves it", where=where, todo="ask for the file again")
        question = _text(one, "question", 200, where)
        if question not in known:
            raise unknown("question", question, known, where=where)
        if question in calls:
            raise FilmReviewError(f"{question} is answered twice", where=where, todo="ask for the file again")
        calls[question] = Call(
            _word(one, "ruling", RULING_CHOICES, where),
            _word(one, "consequence", CONSEQUENCE_CHOICES, where),
            _text(one, "why", LONGEST_WHY, where),
        )
    return calls


def _new(result: Result, others: Iterable[Result]) -> Result:
    """The result, unless it is there already; raises FilmReviewError for a copy, and for a second one of the same name."""
    for other in others:
        same_name = bool(result.name) and result.name.casefold() == other.name.casefold()
        if (result.name, result.ended, result.calls) == (other.name, other.ended, other.calls):
            raise FilmReviewError(f"the same result as {other.path.name}", where=str(result.path), todo="it is counted once")
        if same_name:
            what = f"a second result of {result.name}, after {other.path.name}"
            raise FilmReviewError(what, where=str(result.path), todo="it is not counted; give the one that counts alone")
    return result


def _text(data: Mapping[str, Any], field: str, most: int, where: str) -> str:
    value = data.get(field, "")
    if not isinstance(value, str):
        raise FilmReviewError(f'"{field}" is not text', where=where, todo="ask for the file again")
    if len(value) > most:
        raise FilmReviewError(f'"{field}" is longer than the page lets it be ({len(value)} characters)', where=where)
    return value


def _word(data: Mapping[str, Any], field: str, known: tuple[str, ...], where: str) -> str:
    value = _text(data, field, 40, where)
    if value not in known:
        raise unknown(field, value, known, where=where)
    return value

"""The key of a lesson (lesson.json): what results are read against. It stays with whoever leads the lesson.

{"what": "key of a lesson", "form": 1, "lesson": key, "title": , "questions": [{"id", "number", "asked", "ruling",
"consequence", "reference"}], "files": [names written beside it]}
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from filmreview.errors import FilmReviewError
from filmreview.lessons.lesson import Lesson
from filmreview.lessons.question import CONSEQUENCE_CHOICES, RULING_CHOICES, Question

NAME = "lesson.json"
WHAT = "key of a lesson"
FORM = 1
MOST_BYTES = 4_000_000


@dataclass(frozen=True)
class Keyed:
    """One question as results are counted against it. asked: who and what: "Visitor 14, arm sleeve"."""

    id: str
    number: int
    asked: str
    ruling: str
    consequence: str
    reference: str = ""

    def is_said_by(self, ruling: str, consequence: str) -> bool:
        """Whether a call is what the book says. What the film cannot tell has no consequence that could be called wrong."""
        return ruling == self.ruling and (ruling == "cannot be told" or consequence == self.consequence)


@dataclass(frozen=True)
class LessonKey:
    """The key as read. files: what the lesson wrote, names beside the key."""

    lesson: str
    title: str
    questions: tuple[Keyed, ...]
    files: tuple[str, ...] = ()


def key_of_lesson(lesson: Lesson, files: Sequence[str] = ()) -> LessonKey:
    """The key of a lesson ready to be asked."""
    questions = tuple(_key_of(one, number) for number, one in enumerate(lesson.questions, 1))
    return LessonKey(lesson.key, lesson.title, questions, tuple(files))


def _key_of(one: Question, number: int) -> Keyed:
    answer = one.answer
    return Keyed(one.id, number, f"{one.who}, {one.item}", answer.ruling, answer.consequence, answer.reference)


def key_text(key: LessonKey) -> str:
    """The key as JSON text."""
    return json.dumps({"what": WHAT, "form": FORM, **asdict(key)}, ensure_ascii=False, indent=1) + "\n"


def read_key(path: Path) -> LessonKey:
    """The key in a file, or in a folder that a lesson was written to.

    Raises FilmReviewError in one line when there is none, or it is of a newer form or damaged.
    """
    path = path / NAME if path.is_dir() else path
    data = read_small_json(path, MOST_BYTES)
    if not isinstance(data, Mapping) or data.get("what") != WHAT:
        raise FilmReviewError(
            "this is not the key of a lesson", where=str(path), todo=f"give the {NAME} that was written with it"
        )
    if data.get("form") != FORM:
        raise FilmReviewError(
            f"a key of form {data.get('form')}", where=str(path), todo="read it with the version that made it"
        )
    try:
        questions = tuple(_keyed(one) for one in data["questions"])
        files = tuple(str(one) for one in data.get("files", ()))
        return LessonKey(str(data["lesson"]), str(data["title"]), questions, files)
    except (KeyError, TypeError, ValueError) as error:
        raise FilmReviewError("the key of the lesson is damaged", where=str(path), todo="make the lesson again") from error


def read_small_json(path: Path, most: int) -> Any:
    """What a JSON file holds; raises FilmReviewError when it is missing, larger than `most` bytes, or no JSON."""
    try:
        with path.open("rb") as file:
            raw = file.read(most + 1)
    except OSError as error:
        raise FilmReviewError(f"cannot be read ({(error.strerror or 'no file').lower()})", where=str(path)) from error
    if len(raw) > most:
        raise FilmReviewError(f"larger than {most:,} bytes: not a file of a lesson", where=str(path))
    try:
        return json.loads(raw.decode("utf-8-sig"))
    except (ValueError, RecursionError) as error:
        raise FilmReviewError("this is not JSON text", where=str(path), todo="give the file that the page saved") from error


def _keyed(data: Mapping[str, Any]) -> Keyed:
    made = Keyed(
        str(data["id"]), int(data["number"]), str(data["asked"]), str(data["ruling"]), str(data["consequence"]),
        str(data.get("reference", "")),
    )  # fmt: skip
    if made.ruling not in RULING_CHOICES or made.consequence not in CONSEQUENCE_CHOICES:
        raise ValueError(made.id)
    return made

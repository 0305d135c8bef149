"""A lesson while it is put together: which questions in which order, how they are shown, what is still missing. No Qt.

In: choices of a person. Out: events ("rows", "settings", "picture"), a plan, and the very picture that will be written. What
the book says comes from the findings; nothing is decided here.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import numpy as np

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.events import Events
from filmreview.errors import FilmReviewError
from filmreview.lessons.card_drawing import card_picture
from filmreview.lessons.clip import Clip, Piece, Said
from filmreview.lessons.lesson import Lesson, lesson_of, usual_title
from filmreview.lessons.lesson_clips import pieces_of
from filmreview.lessons.lesson_faces import Stretch, check_faces, stretches
from filmreview.lessons.pictures import plan_of
from filmreview.lessons.plan import PAGE_HEIGHT, Ask, AskTag, LessonPlan, Settings, check_settings, plan_from_text, plan_to_text
from filmreview.lessons.preview import preview
from filmreview.lessons.question import Question
from filmreview.lessons.questions_asked import tags_to_ask
from filmreview.lessons.situations_asked import situations_to_ask
from filmreview.progress import Progress
from filmreview.review.lesson_changes import SetLesson
from filmreview.review.model import Lesson as KeptLesson
from filmreview.review.ruled import Findings

PICTURE = "lesson picture"
"""The name of the job that makes it."""


@dataclass(frozen=True)
class Row:
    """One question that may be asked. on: whether it is."""

    ask: Ask
    question: Question
    on: bool = True

    @property
    def words(self) -> str:
        """What it asks about, for the list: the time, who, what, and the ruling that will be shown."""
        place = self.question.place.time if self.question.place else "no film"
        return f"{place}  {self.question.who}, {self.question.item} - {self.question.answer.short}"


@dataclass(frozen=True)
class Shown:
    """A picture of the lesson as it will be written. at, seconds: where it stands in its clip, and how long that is. look: what
    is shown there. picture: uint8 (h, w, 3)."""

    picture: np.ndarray
    look: str
    at: float
    seconds: float


@dataclass(frozen=True)
class Draft:
    """A lesson to begin with. kept: the id of an earlier one that is made again, None for a new one."""

    plan: LessonPlan
    rows: tuple[Row, ...]
    found: Findings
    kept: str | None = None


def draft_of(found: Findings, kept: KeptLesson | None = None) -> Draft:
    """What a lesson begins with; slow with many findings, so for a job.

    Raises FilmReviewError when the review has no finding, or the kept plan cannot be read or asks for a tag that has gone.
    """
    if kept is None:
        return Draft(LessonPlan("", ()), _new_rows(found), found)
    plan = plan_from_text(kept.plan, kept.id)
    return Draft(plan, _rows_of(plan, found), found, kept.id)


class LessonPresenter:
    """The lesson that is put together on the open review."""

    def __init__(self, desk: Desk, draft: Draft) -> None:
        self.events = Events("rows", "settings", "picture")
        self._desk, self._found = desk, draft.found
        self.kept = draft.kept
        self.shown: Shown | None = None
        self.fault = ""
        self.settings, self.title, self.end = draft.plan.settings, draft.plan.title, draft.plan.end
        self.rows = draft.rows

    # What is asked

    def set_on(self, place: int, on: bool) -> None:
        """Ask it, or leave it out."""
        self._put(place, replace(self.rows[place], on=on))

    def set_all(self, on: bool) -> None:
        """Ask all of them, or none; told once, since each telling lays the whole lesson out anew."""
        self.rows = tuple(replace(row, on=on) for row in self.rows)
        self.events.tell("rows")

    def set_own(self, place: int, words: str) -> None:
        """Ask it in these words; the usual ones when they are empty."""
        row = self.rows[place]
        ask = replace(row.ask, own=words.strip())
        self._put(place, Row(ask, _question(ask, self._found), row.on))

    def move(self, place: int, by: int) -> int:
        """Ask it earlier (-1) or later (1); returns its new place."""
        there = min(max(0, place + by), len(self.rows) - 1)
        rows = list(self.rows)
        rows.insert(there, rows.pop(place))
        self.rows = tuple(rows)
        self.events.tell("rows")
        return there

    def add_situation(self, path: Path) -> None:
        """Ask what is seen in a situation file too; raises FilmReviewError when it cannot be read or is asked already."""
        added = tuple(Row(ask, _question(ask, self._found)) for ask in situations_to_ask(path))
        known = {row.question.id for row in self.rows}
        if any(row.question.id in known for row in added):
            raise FilmReviewError("this situation is asked already", where=path.name)
        self.rows = (*self.rows, *added)
        self.events.tell("rows")

    # How it is shown

    def set_setting(self, name: str, value: Any) -> None:
        """Change one setting; what cannot be is told by `problem`."""
        self.settings = replace(self.settings, **{name: value})
        self.events.tell("settings")

    def set_words(self, title: str, end: str) -> None:
        """Title and words of the end card; the usual ones where they are empty."""
        self.title, self.end = title.strip(), end.strip()
        self.events.tell("settings")

    # What comes of it

    @property
    def problem(self) -> str:
        """What is still missing, "" when the lesson can be written."""
        try:
            lesson = self.lesson()
        except FilmReviewError as error:
            return str(error)
        try:
            check_faces(lesson)
        except FilmReviewError as error:
            return f"{error.where}: {error.what} (page Faces)"
        return ""

    def plan(self) -> LessonPlan:
        """The plan as it stands; raises FilmReviewError for what cannot be."""
        asks = tuple(row.ask for row in self.rows if row.on)
        return LessonPlan(self.title or usual_title(len(asks)), asks, self.settings, self.end).checked()

    def lesson(self) -> Lesson:
        """The lesson on the review as it is now; raises FilmReviewError for what cannot be."""
        questions = tuple(row.question for row in self.rows if row.on)
        return Lesson(self.plan(), questions, self._desk.review or self._found.review)

    def stretches(self) -> tuple[Stretch, ...]:
        """What the lesson shows of the films, with the answers for the faces; empty while the plan cannot be."""
        try:
            return stretches(self.lesson())
        except FilmReviewError:
            return ()

    def keeping(self) -> SetLesson:
        """The change that keeps the plan in the review."""
        plan = self.plan()
        return SetLesson(self.kept, plan.title, plan_to_text(plan))

    # The picture

    def want_picture(self, place: int, version: str, share: float) -> None:
        """Make the picture of a row at a share (0 to 1) of its clip, as it will be written; "picture" is told then."""
        self.fault = ""
        row = self.rows[place]
        try:
            piece = self.piece(row)
        except FilmReviewError as error:
            self._no_picture(error)
            return
        height = min(PAGE_HEIGHT, self.settings.height)

        def work(progress: Progress) -> Shown:
            if isinstance(piece, Said):
                return _card(piece, version, share, height)
            return self._picture(piece, version, share, height, progress)

        self._desk.start(work, self._take, self._no_picture, PICTURE)

    def piece(self, row: Row) -> Piece:
        """What is written of one row, whether it is on or not; without title and end, which belong to the whole.

        Raises FilmReviewError for settings that cannot be, and a film that is missing.
        """
        check_settings(self.settings)
        one = LessonPlan("one question", (row.ask,), replace(self.settings, card=Fraction(0)))
        return pieces_of(Lesson(one, (row.question,), self._desk.review or self._found.review))[0]

    def _picture(self, clip: Clip, version: str, share: float, height: int, progress: Progress) -> Shown:
        progress(0.0, "preview")
        with self._desk.films.open(clip.film, progress, kept_bytes=1) as film:
            plan = plan_of(clip, film, version)
            number = min(len(plan.pictures) - 1, int(share * len(plan.pictures)))
            progress(0.5, "preview")
            picture = preview(clip, film, number, version, height)
        shown = plan.pictures[number]
        return Shown(picture, shown.look.value, float(shown.at), float(plan.seconds))

    def _take(self, shown: Shown) -> None:
        self.shown = shown
        self.events.tell("picture")

    def _no_picture(self, error: FilmReviewError) -> None:
        self.shown, self.fault = None, str(error)
        self.events.tell("picture")

    def _put(self, place: int, row: Row) -> None:
        self.rows = (*self.rows[:place], row, *self.rows[place + 1 :])
        self.events.tell("rows")


def _rows_of(plan: LessonPlan, found: Findings) -> tuple[Row, ...]:
    """What a kept plan asks, then the findings that it leaves out."""
    asked = [Row(ask, _question(ask, found)) for ask in plan.asks]
    known = {row.question.id for row in asked}
    return (*asked, *(replace(row, on=False) for row in _new_rows(found) if row.question.id not in known))


def _new_rows(found: Findings) -> tuple[Row, ...]:
    return tuple(Row(AskTag(tag), _question(AskTag(tag), found)) for tag in tags_to_ask(found))


def _question(ask: Ask, found: Findings) -> Question:
    return lesson_of(LessonPlan("one question", (ask,), Settings()), found).questions[0]


def _card(said: Said, version: str, share: float, height: int) -> Shown:
    """The card of a question without film at a share of its time."""
    asked, ruled = float(said.question.seconds), float(said.answer.seconds) if version == "answer" else 0.0
    at = share * (asked + ruled)
    answers = ruled > 0 and at >= asked
    card = said.answer if answers else said.question
    return Shown(card_picture(card, height * 16 // 9, height), "answer" if answers else "question", at, asked + ruled)

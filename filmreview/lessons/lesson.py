"""The lesson itself: a plan with its questions ready to be asked. Read `plan` and `question` first, then this.

`lesson_of` binds a plan to the findings of a review; `first_plan` makes the plan of a new lesson. Nothing is decided here: the
rulings are those of the findings and of the rules.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

import filmreview
from filmreview.cautions import ALL, MINORS
from filmreview.errors import FilmReviewError
from filmreview.lessons.plan import Ask, AskSituation, AskTag, LessonPlan, Settings
from filmreview.lessons.question import Question, key_of
from filmreview.lessons.questions_asked import question_of, tags_to_ask
from filmreview.lessons.situations_asked import question_of_situation, situations_to_ask
from filmreview.review.model import Review
from filmreview.review.own_calls import check_all_shown
from filmreview.review.ruled import Findings


@dataclass(frozen=True)
class Lesson:
    """A plan with its questions, in order. review: whose films are shown; key: what a result is known by."""

    plan: LessonPlan
    questions: tuple[Question, ...]
    review: Review
    program: str = f"filmreview {filmreview.__version__}"

    @property
    def key(self) -> str:
        """What a result is known by; the order of the questions plays no part."""
        return key_of(self.questions)

    @property
    def title(self) -> str:
        """The title of the lesson."""
        return self.plan.title

    @property
    def end(self) -> str:
        """The words of the end card: those of the plan, or the cautions."""
        return self.plan.end or " ".join(self.cautions)

    @property
    def cautions(self) -> tuple[str, ...]:
        """For every sheet, page and end card; the one on minors only where film is shown."""
        return ALL if any(one.place for one in self.questions) else tuple(one for one in ALL if one != MINORS)


def lesson_of(plan: LessonPlan, found: Findings) -> Lesson:
    """Bind a plan to the findings; raises FilmReviewError when a tag has gone or a situation cannot be read, and while rulings
    are hidden from the official who reviews himself."""
    plan.checked()
    check_all_shown(found.review)
    questions = tuple(_question(ask, found).asked_as(ask.own.strip()) for ask in plan.asks)
    twice = [one.id for one in questions if [other.id for other in questions].count(one.id) > 1]
    if twice:
        raise FilmReviewError(f"{twice[0]} is asked twice", where=plan.title, todo="ask each thing once")
    return Lesson(plan, questions, found.review)


def first_plan(
    found: Findings,
    tags: Sequence[str] = (),
    situations: Iterable[Path] = (),
    settings: Settings | None = None,
    title: str = "",
    only_situations: bool = False,
) -> LessonPlan:
    """The plan of a new lesson: the tags chosen (none given: all), then every thing seen in the situations.

    Raises FilmReviewError for an unknown tag, a review without findings, a bad situation.
    """
    asks: list[Ask] = []
    if not only_situations:
        asks += [AskTag(tag) for tag in tags_to_ask(found, tags)]
    for path in situations:
        asks += situations_to_ask(path)
    return LessonPlan(title or usual_title(len(asks)), tuple(asks), settings or Settings()).checked()


def usual_title(count: int) -> str:
    """The title of a lesson that was given none: no school and no name in it."""
    return f"What the players wear: {count} question{'' if count == 1 else 's'}"


def _question(ask: Ask, found: Findings) -> Question:
    return question_of_situation(ask) if isinstance(ask, AskSituation) else question_of(found, ask.tag)

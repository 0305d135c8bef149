"""`filmreview lesson`: teaching clips, questions and answers from a review, made in one go."""

from __future__ import annotations

import argparse
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

from filmreview.commandline.answers import bar, print_json, print_lines, tell
from filmreview.commandline.review_commands import opened_review
from filmreview.errors import FilmReviewError, unknown
from filmreview.film.moment import parse_time
from filmreview.lessons.lesson import Lesson, first_plan, lesson_of
from filmreview.lessons.lesson_faces import OPEN, answer_faces, check_faces, stretches
from filmreview.lessons.lesson_folder import WrittenLesson, write_lesson_folder
from filmreview.lessons.plan import KEPT, LAYOUTS, MUTED, LessonPlan, Settings, plan_from_text, plan_to_text
from filmreview.review.lesson_changes import SetLesson
from filmreview.review.model import FACE_CHOICES, Review
from filmreview.review.reading import read
from filmreview.review.ruled import Findings, findings
from filmreview.review.store import Store

_SECONDS = ("lead_in", "slow", "hold", "answer", "after", "card")


def lesson(given: argparse.Namespace) -> int:
    """Make the lesson: plan it, keep the answer for the faces in the review, write everything to the folder, keep the plan.

    The plan is kept last: the review lists no lesson that was not made. With --list, only print the lessons that the review
    keeps. Prints what was written.
    """
    if given.list:
        return _list(read(given.review), given.json)
    if not given.to:
        raise FilmReviewError("no folder to write to", where="lesson", todo="give --to DIR")
    with opened_review(given.review) as opened:
        found = findings(opened.review)
        plan = plan_for(given, found)
        made = _answered(given, opened, lesson_of(plan, found))
        written = write_lesson_folder(made, Path(given.to), bar())
        opened.apply(SetLesson(_same(opened.review, made, given.again), made.plan.title, plan_to_text(made.plan)))
    if given.json:
        print_json(_to_json(made, written))
    else:
        print_lines(*(f"{one.path}: {one.words} ({_size(one.size)})" for one in written.files))
    for note in written.notes:
        tell(note)
    return 0


def plan_for(given: argparse.Namespace, found: Findings) -> LessonPlan:
    """The plan that was asked for: a kept one made again, or a new one; in both, what was given on the command counts.

    Raises FilmReviewError in one line for whatever cannot be.
    """
    situations = [Path(one) for one in given.situation]
    if given.again is None:
        settings, tags = _settings(given, Settings()), _words_of(given.tags or "")
        plan = first_plan(found, tags, situations, settings, given.title, given.no_findings)
        return replace(plan, end=given.end).checked()
    plan = plan_from_text(found.review.lesson(given.again).plan, given.again)
    if given.tags or situations or given.no_findings:
        todo = "leave out --tags, --situation and --no-findings, or make a new lesson"
        raise FilmReviewError("a lesson made again asks what it asked", where=given.again, todo=todo)
    made = replace(plan, settings=_settings(given, plan.settings), title=given.title or plan.title, end=given.end or plan.end)
    return made.checked()


def _settings(given: argparse.Namespace, kept: Settings) -> Settings:
    changed: dict[str, Any] = {
        name: _seconds(getattr(given, name), name) for name in _SECONDS if getattr(given, name) is not None
    }
    changed |= {name: getattr(given, name) for name in ("mark", "height") if getattr(given, name) is not None}
    if given.mute:
        changed["sound"] = MUTED if given.mute == "yes" else KEPT
    if given.inset:
        changed["inset"] = given.inset == "yes"
    if given.page:
        changed["page"] = given.page == "yes"
    if given.versions:
        changed["versions"] = tuple(dict.fromkeys(_words_of(given.versions)))
    if given.layout:
        if given.layout not in LAYOUTS:
            raise unknown("way to write the films", given.layout, LAYOUTS, where="--as")
        changed["layout"] = given.layout
    return replace(kept, **changed)


def _seconds(text: str, name: str) -> Fraction:
    return parse_time(text, f"--{name.replace('_', '-')}")


def _words_of(text: str) -> list[str]:
    return [part.strip() for part in text.split(",") if part.strip()]


def _answered(given: argparse.Namespace, opened: Store, made: Lesson) -> Lesson:
    """Keep the answer for the faces, when one was given; returns the lesson on the review as changed.

    Nothing is kept while the faces are not answered for.
    """
    if given.faces is not None and given.faces not in FACE_CHOICES:
        raise unknown("answer for the faces", given.faces, FACE_CHOICES, where="--faces")
    check_faces(made, given.faces or OPEN)
    if given.faces:
        answered = answer_faces(opened.review, stretches(made), given.faces)
        if answered:
            opened.apply(answered)
    return lesson_of(made.plan, findings(opened.review))


def _same(review: Review, made: Lesson, again: str | None) -> str | None:
    """The id of the kept lesson that this one takes the place of: the one made again, or one of the very same plan."""
    text = plan_to_text(made.plan)
    return again or next((one.id for one in review.lessons if one.plan == text), None)


def _list(review: Review, as_json: bool) -> int:
    plans = [(one, plan_from_text(one.plan, one.id)) for one in review.lessons]
    if as_json:
        print_json([{"id": one.id, "title": one.title, "questions": len(plan.asks)} for one, plan in plans])
    else:
        print_lines(*(f"{one.id}: {one.title} ({len(plan.asks)} asked)" for one, plan in plans))
    return 0


def _to_json(made: Lesson, written: WrittenLesson) -> dict[str, Any]:
    return {
        "title": made.title,
        "key": made.key,
        "questions": [
            {"id": one.id, "asked": one.asked, "ruling": one.answer.ruling, "consequence": one.answer.consequence}
            for one in made.questions
        ],
        "faces": [{"film": one.film.name, "time": one.words, "choice": one.choice} for one in stretches(made)],
        "files": [{"path": str(one.path), "what": one.words, "bytes": one.size} for one in written.files],
        "notes": list(written.notes),
    }


def _size(count: int) -> str:
    """Bytes for people, in decimal units (IEC 80000-13)."""
    return f"{count / 1e6:.1f} MB" if count >= 100_000 else f"{max(1, round(count / 1e3))} kB"

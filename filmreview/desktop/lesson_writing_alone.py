"""Write a lesson, in the process that `lesson_making` gives it. No Qt."""

from __future__ import annotations

from pathlib import Path

from filmreview.lessons.lesson import lesson_of
from filmreview.lessons.lesson_folder import WrittenLesson, write_lesson_folder
from filmreview.lessons.plan import plan_from_text
from filmreview.progress import Progress, silent
from filmreview.review.model import Review
from filmreview.review.ruled import findings


def write(review: Review, plan: str, folder: Path, progress: Progress = silent) -> WrittenLesson:
    """Write the lesson of a plan (JSON) to a folder; raises as `write_lesson_folder` does."""
    return write_lesson_folder(lesson_of(plan_from_text(plan), findings(review)), folder, progress)

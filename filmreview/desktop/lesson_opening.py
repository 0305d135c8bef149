"""Open the lesson dialog: its presenters, its folder. Imported when the first lesson is asked for, as what draws clips takes a
fifth of a second to import."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PyQt6.QtWidgets import QWidget

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.lesson_dialog import LessonDialog
from filmreview.desktop.lesson_faces_presenter import PICTURES, WORK, FacesPresenter
from filmreview.desktop.lesson_presenter import PICTURE, Draft, LessonPresenter, draft_of
from filmreview.lessons.face_model import faces_trouble
from filmreview.lessons.plan import plan_to_text
from filmreview.review.lesson_changes import SetLesson
from filmreview.review.model import Lesson
from filmreview.review.ruled import Findings

Taken = Callable[[SetLesson, str, Path], None]
"""What is called when the lesson is to be made: the change that keeps it, its plan as text, the folder."""


def drafted(found: Findings, kept: Lesson | None) -> Draft:
    """What the dialog begins with; slow with many findings, so for a job. Raises as `draft_of` does."""
    return draft_of(found, kept)


def open_dialog(desk: Desk, draft: Draft, folder: Path, taken: Taken, window: QWidget) -> LessonDialog:
    """Show the dialog over the window. taken: told when the person says that the lesson is to be made."""
    presenter = LessonPresenter(desk, draft)
    dialog = LessonDialog(presenter, FacesPresenter(desk, presenter.stretches), folder, faces_trouble() or "", window)
    dialog.accepted.connect(lambda: taken(presenter.keeping(), plan_to_text(presenter.plan()), dialog.folder()))
    dialog.finished.connect(lambda _how: desk.forget(PICTURE, *PICTURES, WORK))  # nobody waits for them any more
    dialog.open()
    return dialog

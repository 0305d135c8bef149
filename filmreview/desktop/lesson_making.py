"""Make a lesson: ask with the dialog, keep its plan in the review, write it in a process of its own that can be stopped."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PyQt6.QtWidgets import QInputDialog, QWidget

from filmreview.desktop.alone import alone
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.jobs import Jobs
from filmreview.desktop.lesson_dialog import LessonDialog
from filmreview.desktop.lesson_faces_presenter import FacesPresenter
from filmreview.desktop.lesson_presenter import Draft, LessonPresenter, draft_of
from filmreview.desktop.message_line import MessageLine
from filmreview.errors import FilmReviewError
from filmreview.lessons.face_model import faces_trouble
from filmreview.lessons.lesson_folder import WrittenLesson
from filmreview.lessons.plan import plan_to_text
from filmreview.review.model import Lesson, Review

WRITE = "filmreview.desktop.lesson_writing_alone:write"
NEW = "a new lesson"


class LessonMaking:
    """Lessons of the open review. folder: where things are proposed to be written, "" for beside the review."""

    def __init__(self, desk: Desk, jobs: Jobs, messages: MessageLine, window: QWidget, folder: Callable[[], str]) -> None:
        self._desk, self._jobs, self._messages, self._window, self._folder = desk, jobs, messages, window, folder
        self._dialog: LessonDialog | None = None
        desk.events.on("review", self._review_changed)

    def ask(self) -> None:
        """Ask for a lesson: a new one, or one that the review keeps."""
        review, found = self._desk.review, self._desk.findings
        if review is None or self._dialog is not None:
            return
        if found is None:
            self._desk.message(self._desk.trouble or "the findings are not ready yet: try again in a moment")
            return
        go_on, kept = self._which(review)
        if go_on:
            self._jobs.start(lambda _progress: draft_of(found, kept), self._open, self._refused, "lesson")

    def _which(self, review: Review) -> tuple[bool, Lesson | None]:
        """Whether to go on, and the kept lesson to make again; None for a new one."""
        if not review.lessons:
            return True, None
        words = [NEW, *(f"{one.id}: {one.title}" for one in reversed(review.lessons))]
        chosen, go_on = QInputDialog.getItem(self._window, "Make a lesson", "Begin with", words, 0, False)
        kept = next((one for one in review.lessons if chosen == f"{one.id}: {one.title}"), None)
        return go_on, kept

    def _open(self, draft: Draft) -> None:
        review = self._desk.review
        if review is None:
            return
        presenter = LessonPresenter(self._desk, draft)
        faces = FacesPresenter(self._desk, presenter.stretches)
        folder = Path(self._folder()).expanduser() if self._folder() else review.path.parent
        dialog = LessonDialog(presenter, faces, folder / f"{review.path.stem} lesson", faces_trouble() or "", self._window)
        dialog.accepted.connect(lambda: self._keep(presenter, dialog.folder()))
        dialog.finished.connect(self._closed)
        self._dialog = dialog
        dialog.open()

    def _keep(self, presenter: LessonPresenter, folder: Path) -> None:
        """Keep the plan, then write: an answer for the faces is in the review already."""
        plan = plan_to_text(presenter.plan())
        self._desk.change(presenter.keeping(), lambda _ids: self._write(plan, folder), self._refused)

    def _write(self, plan: str, folder: Path) -> None:
        review = self._desk.review
        if review is not None:
            self._desk.message(f"making the lesson in {folder} ...")
            self._messages.watch(self._jobs.start(alone(WRITE, review, plan, folder), self._made))

    def _made(self, written: WrittenLesson) -> None:
        size = sum(one.size for one in written.files) / 1e6
        note = f"; {written.notes[0]}" if written.notes else ""
        self._desk.message(f"the lesson is in {written.folder}: {len(written.files)} files, {size:.1f} MB{note}")

    def _refused(self, error: FilmReviewError) -> None:
        self._desk.message(str(error))

    def _review_changed(self) -> None:
        if self._dialog is not None:
            self._dialog.review_changed()

    def _closed(self) -> None:
        if self._dialog is not None:
            self._desk.forget("lesson picture", "lesson faces picture", "lesson faces work")  # nobody waits for them any more
            self._dialog.deleteLater()
            self._dialog = None

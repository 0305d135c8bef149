"""Make a lesson: ask with the dialog, write it in a process of its own that can be stopped, keep its plan in the review."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PyQt6.QtWidgets import QInputDialog, QWidget

from filmreview.desktop.alone import alone
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.jobs import Jobs
from filmreview.desktop.message_line import MessageLine
from filmreview.errors import FilmReviewError
from filmreview.review.lesson_changes import SetLesson
from filmreview.review.model import Lesson, Review
from filmreview.review.ruled import Findings

if TYPE_CHECKING:  # what draws and writes takes long to import: the first lesson does, not the start of the desk
    from filmreview.desktop.lesson_dialog import LessonDialog
    from filmreview.desktop.lesson_presenter import Draft
    from filmreview.lessons.lesson_folder import WrittenLesson

WRITE = "filmreview.desktop.lesson_writing_alone:write"
NEW = "a new lesson"
JOB = "lesson"


class LessonMaking:
    """Lessons of the open review. folder: where things are proposed to be written, "" for beside the review."""

    def __init__(self, desk: Desk, jobs: Jobs, messages: MessageLine, window: QWidget, folder: Callable[[], str]) -> None:
        self._desk, self._jobs, self._messages, self._window, self._folder = desk, jobs, messages, window, folder
        self.dialog: LessonDialog | None = None
        desk.events.on("review", self._review_changed)

    def ask(self) -> None:
        """Ask for a lesson: a new one, or one that the review keeps."""
        review, found = self._desk.review, self._desk.findings
        if review is None or self.dialog is not None:
            return
        if found is None:
            self._desk.message(self._desk.trouble or "the findings are not ready yet: try again in a moment")
            return
        go_on, kept = self._which(review)
        if go_on:
            self._jobs.start(lambda _progress: _drafted(found, kept), self._open, self._refused, JOB)

    def _which(self, review: Review) -> tuple[bool, Lesson | None]:
        """Whether to go on, and the kept lesson to make again; None for a new one."""
        if not review.lessons:
            return True, None
        words = [NEW, *(f"{one.id}: {one.title}" for one in reversed(review.lessons))]
        chosen, go_on = QInputDialog.getItem(self._window, "Make a lesson", "Begin with", words, 0, False)
        kept = next((one for one in review.lessons if chosen == f"{one.id}: {one.title}"), None)
        return go_on, kept

    def _open(self, draft: Draft) -> None:
        from filmreview.desktop.lesson_opening import open_dialog  # noqa: PLC0415 - no start waits for it

        review = self._desk.review
        if review is not None:
            folder = Path(self._folder()).expanduser() if self._folder() else review.path.parent
            self.dialog = open_dialog(self._desk, draft, folder / f"{review.path.stem} lesson", self._make, self._window)
            self.dialog.finished.connect(self._closed)

    def _make(self, change: SetLesson, plan: str, folder: Path) -> None:
        """Write, then keep the plan: none is kept that was not made. The answers for the faces are in the review already."""
        review = self._desk.review
        if review is not None:
            self._desk.message(f"making the lesson in {folder} ...")
            made = partial(self._made, change, review.path)
            self._messages.watch(self._jobs.start(alone(WRITE, review, plan, folder), made))

    def _made(self, change: SetLesson, path: Path, written: WrittenLesson) -> None:
        review = self._desk.review
        if review is not None and review.path == path:
            self._desk.change(change, lambda _ids: self._tell(written), self._refused)
        else:
            self._tell(written)  # another review is open by now: the files are there, the plan has nowhere to be kept

    def _tell(self, written: WrittenLesson) -> None:
        size = sum(one.size for one in written.files) / 1e6
        note = f"; {written.notes[0]}" if written.notes else ""
        self._desk.message(f"the lesson is in {written.folder}: {len(written.files)} files, {size:.1f} MB{note}")

    def _refused(self, error: FilmReviewError) -> None:
        self._desk.message(str(error))

    def _review_changed(self) -> None:
        if self._desk.review is None:
            self._desk.forget(JOB)  # its answer would be of the review before
        if self.dialog is not None:
            self.dialog.review_changed()

    def _closed(self) -> None:
        if self.dialog is not None:
            self.dialog.deleteLater()
            self.dialog = None


def _drafted(found: Findings, kept: Lesson | None) -> Draft:
    from filmreview.desktop.lesson_opening import drafted  # noqa: PLC0415 - imported on a job's thread, no start waits for it

    return drafted(found, kept)

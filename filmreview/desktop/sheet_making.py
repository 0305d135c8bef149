"""Make the findings sheet: ask where to, write it in a job that shows how far it is and can be stopped."""

from __future__ import annotations

from pathlib import Path

from PyQt6.QtWidgets import QFileDialog, QWidget

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.jobs import Jobs
from filmreview.desktop.message_line import MessageLine
from filmreview.progress import Progress
from filmreview.review.model import Review
from filmreview.review.ruled import findings
from filmreview.sheets.pictures import film_pictures
from filmreview.sheets.telling import hand_over

ENDING = ".xlsx"


class SheetMaking:
    """Sheets of the open review."""

    def __init__(self, desk: Desk, jobs: Jobs, messages: MessageLine, window: QWidget) -> None:
        self._desk, self._jobs, self._messages, self._window = desk, jobs, messages, window

    def ask(self) -> None:
        """Ask where to and make it."""
        review = self._desk.review
        if review is None:
            return
        proposed = str(review.path.with_suffix(ENDING))
        path, _kind = QFileDialog.getSaveFileName(self._window, "Make the findings sheet", proposed, f"Workbooks (*{ENDING})")
        if path:
            self.make(review, Path(path if path.endswith(ENDING) else path + ENDING))

    def make(self, review: Review, path: Path) -> None:
        """Write the sheet of a review to this path."""
        self._desk.message(f"making {path.name} ...")
        job = self._jobs.start(lambda progress: write_sheet(review, path, progress), lambda _done: self._made(path))
        self._messages.watch(job)

    def _made(self, path: Path) -> None:
        self._desk.message(f"the findings sheet is in {path}")


def write_sheet(review: Review, path: Path, progress: Progress) -> None:
    """Write the workbook of a review's findings; an older one is replaced only when the new one is whole."""
    from filmreview.sheets.workbook import write_workbook  # noqa: PLC0415 - pandas takes half a second that no start waits for

    with film_pictures(review) as pictures:
        write_workbook(hand_over(findings(review), pictures), path, progress)

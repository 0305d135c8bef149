"""Make the findings sheet: ask where to, write it in a job that shows how far it is and can be stopped."""

from __future__ import annotations

import re
from pathlib import Path

from PyQt6.QtWidgets import QFileDialog, QWidget

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.jobs import Jobs
from filmreview.desktop.message_line import MessageLine
from filmreview.progress import Progress
from filmreview.review.model import Review
from filmreview.review.ruled import findings
from filmreview.sheets.handover import COORDINATOR, CREW
from filmreview.sheets.pictures import film_pictures
from filmreview.sheets.telling import hand_over

KINDS = ";;".join(
    (
        "Workbook (*.xlsx)", "Web page (*.html)", "Paper (*.pdf)", "Workbook for the crew (*.xlsx)",
        "Web page for the crew (*.html)", "Paper for the crew (*.pdf)", "Table (*.csv)", "Captions for the film (*.vtt)",
        "Marks for the film in other programs (*.otio)", "Data (*.json)",
    )
)  # fmt: skip
"""What can be made; a sheet for the crew has no notes and no replies, and its pictures are blurred but for the region."""


class SheetMaking:
    """Sheets of the open review."""

    def __init__(self, desk: Desk, jobs: Jobs, messages: MessageLine, window: QWidget) -> None:
        self._desk, self._jobs, self._messages, self._window = desk, jobs, messages, window

    def ask(self) -> None:
        """Ask where to and make it; the file's ending says the kind."""
        review = self._desk.review
        if review is None:
            return
        proposed = str(review.path.with_suffix(".xlsx"))
        path, kind = QFileDialog.getSaveFileName(self._window, "Make the findings sheet", proposed, KINDS)
        if path:
            self.make(review, with_ending(Path(path), kind), reader_of(kind))

    def make(self, review: Review, path: Path, made_for: str = COORDINATOR) -> None:
        """Write the sheet of a review to this path, for the coordinator or the crew."""
        self._desk.message(f"making {path.name} ...")
        job = self._jobs.start(lambda progress: write(review, path, progress, made_for), self._made)
        self._messages.watch(job)

    def _made(self, paths: tuple[Path, ...]) -> None:
        self._desk.message("the findings sheet is in " + ", ".join(str(path) for path in paths))


def with_ending(path: Path, kind: str) -> Path:
    """The path with the ending of the kind chosen, when it was typed without one."""
    ending = re.search(r"\*(\.\w+)", kind)
    return path if path.suffix or not ending else path.with_name(path.name + ending[1])


def reader_of(kind: str) -> str:
    """Whom the kind chosen is made for."""
    return CREW if "for the crew" in kind else COORDINATOR


def write(review: Review, path: Path, progress: Progress, made_for: str = COORDINATOR) -> tuple[Path, ...]:
    """Write the findings of a review; an older file is replaced only when the new one is whole. Returns what was written."""
    from filmreview.sheets.kinds import write_sheet  # noqa: PLC0415 - pandas takes half a second that no start waits for

    with film_pictures(review) as pictures:
        return write_sheet(hand_over(findings(review), pictures, made_for), path, progress)

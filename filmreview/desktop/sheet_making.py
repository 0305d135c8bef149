"""Make the findings sheet: ask where to, write it in a process of its own that shows how far it is and can be stopped."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

from PyQt6.QtWidgets import QFileDialog, QWidget

from filmreview.desktop.alone import alone
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.jobs import Jobs
from filmreview.desktop.message_line import MessageLine
from filmreview.review.model import Review
from filmreview.sheets.handover import COORDINATOR, CREW

KINDS = ";;".join(
    (
        "Workbook (*.xlsx)", "Web page (*.html)", "Paper (*.pdf)", "Workbook for the crew (*.xlsx)",
        "Web page for the crew (*.html)", "Paper for the crew (*.pdf)", "Table (*.csv)", "Captions for the film (*.vtt)",
        "Marks for the film in other programs (*.otio)", "Data (*.json)",
    )
)  # fmt: skip
"""What can be made; a sheet for the crew has no notes and no replies, and its pictures are blurred but for the region."""
WRITE = "filmreview.desktop.sheet_writing:write"


class SheetMaking:
    """Sheets of the open review. folder: where they are proposed, as the settings have it; "" for beside the review."""

    def __init__(self, desk: Desk, jobs: Jobs, messages: MessageLine, window: QWidget, folder: Callable[[], str]) -> None:
        self._desk, self._jobs, self._messages, self._window, self._folder = desk, jobs, messages, window, folder

    def ask(self) -> None:
        """Ask where to and make it; the file's ending says the kind."""
        review = self._desk.review
        if review is None:
            return
        folder = Path(self._folder()).expanduser() if self._folder() else review.path.parent
        proposed = str(folder / review.path.with_suffix(".xlsx").name)
        path, kind = QFileDialog.getSaveFileName(self._window, "Make the findings sheet", proposed, KINDS)
        if path:
            self.make(review, with_ending(Path(path), kind), reader_of(kind))

    def make(self, review: Review, path: Path, made_for: str = COORDINATOR) -> None:
        """Write the sheet of a review to this path, for the coordinator or the crew."""
        self._desk.message(f"making {path.name} ...")
        job = self._jobs.start(alone(WRITE, review, path, made_for), self._made)
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

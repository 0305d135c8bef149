"""Read the replies of a returned workbook: choose it, read it in a job, put all of them into the review as one change."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path

from PyQt6.QtWidgets import QFileDialog, QInputDialog, QWidget

from filmreview.desktop.desk_presenter import Desk
from filmreview.review.changes import Together
from filmreview.review.model import Review
from filmreview.sheets.returned import Returned, read_returned

WORKBOOKS = "Workbooks (*.xlsx)"
NOT_TOLD = "not told"


class RepliesReading:
    """The replies that come into the review of one window. folder: where sheets are proposed, "" for beside the review."""

    def __init__(self, desk: Desk, window: QWidget, folder: Callable[[], str]) -> None:
        self._desk, self._window, self._folder = desk, window, folder

    def handlers(self) -> Mapping[str, Callable[[], object]]:
        """What happens for the deed that reads replies."""
        return {"replies": self.ask}

    def ask(self) -> None:
        """Choose the workbook, and say who replied when the review names a crew."""
        review = self._desk.review
        if review is None:
            return
        folder = str(Path(self._folder()).expanduser()) if self._folder() else str(review.path.parent)
        path, _kind = QFileDialog.getOpenFileName(self._window, "The findings sheet that came back", folder, WORKBOOKS)
        if not path:
            return
        go_on, by = self._who(review)
        if go_on:
            self.read(Path(path), by)

    def read(self, path: Path, by: str = "") -> None:
        """Read the replies of this workbook. by: the position of who replied, "" when not told."""
        review = self._desk.review
        if review is None:
            return
        self._desk.message(f"reading {path.name} ...")
        taken = partial(self._take, review.path, path.name)
        self._desk.start(
            lambda _progress: read_returned(path, review, by), taken, lambda error: self._desk.message(str(error)), "replies"
        )

    def _who(self, review: Review) -> tuple[bool, str]:
        """Whether to go on, and the position of who replied."""
        if not review.game.crew:
            return True, ""
        words = [NOT_TOLD, *(one.position for one in review.game.crew)]
        chosen, go_on = QInputDialog.getItem(self._window, "Read replies", "Who replied", words, 0, False)
        return go_on, "" if chosen == NOT_TOLD else chosen

    def _take(self, of: Path, name: str, returned: Returned) -> None:
        review = self._desk.review
        if review is None or review.path != of:
            return  # another review is open by now
        if not returned.replies:
            self._tell(name, returned, 0)
            return
        change = Together(returned.replies, f"read {_replies(len(returned.replies))} from {name}")
        self._desk.try_change(change, lambda ids: self._tell(name, returned, len(ids)))

    def _tell(self, name: str, returned: Returned, changed: int) -> None:
        """One line: how many came, how many are new, and the first thing that is not as it was sent."""
        words = f"{name}: {_replies(len(returned.replies))}, {changed} of them new or changed"
        if returned.told:
            more = f" (and {len(returned.told) - 1} more to say)" if len(returned.told) > 1 else ""
            words += f"; {returned.told[0]}{more}"
        self._desk.message(words)


def _replies(many: int) -> str:
    return f"{many} {'reply' if many == 1 else 'replies'}"

"""Another's review in the window: choose its file, read and rule it in a job, lay it beside this one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from PyQt6.QtWidgets import QFileDialog, QWidget

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.film_place import FilmPlace
from filmreview.desktop.opening import REVIEWS
from filmreview.desktop.other_review_dialog import OtherReviewDialog
from filmreview.desktop.other_review_presenter import Key, OtherReviewPresenter
from filmreview.errors import FilmReviewError
from filmreview.progress import Progress
from filmreview.review.merging import same_films
from filmreview.review.reading import read
from filmreview.review.ruled import Findings, findings


class OtherReviewInForce:
    """Laying another's review beside the one of this window. The other file is only read."""

    def __init__(self, desk: Desk, film_place: FilmPlace, window: QWidget) -> None:
        self._desk, self._film_place, self._window = desk, film_place, window
        self.presenter = OtherReviewPresenter(desk)
        self.presenter.events.on("pairs", self._refresh)
        self.dialog: OtherReviewDialog | None = None

    def handlers(self) -> Mapping[str, Callable[[], object]]:
        """What happens for the deed about another's review."""
        return {"other_review": self.ask}

    def ask(self) -> None:
        """Choose the other file."""
        review = self._desk.review
        if review is None:
            return
        folder = str(review.path.parent)
        path, _kind = QFileDialog.getOpenFileName(self._window, "Another observer's file of this game", folder, REVIEWS)
        if path:
            self.lay(Path(path))

    def lay(self, path: Path) -> None:
        """Read this review and lay it beside the open one; what stands in the way is told as a message."""
        review = self._desk.review
        if review is None:
            return

        def work(_progress: Progress) -> Findings:
            other = read(path)
            same_films(review, other)  # before it is ruled: another game is told at once
            return findings(other)

        self._desk.message(f"reading {path.name} ...")
        self._desk.start(work, self._laid, lambda error: self._desk.message(str(error)), "other review")

    def _laid(self, theirs: Findings) -> None:
        if self.dialog is not None:
            self.dialog.close()
        try:
            self.presenter.lay(theirs)
        except FilmReviewError as error:
            self._desk.message(str(error))
            return
        self._desk.message(self.presenter.summary())
        self.dialog = OtherReviewDialog(self.presenter, self._window)
        self.dialog.jump_wanted.connect(self._go)
        self.dialog.finished.connect(self._closed)
        self.dialog.show()

    def _go(self, key: Key) -> None:
        place = self.presenter.place(key)
        if place is not None:
            film, tag = place
            self._film_place.go_to(film, tag.moment)

    def _refresh(self) -> None:
        if self.dialog is not None:
            self.dialog.refresh()

    def _closed(self) -> None:
        dialog, self.dialog = self.dialog, None
        self.presenter.let_go()
        if dialog is not None:
            dialog.deleteLater()

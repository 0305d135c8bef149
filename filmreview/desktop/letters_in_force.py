"""Letters and replies in the window: built by the sheet in a job, shown in their dialog, kept as changes of the review."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from PyQt6.QtWidgets import QWidget

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.letters_dialog import LettersDialog
from filmreview.desktop.letters_presenter import NO_CREW, LettersPresenter, build
from filmreview.sheets.handover import LetterTo

JOB = "letters"


class LettersInForce:
    """The letters of one window. go_to_tag: stands on a tag's moment."""

    def __init__(self, desk: Desk, go_to_tag: Callable[[str], None], window: QWidget) -> None:
        self._desk, self._go_to_tag, self._window = desk, go_to_tag, window
        self.presenter = LettersPresenter(desk)
        self.dialog: LettersDialog | None = None
        desk.events.on("review", self._review_changed)
        desk.events.on("findings", self._build_again)

    def handlers(self) -> Mapping[str, Callable[[], object]]:
        """What happens for the deed about letters."""
        return {"letters": self.ask}

    def ask(self) -> None:
        """Show the letters, once the sheet's own are built."""
        review = self._desk.review
        if review is None:
            return
        if not review.game.crew and not review.replies:
            self._desk.message(NO_CREW)
            return
        self._build(self._show)

    def close(self) -> None:
        """The review or the window closes: what is typed is kept first, as when the dialog is closed by hand."""
        if self.dialog is not None:
            self.dialog.reject()

    def _build(self, then: Callable[[tuple[LetterTo, ...]], None]) -> None:
        review = self._desk.review
        if review is None:
            return

        def told(built: tuple[LetterTo, ...]) -> None:
            if self._desk.review is review:
                then(built)
            else:
                self._build(then)  # something was changed meanwhile

        self._desk.start(lambda _progress: build(review), told, lambda error: self._desk.message(str(error)), JOB)

    def _show(self, built: tuple[LetterTo, ...]) -> None:
        self.presenter.take(built)
        if self.dialog is None:
            self.dialog = LettersDialog(self.presenter, self._window)
            self.dialog.jump_wanted.connect(self._go_to_tag)
            self.dialog.finished.connect(self._closed)
        self.dialog.show()
        self.dialog.raise_()

    def _take(self, built: tuple[LetterTo, ...]) -> None:
        self.presenter.take(built)
        if self.dialog is not None:
            self.dialog.refresh()

    def _review_changed(self) -> None:
        if self._desk.review is None:
            self._desk.forget(JOB)  # its answer would be of the review before
        if self.dialog is None:
            return
        if self._desk.review is None:
            self.dialog.hide()
            self._closed()
        else:
            self.dialog.refresh()

    def _build_again(self) -> None:
        """What the sheet builds follows the findings."""
        if self.dialog is not None:
            self._build(self._take)

    def _closed(self) -> None:
        dialog, self.dialog = self.dialog, None
        if dialog is not None:
            dialog.deleteLater()

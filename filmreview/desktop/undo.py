"""Undo and redo: every change, undo and redo is done in turn beside the window, and the stack here mirrors what was done.

The store keeps the history on disk, so what was done before the last restart can be taken back too. A step stands on the stack
once it is on the disk; the stack holds no more than its words.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PyQt6.QtCore import QObject
from PyQt6.QtGui import QUndoCommand, QUndoStack

from filmreview.desktop.turns import Failed, InTurn
from filmreview.errors import FilmReviewError
from filmreview.progress import Progress
from filmreview.review.changes import Change
from filmreview.review.history import Step
from filmreview.review.model import Review
from filmreview.review.store import Store


@dataclass(frozen=True)
class _Done:
    """A change that is on the disk. words: of its step. review: as it is since."""

    ids: tuple[str, ...]
    words: str
    review: Review


class Undo(QObject):
    """The undo stack of one open review. in_turn: does the work on its file. changed: told how the review is now. failed: told
    when an undo or redo could not be done."""

    def __init__(
        self, in_turn: InTurn, changed: Callable[[Review], None], failed: Failed, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self.stack = QUndoStack(self)
        self._in_turn = in_turn
        self._changed = changed
        self._failed = failed
        self._store: Store | None = None

    def take(self, store: Store | None) -> None:
        """Mirror this store's history from now on; None forgets it."""
        self.stack.clear()
        self._store = store
        if store is not None:
            self._in_turn(lambda _progress: _words(store), lambda words: self._mirror(store, *words), self._failed)

    def push(self, change: Change, then: Callable[[tuple[str, ...]], None], failed: Failed) -> None:
        """Make a change. then: gets the ids it touched, once it is on the disk. failed: told why it is not; nothing has
        changed then."""
        store = self._opened()

        def work(_progress: Progress) -> _Done:
            ids = store.apply(change)
            return _Done(ids, (store.next_undo or "") if ids else "", store.review)

        def done(made: _Done) -> None:
            if store is self._store and made.ids:
                self._changed(made.review)
                self.stack.push(QUndoCommand(made.words))
            then(made.ids)

        self._in_turn(work, done, failed)

    def back(self, then: Callable[[str], None]) -> None:
        """Undo the last change. then: gets its words, and is not called when nothing was undone."""
        store = self._opened()
        self._walk(store, store.undo, self.stack.undo, then)

    def again(self, then: Callable[[str], None]) -> None:
        """Redo the next change. then: gets its words, and is not called when nothing was redone."""
        store = self._opened()
        self._walk(store, store.redo, self.stack.redo, then)

    def by(self, steps: int, then: Callable[[int], None]) -> None:
        """Undo (less than 0) or redo so many changes one after another, each of which stays a step of its own. then: gets how
        many were walked; a fault on the way is told, and what was walked before it stays."""
        store = self._opened()
        walk = store.undo if steps < 0 else store.redo

        def work(_progress: Progress) -> tuple[int, FilmReviewError | None, Review]:
            walked = 0
            try:
                while walked < abs(steps) and walk() is not None:
                    walked += 1
            except FilmReviewError as error:
                return walked, error, store.review
            return walked, None, store.review

        def done(made: tuple[int, FilmReviewError | None, Review]) -> None:
            walked, fault, review = made
            if store is not self._store:
                return
            if walked:
                self._changed(review)
                self.stack.setIndex(self.stack.index() + (walked if steps > 0 else -walked))
                then(walked)
            if fault is not None:
                self._failed(fault)

        self._in_turn(work, done, self._failed)

    def _walk(
        self, store: Store, walk: Callable[[], Step | None], mirrored: Callable[[], None], then: Callable[[str], None]
    ) -> None:
        def done(made: tuple[Step | None, Review]) -> None:
            step, review = made
            if step is None or store is not self._store:
                return
            self._changed(review)
            mirrored()
            then(step.words)

        self._in_turn(lambda _progress: (walk(), store.review), done, self._failed)

    def _opened(self) -> Store:
        assert self._store is not None, "changes are made to an open review"
        return self._store

    def _mirror(self, store: Store, done: list[str], undone: list[str]) -> None:
        if store is not self._store:
            return
        self.stack.blockSignals(True)  # told once, not for every step of an evening
        for words in (*done, *undone):
            self.stack.push(QUndoCommand(words))
        self.stack.setIndex(len(done))
        self.stack.blockSignals(False)
        self.stack.indexChanged.emit(len(done))


def _words(store: Store) -> tuple[list[str], list[str]]:
    """The words of the steps that are done, but for the first one, which made the game and stays, and of those undone."""
    steps = store.history_words()[1:]
    return [words for words, state in steps if state == "done"], [words for words, state in steps if state == "undone"]

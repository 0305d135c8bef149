"""Undo and redo: one generic command that wraps any change to a review.

The store keeps the history on disk; the stack here mirrors it, so what was done before the last restart can be taken back too.
"""

from __future__ import annotations

from collections.abc import Callable

from PyQt6.QtCore import QObject
from PyQt6.QtGui import QUndoCommand, QUndoStack

from filmreview.errors import FilmReviewError
from filmreview.review.changes import Change
from filmreview.review.store import Store


class _Command(QUndoCommand):
    """One step. change: what to apply at the first redo; None for a step that is in the store's history already."""

    def __init__(self, owner: Undo, change: Change | None, words: str) -> None:
        super().__init__(words)
        self._owner = owner
        self._change = change

    def redo(self) -> None:
        change, self._change = self._change, None
        if not self._owner.step(change):
            self.setObsolete(True)
        elif change is not None:
            self.setText(self._owner.last_words)

    def undo(self) -> None:
        if not self._owner.step_back():
            self.setObsolete(True)


class Undo(QObject):
    """The undo stack of one open review. failed: told when an undo or redo could not be done."""

    def __init__(self, failed: Callable[[FilmReviewError], None], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.stack = QUndoStack(self)
        self.last_words = ""
        self._failed = failed
        self._store: Store | None = None
        self._restoring = False
        self._pushing = False
        self._went = False
        self._ids: tuple[str, ...] = ()
        self._fault: FilmReviewError | None = None

    def take(self, store: Store | None) -> None:
        """Mirror this store's history from now on; None forgets it."""
        self.stack.clear()
        self._store = store
        if store is None:
            return
        steps = store.history()[1:]  # the first one made the game and stays
        done = [step for step in steps if step.state == "done"]
        undone = [step for step in steps if step.state == "undone"]
        self._restoring = True
        for step in (*done, *undone):
            self.stack.push(_Command(self, None, step.words))
        self.stack.setIndex(len(done))
        self._restoring = False

    def push(self, change: Change) -> tuple[str, ...]:
        """Make a change and put it on the stack; returns the ids it touched.

        Raises FilmReviewError when it cannot be; then nothing has changed.
        """
        self._ids, self._fault = (), None
        could_redo = self.stack.canRedo()
        self._pushing = True
        self.stack.push(_Command(self, change, ""))
        self._pushing = False
        if could_redo and not self._ids:  # Qt forgot what could be redone, the store did not
            self.take(self._store)
        if self._fault:
            raise self._fault
        return self._ids

    def back(self) -> str:
        """Undo the last change; returns its words, "" when nothing was undone."""
        words, self._went = self.stack.undoText(), False
        self.stack.undo()
        return words if self._went else ""

    def again(self) -> str:
        """Redo the next change; returns its words, "" when nothing was redone."""
        words, self._went = self.stack.redoText(), False
        self.stack.redo()
        return words if self._went else ""

    def step(self, change: Change | None) -> bool:
        """Apply a new change, or redo the next one of the history; False when it did not happen."""
        if self._restoring:
            return True
        assert self._store is not None, "commands are pushed on an open review"
        try:
            if change is None:
                self._went = self._store.redo() is not None
                return self._went
            self._ids = self._store.apply(change)
            self.last_words = self._store.next_undo or ""
        except FilmReviewError as error:
            self._tell(error)
            return False
        return bool(self._ids)

    def step_back(self) -> bool:
        """Undo the last change of the history; False when it did not happen."""
        if self._restoring:
            return True
        assert self._store is not None, "commands are pushed on an open review"
        try:
            self._went = self._store.undo() is not None
        except FilmReviewError as error:
            self._tell(error)
            return False
        return self._went

    def _tell(self, error: FilmReviewError) -> None:
        if self._pushing:
            self._fault = error
        else:
            self._failed(error)

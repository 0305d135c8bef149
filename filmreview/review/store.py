"""The review file, open for writing: apply changes, undo, redo, history, and who is told.

One change is one transaction with its step of the history. Rollback journal and `synchronous = EXTRA`: when `apply` returns,
the change is on the disk, and the review is one file that may be copied at any time between changes. Any thread may call; calls
wait for each other. `reading.read` gives a snapshot without the right to write, also while a desk has the review open.
"""

from __future__ import annotations

import sqlite3
import threading
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack, closing, contextmanager
from dataclasses import replace
from pathlib import Path

from filmreview.errors import FilmReviewError
from filmreview.review import file, history, schema
from filmreview.review.changes import Change, CreateGame
from filmreview.review.edits import Edit, Ids, with_edits
from filmreview.review.history import Step, changed_by
from filmreview.review.lease import Lease
from filmreview.review.model import Game, KeptRuling, Review
from filmreview.review.plan import Plan

Callback = Callable[[frozenset[str]], None]


class Store:
    """One review open for writing. Make it with `create` or `open`; close it, or use it in a `with`."""

    def __init__(self, path: Path, who: str, lease: Lease, connection: sqlite3.Connection) -> None:
        self.path = path
        self.who = who
        self._lease = lease
        self._connection = connection
        self._lock = threading.RLock()
        self._callbacks: list[Callback] = []
        self._closed = False
        self._review = file.load(connection, path)
        self._version = file.foreign_version(connection)

    @property
    def review(self) -> Review:
        """The present snapshot."""
        return self._review

    def apply(self, change: Change) -> tuple[str, ...]:
        """Make a change; returns the ids it touched, new ones too, in order. It is on the disk when this returns.

        Raises FilmReviewError when the change cannot be (unknown item, no such tag ...) or the file cannot take it; then
        nothing is changed. A change that changes nothing leaves no step.
        """
        with self._lock:
            with self._telling():
                ids = file.counters(self._connection)
            plan = change.plan(self.review, ids)
            if plan.edits:
                with self._writing():
                    file.write_counters(self._connection, ids)
                    _write_step(self._connection, self.who, plan)
                self._now(plan.edits)
        if plan.edits:
            self._tell(changed_by(plan.edits))
        return tuple(dict.fromkeys(edit.id for edit in plan.edits))

    def undo(self) -> Step | None:
        """Take the last change back; returns its step, or None when there is nothing to undo."""
        return self._walk(history.last_done, "undone")

    def redo(self) -> Step | None:
        """Do the last undone change again; returns its step, or None when there is nothing to do again."""
        return self._walk(history.first_undone, "done")

    def history(self) -> list[Step]:
        """Every step of the review, the first one first: done, undone and abandoned ones."""
        with self._lock, self._telling():
            return history.steps(self._connection)

    def history_words(self) -> list[tuple[str, str]]:
        """Words and state of every step, the first one first."""
        with self._lock, self._telling():
            return history.words(self._connection)

    @property
    def next_undo(self) -> str | None:
        """The words of the change that undo would take back; None when there is none."""
        return self._words_of(history.last_done)

    @property
    def next_redo(self) -> str | None:
        """The words of the change that redo would do again; None when there is none."""
        return self._words_of(history.first_undone)

    def keep_rulings(self, kept: Sequence[KeptRuling], dropped: Sequence[KeptRuling]) -> None:
        """Keep what was ruled (see `ruled.keep`): derived, so no step of the history and nothing to undo."""
        if not kept and not dropped:
            return
        with self._lock:
            with self._writing():
                file.write_ruled(self._connection, kept, dropped)
            with self._telling():
                self._review = replace(self._review, ruled=file.load_ruled(self._connection))
        for callback in tuple(self._callbacks):
            callback(frozenset({"ruled"}))

    def subscribe(self, callback: Callback) -> Callable[[], None]:
        """Have callback called after every change with the parts and ids changed: {"tags", "t3", "history"}.

        It is called in the thread that made the change, after the store can be used again. Returns what ends it.
        """
        self._callbacks.append(callback)
        return lambda: self._callbacks.remove(callback)

    def close(self) -> None:
        """Close the file and give back the right to write. May be called twice."""
        with self._lock:
            if not self._closed:
                self._closed = True
                self._connection.close()
                self._lease.close()

    def __enter__(self) -> Store:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def _words_of(self, which: Callable[[sqlite3.Connection], Step | None]) -> str | None:
        with self._lock, self._telling():
            step = which(self._connection)
        return None if step is None else step.words

    def _walk(self, which: Callable[[sqlite3.Connection], Step | None], state: str) -> Step | None:
        with self._lock:
            with self._telling():
                step = which(self._connection)
            if step is None or (state == "undone" and step.number == 1):  # the first step made the game: it stays
                return None
            edits = step.edits if state == "done" else tuple(edit.turned() for edit in reversed(step.edits))
            with self._writing():
                file.write_edits(self._connection, edits)
                history.set_state(self._connection, step, state, self.who)
            self._now(edits)
        self._tell(step.changed)
        return step

    @contextmanager
    def _writing(self) -> Iterator[None]:
        """One transaction. Refused when something else wrote since, as then the snapshot is not true."""
        with self._telling(), file.transaction(self._connection):
            if file.foreign_version(self._connection) != self._version:
                raise FilmReviewError("the review was changed by another program", where=str(self.path), todo="open it again")
            yield

    @contextmanager
    def _telling(self) -> Iterator[None]:
        if self._closed:
            raise FilmReviewError("the review was closed", where=str(self.path), todo="open it again")
        with file.telling(self.path):
            yield

    def _now(self, edits: Iterable[Edit]) -> None:
        self._review = with_edits(self.review, edits)

    def _tell(self, changed: frozenset[str]) -> None:
        for callback in tuple(self._callbacks):
            callback(changed | {"history"})


def create(path: Path | str, game: Game, who: str) -> Store:
    """Make a new review file of this game. who: the person, for the history. The file is there whole or not at all.

    Raises FilmReviewError when a file is there already, the folder is missing or cannot be written, or the game cannot be.
    """
    path = Path(path).absolute()
    plan = CreateGame(game).plan(Review(path, game), Ids({}))
    if not path.parent.is_dir():
        raise FilmReviewError("there is no such folder", where=str(path.parent), todo="make it first")
    with ExitStack() as stack:
        lease = _leased(path, who, stack)
        if path.exists():
            raise FilmReviewError("there is a file of that name already", where=str(path), todo="give another name or open it")
        _make(path, who, plan)
        return _opened(path, who, lease, stack, lambda _: None)


def open(path: Path | str, who: str) -> Store:
    """Open a review for writing; an older form is brought to the present one.

    Raises FilmReviewError when it is missing, no review, of a newer form, damaged, open elsewhere, or in a folder that cannot
    be written.
    """
    path = Path(path).absolute()
    file.check_is_file(path)
    with ExitStack() as stack:
        lease = _leased(path, who, stack)
        return _opened(path, who, lease, stack, lambda connection: _bring_up(connection, path))


def _leased(path: Path, who: str, stack: ExitStack) -> Lease:
    lease = Lease(path, who)
    stack.callback(lease.close)
    return lease


def _make(path: Path, who: str, plan: Plan) -> None:
    """Make the file aside and give it its name when it is whole, so that a kill leaves no half review."""
    aside = path.with_name(f".{path.name}.new")
    for left in (aside, aside.with_name(f"{aside.name}-journal")):  # by a kill
        left.unlink(missing_ok=True)
    try:
        with file.telling(path), closing(file.connected(aside, "rwc")) as connection:
            schema.bring_up(connection)
            with file.transaction(connection):
                _write_step(connection, who, plan)
        aside.rename(path)
    finally:
        aside.unlink(missing_ok=True)


def _opened(path: Path, who: str, lease: Lease, stack: ExitStack, ready: Callable[[sqlite3.Connection], object]) -> Store:
    """The store on a ready file. stack: what to take back when it fails; kept when it does not."""
    with file.telling(path):
        connection = file.connected(path, "rw")
        stack.callback(connection.close)
        ready(connection)
        store = Store(path, who, lease, connection)
    stack.pop_all()
    return store


def _bring_up(connection: sqlite3.Connection, path: Path) -> None:
    schema.check_form(connection, path)
    file.check_sound(connection)
    schema.bring_up(connection)


def _write_step(connection: sqlite3.Connection, who: str, plan: Plan) -> None:
    file.write_edits(connection, plan.edits)
    history.add_step(connection, who, plan.words, plan.edits)

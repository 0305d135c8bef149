"""The history of a review: one step a change, with who, when, in words, and the edits to walk it forward and back."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass

from filmreview.review.edits import FIELDS, Edit, edit_from_json, edit_to_json
from filmreview.review.schema import now_text

# Looked for from the end, so that a long history costs nothing: what is undone always comes after the last step that is done.
_LAST_DONE = "SELECT number FROM step WHERE state = 'done' ORDER BY number DESC LIMIT 1"
_UNDONE = f"state = 'undone' AND number > coalesce(({_LAST_DONE}), 0)"


@dataclass(frozen=True)
class Step:
    """One step. at: UTC, ISO 8601. state: done, undone (can be done again), abandoned (undone, and then a new change came).
    state_at, state_who: when and by whom it came into that state."""

    number: int
    at: str
    who: str
    words: str
    edits: tuple[Edit, ...]
    state: str
    state_at: str
    state_who: str

    @property
    def changed(self) -> frozenset[str]:
        """What it touches: parts (game, films, tags, replies ...) and ids."""
        return changed_by(self.edits)


def changed_by(edits: Iterable[Edit]) -> frozenset[str]:
    """The parts and ids that edits touch: {"tags", "t3"}; the game's own id and part are both "game"."""
    edits = tuple(edits)
    parts = {FIELDS.get(edit.part, edit.part) for edit in edits}
    return frozenset(parts | {edit.id for edit in edits})


def steps(connection: sqlite3.Connection) -> list[Step]:
    """Every step, the first one first."""
    return [_step(row) for row in connection.execute("SELECT * FROM step ORDER BY number")]


def words(connection: sqlite3.Connection) -> list[tuple[str, str]]:
    """Words and state of every step, the first one first: a long history is read in a moment so."""
    return [(row["words"], row["state"]) for row in connection.execute("SELECT words, state FROM step ORDER BY number")]


def last_done(connection: sqlite3.Connection) -> Step | None:
    """The step that undo takes back."""
    return _one(connection, f"SELECT * FROM step WHERE number = ({_LAST_DONE})")


def first_undone(connection: sqlite3.Connection) -> Step | None:
    """The step that redo does again."""
    return _one(connection, f"SELECT * FROM step WHERE {_UNDONE} ORDER BY number LIMIT 1")


def add_step(connection: sqlite3.Connection, who: str, words: str, edits: Iterable[Edit]) -> None:
    """Write a new step; steps that were undone can no longer be done again and stay as abandoned."""
    at = now_text()
    connection.execute(f"UPDATE step SET state = 'abandoned', state_at = ?, state_who = ? WHERE {_UNDONE}", (at, who))
    data = json.dumps([edit_to_json(edit) for edit in edits], ensure_ascii=False, separators=(",", ":"))
    row = (at, who, words, data, "done", at, who)
    connection.execute("INSERT INTO step (at, who, words, edits, state, state_at, state_who) VALUES (?, ?, ?, ?, ?, ?, ?)", row)


def set_state(connection: sqlite3.Connection, step: Step, state: str, who: str) -> None:
    """Mark a step done again or undone."""
    connection.execute(
        "UPDATE step SET state = ?, state_at = ?, state_who = ? WHERE number = ?", (state, now_text(), who, step.number)
    )


def _one(connection: sqlite3.Connection, sql: str) -> Step | None:
    row = connection.execute(sql).fetchone()
    return None if row is None else _step(row)


def _step(row: sqlite3.Row) -> Step:
    edits = tuple(edit_from_json(edit) for edit in json.loads(row["edits"]))
    return Step(row["number"], row["at"], row["who"], row["words"], edits, row["state"], row["state_at"], row["state_who"])

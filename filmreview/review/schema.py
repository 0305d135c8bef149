"""The form of the review file: its tables, its marks, and how an older form becomes the present one.

One SQLite file. `application_id` says that it is a review, `user_version` which form it has. A step from one form to the next
and its record in `migration` are one transaction. A form newer than this program knows is refused with the version of the
program that wrote it.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path

import filmreview
from filmreview.errors import FilmReviewError

APPLICATION_ID = 0x46526576  # "FRev"
FORM = 4

_FORM_1 = """
CREATE TABLE migration (
    to_form INTEGER PRIMARY KEY, from_form INTEGER NOT NULL, at TEXT NOT NULL, program TEXT NOT NULL) STRICT;
CREATE TABLE counter (letter TEXT PRIMARY KEY, last INTEGER NOT NULL) STRICT;
CREATE TABLE game (
    id TEXT PRIMARY KEY CHECK (id = 'game'), day TEXT NOT NULL, level TEXT, book TEXT NOT NULL, adoption TEXT,
    home TEXT NOT NULL, visitor TEXT NOT NULL, crew TEXT NOT NULL, observer TEXT NOT NULL) STRICT;
CREATE TABLE film (
    id TEXT PRIMARY KEY, path TEXT NOT NULL, beside TEXT NOT NULL, size INTEGER NOT NULL, length TEXT NOT NULL,
    digest TEXT NOT NULL, start_pts INTEGER NOT NULL, start_time_base TEXT NOT NULL, width INTEGER NOT NULL,
    height INTEGER NOT NULL) STRICT;
CREATE TABLE tag (
    id TEXT PRIMARY KEY, film TEXT NOT NULL REFERENCES film (id) DEFERRABLE INITIALLY DEFERRED, pts INTEGER NOT NULL,
    time_base TEXT NOT NULL, team TEXT NOT NULL, player TEXT, item TEXT NOT NULL, region TEXT, facts TEXT NOT NULL,
    note TEXT NOT NULL, crew TEXT) STRICT;
CREATE TABLE event (
    id TEXT PRIMARY KEY, film TEXT NOT NULL REFERENCES film (id) DEFERRABLE INITIALLY DEFERRED, pts INTEGER NOT NULL,
    time_base TEXT NOT NULL, what TEXT NOT NULL, team TEXT, player TEXT, length INTEGER, before_start TEXT,
    note TEXT NOT NULL) STRICT;
CREATE TABLE reference (
    id TEXT PRIMARY KEY, film TEXT NOT NULL REFERENCES film (id) DEFERRABLE INITIALLY DEFERRED, pts INTEGER NOT NULL,
    time_base TEXT NOT NULL, region TEXT NOT NULL, colour TEXT NOT NULL) STRICT;
CREATE TABLE step (
    number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, words TEXT NOT NULL, edits TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('done', 'undone', 'abandoned')), state_at TEXT NOT NULL,
    state_who TEXT NOT NULL) STRICT;
"""

_FORM_2 = """
ALTER TABLE event ADD COLUMN kind TEXT;
ALTER TABLE event ADD COLUMN charged_to TEXT;
CREATE TABLE ruled (
    tag TEXT NOT NULL, program TEXT NOT NULL, inputs TEXT NOT NULL, at TEXT NOT NULL, book TEXT NOT NULL,
    edition TEXT NOT NULL, ruling TEXT NOT NULL, consequence TEXT NOT NULL, rule TEXT NOT NULL, reference TEXT NOT NULL,
    reasons TEXT NOT NULL, PRIMARY KEY (tag, program)) STRICT;
"""

_FORM_3 = """
CREATE TABLE official (
    id TEXT PRIMARY KEY, tag TEXT NOT NULL UNIQUE REFERENCES tag (id) DEFERRABLE INITIALLY DEFERRED,
    position TEXT NOT NULL) STRICT;
CREATE TABLE reply (
    id TEXT PRIMARY KEY, tag TEXT NOT NULL REFERENCES tag (id) DEFERRABLE INITIALLY DEFERRED, by TEXT NOT NULL,
    answer TEXT NOT NULL, words TEXT NOT NULL, UNIQUE (tag, by)) STRICT;
CREATE TABLE letter (id TEXT PRIMARY KEY, position TEXT NOT NULL UNIQUE, words TEXT NOT NULL) STRICT;
"""

_FORM_4 = """
ALTER TABLE game ADD COLUMN rulings_hidden INTEGER NOT NULL DEFAULT 0;
ALTER TABLE film ADD COLUMN what TEXT NOT NULL DEFAULT '';
CREATE TABLE stoppage (
    id TEXT PRIMARY KEY, film TEXT NOT NULL REFERENCES film (id) DEFERRABLE INITIALLY DEFERRED, start_pts INTEGER NOT NULL,
    start_time_base TEXT NOT NULL, end_pts INTEGER NOT NULL, end_time_base TEXT NOT NULL, kind TEXT NOT NULL,
    note TEXT NOT NULL, origin TEXT NOT NULL) STRICT;
CREATE TABLE common (
    id TEXT PRIMARY KEY, film TEXT NOT NULL REFERENCES film (id) DEFERRABLE INITIALLY DEFERRED, pts INTEGER NOT NULL,
    time_base TEXT NOT NULL, other TEXT NOT NULL REFERENCES film (id) DEFERRABLE INITIALLY DEFERRED,
    other_pts INTEGER NOT NULL, other_time_base TEXT NOT NULL) STRICT;
CREATE TABLE own_call (
    id TEXT PRIMARY KEY, tag TEXT NOT NULL UNIQUE REFERENCES tag (id) DEFERRABLE INITIALLY DEFERRED,
    ruling TEXT NOT NULL, consequence TEXT NOT NULL, words TEXT NOT NULL) STRICT;
CREATE TABLE blur (
    id TEXT PRIMARY KEY, film TEXT NOT NULL REFERENCES film (id) DEFERRABLE INITIALLY DEFERRED, regions TEXT NOT NULL,
    end_pts INTEGER NOT NULL, end_time_base TEXT NOT NULL, origin TEXT NOT NULL) STRICT;
CREATE TABLE face_choice (
    id TEXT PRIMARY KEY, film TEXT NOT NULL REFERENCES film (id) DEFERRABLE INITIALLY DEFERRED, start_pts INTEGER NOT NULL,
    start_time_base TEXT NOT NULL, end_pts INTEGER NOT NULL, end_time_base TEXT NOT NULL, choice TEXT NOT NULL) STRICT;
CREATE TABLE lesson (id TEXT PRIMARY KEY, title TEXT NOT NULL, plan TEXT NOT NULL) STRICT;
"""

STEPS: Mapping[int, str] = {0: _FORM_1, 1: _FORM_2, 2: _FORM_3, 3: _FORM_4}
"""The statements that lead from a form to the next one; from 0, the empty file, to 1 and on."""


def now_text() -> str:
    """The present time as the file keeps it: UTC, ISO 8601, whole seconds."""
    return datetime.now(UTC).isoformat(timespec="seconds")


def form_of(connection: sqlite3.Connection) -> int:
    """The form that the file has; 0 for an empty one."""
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def check_form(connection: sqlite3.Connection, path: Path) -> None:
    """Raise FilmReviewError when the file is no review, or of a form newer than this program reads."""
    if connection.execute("PRAGMA application_id").fetchone()[0] != APPLICATION_ID:
        raise FilmReviewError("this is not a review", where=str(path), todo="give a file that ends in .filmreview")
    form = form_of(connection)
    if form > FORM:
        row = connection.execute("SELECT program FROM migration ORDER BY to_form DESC LIMIT 1").fetchone()
        raise FilmReviewError(
            f"the review has form {form}, and filmreview {filmreview.__version__} reads forms up to {FORM}",
            where=str(path),
            todo=f"open it with filmreview {row[0] if row else ''} or newer",
        )


def bring_up(connection: sqlite3.Connection, steps: Mapping[int, str] = STEPS) -> None:
    """Bring the file to the newest form in `steps`, each step with its record in one transaction.

    The connection must be in autocommit mode. sqlite3.Error leaves the file in the form of the last whole step.
    """
    while (form := form_of(connection)) in steps:
        connection.execute("BEGIN IMMEDIATE")
        try:
            _take_step(connection, form, steps[form])
            connection.execute("COMMIT")
        except BaseException:
            if connection.in_transaction:
                connection.execute("ROLLBACK")
            raise


def _take_step(connection: sqlite3.Connection, form: int, script: str) -> None:
    for statement in script.split(";"):
        if statement.strip():
            connection.execute(statement)
    record = (form + 1, form, now_text(), filmreview.__version__)
    connection.execute("INSERT INTO migration (to_form, from_form, at, program) VALUES (?, ?, ?, ?)", record)
    connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    connection.execute(f"PRAGMA user_version = {form + 1}")

"""The SQLite file itself: opening it, its rows, one transaction, and its troubles told in one line."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import asdict
from pathlib import Path
from typing import Any

from filmreview.errors import FilmReviewError
from filmreview.review.edits import FIELDS, Edit, Ids, assembled
from filmreview.review.model import Game, KeptRuling, Review
from filmreview.review.rows import from_row, to_row
from filmreview.review.trouble import told, told_by_system

WAIT_SECONDS = 5.0  # how long one program waits for another one's transaction
_HEADER = b"SQLite format 3\x00"


def check_is_file(path: Path) -> None:
    """Raise FilmReviewError unless there is a file that can be read and begins as a review does."""
    try:
        with path.open("rb") as file:
            header = file.read(len(_HEADER))
    except FileNotFoundError:
        raise FilmReviewError("there is no such review", where=str(path), todo="make it with: filmreview new") from None
    except IsADirectoryError:
        raise FilmReviewError("this is a folder, not a review", where=str(path), todo="give the .filmreview file") from None
    except PermissionError:
        raise FilmReviewError("you may not read this review", where=str(path), todo="ask for the right to read it") from None
    except OSError as error:
        raise told_by_system(error, path) from error
    if header != _HEADER:
        raise FilmReviewError("this is not a review", where=str(path), todo="give a file that ends in .filmreview")


def connected(path: Path, mode: str) -> sqlite3.Connection:
    """A connection in autocommit mode. mode: "ro", "rw", or "rwc" to make the file."""
    uri = f"{path.as_uri()}?mode={mode}"
    connection = sqlite3.connect(uri, uri=True, timeout=WAIT_SECONDS, isolation_level=None, check_same_thread=False)
    connection.row_factory = sqlite3.Row
    connection.execute("PRAGMA synchronous = EXTRA")
    connection.execute("PRAGMA foreign_keys = ON")
    return connection


def check_sound(connection: sqlite3.Connection) -> None:
    """Raise sqlite3.DatabaseError when the file is damaged."""
    if connection.execute("PRAGMA quick_check(1)").fetchone()[0] != "ok":
        error = sqlite3.DatabaseError("quick_check found damage")
        error.sqlite_errorcode = sqlite3.SQLITE_CORRUPT
        raise error


@contextmanager
def telling(path: Path) -> Iterator[None]:
    """What SQLite raises inside becomes a FilmReviewError of one line."""
    try:
        yield
    except sqlite3.Error as error:
        raise told(error, path) from error
    except UnicodeEncodeError as error:  # half a surrogate pair, or a file name that is no text
        what = f"a text holds something that is no character: {error.object[max(0, error.start - 20) : error.end]!r}"
        raise FilmReviewError(what, where=str(path), todo="take it out, or rename the file") from error


@contextmanager
def transaction(connection: sqlite3.Connection) -> Iterator[None]:
    """One transaction: all that is written inside is kept together, or none of it."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:  # a full disk may have made SQLite roll back by itself
            connection.execute("ROLLBACK")
        raise


def foreign_version(connection: sqlite3.Connection) -> int:
    """A number that changes when anything but this connection has written to the file (SQLite, `data_version`)."""
    return int(connection.execute("PRAGMA data_version").fetchone()[0])


def counters(connection: sqlite3.Connection) -> Ids:
    """The ids handed out so far."""
    return Ids({row["letter"]: row["last"] for row in connection.execute("SELECT letter, last FROM counter")})


def write_counters(connection: sqlite3.Connection, ids: Ids) -> None:
    """Keep which ids were handed out."""
    connection.executemany("INSERT OR REPLACE INTO counter (letter, last) VALUES (?, ?)", list(ids.last.items()))


def write_edits(connection: sqlite3.Connection, edits: Iterable[Edit]) -> None:
    """Write what the edits leave. Runs inside a transaction of the caller."""
    for edit in edits:
        if edit.after is None:
            connection.execute(f"DELETE FROM {edit.part} WHERE id = ?", (edit.id,))
            continue
        row = to_row(edit.after)
        columns, places = ", ".join(row), ", ".join("?" for _ in row)
        connection.execute(f"INSERT OR REPLACE INTO {edit.part} ({columns}) VALUES ({places})", tuple(row.values()))


def load(connection: sqlite3.Connection, path: Path) -> Review:
    """The whole review. Raises FilmReviewError when the file holds no game."""
    parts: dict[str, dict[str, Any]] = {}
    for part in FIELDS:
        parts[part] = {row["id"]: from_row(part, dict(row)) for row in connection.execute(f"SELECT * FROM {part}")}
    row = connection.execute("SELECT * FROM game").fetchone()
    if row is None:
        raise FilmReviewError("the review holds no game", where=str(path), todo="make a new one")
    game = from_row("game", dict(row))
    assert isinstance(game, Game), "the game table holds games"
    return assembled(Review(path, game, ruled=load_ruled(connection)), game, parts)


def load_ruled(connection: sqlite3.Connection) -> tuple[KeptRuling, ...]:
    """The rulings kept so far, the oldest first."""
    rows = connection.execute("SELECT * FROM ruled ORDER BY at, tag")
    return tuple(KeptRuling(**{**dict(row), "reasons": tuple(json.loads(row["reasons"]))}) for row in rows)


def write_ruled(connection: sqlite3.Connection, kept: Iterable[KeptRuling], dropped: Iterable[KeptRuling]) -> None:
    """Keep rulings, one for a tag and a version of the program, and drop those that are no longer about their tag."""
    connection.executemany("DELETE FROM ruled WHERE tag = ? AND program = ?", [(one.tag, one.program) for one in dropped])
    for one in kept:
        row = {**asdict(one), "reasons": json.dumps(one.reasons, ensure_ascii=False)}
        columns, places = ", ".join(row), ", ".join("?" for _ in row)
        connection.execute(f"INSERT OR REPLACE INTO ruled ({columns}) VALUES ({places})", tuple(row.values()))

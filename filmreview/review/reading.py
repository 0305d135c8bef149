"""Reading a review without the right to write: while it is open elsewhere, and in a folder that cannot be written."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from filmreview.review import file, history, schema
from filmreview.review.history import Step
from filmreview.review.model import Review


def read(path: Path | str) -> Review:
    """The review as it is now. An older form is brought up in memory; the file stays as it is.

    Raises FilmReviewError when it is missing, no review, of a newer form, or damaged.
    """
    path = Path(path).absolute()
    with _reading(path) as connection:
        return file.load(connection, path)


def read_history(path: Path | str) -> list[Step]:
    """Every step of the review's history, the first one first. Raises FilmReviewError as `read` does."""
    with _reading(Path(path).absolute()) as connection:
        return history.steps(connection)


@contextmanager
def _reading(path: Path) -> Iterator[sqlite3.Connection]:
    file.check_is_file(path)
    with file.telling(path):
        connection = file.connected(path, _mode(path))
        try:
            schema.check_form(connection, path)
            file.check_sound(connection)
            if schema.form_of(connection) != schema.FORM:
                connection = _brought_up_in_memory(connection)
            connection.execute("BEGIN")
            yield connection
        finally:
            connection.close()


def _mode(path: Path) -> str:
    """Writable where it can be: what a killed program left half done, SQLite then takes back by itself on opening."""
    return "rw" if os.access(path, os.W_OK) and os.access(path.parent, os.W_OK) else "ro"


def _brought_up_in_memory(connection: sqlite3.Connection) -> sqlite3.Connection:
    copy = sqlite3.connect(":memory:", isolation_level=None)
    copy.row_factory = sqlite3.Row
    connection.backup(copy)
    connection.close()
    schema.bring_up(copy)
    return copy

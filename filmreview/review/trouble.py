"""What SQLite and the file system say, told as one line that a reviewer understands."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from filmreview.errors import FilmReviewError

_NOTHING_LOST = "what was kept before is safe"

_SAID: dict[int, tuple[str, str]] = {
    sqlite3.SQLITE_FULL: ("the disk is full, so this change was not kept", f"make room and do it again; {_NOTHING_LOST}"),
    sqlite3.SQLITE_IOERR: (
        "the disk did not take the change, so it was not kept",
        f"look at the disk and do it again; {_NOTHING_LOST}",
    ),
    sqlite3.SQLITE_READONLY: ("the review cannot be written", "copy it to a folder of your own"),
    sqlite3.SQLITE_CANTOPEN: ("the review or its folder cannot be written", "copy it to a folder of your own"),
    sqlite3.SQLITE_BUSY: ("another program is using the review just now", "try again in a moment"),
    sqlite3.SQLITE_LOCKED: ("another program is using the review just now", "try again in a moment"),
    sqlite3.SQLITE_NOTADB: ("this is not a review", "give a file that ends in .filmreview"),
    sqlite3.SQLITE_CORRUPT: ("the review is damaged", "take the last good copy; the damaged file was left as it is"),
}


def told(error: sqlite3.Error, path: Path) -> FilmReviewError:
    """The one line for what SQLite reported (its extended result codes are reduced to the primary one)."""
    code = getattr(error, "sqlite_errorcode", None)
    what, todo = _SAID.get((code or 0) & 0xFF, (f"the review cannot be used: {error}", ""))
    return FilmReviewError(what, where=str(path), todo=todo or None)


def told_by_system(error: OSError, path: Path) -> FilmReviewError:
    """The one line for what the file system reported."""
    if isinstance(error, PermissionError) or error.errno == 30:  # EROFS, a file system mounted to be read only
        what, todo = "the folder cannot be written", "copy the review to a folder of your own; findings and sheet only read"
        return FilmReviewError(what, where=str(path.parent), todo=todo)
    said = (error.strerror or str(error)).lower()
    return FilmReviewError(said, where=str(path), todo="check the path" if isinstance(error, NotADirectoryError) else None)

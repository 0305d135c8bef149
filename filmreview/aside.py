"""Writing a file whole or not at all: aside first, then in place of the old one."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from filmreview.errors import FilmReviewError


@contextmanager
def written_aside(path: Path) -> Iterator[Path]:
    """A path in the same folder to write to; it takes the place of `path` at the end, and is removed when anything goes wrong.

    Raises FilmReviewError when the folder is missing or cannot be written, the disk is full, or `path` is a folder.
    """
    if path.is_dir():
        raise FilmReviewError("this is a folder", where=str(path), todo="give the name of a file in it")
    try:
        handle, name = tempfile.mkstemp(prefix=f".{path.stem[:40]}-", suffix=path.suffix, dir=path.parent)
    except OSError as error:
        raise _told(error, path) from error
    os.close(handle)
    aside = Path(name)
    try:
        yield aside
        _sync(aside)
        aside.chmod(0o666 & ~_umask())  # a temporary file is for its owner alone; the sheet is an ordinary file
        os.replace(aside, path)
    except OSError as error:
        raise _told(error, path) from error
    finally:
        aside.unlink(missing_ok=True)


def _sync(path: Path) -> None:
    """Have the file on the disk before it replaces the old one."""
    handle = os.open(path, os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _umask() -> int:
    mask = os.umask(0o022)
    os.umask(mask)
    return mask


def _told(error: OSError, path: Path) -> FilmReviewError:
    if isinstance(error, FileNotFoundError):
        return FilmReviewError("there is no such folder", where=str(path.parent), todo="make it first")
    what = (error.strerror or str(error)).lower()
    return FilmReviewError(f"the file was not written: {what}", where=str(path), todo="what was there before is as it was")


def free_path(path: Path) -> Path:
    """The path, with a number before its last ending when a file is there already: "game-2.filmreview"."""
    number, free = 2, path
    while free.exists():
        free = path.with_stem(f"{path.stem}-{number}")
        number += 1
    return free

"""Writing a file whole or not at all: aside first, then in place of the old one.

A program that is killed leaves what it wrote aside. The next writing into the same folder takes that away: the hidden name
tells that it is ours, of this machine, and of a process that has ended.
"""

from __future__ import annotations

import os
import platform
import re
import stat
import sys
import tempfile
import time
import zlib
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from filmreview.errors import FilmReviewError

LEFT_SECONDS = 3600.0
"""What was left aside is taken away when nothing has been written to it for so long."""
_HERE = f"{zlib.crc32(platform.node().encode()):08x}"  # a shared folder may hold what another machine is writing
_OURS = re.compile(rf"\..{{0,40}}-filmreview-{_HERE}-([1-9][0-9]{{0,9}})-[a-z0-9_]{{8}}(\.[^.]*)?", re.DOTALL)


@contextmanager
def written_aside(path: Path) -> Iterator[Path]:
    """A path in the same folder to write to; it takes the place of `path` at the end, and is removed when anything goes wrong.
    What killed programs of ours left aside there is removed too.

    Raises FilmReviewError when the folder is missing or cannot be written, the disk is full, or `path` is a folder.
    """
    if path.is_dir():
        raise FilmReviewError("this is a folder", where=str(path), todo="give the name of a file in it")
    for left in left_aside(path.parent):
        if not left.is_dir():
            with suppress(OSError):
                left.unlink()
    try:
        handle, name = tempfile.mkstemp(prefix=aside_prefix(path.stem), suffix=path.suffix, dir=path.parent)
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


def aside_prefix(what: str) -> str:
    """How a hidden name begins under which this process writes aside, so that `left_aside` knows it again."""
    return f".{what[:40]}-filmreview-{_HERE}-{os.getpid()}-"


def left_aside(folder: Path) -> list[Path]:
    """Files and folders that a program of ours on this machine was writing there when it was killed: the name is one that
    `aside_prefix` begins, its process has ended, and nothing was written for `LEFT_SECONDS`. Links are never among them."""
    try:
        return [path for path in folder.iterdir() if (named := _OURS.fullmatch(path.name)) and _is_left(path, int(named[1]))]
    except OSError:
        return []  # the folder is missing or cannot be read: the writing says so


def _is_left(path: Path, process: int) -> bool:
    kind = path.lstat().st_mode
    if not (stat.S_ISREG(kind) or stat.S_ISDIR(kind)) or _runs(process):
        return False
    inside = list(path.rglob("*")) if stat.S_ISDIR(kind) else []
    return time.time() - max(one.lstat().st_mtime for one in (path, *inside)) > LEFT_SECONDS


def _runs(process: int) -> bool:
    """Whether a process of this machine is there; True where that cannot be asked."""
    if sys.platform == "win32":
        return True  # there signal 0 is no question but Ctrl+C
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True  # it is somebody else's, or no number that a process can have
    return True


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

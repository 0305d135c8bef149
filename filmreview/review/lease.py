"""Who may write: one program at a time, told by a lock file beside the review.

The system gives the lock back when the program ends, however it ends, so nobody is ever locked out by a crash. A lock on the
review's own file would not do: SQLite locks there, and closing any second handle would drop its locks (SQLite, "How To
Corrupt", 2.2).
"""

from __future__ import annotations

import os
import sys
from datetime import datetime
from pathlib import Path

from filmreview.errors import FilmReviewError
from filmreview.review.trouble import told_by_system

if sys.platform == "win32":
    import msvcrt

    def _try_lock(handle: int) -> bool:
        try:
            os.lseek(handle, _WINDOWS_LOCK_BYTE, os.SEEK_SET)
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True
else:
    import fcntl

    def _try_lock(handle: int) -> bool:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            return False
        return True


_WINDOWS_LOCK_BYTE = 1 << 20  # past the text, so that the other program can still read who holds it


class Lease:
    """The right to write one review, held until `close` or the end of the process."""

    def __init__(self, review: Path, who: str) -> None:
        """Take it; raises FilmReviewError naming who has it, or when the folder cannot be written."""
        self.path = review.with_name(f".{review.name}.lock")
        try:
            self._handle: int | None = self._taken(review)
            os.ftruncate(self._handle, 0)
            os.write(self._handle, f"{who or 'somebody'}, process {os.getpid()}, since {datetime.now():%H:%M}".encode())
        except OSError as error:
            raise told_by_system(error, review) from error

    def _taken(self, review: Path) -> int:
        while True:
            handle = os.open(self.path, os.O_RDWR | os.O_CREAT, 0o666)
            if not _try_lock(handle):
                holder = os.read(handle, 200).decode(errors="replace")
                os.close(handle)
                raise _held(review, holder)
            if self._is_still_there(handle):
                return handle
            os.close(handle)  # the one who held it took the file away in between: take the new one

    def _is_still_there(self, handle: int) -> bool:
        try:
            return os.path.samestat(os.fstat(handle), os.stat(self.path))
        except FileNotFoundError:
            return False

    def close(self) -> None:
        """Give it back. May be called twice."""
        if self._handle is None:
            return
        if sys.platform != "win32":
            self.path.unlink(missing_ok=True)
        os.close(self._handle)
        self._handle = None


def _held(review: Path, holder: str) -> FilmReviewError:
    return FilmReviewError(
        f"the review is open elsewhere ({holder or 'by another program'})",
        where=str(review),
        todo="close it there first; findings and sheet can read it meanwhile",
    )

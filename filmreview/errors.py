"""The one base error: the world's fault, told in one line.

A `FilmReviewError` says what happened, where (file, line, key) and what to do next. The command line prints it without a
traceback and exits with 2; the desk shows it as a message. Any other exception is a fault of this program.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable


class FilmReviewError(Exception):
    """Something outside the program is not as it must be.

    what: what happened, a sentence without a full stop.
    where: file, line, key or time it happened at; None when `what` already says it.
    todo: what the reader can do next; None when there is nothing to do.
    """

    def __init__(self, what: str, *, where: str | None = None, todo: str | None = None) -> None:
        self.what = what
        self.where = where
        self.todo = todo
        super().__init__(str(self))

    def __str__(self) -> str:
        head = f"{self.where}: {self.what}" if self.where else self.what
        line = f"{head}; {self.todo}" if self.todo else head
        return " ".join(line.split())


class Stopped(FilmReviewError):  # noqa: N818 - nothing went wrong: it is not an error that ends in Error
    """Long work was stopped by the person; nothing half-made is left behind. The command line exits with 130."""


def nearest(given: str, known: Iterable[str]) -> str | None:
    """The known word most like the given one, or None when nothing is close (difflib ratio of 0.6)."""
    by_folded = {word.casefold(): word for word in known}
    close = difflib.get_close_matches(given.casefold(), list(by_folded), n=1)
    return by_folded[close[0]] if close else None


def unknown(kind: str, given: str, known: Iterable[str], *, where: str | None = None) -> FilmReviewError:
    """The error for a word that is not on a closed list, with the nearest one or the whole list."""
    words = list(known)
    close = nearest(given, words)
    if close:
        todo = f'write "{close}" if that is what you mean'
    else:
        todo = "write one of: " + ", ".join(words) if words else "there is none"
    shown = given if len(given) <= 80 else given[:80] + "..."
    return FilmReviewError(f'unknown {kind} "{shown}"', where=where, todo=todo)

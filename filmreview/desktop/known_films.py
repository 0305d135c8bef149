"""Films that were opened once: another opening of the same file takes over its index and reads nothing anew. No Qt."""

from __future__ import annotations

import threading
from pathlib import Path

from filmreview.film.film import Film, open_film
from filmreview.film.reach import KEPT_BYTES
from filmreview.progress import Progress, silent

KEPT_BESIDE = 64 * 2**20
"""Bytes of pictures that a second picture or a dialog keeps, beside what the player keeps: 48 frames of 720 lines."""
_PATIENCE = 0.1  # seconds between two looks whether who waits for another one's index was stopped

_Mark = tuple[Path, int, int]


class KnownFilms:
    """Opens films for the picture, the strip, the ledger. Safe to call from several threads: who comes second waits for the
    first one's index."""

    def __init__(self) -> None:
        self._known: dict[_Mark, Film] = {}  # closed ones too: their index is what counts
        self._reading: dict[_Mark, threading.Lock] = {}
        self._lock = threading.Lock()

    def open(self, path: Path, progress: Progress = silent, kept_bytes: int = KEPT_BYTES) -> Film:
        """As `open_film`; a file that was opened before, and has not changed since, is there at once."""
        mark = _mark(path)
        if mark is None:
            return open_film(path, progress=progress, kept_bytes=kept_bytes)  # says what is wrong with it
        with self._lock:
            reading = self._reading.setdefault(mark, threading.Lock())
        while not reading.acquire(timeout=_PATIENCE):
            progress(0.0, "waiting for the times of the frames")
        try:
            known = self._known.get(mark)
            if known is not None:
                return known.again(kept_bytes)
            film = self._known[mark] = open_film(path, progress=progress, kept_bytes=kept_bytes)
            return film
        finally:
            reading.release()

    def forget(self) -> None:
        """Let the indexes go."""
        with self._lock:
            self._known.clear()
            self._reading.clear()


def _mark(path: Path) -> _Mark | None:
    """What changes when the file does; None when there is no such file."""
    try:
        told = path.stat()
    except OSError:
        return None
    return path.absolute(), told.st_size, told.st_mtime_ns

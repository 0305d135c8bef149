"""Carries what a playback source tells, on threads of its own, over to the screen's thread: only the newest picture."""

from __future__ import annotations

import threading

from PyQt6.QtCore import QObject, pyqtSignal

from filmreview.errors import FilmReviewError
from filmreview.film.playback import Shown


class PictureRelay(QObject):
    """A `Listener` whose signals arrive on the thread it was made on.

    A picture that comes while the one before still waits takes its place, so that a busy screen skips rather than lags.
    """

    picture_came = pyqtSignal()  # call `take`
    ended = pyqtSignal()
    failed = pyqtSignal(object)  # FilmReviewError

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._lock = threading.Lock()
        self._newest: Shown | None = None

    def picture_due(self, shown: Shown) -> None:
        """See `Listener`."""
        with self._lock:
            told, self._newest = self._newest is not None, shown
        if not told:
            self.picture_came.emit()

    def film_ended(self) -> None:
        """See `Listener`."""
        self.ended.emit()

    def playback_failed(self, error: FilmReviewError) -> None:
        """See `Listener`."""
        self.failed.emit(error)

    def take(self) -> Shown | None:
        """The newest picture, once."""
        with self._lock:
            shown, self._newest = self._newest, None
            return shown

    def clear(self) -> None:
        """Drop a picture that still waits."""
        self.take()

"""One thread beside the screen's that decodes: the newest question is answered, older ones that still wait are dropped."""

from __future__ import annotations

import threading
from collections.abc import Callable

from PyQt6.QtCore import QObject, pyqtSignal

from filmreview.errors import FilmReviewError

Work = Callable[[], object]


class NewestWorker(QObject):
    """Runs work on its own thread and tells the outcome on the thread it was made on.

    done: (ticket, result); failed: (ticket, FilmReviewError). Only the newest work asked for is certain to be run. Any other
    exception is a fault of this program and is raised on the thread it was made on.
    """

    done = pyqtSignal(int, object)
    failed = pyqtSignal(int, object)
    _broken = pyqtSignal(object)

    def __init__(self, name: str, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._waiting: tuple[int, Work] | None = None
        self._ticket = 0
        self._closed = False
        self._changed = threading.Condition()
        self._broken.connect(self._raise)
        self._thread = threading.Thread(target=self._run, name=name, daemon=True)
        self._thread.start()

    def ask(self, work: Work) -> int:
        """Have this done next, in place of what still waits; the ticket comes back with the outcome."""
        with self._changed:
            self._ticket += 1
            self._waiting = (self._ticket, work)
            self._changed.notify()
            return self._ticket

    def drop(self) -> None:
        """Forget what still waits; what runs already will tell its outcome."""
        with self._changed:
            self._waiting = None

    def close(self) -> None:
        """End the thread when the work it is at is done; a second time does nothing."""
        with self._changed:
            self._closed, self._waiting = True, None
            self._changed.notify()
        self._thread.join()

    def _run(self) -> None:
        while True:
            with self._changed:
                self._changed.wait_for(lambda: self._closed or self._waiting is not None)
                if self._closed:
                    return
                assert self._waiting is not None
                (ticket, work), self._waiting = self._waiting, None
            try:
                result = work()
            except FilmReviewError as error:
                self.failed.emit(ticket, error)
            except Exception as error:  # noqa: BLE001 - handed to the screen's thread, where the program's own hook shows it
                self._broken.emit(error)
            else:
                self.done.emit(ticket, result)

    def _raise(self, error: Exception) -> None:
        raise error

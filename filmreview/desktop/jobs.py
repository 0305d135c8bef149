"""Long work beside the window: each job runs on a thread of one pool, tells how far it is, and can be stopped.

Everything that touches the review's file goes another way: it is done in turn, on one thread of its own, and is never stopped
half-way. Answers come back on the window's thread. A fault of the world (`FilmReviewError`) goes to `failed`; any other
exception is a fault of this program and is raised on the window's thread, where the program's own hook shows it.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

from PyQt6.QtCore import QCoreApplication, QEvent, QObject, QRunnable, QThreadPool, pyqtSignal, pyqtSlot

from filmreview.errors import FilmReviewError, Stopped
from filmreview.progress import Progress

Work = Callable[[Progress], Any]


def _nothing(_given: object) -> None:
    pass


class Job(QObject):
    """One piece of work that was started. progress: share done (0 to 1) and words. finished: always, last of all."""

    progress = pyqtSignal(float, str)
    finished = pyqtSignal()
    _returned = pyqtSignal(object)
    _raised = pyqtSignal(object)

    def __init__(
        self, work: Work, then: Callable[[Any], None], failed: Callable[[FilmReviewError], None], parent: QObject
    ) -> None:
        super().__init__(parent)
        self._work = work
        self._then = then
        self._failed = failed
        self._stop = threading.Event()
        self._returned.connect(self._deliver)
        self._raised.connect(self._fail)

    def stop(self) -> None:
        """Ask the work to stop at its next step; its answer, even if it comes, is dropped."""
        self._stop.set()

    @property
    def stopped(self) -> bool:
        """True once it was asked to stop."""
        return self._stop.is_set()

    def run(self) -> None:
        """Do the work; called on the pool's thread."""
        try:
            if self.stopped:
                raise Stopped("stopped")
            answer = self._work(self._tell)
        except Exception as error:  # noqa: BLE001 - handed to the window's thread, which shows or raises it
            self._raised.emit(error)
        else:
            self._returned.emit(answer)

    def _tell(self, share: float, words: str) -> None:
        if self.stopped:
            raise Stopped("stopped")
        self.progress.emit(share, words)

    @pyqtSlot(object)  # the job's own slot, so that `finish_turns` can have it called
    def _deliver(self, answer: object) -> None:
        try:
            if not self.stopped:
                self._then(answer)
            elif hasattr(answer, "close"):  # a film or a store that nobody takes must not stay open
                answer.close()
        finally:
            self._end()

    @pyqtSlot(object)
    def _fail(self, error: Exception) -> None:
        try:
            if isinstance(error, FilmReviewError):
                if not isinstance(error, Stopped) and not self.stopped:
                    self._failed(error)
            elif not self.stopped:
                raise error
        finally:
            self._end()

    def _end(self) -> None:
        self.finished.emit()
        self.deleteLater()


class _Runner(QRunnable):
    def __init__(self, job: Job) -> None:
        super().__init__()
        self._job = job

    def run(self) -> None:
        self._job.run()


class Jobs(QObject):
    """The jobs of one window. failed: what to do with a fault where a job names nothing of its own."""

    def __init__(self, failed: Callable[[FilmReviewError], None], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.failed = failed
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(4)
        self._turns = QThreadPool(self)
        self._turns.setMaxThreadCount(1)  # one thread: what is asked first is done first
        self._running: list[Job] = []
        self._in_turn: list[Job] = []
        self._latest: dict[str, Job] = {}

    def start(
        self,
        work: Work,
        then: Callable[[Any], None] = _nothing,
        failed: Callable[[FilmReviewError], None] | None = None,
        only: str | None = None,
    ) -> Job:
        """Start work. then: gets its answer. failed: gets its fault. only: a name; a newer job of the same name stops the older
        one, whose answer is dropped."""
        job = Job(work, then, failed or self.failed, self)
        if only is not None:
            older = self._latest.get(only)
            if older:
                older.stop()
            self._latest[only] = job
        self._begin(job, self._pool, only)
        return job

    def in_turn(
        self,
        work: Work,
        then: Callable[[Any], None] = _nothing,
        failed: Callable[[FilmReviewError], None] | None = None,
    ) -> Job:
        """Do this when all that was asked here before is done: for what reads or writes the review's file."""
        job = Job(work, then, failed or self.failed, self)
        self._in_turn.append(job)
        job.finished.connect(lambda: self._in_turn.remove(job))
        self._begin(job, self._turns, None)
        return job

    def finish_turns(self) -> None:
        """Wait until all that was asked in turn is done, and told."""
        while self._in_turn:
            self._turns.waitForDone()
            for job in tuple(self._in_turn):
                QCoreApplication.sendPostedEvents(job, QEvent.Type.MetaCall.value)

    def drop(self, only: str) -> None:
        """Stop the job of that name, if it still runs."""
        job = self._latest.get(only)
        if job:
            job.stop()

    @property
    def busy(self) -> bool:
        """True while any job runs."""
        return bool(self._running)

    def close(self) -> None:
        """Finish what was asked in turn, stop all else and wait: nothing outlives the window."""
        for job in self._running:
            if job not in self._in_turn:
                job.stop()
        self.finish_turns()
        self._pool.waitForDone()

    def _begin(self, job: Job, pool: QThreadPool, only: str | None) -> None:
        self._running.append(job)
        job.finished.connect(lambda: self._forget(job, only))
        pool.start(_Runner(job))

    def _forget(self, job: Job, only: str | None) -> None:
        if job in self._running:
            self._running.remove(job)
        if only is not None and self._latest.get(only) is job:
            del self._latest[only]

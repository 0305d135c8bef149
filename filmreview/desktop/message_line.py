"""The bottom line of the window: the last message, and long work with its progress and a way to stop it."""

from __future__ import annotations

from PyQt6.QtWidgets import QProgressBar, QPushButton, QStatusBar

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.jobs import Job, Jobs
from filmreview.desktop.short_label import ShortLabel


class MessageLine(QStatusBar):
    """Messages stay until the next one comes, so that nobody has to read fast."""

    def __init__(self, desk: Desk, jobs: Jobs) -> None:
        super().__init__()
        self._desk = desk
        self._jobs = jobs
        self._watched: list[Job] = []
        self.words = ShortLabel(name="message")
        self.bar = QProgressBar()
        self.bar.setAccessibleName("progress")
        self.bar.setRange(0, 100)
        self.bar.setMaximumWidth(self.fontMetrics().averageCharWidth() * 30)
        self.stop = QPushButton("Stop")
        self.stop.setAccessibleName("stop the work")
        self.stop.clicked.connect(self._stop)
        self.addWidget(self.words, 1)
        self.addPermanentWidget(self.bar)
        self.addPermanentWidget(self.stop)
        self._show_work(False)
        desk.events.on("message", self._show_message)

    def watch(self, job: Job) -> None:
        """Show this job's progress until it ends; of several at once, that of the one started last."""
        self._watched.append(job)
        job.progress.connect(lambda share, words: self._progress(job, share, words))
        job.finished.connect(lambda: self._ended(job))
        self.bar.setValue(0)
        self._show_work(True)

    def _show_message(self) -> None:
        self.words.setText(self._desk.last_message)

    def _progress(self, job: Job, share: float, words: str) -> None:
        if self._watched[-1:] == [job]:
            self.bar.setValue(round(share * 100))
            self.bar.setFormat(f"{words}  %p %" if words else "%p %")

    def _stop(self) -> None:
        if self._watched:
            self._watched[-1].stop()
            self._desk.message("stopped; nothing half-made was left behind")

    def _ended(self, job: Job) -> None:
        self._watched.remove(job)
        self._show_work(bool(self._watched))

    def _show_work(self, on: bool) -> None:
        self.bar.setVisible(on)
        self.stop.setVisible(on)

"""The bottom line of the window: the last message, and long work with its progress and a way to stop it."""

from __future__ import annotations

from PyQt6.QtWidgets import QLabel, QProgressBar, QPushButton, QStatusBar

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.jobs import Job, Jobs


class MessageLine(QStatusBar):
    """Messages stay until the next one comes, so that nobody has to read fast."""

    def __init__(self, desk: Desk, jobs: Jobs) -> None:
        super().__init__()
        self._desk = desk
        self._jobs = jobs
        self._job: Job | None = None
        self.words = QLabel()
        self.words.setAccessibleName("message")
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
        """Show this job's progress until it ends."""
        self._job = job
        job.progress.connect(self._progress)
        job.finished.connect(self._ended)
        self.bar.setValue(0)
        self._show_work(True)

    def _show_message(self) -> None:
        self.words.setText(self._desk.last_message)
        self.words.setToolTip(self._desk.last_message)

    def _progress(self, share: float, words: str) -> None:
        self.bar.setValue(round(share * 100))
        self.bar.setFormat(f"{words}  %p %" if words else "%p %")

    def _stop(self) -> None:
        if self._job is not None:
            self._job.stop()
            self._desk.message("stopped; nothing half-made was left behind")

    def _ended(self) -> None:
        self._job = None
        self._show_work(False)

    def _show_work(self, on: bool) -> None:
        self.bar.setVisible(on)
        self.stop.setVisible(on)

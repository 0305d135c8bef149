"""The made-up game from the desk: ask for a folder, make it there in a process of its own, open its review."""

from __future__ import annotations

from pathlib import Path

from PyQt6.QtWidgets import QFileDialog, QWidget

from filmreview.desktop.alone import alone
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.jobs import Jobs
from filmreview.desktop.message_line import MessageLine
from filmreview.desktop.opening import ENDING, Opening

FOLDER = "made-up game"
DRAW = "filmreview.commandline.demo_command:made_up_game"


class MadeUp:
    """Makes the made-up game for one window."""

    def __init__(self, desk: Desk, jobs: Jobs, messages: MessageLine, opening: Opening, window: QWidget) -> None:
        self._desk, self._jobs, self._messages, self._opening, self._window = desk, jobs, messages, opening, window

    def ask(self) -> None:
        """Ask for a folder and make it there."""
        folder = QFileDialog.getExistingDirectory(self._window, "Make the made-up game in this folder", str(Path.home()))
        if folder:
            self.make(Path(folder) / FOLDER)

    def make(self, folder: Path) -> None:
        """Make the made-up game in this folder and open its review; one that was made there before is opened as it is."""
        made = sorted(folder.glob(f"*{ENDING}"))
        if made:
            self._opening.open_review(made[0])
            return

        job = self._jobs.start(alone(DRAW, folder), lambda made: self._opening.open_review(made.review), only="made-up game")
        self._desk.message("drawing the made-up game; this takes about a minute")
        self._messages.watch(job)

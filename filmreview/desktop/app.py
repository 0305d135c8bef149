"""How the desk starts.

`run` is called with the paths given on the command line. It makes the one QApplication, under the program's own name, and sees
to it that a fault of this program is shown instead of ending it without a word. The window comes up with its start page:
nothing is read from disk before it stands there. A path, if one was given, is then opened as if a person had chosen it: a
review with its film, or a film with the set-up of its game. From here on people and events drive: the places of the window
emit what was done, presenters change the review, and each place redraws its own part. When the window closes, the film, the
jobs and the review are let go in this order, and `run` returns.
"""

from __future__ import annotations

import sys
import traceback
from collections.abc import Callable, Sequence
from pathlib import Path
from types import TracebackType

from PyQt6.QtCore import QTimer
from PyQt6.QtWidgets import QApplication

from filmreview import __version__
from filmreview.desktop.interpreter import set_up
from filmreview.desktop.settings import Settings
from filmreview.desktop.settings_in_force import scale_text
from filmreview.desktop.window import DeskWindow


def run(paths: Sequence[str]) -> int:
    """Show the desk until its window is closed. paths: at most one review or film. Returns the exit code."""
    set_up()
    application = QApplication(sys.argv[:1])
    application.setApplicationName("filmreview")
    application.setApplicationDisplayName("Film review")
    application.setApplicationVersion(__version__)
    settings = Settings()
    scale_text(settings.chosen().text)  # before the window: its widths are laid out by the text
    window = DeskWindow(settings)
    sys.excepthook = shown_by(window)
    window.show()
    for path in paths[:1]:
        QTimer.singleShot(0, lambda path=path: window.open_path(Path(path)))
    return application.exec()


def shown_by(window: DeskWindow) -> Callable[[type[BaseException], BaseException, TracebackType | None], None]:
    """What to do with a fault of this program: print it for the report, say it in the window, go on."""

    def shown(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        traceback.print_exception(kind, error, trace)
        window.desk.message(f"a fault of this program, please report it: {kind.__name__}: {error}; what was kept is safe")

    return shown

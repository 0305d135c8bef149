"""Where the program starts: words given go to the command line; none, or `open REVIEW`, to the desk."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence
from importlib import import_module

from filmreview.commandline.answers import tell
from filmreview.commandline.run import BAD_INPUT, run
from filmreview.errors import FilmReviewError


def main(words: Sequence[str] | None = None) -> int:
    """Run filmreview with these words (the process's own when None). Returns the exit code."""
    given = list(sys.argv[1:] if words is None else words)
    if given and (given[0] != "open" or set(given) & {"-h", "--help"}):
        return run(given)
    return _desk(given[1:])


def _desk(paths: Sequence[str]) -> int:
    if len(paths) > 1:
        tell("filmreview: one review or film at a time: filmreview open REVIEW")
        return BAD_INPUT
    if trouble := _no_screen():
        tell(f"filmreview: the desk cannot start: {trouble}; `filmreview --help` lists what works without a screen")
        return BAD_INPUT
    try:
        # By its name, and only now: a machine without Qt's system libraries still has the whole command line.
        run_desk: Callable[[list[str]], int] = import_module("filmreview.desktop.app").run
        return run_desk(list(paths))
    except ImportError as error:
        tell(f"filmreview: the desk cannot start: {error}; run `filmreview doctor` for the line that installs it")
    except FilmReviewError as error:
        tell(f"filmreview: {error}")
    return BAD_INPUT


def _no_screen() -> str:
    """Why no window can be shown, "" when one can; Qt itself would end the program."""
    if not sys.platform.startswith("linux") or os.environ.get("QT_QPA_PLATFORM") or os.environ.get("WAYLAND_DISPLAY"):
        return ""
    return "" if os.environ.get("DISPLAY") else "there is no screen (DISPLAY is not set)"


if __name__ == "__main__":
    sys.exit(main())

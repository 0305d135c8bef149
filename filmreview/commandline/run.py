"""From the words of a command to its exit code: 0 done, 1 a check did not hold, 2 bad input, 130 stopped by hand.

Each command lives in a module named here and is a function `NAME(given) -> int`; the module is imported only when its command
is called, so that `filmreview rule` does not wait for pandas.
"""

from __future__ import annotations

import argparse
import os
import re
import sys
from collections.abc import Callable, Sequence
from importlib import import_module

from filmreview.commandline.answers import tell
from filmreview.commandline.lesson_words import joined
from filmreview.commandline.words import check_command, parser
from filmreview.errors import FilmReviewError, Stopped

MODULES = {
    "demo": "demo_command",
    "new": "review_commands",
    "film": "film_commands",
    "frame": "film_commands",
    "measure": "measure_command",
    "tag": "review_commands",
    "crew": "review_commands",
    "event": "review_commands",
    "findings": "findings_command",
    "rule": "rule_command",
    "books": "books_command",
    "sheet": "sheet_command",
    "replies": "replies_command",
    "letter": "replies_command",
    "call": "own_call_command",
    "calls": "own_call_command",
    "beside": "beside_command",
    "films": "films_command",
    "lesson": "lesson_command",
    "lesson faces": "lesson_faces",
    "lesson results": "lesson_results",
    "doctor": "doctor",
}
_NUMBERS = re.compile(r"-[0-9.]+(,-?[0-9.]+)+(=.*)?")  # a box, two ends or a point that begins below zero
_SYSTEM = {
    FileNotFoundError: "check the path",
    NotADirectoryError: "check the path",
    IsADirectoryError: "give a file, not a folder",
    PermissionError: "ask for the right to it, or choose another place",
}
BAD_INPUT = 2
STOPPED = 130


def run(words: Sequence[str]) -> int:
    """Run one command. words: as typed after `filmreview`. Returns the exit code; messages go to standard error."""
    try:
        return _command(words)
    except (Stopped, KeyboardInterrupt):
        tell("stopped; nothing half-made was left behind")
        return STOPPED
    except FilmReviewError as error:
        tell(f"filmreview: {error}")
        return BAD_INPUT
    except BrokenPipeError:
        # The reader of our output went away (`| head`): nothing is wrong. Python would complain again on flushing at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except OSError as error:
        tell(f"filmreview: {_told(error)}")
        return BAD_INPUT


def _command(words: Sequence[str]) -> int:
    top, made = parser()
    words = _below_zero(joined(list(words)))
    if words:
        check_command(words[0], made)
    given, unknown = top.parse_known_args(words)
    if unknown:
        made[given.command].error(f"unrecognized arguments: {' '.join(unknown)}")  # it names its own help, not the whole one's
    module = import_module(f"filmreview.commandline.{MODULES[given.command]}")
    handler: Callable[[argparse.Namespace], int] = getattr(module, given.command.replace(" ", "_"))
    return handler(given)


def _below_zero(words: list[str]) -> list[str]:
    """`--box -5,0,10,10` as `--box=-5,0,10,10`: argparse would take it for an option and say that a value is missing."""
    made: list[str] = []
    for word in words:
        if _NUMBERS.fullmatch(word) and made and made[-1].startswith("--") and "=" not in made[-1]:
            made[-1] += f"={word}"
        else:
            made.append(word)
    return made


def _told(error: OSError) -> FilmReviewError:
    """What the system reported, in one line: what, where, what to do."""
    todo = next((words for kind, words in _SYSTEM.items() if isinstance(error, kind)), None)
    return FilmReviewError((error.strerror or str(error)).lower(), where=str(error.filename or "the machine"), todo=todo)

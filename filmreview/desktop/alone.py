"""Long work in a process of its own: it takes no time of the window's, and ends with the window, however that ends. No Qt.

Threads share one interpreter: pages of tables and pictures made on one would keep the window waiting. So such work gets a
second interpreter, of lower priority. The parent sends what to do and stays at the other end of the line; when the line breaks
(stopped, the window closed or killed) the work is interrupted, cleans up as at any fault, and ends.
"""

from __future__ import annotations

import _thread
import contextlib
import importlib
import os
import pickle
import queue
import subprocess
import sys
import threading
import traceback
from collections.abc import Callable
from typing import IO, Any

from filmreview.errors import FilmReviewError
from filmreview.progress import Progress

_LOOK = 0.1  # seconds between two looks whether the work was stopped
_GRACE = 5.0  # seconds that stopped work has to clean up
_PRIORITY = 5  # lower than the window's, where the system knows such a thing
_START = "import sys; sys.path[:] = {path!r}; from filmreview.desktop.alone import serve; serve()"


class BrokenOffError(Exception):
    """A fault of this program in the other process, with its trace in words."""


def alone(function: str, *given: object) -> Callable[[Progress], Any]:
    """Work to be done in a process of its own: a job calls the result with its progress.

    function: "module:name", imported only there, so that the window does not wait for what it imports; of a module without Qt.
    It takes what is given and, last, a progress. All that goes in and out is pickled. What the function raises is raised:
    FilmReviewError as it is, all else as BrokenOffError; a process that dies is told as a FilmReviewError.
    """

    def work(progress: Progress) -> Any:
        command = [sys.executable, "-P", "-c", _START.format(path=sys.path)]
        with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE) as child:
            try:
                return _followed(child, (function, given), progress)
            finally:
                _end(child)

    return work


def serve() -> None:
    """In the other process: do what comes down the line, and tell how it goes."""
    line, out = os.fdopen(os.dup(0), "rb"), os.fdopen(os.dup(1), "wb")
    done = threading.Event()
    os.dup2(2, 1)  # what libraries print must not get in between
    with contextlib.suppress(AttributeError, OSError):
        os.nice(_PRIORITY)

    def tell(share: float, words: str) -> None:
        _send(out, ("progress", (share, words)))

    try:
        function, given = pickle.load(line)
        threading.Thread(target=_watch, args=(line, done), daemon=True).start()
        answer = ("answer", _named(function)(*given, tell))
    except (KeyboardInterrupt, BrokenPipeError):
        return  # stopped, and nobody listens
    except FilmReviewError as error:
        answer = ("failed", error)
    except Exception:  # noqa: BLE001 - handed to the window, whose hook shows it
        answer = ("broken", traceback.format_exc())
    done.set()
    with contextlib.suppress(BrokenPipeError, KeyboardInterrupt):
        _send(out, answer)


def _named(function: str) -> Callable[..., Any]:
    module, _, name = function.partition(":")
    found: Callable[..., Any] = getattr(importlib.import_module(module), name)
    return found


def _followed(child: subprocess.Popen[bytes], task: object, progress: Progress) -> Any:
    """Send the task and follow it to its end."""
    assert child.stdin is not None, "opened with pipes"
    assert child.stdout is not None, "opened with pipes"
    told: queue.SimpleQueue[tuple[str, Any]] = queue.SimpleQueue()
    threading.Thread(target=_listen, args=(child.stdout, told), name="alone-listener", daemon=True).start()
    with contextlib.suppress(BrokenPipeError):  # it died at once: that is told below
        _send(child.stdin, task)
    share, words = 0.0, ""
    while True:
        progress(share, words)  # raises Stopped
        try:
            kind, what = told.get(timeout=_LOOK)
        except queue.Empty:
            continue
        if kind == "progress":
            share, words = what
        elif kind == "answer":
            return what
        elif kind == "failed":
            raise what
        elif kind == "broken":
            raise BrokenOffError(what)
        else:
            raise FilmReviewError(
                f"the work broke off (exit code {child.wait()})", todo="try again; what was there before is as it was"
            )


def _end(child: subprocess.Popen[bytes]) -> None:
    """Break the line, and give the work a moment to clean up."""
    assert child.stdin is not None, "opened with pipes"
    with contextlib.suppress(BrokenPipeError):
        child.stdin.close()
    try:
        child.wait(_GRACE)
    except subprocess.TimeoutExpired:
        child.kill()


def _listen(line: IO[bytes], told: queue.SimpleQueue[tuple[str, Any]]) -> None:
    """Take what the other process tells until it ends."""
    try:
        while True:
            told.put(pickle.load(line))
    except (EOFError, OSError, ValueError, pickle.UnpicklingError):
        told.put(("ended", None))


def _watch(line: IO[bytes], done: threading.Event) -> None:
    """In the other process: interrupt the work when the line breaks."""
    with contextlib.suppress(OSError):
        line.read(1)
    if not done.is_set():
        _thread.interrupt_main()


def _send(line: IO[bytes], what: object) -> None:
    pickle.dump(what, line)
    line.flush()

"""A screen for the desk's tests, and proof that nothing they start outlives them."""

import contextlib
import gc
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from PyQt6 import sip
from PyQt6.QtCore import QCoreApplication, QEvent, QThread, QTimer

from filmreview.desktop.jobs import Jobs
from tests.desktop.screen import start_screen

GRACE = 3.0  # seconds that a thread may take to end after a test
NOISE = (  # told by Qt about this machine, not about us
    "PulseAudio", "No audio device", "pipewire", "XDG_RUNTIME_DIR", "propagateSizeHints", "does not support raise",
    "Qt multimedia with FFmpeg", "No HW decoder", "Using Qt multimedia",
)  # fmt: skip


start_screen()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if "tests/desktop" in item.path.as_posix():
            item.add_marker(pytest.mark.qt_log_level_fail("WARNING"))
            item.add_marker(pytest.mark.qt_log_ignore(*NOISE))


@pytest.fixture(autouse=True)
def nothing_outlives() -> Iterator[None]:
    """Fails when a thread, a QThread, a running QTimer, a job or another process of the desk is left behind."""
    before = set(threading.enumerate())
    yield
    if QCoreApplication.instance() is not None:
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    end = time.monotonic() + GRACE
    while (_threads(before) or _processes()) and time.monotonic() < end:
        time.sleep(0.02)
    left = [*_threads(before), *_processes()]
    assert not left, f"threads or processes outlive the test: {left}"
    left = _running_qt()
    assert not left, f"left running by the test: {left}"


def _threads(before: set[threading.Thread]) -> list[threading.Thread]:
    # A thread of libvlc or Qt that called us once stays listed as a dummy for as long as that library keeps it.
    return [one for one in threading.enumerate() if one not in before and not isinstance(one, threading._DummyThread)]


def _processes() -> list[str]:
    """Work of the desk in processes of their own, where the system tells."""
    tasks = Path("/proc/self/task")
    found = []
    for task in tasks.glob("*") if tasks.is_dir() else ():
        with contextlib.suppress(OSError):  # it ends just now
            for child in (task / "children").read_text().split():
                told = Path(f"/proc/{child}/cmdline").read_bytes().decode(errors="replace")
                found += [told] if "filmreview.desktop.alone" in told else []
    return found


def _running_qt() -> list[object]:
    left: list[object] = []
    for one in gc.get_objects():
        if isinstance(one, Jobs) and not sip.isdeleted(one) and one.busy:
            left.append(one)
        if not isinstance(one, QTimer | QThread) or sip.isdeleted(one):
            continue
        if one.isActive() if isinstance(one, QTimer) else (one.isRunning() and one is not QThread.currentThread()):
            left.append(one)
    return left

"""A screen for the desk's tests, and proof that nothing they start outlives them."""

import gc
import threading
import time
from collections.abc import Iterator

import pytest
from PyQt6 import sip
from PyQt6.QtCore import QCoreApplication, QEvent, QThread, QTimer

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
    """Fails when a thread, a QThread or a running QTimer is left behind."""
    before = set(threading.enumerate())
    yield
    if QCoreApplication.instance() is not None:
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    end = time.monotonic() + GRACE
    while _threads(before) and time.monotonic() < end:
        time.sleep(0.02)
    left = _threads(before)
    assert not left, f"threads outlive the test: {left}"
    left = _running_qt()
    assert not left, f"left running by the test: {left}"


def _threads(before: set[threading.Thread]) -> list[threading.Thread]:
    # A thread of libvlc or Qt that called us once stays listed as a dummy for as long as that library keeps it.
    return [one for one in threading.enumerate() if one not in before and not isinstance(one, threading._DummyThread)]


def _running_qt() -> list[object]:
    left: list[object] = []
    for one in gc.get_objects():
        if not isinstance(one, QTimer | QThread) or sip.isdeleted(one):
            continue
        if one.isActive() if isinstance(one, QTimer) else (one.isRunning() and one is not QThread.currentThread()):
            left.append(one)
    return left

"""The heartbeat tells a window that is kept from its loop from a machine that is busy."""

import threading
import time
from collections.abc import Callable

import pytest
from pytestqt.qtbot import QtBot

from tests.desktop.heartbeat import Heartbeat


def work(seconds: float) -> None:
    """Keep a thread busy, by its own time."""
    end = time.thread_time() + seconds
    while time.thread_time() < end:
        pass


def wait_for_a_lock(seconds: float) -> None:
    """Want what another thread holds for so long."""
    lock = threading.Lock()
    lock.acquire()
    timer = threading.Timer(seconds, lock.release)
    timer.start()
    lock.acquire()
    timer.join()


@pytest.mark.parametrize("block", [time.sleep, work, wait_for_a_lock])
def test_a_blocked_loop_is_seen(qtbot: QtBot, block: Callable[[float], None]) -> None:
    heart = Heartbeat("blocked on purpose")
    heart.start()
    qtbot.wait(30)
    block(0.08)
    qtbot.wait(30)
    heart.stop()
    assert heart.longest("blocked on purpose") > 0.06
    assert heart.longest("something else") == 0.0


def test_a_free_loop_beats(qtbot: QtBot) -> None:
    heart = Heartbeat()
    heart.start()
    qtbot.wait(300)
    heart.stop()
    assert heart.beats > 10
    assert heart.longest() < 0.05

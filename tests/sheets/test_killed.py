"""Killed in the middle of writing: the sheet that was there is whole, whatever the kind."""

import os
import signal
import time
from collections.abc import Callable
from multiprocessing import get_context
from multiprocessing.connection import Connection
from pathlib import Path

import pytest

from filmreview.sheets.kinds import WRITERS, write_sheet
from tests.sheets.small_sheet import sheet

OLD = b"the old sheet"


def write(path: Path, answer: Connection) -> None:
    """Write until the first word on how far it is, then wait to be killed."""

    def told(_: float, __: str) -> None:
        answer.send(sorted(one.name for one in path.parent.iterdir()))
        time.sleep(60)

    os.replace = _wait(told)  # the kinds that tell nothing on the way are stopped before the old one's place is taken
    write_sheet(sheet(), path, told)


@pytest.mark.parametrize("ending", list(WRITERS))
def test_a_kill_leaves_the_old_sheet(tmp_path: Path, ending: str) -> None:
    path = tmp_path / f"sheet{ending}"
    path.write_bytes(OLD)
    apart = get_context("spawn")  # a process of its own from the start: to fork one that has threads can hang
    near, far = apart.Pipe(duplex=False)
    child = apart.Process(target=write, args=(path, far))
    child.start()
    assert near.poll(60)
    there = near.recv()
    assert len(there) == 2, "the old one, and the new one aside"
    assert child.pid
    os.kill(child.pid, signal.SIGKILL)
    child.join()
    assert path.read_bytes() == OLD
    assert [one.name for one in tmp_path.iterdir() if not one.name.startswith(".")] == [path.name]


def _wait(told: Callable[[float, str], None]) -> Callable[..., None]:
    return lambda *_: told(1.0, "")

"""Work in a process of its own."""

import os
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from filmreview.desktop.alone import BrokenOffError, alone
from filmreview.errors import FilmReviewError, Stopped
from filmreview.progress import silent

WORK = "tests.desktop.alone_work"


def test_the_answer_comes_back_and_the_progress_is_told() -> None:
    told: list[tuple[float, str]] = []
    assert alone(f"{WORK}:doubled", 21)(lambda share, words: told.append((share, words))) == 42
    assert (0.5, "half") in told


def test_it_is_another_process_of_lower_priority() -> None:
    process, priority = alone(f"{WORK}:whoami")(silent)
    assert process != os.getpid()
    assert priority > os.nice(0)


def test_a_fault_of_the_world_comes_back_whole() -> None:
    with pytest.raises(FilmReviewError) as raised:
        alone(f"{WORK}:refuse")(silent)
    assert (raised.value.what, raised.value.where, raised.value.todo) == ("the disk is full", "a.xlsx", "make room")


def test_a_fault_of_the_program_comes_back_with_its_trace() -> None:
    with pytest.raises(BrokenOffError, match="ZeroDivisionError"):
        alone(f"{WORK}:divide")(silent)


def test_a_process_that_dies_is_told() -> None:
    with pytest.raises(FilmReviewError, match="the work broke off"):
        alone(f"{WORK}:die")(silent)


def test_stopped_work_ends_and_leaves_nothing(tmp_path: Path) -> None:
    path, writing = tmp_path / "sheet.xlsx", threading.Event()

    def stop(share: float, _words: str) -> None:
        if share == 0.5:
            writing.set()
            raise Stopped("stopped")

    with pytest.raises(Stopped):
        alone(f"{WORK}:write_slowly", None, path, "coordinator")(stop)
    assert writing.is_set()
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(sys.platform == "win32", reason="a process cannot be killed in this way there")
def test_a_killed_parent_takes_it_along_and_nothing_half_is_left(tmp_path: Path) -> None:
    path, old = tmp_path / "sheet.xlsx", "the sheet of yesterday"
    path.write_text(old)
    code = f"""
import sys
sys.path[:] = {sys.path!r}
from pathlib import Path
from filmreview.desktop.alone import alone
alone({WORK + ":write_slowly"!r}, None, Path({str(path)!r}), "")(lambda share, words: print(share, flush=True))
"""
    parent = subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, text=True)
    assert parent.stdout is not None
    assert any(line.startswith("0.5") for line in parent.stdout)
    assert len(list(tmp_path.iterdir())) == 2
    parent.send_signal(signal.SIGKILL)
    parent.wait()
    parent.stdout.close()
    end = time.monotonic() + 10
    while len(list(tmp_path.iterdir())) > 1 and time.monotonic() < end:
        time.sleep(0.05)
    assert [one.name for one in tmp_path.iterdir()] == ["sheet.xlsx"]
    assert path.read_text() == old

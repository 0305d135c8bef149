"""Long work beside the window."""

import threading

import pytest
from pytestqt.qtbot import QtBot

from filmreview.desktop.jobs import Jobs
from filmreview.errors import FilmReviewError
from filmreview.progress import Progress


@pytest.fixture
def faults() -> list[str]:
    return []


@pytest.fixture
def jobs(qtbot: QtBot, faults: list[str]):
    made = Jobs(lambda error: faults.append(str(error)))
    yield made
    made.close()
    qtbot.waitUntil(lambda: not made.busy)


def test_the_answer_comes_back_on_the_window_s_thread(qtbot: QtBot, jobs: Jobs) -> None:
    seen: list[tuple[int, bool, bool]] = []

    def work(_progress: Progress) -> bool:
        return threading.current_thread() is threading.main_thread()

    jobs.start(work, lambda on_main: seen.append((1, on_main, threading.current_thread() is threading.main_thread())))
    qtbot.waitUntil(lambda: bool(seen))
    assert seen == [(1, False, True)]


def test_a_fault_of_the_world_is_told(qtbot: QtBot, jobs: Jobs, faults: list[str]) -> None:
    def work(_progress: Progress) -> None:
        raise FilmReviewError("no such film", where="a.mp4")

    jobs.start(work)
    qtbot.waitUntil(lambda: bool(faults))
    assert faults == ["a.mp4: no such film"]


def test_a_fault_of_the_program_is_raised_where_it_is_seen(qtbot: QtBot, jobs: Jobs, faults: list[str]) -> None:
    def work(_progress: Progress) -> None:
        raise ZeroDivisionError("ours")

    with qtbot.captureExceptions() as raised:
        jobs.start(work)
        qtbot.waitUntil(lambda: bool(raised))
    assert [kind for kind, _error, _trace in raised] == [ZeroDivisionError]
    assert faults == []


def test_stopped_work_tells_nothing_more(qtbot: QtBot, jobs: Jobs, faults: list[str]) -> None:
    started, go_on = threading.Event(), threading.Event()
    answers: list[object] = []

    def work(progress: Progress) -> str:
        started.set()
        go_on.wait(5)
        progress(0.5, "half")
        return "done"

    job = jobs.start(work, answers.append)
    assert started.wait(5)
    job.stop()
    go_on.set()
    qtbot.waitUntil(lambda: not jobs.busy)
    assert (answers, faults) == ([], [])


def test_a_newer_job_of_the_same_name_replaces_the_older(qtbot: QtBot, jobs: Jobs) -> None:
    go_on = threading.Event()
    answers: list[str] = []

    def slow(_progress: Progress) -> str:
        go_on.wait(5)
        return "old"

    jobs.start(slow, answers.append, only="ruling")
    jobs.start(lambda _progress: "new", answers.append, only="ruling")
    qtbot.waitUntil(lambda: answers == ["new"])
    go_on.set()
    qtbot.waitUntil(lambda: not jobs.busy)
    assert answers == ["new"]


def test_progress_is_told(qtbot: QtBot, jobs: Jobs) -> None:
    told: list[tuple[float, str]] = []
    go_on = threading.Event()

    def work(progress: Progress) -> None:
        go_on.wait(5)
        progress(0.25, "a quarter")

    job = jobs.start(work)
    job.progress.connect(lambda share, words: told.append((share, words)))
    go_on.set()
    qtbot.waitUntil(lambda: not jobs.busy)
    assert told == [(0.25, "a quarter")]


def test_closing_waits_for_the_work(qtbot: QtBot) -> None:
    jobs = Jobs(lambda _error: None)
    started, ended = threading.Event(), threading.Event()

    def work(progress: Progress) -> None:
        started.set()
        try:
            while True:
                progress(0.0, "")
                threading.Event().wait(0.005)
        finally:
            ended.set()

    jobs.start(work)
    assert started.wait(5)
    jobs.close()
    assert ended.is_set()
    qtbot.waitUntil(lambda: not jobs.busy)


@pytest.mark.usefixtures("qapp")
def test_what_is_asked_in_turn_is_done_in_order_and_not_stopped_by_closing() -> None:
    jobs = Jobs(lambda _error: None)
    done: list[int] = []
    told: list[int] = []

    def work(number: int) -> int:
        threading.Event().wait(0.02 * (3 - number))  # the later ones are the quicker ones
        done.append(number)
        return number

    for number in range(3):
        jobs.in_turn(lambda _progress, number=number: work(number), told.append)
    jobs.close()
    assert (done, told) == ([0, 1, 2], [0, 1, 2])  # told, too, before closing goes on
    assert not jobs.busy


def test_what_is_asked_in_turn_by_an_answer_is_finished_too(jobs: Jobs, faults: list[str]) -> None:
    told: list[str] = []

    def fail(_progress: Progress) -> None:
        raise FilmReviewError("the disk is full")

    def again(answer: str) -> None:
        told.append(answer)
        jobs.in_turn(fail)

    jobs.in_turn(lambda _progress: "first", again)
    jobs.finish_turns()
    assert (told, faults) == (["first"], ["the disk is full"])

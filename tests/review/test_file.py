"""The file itself: killed, open elsewhere, older, newer, damaged, read only, disk full. Nothing acknowledged is ever lost."""

import multiprocessing
import os
import random
import resource
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from functools import partial
from multiprocessing.connection import Connection
from pathlib import Path

import pytest

import filmreview
from filmreview.errors import FilmReviewError
from filmreview.review import schema, store
from filmreview.review.changes import SetCrew
from filmreview.review.model import CrewResponse
from filmreview.review.reading import read, read_history
from filmreview.review.store import Store
from tests.review.small_game import a_game, a_tag

FORM_1 = Path(__file__).with_name("form-1.sql")
KILLS = 50


def form_1(path: Path) -> None:
    """A review that the program made while form 1 was the newest (commit "review: keep tags in one file ...")."""
    side = sqlite3.connect(path)
    side.executescript(FORM_1.read_text(encoding="utf-8"))
    side.close()


APART = multiprocessing.get_context("spawn")  # a process of its own from the start: to fork one that has threads can hang


def in_child(work: Callable[[], str]) -> str:
    """What work returns, or the one line of its FilmReviewError, from a process of its own. work: can be pickled."""
    near, far = APART.Pipe(duplex=False)
    child = APART.Process(target=_send, args=(far, work))
    child.start()
    far.close()
    answer = str(near.recv()) if near.poll(60) else "no answer"
    child.join(30)
    return answer


def _send(answer: Connection, work: Callable[[], str]) -> None:
    try:
        answer.send(work())
    except FilmReviewError as error:
        answer.send(f"refused: {error}")


def open_for_ben(path: Path) -> str:
    return store.open(path, "Ben").who


def count_tags(path: Path) -> str:
    return str(len(read(path).tags))


def create(path: Path) -> str:
    return str(store.create(path, a_game(), "Ann"))


def tag_until_killed(path: Path, acknowledge: int) -> None:
    with store.open(path, "child") as opened:
        while True:
            (tag,) = opened.apply(a_tag())
            opened.apply(SetCrew(tag, CrewResponse("late")))
            os.write(acknowledge, f"{tag}\n".encode())
            opened.apply(a_tag("30", item="headband"))
            opened.undo()


def create_once(path: Path, _acknowledge: int) -> None:
    store.create(path, a_game(), "child")


@contextmanager
def killing(work: Callable[[int], None], seed: int) -> Iterator[Callable[[float, float], list[str]]]:
    """A call that starts work, kills it at random between two seconds from then, and returns what it acknowledged.

    A process of its own does the forking: it has no threads, and a work forked from it is under way at once.
    """
    near, far = APART.Pipe()
    killer = APART.Process(target=_kill_when_told, args=(far, work, seed))
    killer.start()
    far.close()

    def kill(least: float, most: float) -> list[str]:
        near.send((least, most))
        assert near.poll(60), "no answer"
        return list(near.recv())

    try:
        yield kill
    finally:
        near.close()
        killer.join(30)


def _kill_when_told(told: Connection, work: Callable[[int], None], seed: int) -> None:
    chance = random.Random(seed)
    with suppress(EOFError):
        while True:
            told.send(_killed(work, chance.uniform(*told.recv())))


def _killed(work: Callable[[int], None], after: float) -> list[str]:
    near, far = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            work(far)
        finally:
            os._exit(9)
    os.close(far)
    time.sleep(after)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with os.fdopen(near, "rb") as pipe:
        return pipe.read().decode().split()


def test_no_acknowledged_tag_is_lost_when_killed_at_random(kept: Store, path: Path) -> None:
    kept.close()
    acknowledged: list[str] = []
    most = 0.1
    with killing(partial(tag_until_killed, path), 20250114) as kill:
        for _ in range(KILLS):
            fresh = kill(0.002, most)
            most = min(1.0, most * (1.0 if fresh else 1.2))  # a slow machine is given time to get some work done
            acknowledged += fresh
            seen = {tag.id: tag for tag in read(path).tags}
            assert set(acknowledged) <= set(seen)
            assert all(seen[tag].crew == CrewResponse("late") for tag in acknowledged)
    assert len(acknowledged) >= KILLS / 4, "most kills came before any work was done"
    with store.open(path, "Ann") as opened:
        done = [step for step in opened.history() if step.state == "done"]
        assert {edit.id for step in done for edit in step.edits if edit.part == "tag"} == {tag.id for tag in opened.review.tags}
        assert opened.apply(a_tag())[0] not in acknowledged


def test_a_review_is_made_whole_or_not_at_all(path: Path) -> None:
    made = 0
    with killing(partial(create_once, path), 7) as kill:
        for _ in range(25):
            kill(0.0, 0.12)
            if path.exists():
                assert read(path).game == a_game()
                path.unlink()
                made += 1
    store.create(path, a_game(), "Ann").close()
    assert [left.name for left in path.parent.iterdir()] == [path.name]
    assert made < 25, "no kill came early enough to show anything"


def test_a_second_writer_gets_one_clear_line_and_readers_still_read(kept: Store, path: Path) -> None:
    kept.apply(a_tag())
    refused = in_child(partial(open_for_ben, path))
    assert refused == (
        f"refused: {path}: the review is open elsewhere ({_held_by(path)}); close it there first; "
        "findings and sheet can read it meanwhile"
    )
    assert refused.count("Ann, process ") == 1
    assert in_child(partial(count_tags, path)) == "1"
    with pytest.raises(FilmReviewError, match="open elsewhere"):
        store.open(path, "Ben")
    kept.close()
    assert in_child(partial(open_for_ben, path)) == "Ben"
    assert [left.name for left in path.parent.iterdir() if left.name != ".game.filmreview.lock"] == [path.name]


def _held_by(path: Path) -> str:
    return path.with_name(f".{path.name}.lock").read_text()


def test_reading_and_writing_at_once_wait_for_each_other(kept: Store, path: Path) -> None:
    """A reader holds the file only for as long as it loads, a writer only while it commits: tags far faster than a person keeps
    them, and reads all the while, none refused."""
    program = f"from filmreview.review.reading import read\nfor _ in range(10): read({str(path)!r})\nprint('read')"
    reader = subprocess.Popen([sys.executable, "-c", program], stdout=subprocess.PIPE, text=True)
    while reader.poll() is None:
        kept.apply(a_tag())
        time.sleep(0.05)
    assert reader.communicate()[0] == "read\n"
    assert len(read(path).tags) == len(kept.review.tags) > 0


def test_what_something_else_wrote_is_noticed(kept: Store, path: Path) -> None:
    side = sqlite3.connect(path)
    side.execute("DELETE FROM step WHERE number = 2")
    side.commit()
    side.close()
    with pytest.raises(FilmReviewError, match="changed by another program; open it again"):
        kept.apply(a_tag())


def test_an_older_form_is_brought_up_with_its_record(path: Path) -> None:
    form_1(path)
    before = path.read_bytes()
    looked_at = read(path)
    assert path.read_bytes() == before, "reading leaves the file as it is"
    with store.open(path, "Ben") as opened:
        assert opened.review == looked_at
        assert [tag.id for tag in opened.review.tags] == ["t1", "t3"]
        assert opened.review.event("e2").before_start == 480, "8:00 before the game"
        assert opened.next_redo == "remove t3: visitor 14, wristband at 0:21.000"
        opened.redo()
        opened.undo()
        opened.undo()
        assert [tag.id for tag in opened.review.tags] == ["t1"]
    side = sqlite3.connect(path)
    assert side.execute("PRAGMA user_version").fetchone() == (schema.FORM,)
    steps = side.execute("SELECT from_form, to_form FROM migration ORDER BY to_form").fetchall()
    assert steps == [(form, form + 1) for form in range(schema.FORM)]
    side.close()


def test_a_step_to_a_new_form_is_whole_or_not_at_all(path: Path) -> None:
    form_1(path)
    side = sqlite3.connect(path, isolation_level=None)
    broken = {1: "CREATE TABLE extra (a TEXT); INSERT INTO no_such_table VALUES (1)"}
    with pytest.raises(sqlite3.OperationalError):
        schema.bring_up(side, broken)
    assert schema.form_of(side) == 1
    assert side.execute("SELECT count(*) FROM sqlite_master WHERE name = 'extra'").fetchone() == (0,)
    assert side.execute("SELECT count(*) FROM migration").fetchone() == (1,)
    side.close()
    assert len(read(path).tags) == 2


def test_a_newer_form_is_refused_with_the_version_that_reads_it(kept: Store, path: Path) -> None:
    kept.close()
    side = sqlite3.connect(path)
    side.execute("INSERT INTO migration VALUES (99, 2, '2031-01-01T00:00:00+00:00', '7.2.0')")
    side.execute("PRAGMA user_version = 99")
    side.commit()
    side.close()
    before = path.read_bytes()
    words = f"the review has form 99, and filmreview {filmreview.__version__} reads forms up to {schema.FORM}"
    for attempt in (read, read_history, lambda path: store.open(path, "Ann")):
        with pytest.raises(FilmReviewError) as caught:
            attempt(path)
        assert str(caught.value) == f"{path}: {words}; open it with filmreview 7.2.0 or newer"
    assert path.read_bytes() == before


def test_what_is_no_review_is_refused(tmp_path: Path) -> None:
    other = tmp_path / "other.filmreview"
    sqlite3.connect(other).executescript("CREATE TABLE a (b)").connection.close()
    (tmp_path / "text.filmreview").write_text("no review")
    (tmp_path / "empty.filmreview").touch()
    (tmp_path / "folder.filmreview").mkdir()
    cases = {
        "other": "this is not a review",
        "text": "this is not a review",
        "empty": "this is not a review",
        "folder": "this is a folder, not a review",
        "missing": "there is no such review",
    }
    for name, words in cases.items():
        for attempt in (read, lambda path: store.open(path, "Ann")):
            with pytest.raises(FilmReviewError, match=f"{name}.filmreview: {words}"):
                attempt(tmp_path / f"{name}.filmreview")
    assert sorted(left.name for left in tmp_path.iterdir()) == [
        f"{name}.filmreview" for name in ("empty", "folder", "other", "text")
    ]


def test_a_damaged_file_is_refused_and_left_as_it_is(kept: Store, path: Path) -> None:
    for _ in range(60):
        kept.apply(a_tag(note="x" * 200))
    kept.close()
    whole = path.read_bytes()
    pages = len(whole) // 4096
    refused = 0
    for page in range(1, pages):  # the first page is the header; each other page in turn becomes rubbish
        path.write_bytes(whole[: page * 4096] + b"\xa5" * 4096 + whole[(page + 1) * 4096 :])
        spoiled = path.read_bytes()
        for attempt in (read, lambda path: store.open(path, "Ann")):
            with pytest.raises(FilmReviewError, match="the review is damaged; take the last good copy"):
                attempt(path)
            refused += 1
        assert path.read_bytes() == spoiled
    assert refused == 2 * (pages - 1) > 20
    path.write_bytes(whole[: len(whole) // 2])
    with pytest.raises(FilmReviewError, match="the review is damaged"):
        read(path)


def test_create_never_writes_over_a_file(path: Path, tmp_path: Path) -> None:
    path.write_text("mine")
    with pytest.raises(FilmReviewError, match="a file of that name already"):
        store.create(path, a_game(), "Ann")
    assert path.read_text() == "mine"
    with pytest.raises(FilmReviewError, match="there is no such folder; make it first"):
        store.create(tmp_path / "none" / "game.filmreview", a_game(), "Ann")
    with pytest.raises(FilmReviewError, match="unknown level"):
        store.create(tmp_path / "new.filmreview", a_game(level="pro"), "Ann")
    assert [left.name for left in tmp_path.iterdir()] == [path.name]


def as_nobody(work: Callable[[], str]) -> str:
    if os.getuid() == 0:  # the superuser may write anywhere
        os.setgid(65534)
        os.setuid(65534)
    return work()


def test_a_folder_that_cannot_be_written_is_said_and_can_be_read(kept: Store, path: Path) -> None:
    kept.apply(a_tag())
    kept.close()
    home = _open_to_everybody(path)

    try:
        assert in_child(partial(as_nobody, partial(count_tags, path))) == "1"
        words = f"refused: {path.parent}: the folder cannot be written; copy the review to a folder of your own"
        assert in_child(partial(as_nobody, partial(open_for_ben, path))).startswith(words)
        assert in_child(partial(as_nobody, partial(create, path.with_name("b.filmreview")))).startswith(words)
    finally:
        home()
    assert len(read(path).tags) == 1


def test_a_review_that_may_not_be_read_is_said(kept: Store, path: Path) -> None:
    kept.close()
    home = _open_to_everybody(path)
    path.chmod(0o000)
    try:
        words = f"refused: {path}: you may not read this review; ask for the right to read it"
        assert in_child(partial(as_nobody, partial(count_tags, path))) == words
        assert in_child(partial(as_nobody, partial(open_for_ben, path))) == words
    finally:
        home()
        path.chmod(0o644)
    assert read(path).game == a_game()


def _open_to_everybody(path: Path) -> Callable[[], None]:
    """The folder of the path: read by all, written by nobody; returns what puts it back."""
    folders = [path.parent, *(folder for folder in path.parents[1:] if folder.stat().st_mode & 0o055 != 0o055)]
    modes = [folder.stat().st_mode for folder in folders]
    for folder, mode in zip(folders, modes, strict=True):
        folder.chmod(mode | 0o055)
    path.chmod(0o444)
    path.parent.chmod(0o555)

    def back() -> None:
        for folder, mode in zip(folders, modes, strict=True):
            folder.chmod(mode)

    return back


def fill(path: Path, limit: int) -> str:
    sys.dont_write_bytecode = True
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
    with store.open(path, "Ann") as opened:
        for count in range(1000):
            before = opened.review
            try:
                opened.apply(a_tag(note="n" * 3000))
            except FilmReviewError as error:
                assert opened.review == before
                assert opened.undo() is not None or count == 0
                return f"{count} {error}"
    return "never full"


def test_a_full_disk_keeps_what_was_there(kept: Store, path: Path) -> None:
    """The system refuses to let files grow past a limit, as a full disk does."""
    kept.apply(a_tag())
    kept.close()
    limit = path.stat().st_size + 8192

    count, _, words = in_child(partial(fill, path, limit)).partition(" ")
    assert words.startswith(f"{path}: the disk did not take the change, so it was not kept")
    assert "\n" not in words
    tags = read(path).tags
    assert len(tags) == 1 + int(count) - 1, "all that was acknowledged, less the one undone afterwards"
    with store.open(path, "Ann") as again:
        again.apply(a_tag())


def test_sqlite_s_own_full_error_is_told(kept: Store, path: Path) -> None:
    pages = kept._connection.execute("PRAGMA page_count").fetchone()[0]
    kept._connection.execute(f"PRAGMA max_page_count = {pages}")
    with pytest.raises(FilmReviewError, match="the disk is full, so this change was not kept; make room and do it again"):
        kept.apply(a_tag(note="n" * 100_000))
    assert kept.review.tags == ()
    kept.apply(a_tag())
    kept.close()
    assert len(read(path).tags) == 1

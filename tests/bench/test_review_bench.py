"""Figures of the review file, by hand: pytest tests/bench/test_review_bench.py -s

The peer for one change is what SQLite itself needs for one transaction of the same size on the same disk, in the same run.
"""

import sqlite3
import statistics
import time
from pathlib import Path

from filmreview.facts.fact import Fact
from filmreview.facts.keys import parse_value
from filmreview.review import store
from filmreview.review.changes import Together
from filmreview.review.reading import read
from filmreview.review.ruled import findings, keep
from tests.review.small_game import a_film, a_game, a_tag

TAGS = 500
FACTS = (Fact("colour", parse_value("colour", "orange")), Fact("in_play", True))


def milliseconds(start: float) -> float:
    return (time.perf_counter() - start) * 1000


def bare_transactions(path: Path, count: int) -> list[float]:
    """One row of 300 bytes a transaction, as careful about the disk as the review is."""
    side = sqlite3.connect(path, isolation_level=None)
    side.execute("PRAGMA synchronous = EXTRA")
    side.execute("CREATE TABLE a (b TEXT)")
    took = []
    for _ in range(count):
        start = time.perf_counter()
        side.execute("BEGIN IMMEDIATE")
        side.execute("INSERT INTO a VALUES (?)", ("x" * 300,))
        side.execute("COMMIT")
        took.append(milliseconds(start))
    side.close()
    return took


def test_changes_on_a_review_of_500_tags(tmp_path: Path) -> None:
    path = tmp_path / "game.filmreview"
    with store.create(path, a_game(), "Ann") as opened:
        opened.apply(a_film())
        took = []
        for number in range(TAGS):
            tag = a_tag(str(1 + number % 80), player=str(number % 56), facts=FACTS)
            start = time.perf_counter()
            opened.apply(tag)
            took.append(milliseconds(start))
        start = time.perf_counter()
        opened.undo()
        undo = milliseconds(start)
        opened.redo()
        start = time.perf_counter()
        opened.apply(Together(tuple(a_tag(facts=FACTS) for _ in range(TAGS))))
        together = milliseconds(start)
        start = time.perf_counter()
        found = findings(opened.review)
        judged = milliseconds(start)
        start = time.perf_counter()
        keep(opened, found)
        kept = milliseconds(start)
    start = time.perf_counter()
    assert len(read(path).tags) == 2 * TAGS
    loaded = milliseconds(start)
    bare = statistics.median(bare_transactions(tmp_path / "bare.db", 100))
    median, worst = statistics.median(took), max(took)
    print(f"\none tag: median {median:.2f} ms, worst {worst:.1f} ms of {TAGS}; a bare transaction {bare:.2f} ms")
    print(f"undo {undo:.1f} ms; {TAGS} tags together {together:.0f} ms")
    print(f"{2 * TAGS} tags judged {judged:.0f} ms, their rulings kept {kept:.0f} ms")
    print(f"read {2 * TAGS} tags {loaded:.0f} ms; file {path.stat().st_size / 1024:.0f} KiB")
    assert median < 2 * bare + 5
    assert loaded < 1000

"""Figures of the ledger and the places over it, by hand: pytest tests/bench/test_ledger_bench.py -s

A review of an evening, 300 and 500 tags of measured colours. Each figure is what one deed keeps the window's loop from doing
else; the house's limit for that is 50 ms.
"""

import statistics
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PyQt6.QtCore import Qt
from pytestqt.qtbot import QtBot

from filmreview.desktop.desk_presenter import Desk, Touched
from filmreview.desktop.ledger import Ledger
from filmreview.desktop.ledger_model import RULING
from filmreview.desktop.ledger_presenter import LedgerPresenter
from filmreview.desktop.turns import Failed
from filmreview.desktop.wear_board import WearBoardPlace
from filmreview.desktop.wear_board_presenter import WearBoardPresenter
from filmreview.film.film import open_film
from filmreview.review import store as stores
from filmreview.review.changes import Change
from filmreview.review.wear import wear_boards
from tests.desktop.desk_fixtures import FILMS, AtOnce
from tests.desktop.evening import evening
from tests.desktop.screen import start_screen

start_screen()
LIMIT = 50.0  # ms
TIMES = 5


@pytest.fixture(params=[300, 500])
def desk(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Desk]:
    """The desk on such a review, judged."""
    at_once = AtOnce()
    with open_film(FILMS / "constant.mp4") as film:
        path = evening(tmp_path / "game.filmreview", film, request.param)
        store = stores.open(path, "R. Valdrune")

        def push(change: Change, then: Touched, failed: Failed) -> None:
            at_once.in_turn(lambda _progress: store.apply(change), then, failed)

        made = Desk(at_once.start, at_once.in_turn, at_once.forget, push)
        made.take_store(store)
        yield made
        made.close()


def milliseconds(do: Callable[[], object]) -> float:
    took = []
    for _ in range(TIMES):
        start = time.perf_counter()
        do()
        took.append((time.perf_counter() - start) * 1000)
    return statistics.median(took)


def test_deeds_in_the_ledger(qtbot: QtBot, desk: Desk) -> None:
    ledger = Ledger(LedgerPresenter(desk))
    qtbot.addWidget(ledger)
    ledger.resize(940, 260)
    ledger.show()
    qtbot.waitExposed(ledger)
    orders = iter([Qt.SortOrder.DescendingOrder, Qt.SortOrder.AscendingOrder] * TIMES)
    typed = iter(["ovver illegal", ""] * TIMES)
    ledger.table.selectAll()
    figures = {
        "refresh": milliseconds(ledger.refresh),
        "sort": milliseconds(lambda: ledger.table.sortByColumn(RULING, next(orders))),
        "filter": milliseconds(lambda: ledger.look_for.setText(next(typed))),
        "ask which rows are chosen": milliseconds(ledger.chosen),
    }
    many = len(desk.review.tags)
    print(f"\nledger of {many} rows, ms: " + ", ".join(f"{name} {took:.1f}" for name, took in figures.items()))
    assert max(figures.values()) < LIMIT


def test_the_wear_board(qtbot: QtBot, desk: Desk) -> None:
    start = time.perf_counter()
    wear_boards(desk.findings)
    job = (time.perf_counter() - start) * 1000
    place = WearBoardPlace(WearBoardPresenter(desk))
    qtbot.addWidget(place)
    place.resize(940, 260)
    place.show()
    qtbot.waitExposed(place)
    shown = milliseconds(place.refresh)
    many = len(desk.review.tags)
    print(f"\nwear board of {many} tags, ms: worked out beside the window {job:.0f}, shown {shown:.1f}")
    assert shown < LIMIT

"""The history without a screen."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.history_presenter import HistoryPresenter, local_time
from filmreview.film.film import Film
from filmreview.review import store as stores
from filmreview.review.changes import EditGame


class Walking:
    """Walks the desk's own store, and keeps how far it was asked to."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self.asked: list[int] = []

    def by(self, steps: int, then: object) -> None:
        self.asked.append(steps)
        for _ in range(abs(steps)):
            self._desk.store.undo() if steps < 0 else self._desk.store.redo()
        then(abs(steps))


@pytest.fixture
def walking(desk: Desk) -> Walking:
    return Walking(desk)


@pytest.fixture
def history(desk: Desk, film: Film, walking: Walking) -> HistoryPresenter:
    """Three tags kept after the game was set up and the film added."""
    card = CardPresenter(desk)
    for number, line in ((10, "v14 tights black"), (20, "v22 tights black"), (30, "h3 tights white")):
        card.open_new(film.frame(number))
        card.type(line)
        assert card.keep(), desk.last_message
    made = HistoryPresenter(desk, walking.by)
    made.look(True)
    return made


def test_every_step_stands_there_the_newest_first(history: HistoryPresenter) -> None:
    assert [row.number for row in history.rows] == [5, 4, 3, 2, 1]
    assert "home 3, tights" in history.rows[0].what
    assert history.rows[-1].what.startswith("set up Thrunnockby against Ovvermire")
    assert {row.who for row in history.rows} == {"R. Valdrune"}
    assert history.rows[0].state == "done, the review stands here"
    assert [row.walk for row in history.rows] == [0, -1, -2, -3, -4]
    assert history.rows[2].walk_words == "undo 2 steps, back to this one"
    assert history.rows[1].walk_words == "undo 1 step, back to this one"
    assert history.rows[0].walk_words == ""


@pytest.mark.usefixtures("history")
def test_a_login_is_no_name(desk: Desk, walking: Walking) -> None:
    desk.try_change(EditGame(replace(desk.review.game, observer="")))
    unnamed = HistoryPresenter(desk, walking.by, lambda: "R. Valdrune")  # as if that were the machine's login
    unnamed.look(True)
    assert {row.who for row in unnamed.rows} == {"observer not named"}
    assert unnamed.rows[0].who_told == "observer not named (login R. Valdrune: Review, Settings takes a name)"
    assert all(row.holds(["valdrune"]) for row in unnamed.rows), "who it was can still be looked for"


@pytest.mark.usefixtures("history")
def test_a_login_that_the_set_up_names_is_a_name(desk: Desk, walking: Walking) -> None:
    named = HistoryPresenter(desk, walking.by, lambda: desk.review.game.observer)
    named.look(True)
    assert {row.who for row in named.rows} == {"R. Valdrune"}


def test_back_to_a_step_and_forward_again(history: HistoryPresenter, walking: Walking, desk: Desk) -> None:
    history.go_to(3)
    assert walking.asked == [-2]
    assert [tag.player for tag in desk.review.tags] == ["14"]
    assert desk.last_message == "undone: 2 steps; redo takes them back one by one"
    assert [row.walk for row in history.rows] == [2, 1, 0, -1, -2]
    assert history.rows[0].state.startswith("undone, can be done again (")
    assert history.rows[0].state.endswith(", R. Valdrune)")
    history.go_to(4)
    assert [tag.player for tag in desk.review.tags] == ["14", "22"]
    history.go_to(4)
    assert walking.asked == [-2, 1]
    assert "nothing to undo" in desk.last_message


def test_what_was_undone_and_then_done_otherwise_cannot_be_gone_to(history: HistoryPresenter, desk: Desk, film: Film) -> None:
    history.go_to(4)
    card = CardPresenter(desk)
    card.open_new(film.frame(40))
    card.type("h10 tights white")
    card.keep()
    gone = next(row for row in history.rows if row.number == 5)
    assert (gone.walk, gone.walk_words) == (None, "")
    assert gone.state.startswith("undone, then done otherwise")


def test_words_are_looked_for_everywhere(history: HistoryPresenter) -> None:
    assert [row.number for row in history.rows if row.holds(("tights", "visitor"))] == [4, 3]
    assert all(row.holds(("valdrune",)) for row in history.rows)


def test_it_is_there_after_a_restart(history: HistoryPresenter, desk: Desk) -> None:
    history.go_to(4)
    path, before = desk.review.path, history.rows
    desk.take_store(None)
    assert history.rows == ()
    desk.take_store(stores.open(path, "Somebody else"))
    assert history.rows == before


def test_nobody_looks_nothing_is_read(desk: Desk, walking: Walking) -> None:
    assert HistoryPresenter(desk, walking.by).rows == ()


def test_times_are_those_of_this_machine() -> None:
    moment = datetime(2026, 1, 14, 20, 15, 7, tzinfo=UTC)
    assert local_time("2026-01-14T20:15:07+00:00") == moment.astimezone().strftime("%Y-%m-%d %H:%M:%S")

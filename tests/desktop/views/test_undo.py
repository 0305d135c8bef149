"""The undo stack mirrors the store's history, after a restart too."""

from collections.abc import Callable, Iterator
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from filmreview.desktop.undo import Undo
from filmreview.errors import FilmReviewError
from filmreview.film.moment import Moment
from filmreview.review import store as stores
from filmreview.review.changes import AddFilm, AddTag, Change, EditTag
from filmreview.review.model import Game, Team
from filmreview.review.store import Store
from tests.desktop.desk_fixtures import AtOnce

pytestmark = pytest.mark.usefixtures("qapp")

GAME = Game(date(2025, 1, 14), None, "nfhs", None, Team("Thrunnockby"), Team("Ovvermire"))
START = Moment(0, Fraction(1, 1000))


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with stores.create(tmp_path / "game.filmreview", GAME, "tester") as made:
        made.apply(AddFilm(str(tmp_path / "a.mp4"), 10, Fraction(60), "00", START))
        yield made


@pytest.fixture
def faults() -> list[str]:
    return []


@pytest.fixture
def undo(store: Store, faults: list[str]) -> Undo:
    return mirror(store, faults)


def mirror(store: Store, faults: list[str]) -> Undo:
    made = Undo(AtOnce().in_turn, lambda _review: None, lambda error: faults.append(str(error)))
    made.take(store)
    return made


def pushed(undo: Undo, change: Change) -> tuple[str, ...] | str:
    """The ids touched, or why it was refused."""
    outcome: list[tuple[str, ...] | str] = []
    undo.push(change, outcome.append, lambda error: outcome.append(str(error)))
    (told,) = outcome
    return told


def walked(walk: Callable[[Callable[[str], None]], None]) -> list[str]:
    """What is told of an undo or redo."""
    told: list[str] = []
    walk(told.append)
    return told


def tag(player: str) -> AddTag:
    return AddTag("f1", START, "visitor", player, "arm sleeve")


def players(store: Store) -> list[str | None]:
    return [one.player for one in store.review.tags]


def test_push_undo_redo(undo: Undo, store: Store) -> None:
    assert pushed(undo, tag("14")) == ("t1",)
    pushed(undo, tag("22"))
    assert players(store) == ["14", "22"]
    walked(undo.back)
    assert players(store) == ["14"]
    walked(undo.back)
    assert players(store) == []
    walked(undo.again)
    walked(undo.again)
    assert players(store) == ["14", "22"]


def test_the_words_of_the_history_are_the_words_of_undo(undo: Undo, store: Store) -> None:
    pushed(undo, tag("14"))
    assert undo.stack.undoText() == store.next_undo
    assert "visitor 14" in undo.stack.undoText()


def test_a_change_that_cannot_be_leaves_no_step(undo: Undo, store: Store) -> None:
    pushed(undo, tag("14"))
    assert "hat" in pushed(undo, AddTag("f1", START, "visitor", "14", "hat"))
    assert undo.stack.count() == 2  # the film and the one tag
    walked(undo.back)
    assert players(store) == []


def test_a_change_that_changes_nothing_leaves_no_step(undo: Undo, store: Store) -> None:
    pushed(undo, tag("14"))
    assert pushed(undo, EditTag(store.review.tags[0])) == ()
    assert undo.stack.count() == 2


def test_a_refused_change_does_not_take_redo_away(undo: Undo, store: Store) -> None:
    pushed(undo, tag("14"))
    walked(undo.back)
    assert "hat" in pushed(undo, AddTag("f1", START, "visitor", "14", "hat"))
    assert undo.stack.canRedo()
    walked(undo.again)
    assert players(store) == ["14"]


def test_after_a_restart_what_was_done_can_be_undone_and_redone(undo: Undo, store: Store, faults: list[str]) -> None:
    pushed(undo, tag("14"))
    pushed(undo, tag("22"))
    walked(undo.back)
    store.close()
    with stores.open(store.path, "tester") as again:
        later = mirror(again, faults)
        assert players(again) == ["14"]
        assert (later.stack.canUndo(), later.stack.canRedo()) == (True, True)
        walked(later.again)
        assert players(again) == ["14", "22"]
        walked(later.back)
        walked(later.back)
        assert players(again) == []
    assert faults == []


def test_a_fault_while_undoing_is_told_and_the_step_stays(undo: Undo, store: Store, faults: list[str]) -> None:
    pushed(undo, tag("14"))
    store.close()
    assert walked(undo.back) == []
    assert len(faults) == 1
    assert undo.stack.count() == 2


def test_what_was_undone_and_redone_is_said(undo: Undo, store: Store, faults: list[str]) -> None:
    pushed(undo, tag("14"))
    words = store.history()[-1].words
    assert (walked(undo.back), walked(undo.again), walked(undo.back)) == ([words], [words], [words])
    store.close()
    assert walked(undo.again) == []
    assert "closed" in faults[0]


def test_a_long_history_is_mirrored_with_one_word_to_the_screen(store: Store, faults: list[str]) -> None:
    for number in range(20):
        store.apply(tag(str(number)))
    store.undo()
    made = Undo(AtOnce().in_turn, lambda _review: None, lambda error: faults.append(str(error)))
    told: list[int] = []
    made.stack.indexChanged.connect(told.append)
    made.take(store)
    assert told == [20]  # the film and 19 tags
    assert (made.stack.count(), made.stack.undoText(), made.stack.redoText()) == (21, store.next_undo, store.next_redo)


def test_several_steps_at_once_stay_steps_of_their_own(undo: Undo, store: Store) -> None:
    for player in ("14", "22", "33"):
        pushed(undo, tag(player))
    told: list[int] = []
    undo.by(-2, told.append)
    assert (players(store), told) == (["14"], [2])
    assert undo.stack.canRedo()
    walked(undo.again)
    assert players(store) == ["14", "22"]
    undo.by(5, told.append)  # no more than there are
    assert (players(store), told) == (["14", "22", "33"], [2, 1])
    assert not undo.stack.canRedo()
    walked(undo.back)
    assert players(store) == ["14", "22"]


def test_a_fault_on_the_way_back_is_told_and_what_was_walked_stays(
    undo: Undo, store: Store, faults: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    for player in ("14", "22", "33"):
        pushed(undo, tag(player))
    back, asked = store.undo, []

    def once() -> object:
        asked.append(None)
        if len(asked) > 1:
            raise FilmReviewError("the disk is full")
        return back()

    monkeypatch.setattr(store, "undo", once)
    told: list[int] = []
    undo.by(-3, told.append)
    assert (players(store), told, faults) == (["14", "22"], [1], ["the disk is full"])
    monkeypatch.undo()
    walked(undo.again)
    assert players(store) == ["14", "22", "33"]

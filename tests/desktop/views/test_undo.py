"""The undo stack mirrors the store's history, after a restart too."""

from collections.abc import Iterator
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from filmreview.desktop.undo import Undo
from filmreview.errors import FilmReviewError
from filmreview.film.moment import Moment
from filmreview.review import store as stores
from filmreview.review.changes import AddFilm, AddTag, EditTag
from filmreview.review.model import Game, Team
from filmreview.review.store import Store

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
    made = Undo(lambda error: faults.append(str(error)))
    made.take(store)
    return made


def tag(player: str) -> AddTag:
    return AddTag("f1", START, "visitor", player, "arm sleeve")


def players(store: Store) -> list[str | None]:
    return [one.player for one in store.review.tags]


def test_push_undo_redo(undo: Undo, store: Store) -> None:
    assert undo.push(tag("14")) == ("t1",)
    undo.push(tag("22"))
    assert players(store) == ["14", "22"]
    undo.stack.undo()
    assert players(store) == ["14"]
    undo.stack.undo()
    assert players(store) == []
    undo.stack.redo()
    undo.stack.redo()
    assert players(store) == ["14", "22"]


def test_the_words_of_the_history_are_the_words_of_undo(undo: Undo, store: Store) -> None:
    undo.push(tag("14"))
    assert undo.stack.undoText() == store.next_undo
    assert "visitor 14" in undo.stack.undoText()


def test_a_change_that_cannot_be_leaves_no_step(undo: Undo, store: Store) -> None:
    undo.push(tag("14"))
    with pytest.raises(FilmReviewError, match="hat"):
        undo.push(AddTag("f1", START, "visitor", "14", "hat"))
    assert undo.stack.count() == 2  # the film and the one tag
    undo.stack.undo()
    assert players(store) == []


def test_a_change_that_changes_nothing_leaves_no_step(undo: Undo, store: Store) -> None:
    undo.push(tag("14"))
    assert undo.push(EditTag(store.review.tags[0])) == ()
    assert undo.stack.count() == 2


def test_a_refused_change_does_not_take_redo_away(undo: Undo, store: Store) -> None:
    undo.push(tag("14"))
    undo.stack.undo()
    with pytest.raises(FilmReviewError):
        undo.push(AddTag("f1", START, "visitor", "14", "hat"))
    assert undo.stack.canRedo()
    undo.stack.redo()
    assert players(store) == ["14"]


def test_after_a_restart_what_was_done_can_be_undone_and_redone(undo: Undo, store: Store) -> None:
    undo.push(tag("14"))
    undo.push(tag("22"))
    undo.stack.undo()
    store.close()
    with stores.open(store.path, "tester") as again:
        later = Undo(lambda error: pytest.fail(str(error)))
        later.take(again)
        assert players(again) == ["14"]
        later.stack.redo()
        assert players(again) == ["14", "22"]
        later.stack.undo()
        later.stack.undo()
        assert players(again) == []


def test_a_fault_while_undoing_is_told_and_the_command_goes(undo: Undo, store: Store, faults: list[str]) -> None:
    undo.push(tag("14"))
    store.close()
    undo.stack.undo()
    assert len(faults) == 1
    assert undo.stack.count() == 1


def test_what_was_undone_and_redone_is_said(undo: Undo, store: Store, faults: list[str]) -> None:
    undo.push(tag("14"))
    words = store.history()[-1].words
    assert (undo.back(), undo.again(), undo.back()) == (words, words, words)
    store.close()
    assert undo.again() == ""
    assert "closed" in faults[0]

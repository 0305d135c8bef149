"""Stoppages without a screen."""

from fractions import Fraction

import pytest

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.stoppage_presenter import NOT_TOLD, Place, StoppagePresenter
from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.review.changes import AddFilm
from filmreview.review.stretch_changes import AddStoppage


@pytest.fixture
def stoppages(desk: Desk) -> StoppagePresenter:
    return StoppagePresenter(desk)


def at(film: Film, seconds: str) -> Place:
    return "f1", film.moment_at(Fraction(seconds))


def put(stoppages: StoppagePresenter, film: Film, *pairs: tuple[str, str]) -> None:
    for start, end in pairs:
        stoppages.mark(at(film, start))
        stoppages.mark(at(film, end))


def test_one_key_begins_and_the_same_key_ends(stoppages: StoppagePresenter, desk: Desk, film: Film) -> None:
    stoppages.mark(at(film, "0.5"))
    assert desk.review.stoppages == ()
    assert "F5 again ends it" in desk.last_message
    stoppages.mark(at(film, "1.5"))
    (one,) = desk.review.stoppages
    assert (one.film, one.start, one.end, one.kind, one.origin) == ("f1", at(film, "0.5")[1], at(film, "1.5")[1], "", "by hand")
    assert stoppages.begun is None
    assert stoppages.last == one.id


def test_ended_before_it_began_it_is_turned_and_without_length_it_waits(
    stoppages: StoppagePresenter, desk: Desk, film: Film
) -> None:
    stoppages.mark(at(film, "1.5"))
    stoppages.mark(at(film, "1.5"))
    assert desk.review.stoppages == ()
    assert stoppages.begun is not None
    stoppages.mark(at(film, "0.5"))
    (one,) = desk.review.stoppages
    assert (one.start, one.end) == (at(film, "0.5")[1], at(film, "1.5")[1])


def test_one_whose_end_the_disk_refuses_stays_begun(
    stoppages: StoppagePresenter, desk: Desk, film: Film, monkeypatch: pytest.MonkeyPatch
) -> None:
    refusals = []
    stoppages.mark(at(film, "0.5"))
    with monkeypatch.context() as slow_disk:
        slow_disk.setattr(desk, "_push", lambda _change, _then, failed: refusals.append(failed))
        stoppages.mark(at(film, "1.5"))
    assert stoppages.begun is None
    (refuse,) = refusals
    refuse(FilmReviewError("the disk is full"))
    assert stoppages.begun == at(film, "0.5")
    assert desk.last_message == "the disk is full"
    stoppages.mark(at(film, "1.5"))
    assert [one.start for one in desk.review.stoppages] == [at(film, "0.5")[1]]


def test_words_tell_the_key_the_person_gave(stoppages: StoppagePresenter, desk: Desk, film: Film) -> None:
    desk.key = {"stoppage": "Ctrl+B", "stoppage_kind": "Ctrl+K"}.__getitem__
    assert stoppages.summary().startswith("No stoppage yet: Ctrl+B on the film begins one")
    stoppages.mark(at(film, "0.5"))
    assert "Ctrl+B again ends it" in desk.last_message
    stoppages.mark(at(film, "1.5"))
    assert desk.last_message.endswith("Ctrl+K says its kind")


def test_one_begun_can_be_dropped(stoppages: StoppagePresenter, desk: Desk, film: Film) -> None:
    stoppages.mark(at(film, "0.5"))
    stoppages.drop()
    stoppages.mark(at(film, "1.5"))
    assert desk.review.stoppages == ()


def test_kind_note_and_edges_are_changed_and_undone(stoppages: StoppagePresenter, desk: Desk, film: Film) -> None:
    put(stoppages, film, ("0.5", "1.0"), ("1.5", "2.0"))
    steps = len(desk.store.history())
    assert stoppages.set_kind(("s1", "s2"), "time-out")
    assert [row.kind for row in stoppages.rows()] == ["time-out", "time-out"]
    assert len(desk.store.history()) == steps + 1
    assert stoppages.set_kind(("s2",), NOT_TOLD)
    assert desk.review.stoppage("s2").kind == ""
    assert stoppages.set_note("s1", "both coaches asked")
    assert stoppages.set_edge("s1", at(film, "0.2"), end=False)
    assert stoppages.set_edge("s1", at(film, "1.2"), end=True)
    assert stoppages.place("s1") == at(film, "0.2")
    assert stoppages.place("s1", end=True) == at(film, "1.2")
    assert stoppages.rows()[0].words == "time-out, both coaches asked"
    for _ in range(5):
        desk.store.undo()
    assert [row.words for row in stoppages.rows()] == ["stoppage", "stoppage"]


def test_an_edge_that_cannot_be_is_told(stoppages: StoppagePresenter, desk: Desk, film: Film) -> None:
    put(stoppages, film, ("0.5", "1.0"))
    assert not stoppages.set_edge("s1", at(film, "2.0"), end=False)
    assert stoppages.place("s1") == at(film, "0.5")
    assert desk.last_message
    assert not stoppages.set_edge("s1", ("f2", at(film, "0.2")[1]), end=False)
    assert "another film" in desk.last_message


def test_several_are_removed_as_one_change(stoppages: StoppagePresenter, desk: Desk, film: Film) -> None:
    put(stoppages, film, ("0.5", "1.0"), ("1.5", "2.0"))
    assert stoppages.remove(("s1", "s2"))
    assert desk.review.stoppages == ()
    assert desk.last_message == "2 stoppages removed; undo brings them back"
    desk.store.undo()
    assert len(desk.review.stoppages) == 2
    assert stoppages.remove(("s1",))
    assert desk.last_message == "1 stoppage removed; undo brings it back"


def test_proposed_ones_wait_to_be_looked_over(stoppages: StoppagePresenter, desk: Desk, film: Film) -> None:
    (_f1, start), (_f1, end) = at(film, "0.5"), at(film, "1.0")
    for number in range(2):
        desk.store.apply(AddStoppage("f1", start, end, "free throws", f"{number}", "proposed"))
    assert stoppages.rows()[0].words == "free throws, proposed, 0"
    assert stoppages.summary() == "2 stoppages, 1.0 s; 2 proposed, to be looked over"
    assert stoppages.accept(("s1",))
    assert stoppages.set_kind(("s2",), "substitution")  # changed by a person: his own from now on
    assert [one.origin for one in desk.review.stoppages] == ["by hand", "by hand"]


def test_next_and_previous_go_through_the_films_of_the_game(stoppages: StoppagePresenter, desk: Desk, film: Film) -> None:
    put(stoppages, film, ("1.5", "2.0"), ("0.5", "1.0"))
    second = desk.store.apply(AddFilm("/films/q3.mp4", 9, Fraction(60), "cd34", film.moment_at(Fraction(0))))[0]
    desk.store.apply(AddStoppage(second, film.moment_at(Fraction(1)), film.moment_at(Fraction(2)), "time-out"))
    assert [row.stoppage for row in stoppages.rows()] == ["s2", "s1", "s3"]
    assert stoppages.rows()[2].film_words == second
    assert stoppages.following(at(film, "0")).stoppage == "s2"
    assert stoppages.following(at(film, "0.5")).stoppage == "s1"
    assert stoppages.following(at(film, "1.7")).stoppage == "s3"
    assert stoppages.following((second, film.moment_at(Fraction(2)))) is None
    assert stoppages.preceding(at(film, "1.5")).stoppage == "s2"
    assert stoppages.preceding(at(film, "0.5")) is None
    assert stoppages.preceding((second, film.moment_at(Fraction(0)))).stoppage == "s1"
    assert stoppages.at(at(film, "1.7")).stoppage == "s1"
    assert stoppages.at(at(film, "2.0")) is None  # the end is not included

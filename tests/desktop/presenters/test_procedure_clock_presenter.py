"""The procedure clock without a screen."""

from fractions import Fraction

import pytest

from filmreview.cautions import SAFETY, STUDY_AID
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.procedure_clock_presenter import Place, ProcedureClockPresenter, seconds_words
from filmreview.film.film import Film


@pytest.fixture
def clock(desk: Desk) -> ProcedureClockPresenter:
    return ProcedureClockPresenter(desk)


def at(film: Film, seconds: str) -> Place:
    return "f1", film.moment_at(Fraction(seconds))


def test_one_word_notes_an_event_and_asks_whose(clock: ProcedureClockPresenter, desk: Desk, film: Film) -> None:
    clock.note("blood seen", at(film, "1.0"))
    (event,) = desk.review.events
    assert (event.what, event.team, event.player, event.film) == ("blood seen", None, None, "f1")
    assert desk.seconds_of("f1", event.moment) == film.time_of(film.moment_at(Fraction(1)))
    assert clock.last == event.id
    assert desk.last_message.startswith("put down: blood seen")
    assert "which player" in desk.last_message
    assert clock.rows()[0].who == "which player?"


def test_without_a_film_nothing_is_noted(clock: ProcedureClockPresenter, desk: Desk) -> None:
    clock.note("injury", None)
    assert desk.review.events == ()
    assert "no film" in desk.last_message


def test_seconds_between_and_since_play_was_stopped(clock: ProcedureClockPresenter, film: Film) -> None:
    for what, seconds in (("play resumes", "2.5"), ("play stopped", "0.5"), ("coach told", "1.5"), ("play stopped", "2.9")):
        clock.note(what, at(film, seconds))
    rows = clock.rows()
    assert [row.what for row in rows] == ["play stopped", "coach told", "play resumes", "play stopped"]
    assert rows[0].since is None
    assert [row.since for row in rows[1:]] == [rows[n + 1].at - rows[n].at for n in range(3)]
    assert [row.dead for row in rows] == [0, rows[1].at - rows[0].at, rows[2].at - rows[0].at, 0]
    assert clock.between([row.event for row in rows[:3]]) == f"play stopped to play resumes: {seconds_words(rows[2].dead)}"
    assert clock.between([rows[0].event]) == ""


def test_a_new_event_in_words(clock: ProcedureClockPresenter, desk: Desk, film: Film) -> None:
    place = at(film, "1.2")
    clock.begin(place)
    assert clock.line_head() == f"New event at {desk.review.time_text(*place)}"
    assert clock.keep("coach told home")
    (event,) = desk.review.events
    assert (event.what, event.team, event.moment) == ("coach told", "home", place[1])
    assert clock.begun is None
    assert clock.line_head() == ""


def test_a_line_that_is_not_understood_is_not_kept(clock: ProcedureClockPresenter, desk: Desk, film: Film) -> None:
    clock.begin(at(film, "1.2"))
    assert not clock.keep("polka v14")
    assert "not kept yet" in desk.last_message
    assert desk.review.events == ()
    assert clock.begun is not None
    clock.drop()
    assert not clock.keep("injury v14")
    assert desk.review.events == ()


def test_an_event_is_changed_moved_removed_and_all_of_it_undone(clock: ProcedureClockPresenter, desk: Desk, film: Film) -> None:
    clock.note("injury", at(film, "1.0"))
    clock.note("returns", at(film, "2.0"))
    clock.change("e1")
    assert clock.line() == "injury"
    assert clock.keep('concussion signs v14 "holds the head"')
    assert (desk.review.event("e1").player, desk.review.event("e1").note) == ("14", "holds the head")
    assert desk.last_message.startswith("changed: concussion signs")
    clock.change("e1")
    assert clock.line() == 'concussion signs v14 "holds the head"'
    clock.drop()
    assert clock.move("e1", at(film, "0.5"))
    assert clock.place("e1") == at(film, "0.5")
    steps = len(desk.store.history())
    assert clock.remove(("e1", "e2"))
    assert desk.review.events == ()
    assert len(desk.store.history()) == steps + 1
    for _ in range(3):
        desk.store.undo()
    assert [event.what for event in desk.review.events] == ["injury", "returns"]
    assert clock.place("e1") == at(film, "1.0")


def test_an_event_that_goes_takes_the_line_with_it(clock: ProcedureClockPresenter, film: Film) -> None:
    clock.note("injury", at(film, "1.0"))
    clock.change("e1")
    clock.remove(("e1",))
    assert clock.changing is None


def test_a_departure_stands_beside_its_event_with_the_rule(clock: ProcedureClockPresenter, desk: Desk, film: Film) -> None:
    """A player with blood goes on playing: NFHS 3-3-7, as the books here have it, asks that he be directed to leave."""
    for line, seconds in (("blood seen v14", "0.5"), ("play stopped", "0.7"), ("play resumes", "2.0")):
        clock.begin(at(film, seconds))
        assert clock.keep(line), desk.last_message
    (departure,) = clock.departures()
    assert "14" in departure.words
    assert "The book asks:" in departure.words
    assert "(rule 3-3-7" in departure.words
    assert departure.place[0] == "f1"
    assert [row.what for row in clock.rows() if row.against] == [
        row.what for row in clock.rows() if clock.place(row.event) == departure.place
    ]
    assert clock.summary()[0] == "Blood on a player or the uniform: 1 departure"


def test_blood_and_head_injury_bring_the_safety_words(clock: ProcedureClockPresenter, film: Film) -> None:
    assert clock.caution() == STUDY_AID
    clock.note("coach told", at(film, "0.5"))
    assert clock.caution() == STUDY_AID
    clock.note("concussion signs", at(film, "1.0"))
    assert clock.caution() == SAFETY


def test_nothing_noted_tells_how(clock: ProcedureClockPresenter, film: Film) -> None:
    assert clock.summary()[0] == (
        "No event is put down yet. The keys at the right put one down while the film runs; F4 asks for it in words."
    )
    clock.note("free throw", at(film, "0.5"))
    assert clock.summary() == ("The events so far call for no procedure of the book.",)


def test_what_cannot_be_told_is_said_in_words(clock: ProcedureClockPresenter, desk: Desk, film: Film) -> None:
    events = (("blood seen v14", "0.5"), ("play stopped", "0.7"), ("directed to leave v14", "0.9"))
    for line, seconds in (*events, ("time-out granted v", "1.2"), ("play resumes", "2.0")):
        clock.begin(at(film, seconds))
        assert clock.keep(line), desk.last_message
    said = [one for one in clock.summary() if one.startswith("not known: ")]
    assert "not known: how long the time-out was to be: 60 or 30 (length of the time-out)" in said


def test_the_clock_runs_from_the_last_event_before_now(clock: ProcedureClockPresenter, film: Film) -> None:
    assert clock.running("f1", Fraction(1)) == ""
    clock.note("play stopped", at(film, "0.5"))
    clock.note("coach told", at(film, "1.5"))
    stopped, told = (row.seconds for row in clock.rows())
    assert clock.running("f1", Fraction(0)) == ""
    assert clock.running("f1", Fraction(1)) == f"{float(1 - stopped):.1f} s since play stopped"
    assert clock.running("f1", Fraction(3)) == f"{float(3 - told):.1f} s since coach told"
    assert clock.running("f2", Fraction(3)) == ""

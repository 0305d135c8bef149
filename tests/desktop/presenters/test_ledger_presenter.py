"""The ledger without a screen."""

from dataclasses import replace
from fractions import Fraction

import pytest

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.ledger_presenter import NOT_MARKED, WHOLE_CREW, LedgerPresenter, words_of
from filmreview.film.film import Film
from filmreview.review.changes import AddEvent, AddFilm, AddTag, EditGame
from filmreview.review.stretch_changes import NameFilm


@pytest.fixture
def ledger(desk: Desk, film: Film) -> LedgerPresenter:
    """Three tags, kept out of the order of their times."""
    card = CardPresenter(desk)
    for number, line in ((40, "v14 arm sleeve orange crew late"), (10, "h3 headband black"), (20, 'v? tights "blurred"')):
        card.open_new(film.frame(number))
        card.type(line)
        assert card.keep(), desk.last_message
    return LedgerPresenter(desk)


def test_rows_stand_in_the_order_of_time(ledger: LedgerPresenter) -> None:
    rows = ledger.rows()
    assert [row.tag for row in rows] == ["t2", "t3", "t1"]
    assert [row.who for row in rows] == ["Thrunnockby 3", "Ovvermire, number not read", "Ovvermire 14"]
    assert [row.crew for row in rows] == [NOT_MARKED, NOT_MARKED, "late"]
    assert [row.ruling for row in rows] == ["legal", "cannot be told", "illegal"]
    assert rows[1].note == "blurred"


def test_the_summary_counts(ledger: LedgerPresenter) -> None:
    assert ledger.summary() == "3 findings, 1 illegal, 1 legal, 1 cannot be told"


@pytest.mark.parametrize(
    ("typed", "tags"),
    [("", ["t2", "t3", "t1"]), ("ovver", ["t3", "t1"]), ("LATE sleeve", ["t1"]), ("blurred", ["t3"]), ("polka", [])],
)
def test_the_filter_wants_every_word(ledger: LedgerPresenter, typed: str, tags: list[str]) -> None:
    assert [row.tag for row in ledger.rows() if row.holds(words_of(typed))] == tags


def test_crew_and_note_are_edited_in_place(ledger: LedgerPresenter, desk: Desk) -> None:
    assert ledger.set_crew(("t2",), "not seen")
    assert ledger.set_note("t2", "near the bench")
    tag = desk.review.tag("t2")
    assert (tag.crew.mark, tag.note) == ("not seen", "near the bench")
    assert ledger.set_crew(("t2",), NOT_MARKED)
    assert desk.review.tag("t2").crew is None


def test_a_mark_that_does_not_exist_is_told(ledger: LedgerPresenter, desk: Desk) -> None:
    assert not ledger.set_crew(("t2",), "lat")
    assert '"late"' in desk.last_message


def test_what_the_crew_did_stays_when_the_mark_changes(ledger: LedgerPresenter, desk: Desk) -> None:
    card = CardPresenter(desk)
    card.open_tag("t1")
    card.set_crew("late", "told the coach in the third period")
    card.keep()
    ledger.set_crew(("t1",), "wrong procedure")
    assert desk.review.tag("t1").crew.did == "told the coach in the third period"


def test_several_are_removed_as_one_change(ledger: LedgerPresenter, desk: Desk) -> None:
    steps = len(desk.store.history())
    assert ledger.remove(("t1", "t3"))
    assert [row.tag for row in ledger.rows()] == ["t2"]
    assert len(desk.store.history()) == steps + 1
    desk.store.undo()
    assert len(ledger.rows()) == 3


def test_several_get_a_mark_as_one_change(ledger: LedgerPresenter, desk: Desk) -> None:
    assert ledger.set_crew(("t1", "t2", "t3"), "not seen")
    assert {tag.crew.mark for tag in desk.review.tags} == {"not seen"}
    desk.store.undo()
    assert [tag.crew.mark if tag.crew else None for tag in desk.review.tags] == ["late", None, None]


def test_a_penalty_is_in_the_summary(desk: Desk, film: Film) -> None:
    card = CardPresenter(desk)
    card.open_new(film.frame(5))
    card.type("h3 jersey green in play")
    assert card.ruling.consequence == "technical foul"
    card.keep()
    assert "1 technical foul to home" in LedgerPresenter(desk).summary()


def test_rows_that_stay_the_same_are_not_made_anew(ledger: LedgerPresenter, desk: Desk) -> None:
    before = {row.tag: row for row in ledger.rows()}
    ledger.set_note("t2", "near the bench")
    after = {row.tag: row for row in ledger.rows()}
    assert [tag for tag in before if after[tag] is not before[tag]] == ["t2"]
    desk.try_change(EditGame(replace(desk.review.game, home=replace(desk.review.game.home, name="Varrowick"))))
    assert {row.who for row in ledger.rows()} == {"Varrowick 3", "Ovvermire, number not read", "Ovvermire 14"}


def test_with_a_second_film_the_times_say_which_and_films_keep_their_order(
    desk: Desk, film: Film, ledger: LedgerPresenter
) -> None:
    assert ledger.rows()[0].time == "0:00.334"
    second = desk.store.apply(AddFilm("/films/q3.mp4", 9, Fraction(60), "cd34", film.moment_of(0)))[0]
    desk.store.apply(NameFilm(second, "second half"))
    desk.store.apply(AddTag(second, film.moment_of(0), "home", "3", "tights"))
    assert ledger.films == 2
    assert [row.time for row in ledger.rows()] == ["f1 0:00.334", "f1 0:00.667", "f1 0:01.335", "second half 0:00.000"]


def test_whose_findings_they_are_is_set_as_one_change(ledger: LedgerPresenter, desk: Desk) -> None:
    assert ledger.officials == (WHOLE_CREW, "referee")
    steps = len(desk.store.history())
    assert ledger.set_official(("t1", "t3"), "referee")
    assert [row.official for row in ledger.rows()] == [WHOLE_CREW, "referee", "referee"]
    assert [row.tag for row in ledger.rows() if row.holds(("referee",))] == ["t3", "t1"]
    assert len(desk.store.history()) == steps + 1
    assert ledger.set_official(("t1",), WHOLE_CREW)
    assert [one.tag for one in desk.review.officials] == ["t3"]
    assert not ledger.set_official(("t1",), "timer")
    assert "timer" in desk.last_message


def test_a_penalty_of_events_alone_is_in_the_summary(desk: Desk, film: Film) -> None:
    """A jersey removed within sight of the playing area: one technical foul (NFHS 10-3-6h, as the procedures here have it)."""
    desk.store.apply(AddEvent("f1", film.moment_of(5), "jersey removed", "home", "3"))
    assert LedgerPresenter(desk).summary() == "0 findings; 1 technical foul to home"


def test_a_hidden_ruling_is_not_told(ledger: LedgerPresenter, desk: Desk) -> None:
    desk.store.apply(EditGame(replace(desk.review.game, rulings_hidden=True)))
    assert {row.ruling_words for row in ledger.rows()} == {"hidden"}
    assert not any(row.holds(("illegal",)) for row in ledger.rows())


def test_what_was_done_to_rows_is_said(ledger: LedgerPresenter, desk: Desk) -> None:
    tags = [tag.id for tag in desk.review.tags]
    assert len(tags) > 1
    for chosen, crew, official in (
        (tags[:1], "crew mark: late", "whose finding it is: referee"),
        (tags, f"crew mark of {len(tags)} findings: late", f"whose {len(tags)} findings these are: referee"),
    ):
        assert ledger.set_crew(chosen, "late")
        assert desk.last_message == crew
        assert ledger.set_official(chosen, "referee")
        assert desk.last_message == official
    assert ledger.remove(tags[:1])
    assert desk.last_message == "1 tag removed; undo brings it back"
    assert ledger.remove(tags[1:])
    assert desk.last_message == f"{len(tags) - 1} tags removed; undo brings them back"
    assert desk.store.next_undo == f"remove {len(tags) - 1} tags"

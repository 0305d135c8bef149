"""Own calls without a screen, and that nothing leaks a ruling before."""

import pytest

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.ledger_presenter import LedgerPresenter
from filmreview.desktop.own_call_presenter import OwnCallPresenter
from filmreview.film.film import Film
from filmreview.film.moment import Moment
from filmreview.review.changes import AddTag
from filmreview.review.line import parse_line
from filmreview.review.own_calls import AGREED, CONSEQUENCE, DIFFERED
from filmreview.review.wear import wear_boards


def keep(desk: Desk, moment: Moment, line: str) -> str:
    said = parse_line(line)
    ids: list[str] = []
    desk.try_change(
        AddTag(desk.film_id or "", moment, said.team or "", str(said.player), said.item or "", None, said.facts),
        ids.extend,
    )
    return ids[0]


@pytest.fixture
def own(desk: Desk) -> OwnCallPresenter:
    return OwnCallPresenter(desk)


@pytest.fixture
def hidden(desk: Desk, own: OwnCallPresenter, film: Film) -> OwnCallPresenter:
    """Three tags, one illegal, one legal, one more illegal; rulings hidden."""
    for second, line in ((1, "v14 arm sleeve orange"), (2, "h3 headband black"), (0, "v22 arm sleeve orange")):
        keep(desk, film.moment_at(second), line)
    own.set_hidden(True)
    return own


def test_a_review_has_to_do_with_own_calls_once_they_are_wanted(desk: Desk, own: OwnCallPresenter, film: Film) -> None:
    keep(desk, film.moment_at(1), "v14 arm sleeve orange")
    assert not own.wanted
    own.set_hidden(True)
    assert own.wanted
    assert desk.last_message == "rulings are hidden until your own call: 1 to give under Own calls"
    own.give("t1", "illegal")
    own.set_hidden(False)
    assert own.wanted
    assert desk.last_message == "rulings are shown again"


def test_the_list_is_in_the_order_of_time_and_says_what_waits(hidden: OwnCallPresenter) -> None:
    assert [(row.tag, row.call, row.book, row.book_words, row.outcome) for row in hidden.rows()] == [
        ("t3", "", "", "hidden until your own call", ""),
        ("t1", "", "", "hidden until your own call", ""),
        ("t2", "", "", "hidden until your own call", ""),
    ]
    assert hidden.summary() == "3 tags without your call"
    assert [hidden.next_waiting(tag) for tag in ("", "t3", "t2")] == ["t3", "t1", "t3"]


def test_after_the_call_both_are_seen(desk: Desk, hidden: OwnCallPresenter) -> None:
    assert hidden.give("t1", "illegal", "fix or leave", "  orange, the jersey is green ")
    assert desk.last_message == "your call is kept: illegal"
    row = hidden.rows()[1]
    assert (row.call, row.book, row.book_words, row.outcome) == (
        "illegal, fix or leave", "illegal", "illegal, fix or leave", AGREED
    )  # fmt: skip
    assert hidden.book_words("t1").startswith("The book: illegal. Fix or leave")
    assert hidden.book_words("t2") == "The book's ruling is hidden until your own call."
    call = hidden.call_on("t1")
    assert call is not None
    assert call.words == "orange, the jersey is green"
    hidden.give("t2", "illegal")
    hidden.give("t3", "illegal", "technical foul")
    assert [row.outcome for row in hidden.rows()] == [CONSEQUENCE, AGREED, DIFFERED]
    assert hidden.summary() == "every tag has your call; 1 of 3 agreed, 1 consequence differed, 1 differed"


def test_taking_a_call_back_hides_again(desk: Desk, hidden: OwnCallPresenter) -> None:
    hidden.give("t1", "legal")
    assert desk.findings is not None
    assert [one.tag.id for one in desk.findings] == ["t1"]
    hidden.take_back("t1")
    assert desk.findings is not None
    assert len(desk.findings) == 0
    assert hidden.call_on("t1") is None


def test_a_call_that_cannot_be_is_told(desk: Desk, hidden: OwnCallPresenter) -> None:
    assert not hidden.give("t1", "allowed")
    assert desk.last_message.startswith('t1: unknown ruling "allowed"')


def test_no_view_is_given_a_ruling_before_the_call(desk: Desk, hidden: OwnCallPresenter, film: Film) -> None:
    """Film strip and picture take the ledger's rows; the wear board takes the desk's findings; the card asks the desk."""
    ledger, card = LedgerPresenter(desk), CardPresenter(desk)
    assert [(row.ruling, row.consequence, row.reference, row.ahead) for row in ledger.rows()] == [("", "", "", False)] * 3
    assert "illegal" not in ledger.summary()
    assert "technical" not in ledger.summary()
    assert not any(row.holds(("illegal",)) for row in ledger.rows())
    assert desk.findings is not None
    assert all((board.cells, board.choices) == ({}, ()) for board in wear_boards(desk.findings))

    card.open_tag("t1", film.frame_at(film.moment_at(1)))
    assert card.ruling is None
    assert card.not_ruled.startswith("the ruling is hidden until your own call")
    card.type("v14 arm sleeve black")
    assert card.ruling is None
    card.drop()
    card.open_new(film.frame_at(film.moment_at(1)))
    card.type("h10 number 6")
    assert card.ruling is None
    card.drop()

    hidden.give("t1", "illegal")
    card.open_tag("t1", film.frame_at(film.moment_at(1)))
    assert card.ruling is not None
    assert [row.ruling for row in ledger.rows() if row.tag == "t1"] == ["illegal"]
    assert "illegal" not in "".join(row.ruling for row in ledger.rows() if row.tag != "t1")


def test_no_step_of_the_history_tells_a_ruling(desk: Desk, hidden: OwnCallPresenter) -> None:
    hidden.give("t1", "cannot be told")
    assert desk.store is not None
    words = " ".join(step.words for step in desk.store.history())
    assert "illegal" not in words
    assert "own call on t1: cannot be told" in words

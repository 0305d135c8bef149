"""An official who reviews himself: what is hidden, what is shown, and how his calls compare."""

from dataclasses import replace

import pytest

from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Fact
from filmreview.facts.keys import parse_value
from filmreview.review.changes import AddTag, EditGame
from filmreview.review.lesson_changes import RemoveOwnCall, SetOwnCall
from filmreview.review.own_calls import (
    AGREED,
    CONSEQUENCE,
    DIFFERED,
    NO_RULE,
    OPEN,
    Tally,
    all_shown,
    check_all_shown,
    score,
    shown,
    veiled,
    waiting,
)
from filmreview.review.ruled import findings
from filmreview.review.store import Store
from tests.review.small_game import a_tag


def fact(key: str, text: str) -> Fact:
    return Fact(key, parse_value(key, text))


def illegal_number(number: str) -> AddTag:
    """A number with a digit above 5 is illegal and costs one technical foul a team (NFHS 3-4-3d and 10-5-4, 2023-24)."""
    return a_tag(team="home", player=number, item="number", facts=(fact("number", number), fact("in_play", "yes")))


@pytest.fixture
def hidden(kept: Store) -> Store:
    """Two illegal numbers and a legal band, rulings hidden."""
    for change in (illegal_number("6"), illegal_number("7"), a_tag(item="headband", facts=(fact("colour", "green"),))):
        kept.apply(change)
    kept.apply(EditGame(replace(kept.review.game, rulings_hidden=True)))
    return kept


def test_nothing_is_hidden_unless_wanted(kept: Store) -> None:
    kept.apply(illegal_number("6"))
    found = findings(kept.review)
    assert shown(kept.review, "t1")
    assert veiled(found) is found
    check_all_shown(kept.review)


def test_a_ruling_shows_only_after_the_own_call(hidden: Store) -> None:
    assert [tag.id for tag in waiting(hidden.review)] == ["t1", "t2", "t3"]
    assert len(veiled(findings(hidden.review))) == 0
    assert not shown(hidden.review, "new")
    hidden.apply(SetOwnCall("t2", "illegal", "technical foul"))
    assert [shown(hidden.review, one) for one in ("t1", "t2", "t3")] == [False, True, False]
    seen = veiled(findings(hidden.review))
    assert [one.tag.id for one in seen] == ["t2"]
    assert [one.id for one in seen.rulings.rulings] == ["t2"]


def test_what_looks_at_all_tags_waits_for_all_calls(hidden: Store) -> None:
    assert findings(hidden.review).rulings.penalties
    for tag in ("t1", "t2"):
        hidden.apply(SetOwnCall(tag, "illegal"))
        seen = veiled(findings(hidden.review))
        assert (seen.rulings.penalties, seen.rulings.choices, seen.procedure, seen.disputed) == ((), (), None, ())
    assert not all_shown(hidden.review)
    hidden.apply(SetOwnCall("t3", "legal"))
    assert all_shown(hidden.review)
    assert veiled(findings(hidden.review)).rulings.penalties


def test_taking_a_call_back_hides_again_and_so_does_undo(hidden: Store) -> None:
    hidden.apply(SetOwnCall("t1", "legal"))
    hidden.apply(RemoveOwnCall("t1"))
    assert not shown(hidden.review, "t1")
    hidden.undo()
    assert shown(hidden.review, "t1")
    hidden.undo()
    assert not shown(hidden.review, "t1")


def test_what_is_made_of_all_rulings_is_refused_in_one_line(hidden: Store) -> None:
    with pytest.raises(FilmReviewError, match=r"until your own call on t1, t2, t3; give your calls, or show the rulings"):
        check_all_shown(hidden.review)
    for number in ("6", "8", "9"):
        hidden.apply(illegal_number(number))
    with pytest.raises(FilmReviewError, match="and 1 more"):
        check_all_shown(hidden.review)


def test_the_score_counts_agreed_differed_and_what_cannot_be_told(hidden: Store) -> None:
    hidden.apply(a_tag(item="headband", player="3"))  # no colour seen: the book presumes an ordinary one
    calls = (("t1", "illegal", "technical foul"), ("t2", "illegal", "fix or leave"), ("t3", "illegal", ""))
    for tag, ruling, consequence in calls:
        hidden.apply(SetOwnCall(tag, ruling, consequence))
    told = score(veiled(findings(hidden.review)))
    assert [one.outcome for one in told.called] == [AGREED, CONSEQUENCE, DIFFERED]
    assert told.whole == Tally(1, 1, 1, 0)
    assert told.waiting == ("t4",)
    assert told.whole.words == "1 of 3 agreed, 1 consequence differed, 1 differed"
    assert told.by_item == {"headband": Tally(0, 0, 1, 0), "number": Tally(1, 1, 0, 0)}
    numbers = next(rule for rule in told.by_rule if told.by_rule[rule] == Tally(1, 1, 0, 0))
    assert "(" in numbers  # with its reference


def test_a_call_on_what_the_book_cannot_tell_is_not_counted_against_anybody(hidden: Store) -> None:
    found = findings(hidden.review)
    (open_one,) = (one for one in found if one.tag.id == "t3")
    hidden.apply(SetOwnCall("t3", "illegal"))
    unclear = replace(open_one, ruling=replace(open_one.ruling, ruling="cannot be told", rule=""))
    told = score(replace(found, review=hidden.review, findings=(unclear,)))
    assert told.whole == Tally(0, 0, 0, 1)
    assert told.whole.words == f"0 of 0 agreed; 1 {OPEN}"
    assert list(told.by_rule) == [NO_RULE]
    for consequence in ("", "none", "cannot be told"):  # what follows hangs on what the film does not show
        hidden.apply(SetOwnCall("t3", "cannot be told", consequence))
        assert score(replace(found, review=hidden.review, findings=(unclear,))).whole == Tally(1)

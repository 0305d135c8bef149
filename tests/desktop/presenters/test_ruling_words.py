"""What the card says of a fact that could still change a ruling."""

from datetime import date

import pytest

from filmreview.desktop.ruling_words import (
    CONSEQUENCE_WORDS,
    change_words,
    consequence_words,
    need_said,
    presumed_words,
    question_words,
    questions_of,
    source_words,
    waiting_words,
)
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.keys import parse_value
from filmreview.rules.judge import judge
from filmreview.rules.library import book_named
from filmreview.rules.need_words import need_words
from filmreview.rules.ruling import Ruling
from filmreview.rules.tag import Tag, TeamFacts


def ruled(item: str, day: date = date(2025, 1, 14), **facts: str) -> Ruling:
    told = {key: Fact(key, parse_value(key, text), Origin.SEEN) for key, text in facts.items()}
    kit = {side: TeamFacts({"jersey": Fact("jersey", parse_value("colour", colour), Origin.DECLARED)})
           for side, colour in (("home", "white"), ("visitor", "green"))}  # fmt: skip
    return judge([Tag("1", "visitor", "14", item, told)], kit, book_named("nfhs", ()), day).rulings[0]


def test_the_card_says_it_in_the_words_of_the_sheet() -> None:
    """The limits, the samples of colours and what follows read alike wherever a ruling is told."""
    ruling = ruled("headband", date(2023, 12, 5), colour="black")
    told = {need.fact: need_words(need, (ruling.ruling, ruling.consequence)) for need in ruling.needs}
    assert {need.fact: need_said(need, ruling) for need in ruling.needs} == told
    assert told["width_in"] == "width: if more than 3 in, illegal (fix or leave)"
    assert set(change_words(ruling).splitlines()[1:]) <= set(told.values())


def test_a_fact_whose_answers_bring_the_same_is_left_out() -> None:
    # the medal's approval: yes and no both bring "legal" by themselves; only the tape and a hazard turn it
    ruling = ruled("medal", date(2023, 12, 5))
    assert {"approved", "taped"} <= {one.fact for one in ruling.needs}
    assert change_words(ruling).splitlines()[1:] == [
        "taped to the body: if no, illegal (fix or leave)",
        "a hazard: if yes, illegal (fix or leave); if no, legal",
    ]


def test_what_follows_counts_as_a_change_too() -> None:
    ruling = ruled("undershirt", date(2023, 12, 5), colour="red")
    assert (ruling.ruling, ruling.consequence) == ("illegal", "fix or leave")
    assert change_words(ruling) == "would change it:\nblood: if excessive, illegal (leave the game)"


@pytest.mark.parametrize("item", ["jersey", "undershirt", "number", "arm sleeve", "medal", "blood", "hair ribbon", "logo"])
@pytest.mark.parametrize("colour", ["", "red", "white"])
def test_each_line_says_something_other_than_what_stands(item: str, colour: str) -> None:
    ruling = ruled(item, **({"colour": colour} if colour else {}))
    lines = change_words(ruling).splitlines()[1:]
    turning = [
        one for one in ruling.needs
        if len({(one.outcomes[answer], one.consequences[answer]) for answer in one.outcomes}) > 1
    ]  # fmt: skip
    assert lines == [need_said(one, ruling) for one in turning[:3]]
    assert all(": if " in line for line in lines)
    asked, presumed = questions_of(ruling, 3)
    assert all(one in turning for one in presumed)
    assert len(asked) + len(presumed) <= 3


def test_while_the_cost_cannot_be_told_no_foul_is_told_to_be_charged() -> None:
    """67 has a digit over 5, and whether a technical foul follows hangs on whether its wearer has become a player."""
    ruling = ruled("number", date(2023, 12, 5), number="67")
    assert (ruling.ruling, ruling.consequence) == ("illegal", "cannot be told")
    assert any("technical foul" in one.what for one in ruling.todo)
    assert consequence_words(ruling) == CONSEQUENCE_WORDS["cannot be told"]


@pytest.mark.parametrize(
    ("item", "facts", "ruling", "words"),
    [
        ("arm sleeve", {"colour": "green"}, "legal", "nothing follows from it"),
        ("arm sleeve", {}, "cannot be told", "nothing follows from it so far"),
    ],
)
def test_what_is_not_illegal_costs_nothing_in_words(item: str, facts: dict[str, str], ruling: str, words: str) -> None:
    found = ruled(item, date(2023, 12, 5), **facts)
    assert (found.ruling, found.consequence) == (ruling, "none")
    assert consequence_words(found) == words


def test_the_source_says_since_when_not_another_edition_of_the_book() -> None:
    ruling = ruled("arm sleeve", date(2023, 12, 5), colour="red")
    assert source_words(ruling).startswith("rule 3-5-3, so since 2016-17")


def test_an_illegal_thing_has_something_seen_against_it() -> None:
    assert presumed_words(ruled("arm sleeve", colour="green")).startswith("Taken as ordinary, nothing was seen")
    illegal = ruled("arm sleeve", colour="red")
    assert illegal.ruling == "illegal"
    assert "nothing was seen" not in presumed_words(illegal)


def test_only_a_ruling_that_cannot_be_told_waits() -> None:
    illegal = ruled("jersey", tucked="no")  # a colour the film cannot tell may still be asked for
    assert illegal.ruling == "illegal"
    assert waiting_words(illegal) == "Not known yet; it may still change it"
    unknown = ruled("arm sleeve")
    assert unknown.ruling == "cannot be told"
    assert waiting_words(unknown) == "The ruling waits for this"


def test_what_is_counted_is_asked_without_a_unit() -> None:
    assert question_words("logos") == "Logos seen?"
    assert question_words("width_in") == "Width, in"

"""What the card says of a fact that could still change a ruling."""

from datetime import date

import pytest

from filmreview.desktop.ruling_words import change_words, need_words, presumed_words, questions_of
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.keys import parse_value
from filmreview.rules.judge import judge
from filmreview.rules.library import book_named
from filmreview.rules.ruling import Need, Ruling
from filmreview.rules.tag import Tag, TeamFacts


def ruled(item: str, day: date = date(2025, 1, 14), **facts: str) -> Ruling:
    told = {key: Fact(key, parse_value(key, text), Origin.SEEN) for key, text in facts.items()}
    kit = {side: TeamFacts({"jersey": Fact("jersey", parse_value("colour", colour), Origin.DECLARED)})
           for side, colour in (("home", "white"), ("visitor", "green"))}  # fmt: skip
    return judge([Tag("1", "visitor", "14", item, told)], kit, book_named("nfhs", ()), day).rulings[0]


def need(fact: str, outcomes: dict[str, tuple[str, str]], presumed: bool = True) -> Need:
    rulings = {answer: outcome[0] for answer, outcome in outcomes.items()}
    costs = {answer: outcome[1] for answer, outcome in outcomes.items()}
    return Need(fact, "presumed ordinary, ...", rulings, costs, presumed)


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (
            need("undershirt", {"white": ("cannot be told", "none"), "another colour, like red": ("illegal", "fix or leave")}),
            "undershirt of the team: if white, cannot be told; if another colour such as red, illegal",
        ),
        (
            need("opponent.jersey", {"white": ("legal", "none"), "black": ("legal", "none"), "red": ("illegal", "leave")}),
            "jersey of the other team: if white or black, legal; if red, illegal",
        ),
        (
            need("blood", {"some": ("illegal", "fix or leave"), "excessive": ("illegal", "leave")}),
            "blood: if some, illegal, fix or leave; if excessive, illegal, leave",
        ),
    ],
)
def test_a_fact_and_its_answers_in_words(asked: Need, words: str) -> None:
    assert need_words(asked) == words


def test_a_fact_whose_answers_bring_the_same_is_left_out() -> None:
    # the medal's approval: yes and no both bring "legal" by themselves; only the tape and a hazard turn it
    ruling = ruled("medal", date(2023, 12, 5))
    assert {"approved", "taped"} <= {one.fact for one in ruling.needs}
    assert change_words(ruling).splitlines()[1:] == [
        "taped to the body: if no, illegal",
        "a hazard: if yes, illegal; if no, legal",
    ]


def test_what_follows_counts_as_a_change_too() -> None:
    ruling = ruled("undershirt", date(2023, 12, 5), colour="red")
    assert (ruling.ruling, ruling.consequence) == ("illegal", "fix or leave")
    assert change_words(ruling) == "would change it:\nblood: if excessive, illegal, leave"


@pytest.mark.parametrize("item", ["jersey", "undershirt", "number", "arm sleeve", "medal", "blood", "hair ribbon", "logo"])
@pytest.mark.parametrize("colour", ["", "red", "white"])
def test_each_line_says_something_other_than_what_stands(item: str, colour: str) -> None:
    ruling = ruled(item, **({"colour": colour} if colour else {}))
    now = (ruling.ruling, ruling.consequence)
    lines = change_words(ruling).splitlines()[1:]
    turning = [
        one for one in ruling.needs
        if len({(one.outcomes[answer], one.consequences[answer]) for answer in one.outcomes}) > 1
    ]  # fmt: skip
    assert lines == [need_words(one, now) for one in turning[:3]]
    assert all(": if " in line for line in lines)
    asked, presumed = questions_of(ruling, 3)
    assert all(one in turning for one in presumed)
    assert len(asked) + len(presumed) <= 3


def test_an_illegal_thing_has_something_seen_against_it() -> None:
    assert presumed_words(ruled("arm sleeve", colour="green")).startswith("Nothing seen against it")
    illegal = ruled("arm sleeve", colour="red")
    assert illegal.ruling == "illegal"
    assert "Nothing seen against" not in presumed_words(illegal)

"""What could still change a ruling, as a reader is told it: limits as limits, no colour twice, and what follows."""

from datetime import date

import pytest

from filmreview.facts.fact import Amount
from filmreview.rules.checks.amounts import in_bands
from filmreview.rules.checks.check import Bound, words_of
from filmreview.rules.need_words import need_words, turning_words
from filmreview.rules.ruling import Ruling
from tests.rules.make import ruling, tag

KIT = {"home": {"jersey": "white"}, "visitor": {"jersey": "green"}}


def turns(one: Ruling) -> dict[str, str]:
    return {need.fact: need_words(need, (one.ruling, one.consequence)) for need in one.needs}


def test_checks_of_one_fact_with_different_limits_keep_their_answers() -> None:
    """A black number on white may have a border of any colour; four in all are one too many from 2014-15 on (NFHS 3-4-3 as the
    book here has it), which a check of the same fact with another limit must not hide."""
    one = ruling(
        tag("number", team="home", player="0"), day=date(2015, 1, 10), home={"jersey": "white", "number_colour": "black"}
    )
    (border,) = [need for need in one.needs if need.fact == "border_colours"]
    assert (border.outcomes["one more colour"], border.outcomes["4 more colours"]) == ("legal", "illegal")


def test_a_limit_is_told_as_a_limit_and_with_what_follows() -> None:
    """NFHS press release of 15 May 2019: headbands up to 3 inches; NFHS 3-6-2 as published: one logo, 2 1/4 inches at most."""
    told = turns(ruling(tag("headband", colour="black"), **KIT))
    assert told["width_in"] == "width: if more than 3 in, illegal (fix or leave)"
    assert told["side_in"] == "longest side: if more than 2.25 in, illegal (fix or leave)"
    assert told["logos"] == "logos seen: if more than 1, illegal (fix or leave)"


def test_limits_that_change_nothing_are_not_told() -> None:
    """The book has two limits of a border, a quarter and half an inch; where the smaller counts, the larger parts nothing."""
    bordered = tag("number", number_style="solid with border", colour="white", border_colours="red", in_play=True)
    told = turns(ruling(bordered, **KIT))
    assert told["border_in"] == "border width: if more than 0.25 in, illegal (technical foul)"


@pytest.mark.parametrize(
    ("amounts", "bounds", "words"),
    [
        ((2.0, 2.5), (Bound(2.0, False),), ["at most 2 in", "more than 2 in"]),
        ((4.5, 6.0), (Bound(6.0, True),), ["less than 6 in", "at least 6 in"]),
        (
            (3.0, 4.0, 5.0, 7.0),
            (Bound(6.0, True), Bound(4.0, True)),
            ["less than 4 in", "at least 4 and less than 6 in", "at least 6 in"],
        ),
        (
            (1.0, 2.0, 3.0, 4.0),
            (Bound(1.0, False), Bound(3.0, False)),
            ["at most 1 in", "more than 1 and at most 3 in", "more than 3 in"],
        ),
    ],
)
def test_amounts_stand_for_all_that_lie_like_them_to_the_limits(
    amounts: tuple[float, ...], bounds: tuple[Bound, ...], words: list[str]
) -> None:
    assert list(in_bands("width_in", map(Amount, amounts), bounds)) == words


def test_no_colour_stands_twice_and_what_stands_is_left_out() -> None:
    legal, illegal, now = ("legal", "none"), ("illegal", "fix or leave"), ("cannot be told", "none")
    answers = {
        "white": legal, "another colour, like red": illegal, "black": illegal, "another colour, like orange": illegal,
        "another colour, like white": legal, "another colour, like black": illegal, "green": now,
    }  # fmt: skip
    assert turning_words("colour", answers, now) == (
        "colour: if white, legal; if black or another colour such as red or orange, illegal (fix or leave)"
    )


def test_what_follows_is_a_change_too_and_an_illegal_thing_may_have_no_consequence() -> None:
    answers = {"yes": ("illegal", "technical foul"), "no": ("illegal", "none")}
    assert turning_words("in_play", answers, ("illegal", "cannot be told")) == (
        "has become a player wearing it: if yes, illegal (technical foul); if no, illegal (no consequence)"
    )
    assert turning_words("in_play", answers, ("illegal", "none")) == (
        "has become a player wearing it: if yes, illegal (technical foul)"
    )


def test_a_fact_that_matters_only_with_another_one_says_so() -> None:
    same = {"yes": ("legal", "none"), "no": ("legal", "none")}
    assert turning_words("taped", same, ("legal", "none")) == (
        "taped to the body: together with another fact that is not known yet"
    )


def test_what_a_team_declared_is_called_its_teams() -> None:
    assert words_of("number_colour") == "number colour of the team"
    assert words_of("opponent.jersey") == "jersey of the other team"

"""Every check of the closed list: when it holds, fails, is presumed, or cannot be told."""

from __future__ import annotations

from typing import Any

import pytest

from filmreview.colour.palette import measured
from filmreview.facts.fact import Amount, Fact, Origin
from filmreview.facts.keys import read_value
from filmreview.rules.checks.answer import DISPUTED, FAILS, HOLDS, PRESUMED, UNKNOWN, decide
from filmreview.rules.checks.listed import CHECKS, build
from filmreview.rules.checks.worn import Worn
from filmreview.rules.tag import Tag

GREEN = {"jersey": "green"}
NEAR = {"value": 3.1, "plus_minus": 0.3}
TABLE: list[tuple[dict[str, Any], dict[str, Any], dict[str, Any], int]] = [
    ({"is": "one_of_colours", "colours": ["black"]}, {"colour": "black"}, {}, HOLDS),
    ({"is": "one_of_colours", "colours": ["black"]}, {"colour": "navy"}, {}, FAILS),
    ({"is": "one_of_colours", "colours": ["black"]}, {"colour": ["black", "white"]}, {}, FAILS),
    ({"is": "one_of_colours", "colours": ["black"]}, {}, {}, UNKNOWN),
    ({"is": "one_of_colours", "colours": ["black"], "needed": False}, {}, {}, PRESUMED),
    ({"is": "one_of_colours", "team": ["jersey"]}, {"colour": "green"}, GREEN, HOLDS),
    ({"is": "one_of_colours", "team": ["jersey"]}, {"colour": "green"}, {}, UNKNOWN),
    ({"is": "one_of_colours", "team": ["trim"]}, {"colour": "gold"}, {"trim": ["white", "gold"]}, HOLDS),
    ({"is": "same_as", "other": "jersey"}, {"colour": "green"}, GREEN, HOLDS),
    ({"is": "similar_to", "other": "jersey"}, {"colour": "dark green"}, GREEN, FAILS),
    ({"is": "similar_to", "other": "jersey"}, {"colour": "green"}, {}, UNKNOWN),
    ({"is": "similar_to", "other": "jersey", "if_known": True}, {"colour": "green"}, {}, FAILS),
    ({"is": "similar_to", "other": "opponent.jersey"}, {"colour": "white"}, {}, HOLDS),
    ({"is": "differs_from", "other": "white"}, {"colour": "green"}, {}, HOLDS),
    ({"is": "differs_from", "other": "white"}, {"colour": "white"}, {}, FAILS),
    ({"is": "contrasts_with", "other": "white"}, {"colour": "navy"}, {}, HOLDS),
    ({"is": "contrasts_with", "other": "white"}, {"colour": "light grey"}, {}, FAILS),
    ({"is": "contrasts_with", "other": "white"}, {"colour": "gold"}, {}, UNKNOWN),
    ({"is": "contrasts_with", "other": "white"}, {"colour": "gold", "contrasts": True}, {}, HOLDS),
    ({"is": "contrasts_with", "other": "white"}, {"colour": "gold", "contrasts": False}, {}, FAILS),
    ({"is": "contrasts_with", "other": "white"}, {"contrasts": False}, {}, FAILS),
    ({"is": "contrasts_with", "other": "border_colours"}, {"colour": "navy", "border_colours": "white"}, {}, HOLDS),
    ({"is": "lightness_apart", "other": "white", "limit": 20}, {"colour": "gold"}, {}, HOLDS),
    ({"is": "lightness_apart", "other": "white", "limit": 30}, {"colour": "gold"}, {}, FAILS),
    ({"is": "lightness_at_least", "limit": 60}, {"colour": "white"}, {}, HOLDS),
    ({"is": "lightness_at_least", "limit": 60}, {"colour": "navy"}, {}, FAILS),
    ({"is": "lightness_at_most", "limit": 60}, {"colour": "navy"}, {}, HOLDS),
    ({"is": "lightness_at_most", "limit": 60}, {"colour": "white"}, {}, FAILS),
    ({"is": "solid"}, {"colour": "black"}, {}, PRESUMED),
    ({"is": "solid"}, {"colour": ["black", "white"]}, {}, FAILS),
    ({"is": "solid"}, {"colour": ["black", "white"], "solid": True}, {}, HOLDS),
    ({"is": "solid"}, {"solid": False}, {}, FAILS),
    ({"is": "colours_at_most", "facts": ["colour", "border_colours"], "limit": 2}, {"colour": "red"}, {}, PRESUMED),
    ({"is": "colours_at_most", "facts": ["colour"], "limit": 2}, {"colour": ["red", "white"]}, {}, HOLDS),
    ({"is": "colours_at_most", "facts": ["colour"], "limit": 1}, {"colour": ["red", "white"]}, {}, FAILS),
    ({"is": "at_most", "fact": "width_in", "limit": 3}, {"width_in": 3}, {}, HOLDS),
    ({"is": "at_most", "fact": "width_in", "limit": 3}, {"width_in": 3.01}, {}, FAILS),
    ({"is": "at_most", "fact": "width_in", "limit": 3}, {"width_in": NEAR}, {}, UNKNOWN),
    ({"is": "at_most", "fact": "width_in", "limit": 3}, {}, {}, PRESUMED),
    ({"is": "at_most", "fact": "width_in", "limit": 3, "needed": True}, {}, {}, UNKNOWN),
    ({"is": "at_least", "fact": "height_in", "limit": 4}, {"height_in": 4}, {}, HOLDS),
    ({"is": "at_least", "fact": "height_in", "limit": 4}, {"height_in": 3.99}, {}, FAILS),
    ({"is": "count_at_most", "limit": 1}, {"count": 1}, {}, HOLDS),
    ({"is": "count_at_most", "limit": 1}, {"count": 2}, {}, FAILS),
    ({"is": "worn_at", "places": ["wrist"]}, {"worn": "wrist"}, {}, HOLDS),
    ({"is": "worn_at", "places": ["wrist"]}, {"worn": "neck"}, {}, FAILS),
    ({"is": "placed_at", "places": ["side insert"]}, {"logo_at": "side insert"}, {}, HOLDS),
    ({"is": "placed_at", "places": ["side insert"]}, {"logo_at": "other"}, {}, FAILS),
    ({"is": "is_one_of", "fact": "number", "values": ["0", "00"]}, {"number": "00"}, {}, HOLDS),
    ({"is": "is_one_of", "fact": "number", "values": ["0"]}, {"number": "00"}, {}, FAILS),
    ({"is": "is_none_of", "fact": "blood", "values": ["excessive"]}, {"blood": "some"}, {}, HOLDS),
    ({"is": "is_none_of", "fact": "blood", "values": ["some"]}, {"blood": "some"}, {}, FAILS),
    ({"is": "yes", "fact": "secured"}, {"secured": True}, {}, HOLDS),
    ({"is": "yes", "fact": "secured"}, {"secured": False}, {}, FAILS),
    ({"is": "no", "fact": "hazard"}, {"hazard": False}, {}, HOLDS),
    ({"is": "no", "fact": "hazard"}, {"hazard": True}, {}, FAILS),
    ({"is": "only_if", "facts": ["medical", "religious"]}, {"religious": True}, {}, HOLDS),
    ({"is": "only_if", "facts": ["medical", "religious"]}, {"religious": False, "medical": False}, {}, FAILS),
    ({"is": "only_if", "facts": ["medical", "religious"]}, {"religious": False}, {}, PRESUMED),
    ({"is": "only_if", "facts": ["medical"], "needed": True}, {}, {}, UNKNOWN),
    ({"is": "no_word_of", "facts": ["medical"]}, {}, {}, HOLDS),
    ({"is": "no_word_of", "facts": ["medical"]}, {"medical": True}, {}, FAILS),
    ({"is": "allowed"}, {}, {}, HOLDS),
    ({"is": "not_allowed"}, {}, {}, FAILS),
    ({"is": "disputed", "readings": ["legal", "illegal"]}, {}, {}, DISPUTED),
    ({"is": "gap", "about": "goggles"}, {}, {}, DISPUTED),
    ({"is": "team_is", "team": "visitor"}, {}, {}, HOLDS),
    ({"is": "team_is", "team": "home"}, {}, {}, FAILS),
    ({"is": "level_is", "levels": ["varsity"]}, {}, {}, HOLDS),
    ({"is": "level_is", "levels": ["college"]}, {}, {}, FAILS),
    ({"is": "item_is", "items": ["headband"]}, {}, {}, HOLDS),
    ({"is": "item_is", "items": ["tights"]}, {}, {}, FAILS),
    ({"is": "same_across_team"}, {"colour": "green"}, {}, HOLDS),  # alone; teams are in test_judge
    ({"is": "not_together", "values": ["0", "00"]}, {"number": "0"}, {}, HOLDS),  # alone
]
COMBINED: list[tuple[dict[str, Any], dict[str, Any], int]] = [
    ({"all": [{"is": "allowed"}, {"is": "not_allowed"}]}, {}, FAILS),
    ({"any": [{"is": "allowed"}, {"is": "not_allowed"}]}, {}, HOLDS),
    ({"all": [{"is": "one_of_colours", "colours": ["red"]}, {"is": "yes", "fact": "hard"}]}, {}, UNKNOWN),
    ({"any": [{"is": "one_of_colours", "colours": ["red"]}, {"is": "yes", "fact": "hard"}]}, {}, PRESUMED),
    ({"any": [{"is": "disputed", "readings": ["a", "b"]}, {"is": "not_allowed"}]}, {}, DISPUTED),
    ({"is": "not_allowed", "when": {"is": "yes", "fact": "hard"}}, {"hard": False}, HOLDS),
    ({"is": "not_allowed", "when": {"is": "yes", "fact": "hard"}}, {"hard": True}, FAILS),
    ({"is": "not_allowed", "when": {"is": "yes", "fact": "hard"}}, {}, PRESUMED),
    ({"is": "not_allowed", "when": {"is": "yes", "fact": "hard", "needed": True}}, {}, UNKNOWN),
    ({"is": "allowed", "when": {"is": "yes", "fact": "hard", "needed": True}}, {}, HOLDS),
    ({"any": [{"is": "not_allowed"}], "when": {"is": "yes", "fact": "hard"}}, {"hard": True}, FAILS),
]


def worn(facts: dict[str, Any], words: dict[str, Any]) -> Worn:
    known = {key: Fact(key, read_value(key, value)) for key, value in facts.items()}
    declared = {word: Fact(word, read_value("colour", value), Origin.DECLARED) for word, value in words.items()}
    opponent = {"jersey": Fact("jersey", read_value("colour", "white"), Origin.DECLARED)}
    return Worn(Tag("a", "visitor", "14", "headband", known), "varsity", known, declared, opponent)


@pytest.mark.parametrize(("spec", "facts", "words", "answer"), TABLE, ids=[str(row[:3]) for row in TABLE])
def test_a_check_answers(spec: dict[str, Any], facts: dict[str, Any], words: dict[str, Any], answer: int) -> None:
    check = build(spec, "here", ("headband",))
    it = worn(facts, words)
    assert check.run(it) == answer
    assert check.say(it) or (check.only_whose and answer == HOLDS), "only a condition that is met goes without saying"
    for key in (*check.facts, *check.team_words):
        assert check.answers(key, it)


@pytest.mark.parametrize(("spec", "facts", "answer"), COMBINED, ids=[str(row[:2]) for row in COMBINED])
def test_a_combination_answers(spec: dict[str, Any], facts: dict[str, Any], answer: int) -> None:
    assert build(spec, "here", ("headband",)).run(worn(facts, {})) == answer


def test_every_check_of_the_list_is_in_the_table() -> None:
    assert {row[0]["is"] for row in TABLE} == set(CHECKS)


def test_a_guard_band_decision() -> None:
    """JCGM 106:2012, example 7.4: y 13.6, standard uncertainty 1.8, limits 12.5 and 16.3, conformance probability 0.6626."""
    value = Amount(13.6, 1.8)
    chance = value.chance_at_most(16.3) - value.chance_at_most(12.5)
    assert chance == pytest.approx(0.6626, abs=5e-5)
    assert decide(chance) == UNKNOWN
    assert [decide(one) for one in (0.95, 0.949, 0.051, 0.05)] == [HOLDS, UNKNOWN, UNKNOWN, FAILS]


def test_a_number_beside_a_ball_cannot_be_told() -> None:
    """Worked example of the measuring notes: 6.03 in with a standard uncertainty of 0.36, at least 6 in asked."""
    height = Amount(6.03, 0.36)
    assert height.chance_at_least(6) == pytest.approx(0.53, abs=0.005)
    check = build({"is": "at_least", "fact": "height_in", "limit": 6}, "here", ("number",))
    it = worn({"height_in": {"value": 6.03, "plus_minus": 0.36}}, {})
    assert check.run(it) == UNKNOWN


def test_a_measured_colour_is_told_by_its_distribution() -> None:
    sure = measured((15.0, 0.0, 0.0), ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)))
    doubtful = measured((28.0, 0.0, 0.0), ((9.0, 0.0, 0.0), (0.0, 9.0, 0.0), (0.0, 0.0, 9.0)))
    check = build({"is": "one_of_colours", "colours": ["black"]}, "here", ("headband",))
    answers = []
    for colour in (sure, doubtful):
        facts = {"colour": Fact("colour", (colour,), Origin.MEASURED)}
        answers.append(check.run(Worn(Tag("a", "visitor", "14", "headband", facts), "varsity", facts, {}, {})))
    assert answers == [HOLDS, UNKNOWN]

"""What holds for whatever is worn: pure, order-free, needs exact, choices all and least first, one technical a team."""

from __future__ import annotations

import os
import random
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from itertools import product
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from filmreview.colour.palette import PALETTE, colour_named
from filmreview.facts.fact import Amount, Fact, Origin, Value
from filmreview.facts.items import ITEMS
from filmreview.facts.keys import KEYS, Kind
from filmreview.rules.checks.worn import DECLARED_FOR, with_fallbacks
from filmreview.rules.judge import judge
from filmreview.rules.judging import Judging
from filmreview.rules.library import book_named
from filmreview.rules.ruling import Rulings
from filmreview.rules.tag import Tag, TeamFacts
from tests.rules.make import tag, teams

EXAMPLES = int(os.environ.get("RULES_EXAMPLES", "25"))
"""Of each property; set RULES_EXAMPLES for a long run."""
COLOURS = ("black", "white", "beige", "green", "navy", "orange", "grey", "royal blue")
DAYS = (
    date(2007, 9, 1),
    date(2012, 12, 1),
    date(2015, 1, 10),
    date(2018, 12, 1),
    date(2023, 6, 1),
    date(2024, 1, 10),
    date(2024, 12, 1),
)
AMOUNTS = (0.1, 0.25, 0.4, 0.6, 1.0, 2.0, 2.25, 2.5, 3.0, 3.5, 4.0, 4.5, 6.0, 20.0)
SHARED_KEYS = ("in_play", "when", "left_floor")


def answers(key: str) -> list[Value]:
    """Many answers to a fact, not taken from the rules."""
    kind = KEYS[key].kind
    if kind is Kind.YES_NO:
        return [True, False]
    if kind is Kind.CHOICE:
        return list(KEYS[key].choices)
    if kind is Kind.AMOUNT:
        return [Amount(amount) for amount in AMOUNTS]
    if kind is Kind.NUMBER_TEXT:
        return ["0", "00", "3", "7", "12", "66"]
    several = tuple(colour_named(name) for name in ("black", "white", "orange", "navy"))
    return [several, several[:2], *((colour_named(name),) for name in COLOURS)]


def word_answers() -> list[Value]:
    return [(colour_named(name),) for name in PALETTE]


facts = st.dictionaries(st.sampled_from(sorted(KEYS)), st.integers(0, 1000), max_size=4).map(
    lambda chosen: {key: Fact(key, answers(key)[place % len(answers(key))]) for key, place in chosen.items()}
)
words = st.dictionaries(st.sampled_from(["jersey", "shorts", "number_colour"]), st.sampled_from(COLOURS), max_size=3).map(
    lambda chosen: {word: Fact(word, (colour_named(name),), Origin.DECLARED) for word, name in chosen.items()}
)
tags = st.builds(
    lambda item, team, player, chosen: Tag("a", team, player, item, chosen),
    st.sampled_from(ITEMS), st.sampled_from(["home", "visitor"]), st.sampled_from(["0", "3", "7", "12"]), facts,
)  # fmt: skip


def outcome(one: Tag, declared: Mapping[str, Mapping[str, Fact]], day: date) -> tuple[str, str]:
    """What comes out for one tag alone."""
    got = judge([one], {team: TeamFacts(known) for team, known in declared.items()}, book_named("nfhs"), day).rulings[0]
    return (got.ruling, got.consequence)


def with_answer(one: Tag, declared: Mapping[str, Mapping[str, Fact]], key: str, value: Value) -> tuple[Tag, dict[str, Any]]:
    other = "visitor" if one.team == "home" else "home"
    team, word = (other, key.partition(".")[2]) if key.startswith("opponent.") else (one.team, key)
    if key in KEYS:
        return replace(one, facts={**one.facts, key: Fact(key, value)}), dict(declared)
    return one, {**declared, team: {**declared.get(team, {}), word: Fact(word, value, Origin.DECLARED)}}


def answers_of(key: str) -> list[Value]:
    return answers(key) if key in KEYS else word_answers()


@settings(max_examples=EXAMPLES, deadline=None)
@given(tags, words, st.sampled_from(DAYS))
def test_what_is_not_asked_changes_nothing(one: Tag, known: dict[str, Fact], day: date) -> None:
    declared = {one.team: known}
    now = outcome(one, declared, day)
    asked = {need.fact for need in judge([one], {one.team: TeamFacts(known)}, book_named("nfhs"), day).rulings[0].needs}
    known_keys = with_fallbacks(one, known)  # a number tag's number is its player's, "in play" follows from when it was found
    others = [key for key in KEYS if key not in known_keys and key not in asked]
    if "colour" in asked:  # what the team declared for the item is the same question
        asked.add(DECLARED_FOR.get(one.item, ""))
    others += [word for word in ("jersey", "shorts", "trim", "opponent.jersey") if word not in known and word not in asked]
    for key in others:
        for value in answers_of(key):
            assert outcome(*with_answer(one, declared, key, value), day) == now, (key, value)


@settings(max_examples=EXAMPLES, deadline=None)
@given(tags, words, st.sampled_from(DAYS))
def test_what_is_asked_changes_something(one: Tag, known: dict[str, Fact], day: date) -> None:
    declared = {one.team: known}
    now = outcome(one, declared, day)
    needs = judge([one], {one.team: TeamFacts(known)}, book_named("nfhs"), day).rulings[0].needs
    waiting = [need.fact for need in needs if not need.presumed]
    for need in needs:
        alone = [outcome(*with_answer(one, declared, need.fact, value), day) for value in answers_of(need.fact)]
        if any(got != now for got in alone):
            continue
        assert not need.presumed, need
        twin = {"in_play": "when", "when": "in_play"}.get(need.fact)
        others = [key for key in waiting if key not in (need.fact, twin)]
        assert any(_matters(one, declared, day, need.fact, others)), need


def _matters(one: Tag, declared: Mapping[str, Mapping[str, Fact]], day: date, key: str, others: list[str]) -> Any:
    for values in product(*(answers_of(other)[:8] for other in others)):
        answered, told = one, dict(declared)
        for other, value in zip(others, values, strict=True):
            answered, told = with_answer(answered, told, other, value)
        before = outcome(answered, told, day)
        for value in answers_of(key):
            yield outcome(*with_answer(answered, told, key, value), day) != before


@settings(max_examples=EXAMPLES, deadline=None)
@given(tags, words, st.sampled_from(DAYS))
def test_the_outcomes_of_a_need_are_what_comes_out(one: Tag, known: dict[str, Fact], day: date) -> None:
    got = judge([one], {one.team: TeamFacts(known)}, book_named("nfhs"), day).rulings[0]
    for need in got.needs:
        if need.fact in KEYS and KEYS[need.fact].kind in (Kind.YES_NO, Kind.CHOICE):
            for word, ruling in need.outcomes.items():
                value: Value = word if KEYS[need.fact].kind is Kind.CHOICE else word == "yes"
                after = outcome(*with_answer(one, {one.team: known}, need.fact, value), day)
                assert after == (ruling, need.consequences[word]), (need.fact, word)


team_tags = st.lists(
    st.tuples(
        st.sampled_from(["arm sleeve", "leg sleeve", "headband", "wristband", "tights", "jersey", "undershirt", "number"]),
        st.sampled_from(["home", "visitor"]),
        st.sampled_from(["0", "00", "3", "4", "7", "12", "22", "31"]),
        st.sampled_from(COLOURS),
        st.sampled_from([None, True, False]),
    ),
    max_size=12,
).map(
    lambda many: [
        tag(item, team, player, str(place), colour=colour, **({} if in_play is None else {"in_play": in_play}))
        for place, (item, team, player, colour, in_play) in enumerate(many)
    ]
)  # fmt: skip
KIT = teams(home={"jersey": "white"}, visitor={"jersey": "green"})


def told(rulings: Rulings) -> Any:
    """Everything that came out, whatever the order of the tags."""
    by_id = {one.id: (one, one.reasons, one.needs, one.ahead, one.rules, one.todo) for one in rulings.rulings}
    return by_id, rulings.penalties, rulings.choices


@settings(max_examples=EXAMPLES, deadline=None)
@given(team_tags, st.randoms(use_true_random=False), st.sampled_from(DAYS))
def test_judging_is_pure_and_knows_no_order(many: list[Tag], chance: random.Random, day: date) -> None:
    first = told(judge(many, KIT, book_named("nfhs"), day))
    shuffled = chance.sample(many, len(many))
    assert told(judge(shuffled, KIT, book_named("nfhs"), day)) == first
    assert told(judge(many, KIT, book_named("nfhs"), day)) == first


@settings(max_examples=EXAMPLES, deadline=None)
@given(team_tags, st.sampled_from(DAYS))
def test_one_technical_foul_a_team_for_uniforms(many: list[Tag], day: date) -> None:
    rulings = judge(many, KIT, book_named("nfhs"), day)
    for team in ("home", "visitor"):
        uniform = [one for one in rulings.penalties if one.team == team and one.rule == "uniform"]
        broken = [one for one in rulings.rulings if one.team == team and one.consequence == "technical foul"]
        assert len(uniform) <= 1
        if day >= date(2008, 7, 1):
            assert sum(one.count for one in uniform) <= 1
            if any(one.rule in ("jersey-colour", "jersey-solid", "number-list") for one in broken):
                assert sum(one.count for one in uniform) == 1
    assert all(one.kind == "technical foul" for one in rulings.penalties)
    equipment = [one for one in rulings.rulings if one.rule in ("sleeve-colour", "band-colour", "undershirt-colour")]
    assert all(one.consequence in ("none", "fix or leave") for one in equipment)


BANDS = ("arm sleeve", "leg sleeve", "tights", "headband", "wristband")
wearers = st.lists(
    st.tuples(st.sampled_from(BANDS), st.sampled_from(["1", "2", "3", "4", "5", "10", "11", "12"]), st.sampled_from(COLOURS)),
    min_size=1, max_size=12,
).map(
    lambda many: [tag(item, "visitor", player, str(n), colour=colour) for n, (item, player, colour) in enumerate(many)]
)  # fmt: skip


@settings(max_examples=EXAMPLES, deadline=None)
@given(wearers)
def test_the_choices_are_all_consistent_ones_and_the_first_is_least(many: list[Tag]) -> None:
    """Brute force: recolour everybody to each colour worn, and see whether all is legal then."""
    day = date(2024, 1, 10)
    rulings = judge(many, KIT, book_named("nfhs"), day)
    worn = {str(one.facts["colour"].value[0].name) for one in many}  # type: ignore[index, union-attr]
    consistent = {}
    for name in worn:
        alike = [replace(one, facts={**one.facts, "colour": Fact("colour", (colour_named(name),))}) for one in many]
        if all(one.ruling == "legal" for one in judge(alike, KIT, book_named("nfhs"), day).rulings):
            consistent[name] = {one.player for one in many if one.facts["colour"].value != (colour_named(name),)}
    for rule in ("sleeve-colour", "band-colour"):
        choice = next((one for one in rulings.choices if one.rule == rule), None)
        concerned = [one for one in rulings.rulings if any(line.rule == rule for line in one.rules)]
        if len(consistent) < 2 or not concerned:
            assert choice is None or {option.keep for option in choice.options} == set(consistent)
            continue
        if choice is not None:
            assert {option.keep: set(option.change) for option in choice.options} == consistent
            sizes = [len(option.change) for option in choice.options]
            assert sizes == sorted(sizes)
            assert sizes[0] == min(len(players) for players in consistent.values())
    if len(consistent) >= 2:
        assert rulings.choices


@settings(max_examples=EXAMPLES, deadline=None)
@given(team_tags.filter(bool), st.data(), st.sampled_from(DAYS))
def test_a_changed_tag_is_judged_like_all_anew(many: list[Tag], data: st.DataObject, day: date) -> None:
    place = data.draw(st.integers(0, len(many) - 1))
    colour = data.draw(st.sampled_from(COLOURS))
    old = many[place]
    new = replace(old, facts={**old.facts, "colour": Fact("colour", (colour_named(colour),))})
    judging = Judging.of(many, KIT, book_named("nfhs"), day)
    anew = judge([*many[:place], new, *many[place + 1 :]], KIT, book_named("nfhs"), day)
    assert told(judging.changed(new).rulings) == told(anew)

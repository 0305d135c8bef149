"""How fast the rules judge, beside a plain Python reference that runs the same checks.

By hand: pytest -s tests/bench/test_rules_bench.py

The reference runs, for each tag, every check of every rule in force on its item, the way one would write it down plainly: the
checks' parameters in dicts, a chain of ifs, facts by their key, teammates as sets of colours, the same three answers. It makes
no reasons, needs, penalties or choices. Its rulings must equal the engine's.
"""

from __future__ import annotations

import random
import statistics
import time
from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

from filmreview.colour.palette import colour_named
from filmreview.facts.fact import Amount, Fact, Origin
from filmreview.rules.checks.colour_words import named, same, same_chance, stands_out
from filmreview.rules.judge import judge
from filmreview.rules.judging import Judging
from filmreview.rules.library import book_named
from filmreview.rules.tag import Tag, TeamFacts

DAY = date(2024, 1, 10)
TAGS = 10_000
ITEMS = ("arm sleeve", "leg sleeve", "tights", "headband", "wristband", "undershirt", "jersey", "shorts")
COLOURS = ("black", "white", "beige", "green", "orange", "navy", "grey")
PLAYERS = ("0", "2", "3", "10", "11", "14", "20", "22", "30", "33", "40", "44")


def colours(name: str) -> Fact:
    return Fact("colour", (colour_named(name),))


TEAMS: Mapping[str, TeamFacts] = {
    "home": TeamFacts({"jersey": Fact("jersey", (colour_named("white"),), Origin.DECLARED)}),
    "visitor": TeamFacts({"jersey": Fact("jersey", (colour_named("green"),), Origin.DECLARED)}),
}


def made_up_tags(count: int, seed: int = 1) -> list[Tag]:
    chance = random.Random(seed)
    made = []
    for number in range(count):
        item = chance.choice(ITEMS)
        facts = {"colour": colours(chance.choice(COLOURS)), "in_play": Fact("in_play", chance.random() < 0.5)}
        if item in ("headband", "wristband"):
            facts["width_in"] = Fact("width_in", Amount(chance.uniform(1, 5), chance.choice([0.0, 0.3])))
        made.append(Tag(str(number), chance.choice(["home", "visitor"]), chance.choice(PLAYERS), item, facts))
    return made


def best_of(times: int, work: Callable[[], object]) -> float:
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return min(taken)


def test_ten_thousand_tags_and_one_changed() -> None:
    book, tags = book_named("nfhs"), made_up_tags(TAGS)
    judge(tags[:100], TEAMS, book, DAY)
    seconds = best_of(5, lambda: judge(tags, TEAMS, book, DAY))
    explained = best_of(
        1, lambda: [(one.reasons, one.needs, one.ahead, one.rules) for one in judge(tags, TEAMS, book, DAY).rulings]
    )
    judging = Judging.of(tags, TEAMS, book, DAY)
    assert judging.rulings
    again = []
    for place, tag in enumerate(made_up_tags(200, seed=2)):
        old = tags[place * 50]
        changed = Tag(old.id, old.team, tag.player, tag.item, tag.facts)
        start = time.perf_counter()
        assert judging.changed(changed).rulings
        again.append(time.perf_counter() - start)
    print(f"\n{TAGS} tags judged: {seconds:.3f} s; with all words, needs and notes made: {explained:.2f} s")
    print(f"one tag changed: median {1000 * statistics.median(again):.2f} ms, worst {1000 * max(again):.2f} ms")
    assert seconds < 1.0
    assert statistics.median(again) < 0.005


def test_against_a_plain_reference() -> None:
    book, tags = book_named("nfhs"), made_up_tags(TAGS)
    rulings = judge(tags, TEAMS, book, DAY).rulings
    plain = Plain(book, DAY)
    assert plain.judge(tags) == [one.ruling for one in rulings]
    engine = best_of(5, lambda: judge(tags, TEAMS, book, DAY))
    reference = best_of(5, lambda: plain.judge(tags))
    print(f"\nengine {engine:.3f} s, plain reference {reference:.3f} s, ratio {engine / reference:.2f}")
    assert engine / reference < 3.0


class Plain:
    """The same checks, plainly. Answers: 0 fails, 1 open, 2 holds."""

    def __init__(self, book: Any, day: date) -> None:
        self.rules: dict[str, list[list[Mapping[str, Any]]]] = {item: [] for item in ITEMS}
        self.about: dict[str, list[set[str]]] = {item: [] for item in ITEMS}
        for rule in book.rules:
            edition = rule.on(day)
            for item in ITEMS:
                if edition is not None and item in edition.items and edition.check is not None:
                    self.rules[item].append(edition.check.spec["all"])
                    self.about[item].append(set(edition.check.facts))
                    self.default = edition.items
        self.items = {
            id(spec): edition.items
            for rule in book.rules
            for edition in rule.editions
            if edition.check
            for spec in edition.check.spec["all"]
        }

    def judge(self, tags: list[Tag]) -> list[str]:
        self.mates: dict[str, list[Tag]] = {"home": [], "visitor": []}
        for tag in tags:
            self.mates[tag.team].append(tag)
        self.looks: dict[Any, int] = {}
        return [self.one(tag) for tag in tags]

    def one(self, tag: Tag) -> str:
        facts = dict(tag.facts)
        told = [not about.isdisjoint(facts) for about in self.about[tag.item]]
        worst = 2
        for checks, mine in zip(self.rules[tag.item], told, strict=True):
            answer = 2
            for check in checks:
                answer = min(answer, self.check(check, tag, facts, True))
            if answer == 1 and not mine and any(told):
                answer = 2
            worst = min(worst, answer)
        return ("illegal", "cannot be told", "legal")[worst]

    def check(self, check: Mapping[str, Any], tag: Tag, facts: Mapping[str, Fact], across: bool) -> int:
        if "when" in check:
            met = self.named(check["when"], tag, facts, across, missing=0)
            if met == 0:
                return 2
            answer = self.named(check, tag, facts, across)
            return answer if met == 2 or answer == 2 else 1
        return self.named(check, tag, facts, across)

    def named(self, check: Mapping[str, Any], tag: Tag, facts: Mapping[str, Fact], across: bool, missing: int = 2) -> int:
        if "any" in check:
            return max(self.check(one, tag, facts, across) for one in check["any"])
        if "all" in check:
            return min(self.check(one, tag, facts, across) for one in check["all"])
        name = check["is"]
        if name == "team_is":
            return 2 if tag.team == check["team"] else 0
        if name == "item_is":
            return 2 if tag.item in check["items"] else 0
        if name == "level_is":
            return 2 if "varsity" in check["levels"] else 0
        if name == "solid":
            if "solid" in facts:
                return 2 if facts["solid"].value else 0
            return 0 if "colour" in facts and len(facts["colour"].value) > 1 else 2
        if name == "one_of_colours":
            return self.one_of_colours(check, tag, facts)
        if name == "similar_to" or name == "same_as":
            mine, theirs = facts.get("colour"), TEAMS[tag.team].facts.get(check["other"])
            if mine is None or theirs is None:
                return 1
            return {0: 0, 4: 2}.get(same(mine.value[0], theirs.value[0], 10.0), 1)
        if name == "contrasts_with":
            if "colour" not in facts:
                return 1
            return {0: 0, 4: 2}.get(stands_out(facts["colour"].value[0], colour_named(check["other"]), 30.0, 20.0), 1)
        if name in ("at_most", "at_least", "count_at_most"):
            fact = facts.get(check.get("fact", "count"))
            if fact is None:
                return missing
            chance = (
                fact.value.chance_at_least(check["limit"]) if name == "at_least" else fact.value.chance_at_most(check["limit"])
            )
            return 2 if chance >= 0.95 else 0 if chance <= 0.05 else 1
        if name in ("yes", "no"):
            fact = facts.get(check["fact"])
            return missing if fact is None else 2 if fact.value is (name == "yes") else 0
        if name in ("is_one_of", "is_none_of", "worn_at", "placed_at"):
            key = check.get("fact", "worn" if name == "worn_at" else "logo_at")
            fact = facts.get(key)
            if fact is None:
                return missing
            return 2 if (fact.value in check.get("values", check.get("places"))) is (name != "is_none_of") else 0
        if name in ("only_if", "no_word_of"):
            given = [facts[key].value for key in check["facts"] if key in facts]
            if any(given):
                return 2 if name == "only_if" else 0
            return 2 if name == "no_word_of" else missing
        if name == "same_across_team":
            return self.across(check, tag) if across and "colour" in facts else 2
        if name == "not_together":
            return 2 if "number" not in facts else 0
        return {"allowed": 2, "not_allowed": 0}.get(name, 1)

    def one_of_colours(self, check: Mapping[str, Any], tag: Tag, facts: Mapping[str, Fact]) -> int:
        if "colour" not in facts:
            return 1
        mine, total, open_word = facts["colour"].value[0], 0.0, False
        chances = [named(mine, name) for name in check.get("colours", ())]
        for word in check.get("team", ()):
            declared = TEAMS[tag.team].facts.get(word)
            if declared is None:
                open_word = True
            else:
                chances.append(same_chance(mine, declared.value[0], 10.0))
        for chance in chances:
            if chance >= 0.95:
                return 2
            total += chance
        return 1 if open_word or total > 0.05 else 0

    def across(self, check: Mapping[str, Any], tag: Tag) -> int:
        items = tuple(check.get("items") or self.items[id(check)])
        if items in (("jersey",), ("undershirt",), ("shorts",)) and items[0] in TEAMS[tag.team].facts:
            declared = TEAMS[tag.team].facts[items[0]].value[0]
            return {0: 0, 4: 2}.get(same(tag.facts["colour"].value[0], declared, 10.0), 1)
        if not self.may_stay(tag):
            return 2
        key = (tag.team, items)
        if key not in self.looks:
            worn = {
                mate.facts["colour"].value[0] for mate in self.mates[tag.team] if mate.item in items and self.may_stay(mate)
            }
            pairs = [same(a, b, 10.0) for a in worn for b in worn]
            self.looks[key] = 0 if 0 in pairs else 2 if all(one == 4 for one in pairs) else 1
        return self.looks[key]

    def may_stay(self, tag: Tag) -> bool:
        colour_checks = [
            check
            for checks in self.rules[tag.item]
            for check in checks
            if check.get("is") in ("one_of_colours", "similar_to", "same_as", "contrasts_with")
        ]
        return all(self.check(check, tag, tag.facts, False) != 0 for check in colour_checks)

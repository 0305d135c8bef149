"""Small makers for the tests of the rules."""

from __future__ import annotations

from datetime import date
from typing import Any

from filmreview.facts.fact import Fact, Origin
from filmreview.facts.keys import read_value
from filmreview.rules.judge import judge
from filmreview.rules.library import book_named
from filmreview.rules.ruling import Ruling, Rulings
from filmreview.rules.tag import Tag, TeamFacts

DAY = date(2024, 1, 10)


def tag(item: str, team: str = "visitor", player: str = "14", name: str = "a", **facts: Any) -> Tag:
    return Tag(name, team, player, item, {key: Fact(key, read_value(key, value)) for key, value in facts.items()})


def teams(**declared: dict[str, Any]) -> dict[str, TeamFacts]:
    return {
        team: TeamFacts({word: Fact(word, read_value("colour", raw), Origin.DECLARED) for word, raw in words.items()})
        for team, words in declared.items()
    }


def ruled(*tags: Tag, day: date = DAY, book: str = "nfhs", level: str | None = None, **declared: dict[str, Any]) -> Rulings:
    return judge(tags, teams(**declared), book_named(book), day, None, level)


def ruling(one: Tag, **options: Any) -> Ruling:
    return ruled(one, **options).rulings[0]

"""The parts that a situation file and a case of a book share: teams, things seen, events, expectations."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from filmreview.errors import FilmReviewError, unknown
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.items import TEAMS, check_item, check_player, check_team
from filmreview.facts.keys import KEYS, read_value
from filmreview.rules.penalty import KINDS
from filmreview.rules.procedures.event import CHARGED_TO, Event, read_event
from filmreview.rules.strict import MARKS, Table
from filmreview.rules.tag import TEAM_WORDS, Tag, TeamFacts

RULINGS: tuple[str, ...] = ("legal", "illegal", "cannot be told")
CONSEQUENCES: tuple[str, ...] = ("none", "fix or leave", "leave", "technical foul", "cannot be told")
SEEN_KEYS: tuple[str, ...] = ("id", "team", "player", "item", *KEYS)
SETTING_KEYS: tuple[str, ...] = ("home", "visitor", "seen", "event", "expect")
_ABOUT_KEYS = ("about", "ruling", "consequence", "rule", "reference", "mark", "adoption", "ahead", "needs", "reasons")
_PENALTY_KEYS = ("team", "kind", "count", "charged_to", "free_throws", "coaching_box", "reference")
_PROCEDURE_KEYS = ("procedure", "departures", "ruling")
_SPOKEN_KINDS = ("team technical foul", "player technical foul", "bench technical foul")


@dataclass(frozen=True)
class Expect:
    """What should come out: about a thing seen, a penalty, or a procedure. Keys and values as written, checked."""

    where: str
    about: str | None = None
    team: str | None = None
    procedure: str | None = None
    values: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True)
class Setting:
    """Teams, what was seen, what happened, what is expected."""

    teams: Mapping[str, TeamFacts]
    tags: tuple[Tag, ...]
    events: tuple[Event, ...]
    expects: tuple[Expect, ...]


def read_setting(table: Table) -> Setting:
    """The parts of a table that holds SETTING_KEYS; raises FilmReviewError in words for whatever is not right."""
    teams = {team: _team(table, team) for team in TEAMS if team in table}
    tags = tuple(_seen(raw, f"{table.where}, seen {place}", place) for place, raw in enumerate(table.tables("seen"), 1))
    known: set[str] = set()
    for tag in tags:
        if tag.id in known:
            raise FilmReviewError(f'a second seen with the id "{tag.id}"', where=table.at("seen"), todo="give each its own id")
        known.add(tag.id)
    events = tuple(read_event(raw, f"{table.where}, event {place}") for place, raw in enumerate(table.tables("event"), 1))
    expects = tuple(
        read_expect(raw, f"{table.where}, expect {place}", [tag.id for tag in tags])
        for place, raw in enumerate(table.tables("expect"), 1)
    )
    return Setting(teams, tags, events, expects)


def read_expect(raw: Mapping[str, Any], where: str, ids: list[str]) -> Expect:
    """One expectation. ids: of the things seen."""
    table = Table(raw, where, tuple(dict.fromkeys((*_ABOUT_KEYS, *_PENALTY_KEYS, *_PROCEDURE_KEYS))))
    if "procedure" in table:
        return _expect_procedure(table)
    if "about" in table:
        return _expect_ruling(table, ids)
    if "team" in table:
        return _expect_penalty(table)
    raise FilmReviewError("does not say about what", where=where, todo='write about = "...", team = "..." or procedure = "..."')


def _team(table: Table, team: str) -> TeamFacts:
    inner = Table(table.table(team), table.at(team), TEAM_WORDS)
    return TeamFacts(
        {word: Fact(word, read_value("colour", raw, inner.at(word)), Origin.DECLARED) for word, raw in inner.raw.items()}
    )


def _seen(raw: Mapping[str, Any], where: str, place: int) -> Tag:
    table = Table(raw, where, SEEN_KEYS)
    facts = {key: Fact(key, read_value(key, value, where)) for key, value in raw.items() if key in KEYS}
    if "number" in facts:
        check_player(str(facts["number"].value), table.at("number"))
    player = check_player(table.text("player"), table.at("player")) if "player" in table else ""
    team = check_team(table.text("team"), table.at("team"))
    item = check_item(table.text("item"), table.at("item"))
    return Tag(table.text_or("id", str(place)), team, player, item, facts)


def _expect_ruling(table: Table, ids: list[str]) -> Expect:
    about = table.text("about")
    if about not in ids:
        raise unknown("id of a seen", about, ids, where=table.at("about"))
    _only(table, _ABOUT_KEYS)
    values: dict[str, Any] = {}
    for key, known in (("ruling", RULINGS), ("consequence", CONSEQUENCES), ("mark", MARKS)):
        if key in table:
            values[key] = table.choice(key, known)
    values |= {key: table.text(key) for key in ("rule", "reference", "adoption") if key in table}
    values |= {key: _words(table, key) for key in ("ahead", "needs", "reasons") if key in table}
    return Expect(table.where, about=about, values=values)


def _expect_penalty(table: Table) -> Expect:
    _only(table, _PENALTY_KEYS)
    values: dict[str, Any] = {}
    if "kind" in table:
        values["kind"] = table.choice("kind", (*KINDS, *_SPOKEN_KINDS))
    if "charged_to" in table:
        values["charged_to"] = table.choice("charged_to", CHARGED_TO)
    if "coaching_box" in table:
        values["coaching_box"] = table.choice("coaching_box", ("lost", "kept"))
    values |= {key: table.whole(key) for key in ("count", "free_throws") if key in table}
    values |= {"reference": table.text("reference")} if "reference" in table else {}
    return Expect(table.where, team=table.choice("team", TEAMS), values=values)


def _expect_procedure(table: Table) -> Expect:
    _only(table, _PROCEDURE_KEYS)
    values: dict[str, Any] = {}
    if "departures" in table:
        values["departures"] = table.whole("departures")
    if "ruling" in table:
        values["ruling"] = table.choice("ruling", RULINGS)
    return Expect(table.where, procedure=table.text("procedure"), values=values)


def _words(table: Table, key: str) -> tuple[str, ...]:
    """A list of words that may be empty: nothing ahead, nothing asked."""
    return () if table.raw[key] == [] else table.texts(key)


def _only(table: Table, keys: tuple[str, ...]) -> None:
    for key in table.raw:
        if key not in keys:
            raise FilmReviewError(
                f'"{key}" does not go with the rest', where=table.where, todo="write it in an expect of its own"
            )

"""The set-up of a game from the words of `filmreview new`."""

from __future__ import annotations

import argparse
from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from pathlib import Path

from filmreview.errors import FilmReviewError, unknown
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.items import check_level, check_player, check_team
from filmreview.facts.keys import parse_value
from filmreview.review.model import TEAM_FACTS, CrewMember, Game, Team


def game_of(given: argparse.Namespace) -> Game:
    """The game as the words describe it; raises FilmReviewError naming the option that is not as it must be."""
    teams = {side: team_of(side, getattr(given, side)) for side in ("home", "visitor")}
    for words in given.kit:
        place, colour = pair(words, "--kit", "TEAM.PART=COLOUR", "home.shorts=white")
        side, _, part = place.partition(".")
        if part not in TEAM_FACTS:
            raise unknown("part of a kit", part, TEAM_FACTS, where="--kit")
        team = teams[check_team(side, "--kit")]
        teams[side] = replace(team, facts={**team.facts, part: declared_colour(colour, "--kit")})
    for words in given.roster:
        side, listed = pair(words, "--roster", "TEAM=4,5,...", "home=4,5,10")
        team = teams[check_team(side, "--roster")]
        numbers = tuple(check_player(number.strip(), "--roster") for number in listed.split(","))
        if twice := next((number for number in numbers if numbers.count(number) > 1), None):
            raise FilmReviewError(f"{twice} stands twice", where="--roster", todo="give each number once")
        teams[side] = replace(team, roster=numbers)
    if teams["home"].name == teams["visitor"].name:
        raise FilmReviewError("both teams have the same name", where="--visitor", todo="give each team its own")
    crew = tuple(CrewMember(*pair(words, "--crew", "POSITION=NAME", "referee=Idrun Mosswell")) for words in given.crew)
    return Game(
        day=day_of(given.day, "--day"),
        level=check_level(given.level, "--level"),
        book=given.book,
        adoption=_adoption(given.adoption),
        home=teams["home"],
        visitor=teams["visitor"],
        crew=crew,
        observer=given.observer,
    )


def _adoption(named: str | None) -> str | None:
    """The adoption as the review keeps it: a file by its whole path, so that it is found from any folder."""
    return str(Path(named).absolute()) if named and Path(named).suffix == ".toml" else named


def day_of(text: str, where: str) -> date:
    """A day written YYYY-MM-DD; raises FilmReviewError for anything else."""
    try:
        day = date.fromisoformat(text)
    except ValueError:
        day = None
    if day is None or day.isoformat() != text:  # Python reads more forms than the help names
        raise FilmReviewError(f'"{text}" is not a day', where=where, todo="write YYYY-MM-DD, such as 2025-01-14")
    return day


def team_of(side: str, words: str) -> Team:
    """A team from NAME=COLOUR."""
    name, colour = pair(words, f"--{side}", "NAME=COLOUR", "Thrunnockby=white")
    return Team(name, {"jersey": declared_colour(colour, f"--{side}")})


def declared_colour(words: str, where: str) -> Fact:
    """A colour, or several with commas between, declared at set-up."""
    return Fact("colour", parse_value("colour", words, where), Origin.DECLARED)


def pair(words: str, where: str, form: str, example: str) -> tuple[str, str]:
    """Both sides of the last "="; raises FilmReviewError when one is missing."""
    left, sign, right = (part.strip() for part in words.rpartition("="))
    if not (left and sign and right):
        raise FilmReviewError(f'"{words}" is not {form}', where=where, todo=f'write such as "{example}"')
    return left, right


def facts_of(given: Iterable[str]) -> tuple[Fact, ...]:
    """Facts seen, from KEY=VALUE words."""
    facts: list[Fact] = []
    for words in given:
        key, sign, value = words.partition("=")
        if not sign or not value.strip():
            raise FilmReviewError(f'"{words}" is not KEY=VALUE', where="--fact", todo="write such as colour=orange")
        if any(fact.key == key.strip() for fact in facts):
            raise FilmReviewError(f'"{key.strip()}" is given twice', where="--fact", todo="several colours: colour=red,white")
        facts.append(Fact(key.strip(), parse_value(key.strip(), value, "--fact"), Origin.SEEN))
    return tuple(facts)

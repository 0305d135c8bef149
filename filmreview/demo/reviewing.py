"""The observer's work on the made-up film, done through the real rooms: set up, look, measure, tag, mark, note events."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from filmreview.colour.difference import ciede2000
from filmreview.colour.palette import colour_named, parse_colour
from filmreview.demo.made_up_game import GAME
from filmreview.demo.observed import EVENTS, KINDS, PUTS, Happened, Put
from filmreview.demo.play import STOPPAGES
from filmreview.demo.truth import code_of, region_of, true_colour, white_of
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.keys import read_value
from filmreview.film.film import Film, Moment, open_film
from filmreview.measure.on_film import Known, measure_on_film
from filmreview.progress import Progress, silent
from filmreview.review import store
from filmreview.review.changes import AddEvent, AddTag, Change, SetReference, Together
from filmreview.review.crew_changes import SetOfficial
from filmreview.review.films import add_film
from filmreview.review.model import CrewMember, CrewResponse, Game, Team
from filmreview.review.stretch_changes import AddStoppage


@dataclass(frozen=True)
class Measured:
    """One measured colour against the truth. name: of the tag. off: CIEDE2000 to the true colour; None when it cannot be told,
    then why_not says why."""

    name: str
    off: float | None
    why_not: str = ""


def game_set_up() -> Game:
    """The made-up game as a reviewer sets it up: kits as worn, rosters, crew."""
    sides = {side: _team(side, name) for side, name in (("home", GAME.home), ("visitor", GAME.visitor))}
    crew = tuple(CrewMember(position, name) for position, name in GAME.crew)
    return Game(GAME.day, GAME.level, GAME.book, None, sides["home"], sides["visitor"], crew, GAME.observer)


def _team(side: str, name: str) -> Team:
    worn = {"jersey": {"home": "white", "visitor": "green"}, "shorts": {"home": "white", "visitor": "green"},
            "trim": {"home": "navy", "visitor": "gold"}, "number_colour": {"home": "white", "visitor": "white"}}  # fmt: skip
    facts = {part: Fact("colour", (colour_named(colours[side]),), Origin.DECLARED) for part, colours in worn.items()}
    return Team(name, facts, tuple(person.number for person in GAME.people if person.team == side))


def put_down(path: Path, film_path: Path, progress: Progress = silent) -> tuple[Measured, ...]:
    """Make the review of the made-up game at a path and put everything down; returns the colours measured.

    Raises FilmReviewError when a file is there already or cannot be written; nothing is left behind then.
    """
    with open_film(film_path) as film, store.create(path, game_set_up(), GAME.observer) as opened:
        try:
            (film_id,) = opened.apply(add_film(film, path))
            measured = []
            for number, put in enumerate(PUTS):
                progress(number / len(PUTS), f"looking at: {put.name}")
                changes, found = _tagged(film, film_id, put)
                made = opened.apply(Together(tuple(changes), f"tag: {put.name}"))
                if put.crew.whose:
                    opened.apply(SetOfficial(made[-1], put.crew.whose))
                measured += found
            opened.apply(Together(tuple(_event(film, film_id, one) for one in EVENTS), "note what happened"))
            opened.apply(Together(tuple(_stoppages(film, film_id)), "set the stoppages"))
        except BaseException:
            path.unlink(missing_ok=True)
            raise
    return tuple(measured)


def _tagged(film: Film, film_id: str, put: Put) -> tuple[list[Change], list[Measured]]:
    """The changes that put one tag down, and the colour measured for it."""
    moment, region, white = _at(film, put.second), region_of(put), white_of(put)
    changes: list[Change] = []
    facts: tuple[Fact, ...] = ()
    found: list[Measured] = []
    if white is not None:
        changes.append(SetReference(film_id, moment, white, colour_named("white")))
    if put.measured:
        known = None if white is None else Known(moment, white, colour_named("white"))
        measured, _ = measure_on_film(film, moment, region, known)
        facts = measured.facts()
        found = [Measured(put.name, _off(put, measured.colour.lab) if measured.colour else None, measured.why_not)]
    seen = tuple(Fact(key, read_value(key, raw, put.name), Origin.SEEN) for key, raw in put.seen.items())
    person = GAME.person(put.who)
    crew = CrewResponse(put.crew.mark, None if put.crew.at is None else _at(film, put.crew.at), put.crew.did)
    changes.append(AddTag(film_id, moment, person.team, person.number, put.item, region, (*facts, *seen), put.note, crew))
    return changes, found


def _off(put: Put, lab: tuple[float, float, float]) -> float:
    return float(ciede2000(lab, parse_colour(code_of(true_colour(put))).lab))


def _stoppages(film: Film, film_id: str) -> Iterator[AddStoppage]:
    for (start, end), kind in zip(STOPPAGES, KINDS, strict=True):
        yield AddStoppage(film_id, _at(film, start), _at(film, end), kind)


def _event(film: Film, film_id: str, one: Happened) -> AddEvent:
    person = next((person for person in GAME.people if person.key == one.who), None)
    if person is None:
        return AddEvent(film_id, _at(film, one.second), one.what, one.who or None)
    return AddEvent(film_id, _at(film, one.second), one.what, person.team, person.number)


def _at(film: Film, second: float) -> Moment:
    return film.moment_at(Fraction(str(second)))

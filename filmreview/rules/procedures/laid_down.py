"""Procedures as the books lay them down: reading the TOML files beside this module, and the edition in force on a day."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cache
from importlib.resources import files
from itertools import pairwise
from typing import Any

from filmreview.errors import FilmReviewError, unknown

MARKS: tuple[str, ...] = ("published", "memory", "unsure", "deduced")
COVERS: tuple[str, ...] = ("own time-out", "any time-out", "nothing")
TRIGGERS: tuple[str, ...] = ("always", "staff enters", "staff beckoned or enters", "directed to leave", "never")
_TOP = ("name", "also_called", "title", "says", "verified_to", "edition")
_EDITION = (
    "from", "published", "reference", "source", "mark", "checked", "step", "path", "ends", "clock", "leaves_when",
    "covered_by", "technicals", "gap",
)  # fmt: skip
_CLOCK = ("name", "seconds", "or_seconds", "from", "reference")


@dataclass(frozen=True)
class Clock:
    """A clock of a procedure. seconds: its length; or_seconds: another length that sources give, None = settled."""

    name: str
    seconds: int
    runs_from: str
    reference: str
    or_seconds: int | None = None


@dataclass(frozen=True)
class Step:
    """One step: who acts, and what is done, in our own words."""

    who: str
    does: str


@dataclass(frozen=True)
class Edition:
    """A procedure from one season on.

    leaves_when: what makes the player leave, one of `TRIGGERS`. covered_by: whose time-out keeps the player in, one of
    `COVERS`. technicals: how many technical fouls a team the book asks for, None = it does not speak of any. gap: words when
    the book here has no text.
    """

    procedure: str
    also_called: tuple[str, ...]
    first_day: date
    season: str
    reference: str
    source: str
    mark: str
    steps: tuple[Step, ...] = ()
    paths: tuple[str, ...] = ()
    ends: str = ""
    clocks: Mapping[str, Clock] = field(default_factory=dict)
    leaves_when: str = "directed to leave"
    covered_by: str = "nothing"
    technicals: int | None = None
    gap: str | None = None

    def clock(self, name: str) -> Clock | None:
        """The clock of that name, None when this edition has none."""
        return self.clocks.get(name)


@dataclass(frozen=True)
class Procedure:
    """One procedure of one book, with its editions in order of their first day."""

    name: str
    title: str
    says: str
    also_called: tuple[str, ...]
    verified_to: date
    editions: tuple[Edition, ...]

    def on(self, day: date) -> Edition | None:
        """The edition in force; None before the first. Later than the last day verified, the mark is "unsure"."""
        in_force = [edition for edition in self.editions if edition.first_day <= day]
        if not in_force:
            return None
        edition = replace(in_force[-1], season=season_of(day))
        return edition if day <= self.verified_to else replace(edition, mark="unsure")


def season_of(day: date) -> str:
    """ "2023-24" for a day from 1 July 2023 to 30 June 2024."""
    first = day.year if day.month >= 7 else day.year - 1
    return f"{first}-{(first + 1) % 100:02d}"


@cache
def procedures_of(book: str) -> Mapping[str, Procedure]:
    """Every procedure of a shipped book by name; empty for a book without any."""
    folder = files("filmreview.rules.procedures").joinpath(book)
    if not folder.is_dir():
        return {}
    found = sorted((entry for entry in folder.iterdir() if _is_procedure(entry.name)), key=lambda entry: entry.name)
    read = [read_procedure(entry.read_text(encoding="utf-8"), f"{book}/{entry.name}") for entry in found]
    sources = tomllib.loads(files("filmreview.rules").joinpath("books", book, "sources.toml").read_text(encoding="utf-8"))
    return {procedure.name: _in_full(procedure, sources) for procedure in read}


def title_of(book: str, name: str) -> str:
    """What a procedure of a shipped book is called for people; its name where the book lays down none by that name."""
    procedure = procedures_of(book).get(name)
    return procedure.title if procedure else name


def _in_full(procedure: Procedure, sources: Mapping[str, str]) -> Procedure:
    """The same with every source code of the book ("S24") written out: what is shown to a person holds no codes."""
    code = re.compile(rf"\b({'|'.join(map(re.escape, sources))})\b")
    editions = [replace(one, source=code.sub(lambda found: sources[found[0]], one.source)) for one in procedure.editions]
    return replace(procedure, editions=tuple(editions))


def in_force(book: str, day: date) -> tuple[tuple[Procedure, Edition], ...]:
    """Every procedure of a shipped book with its edition of the day, gaps included, by title: for showing."""
    found = [(one, edition) for one in procedures_of(book).values() if (edition := one.on(day)) is not None]
    return tuple(sorted(found, key=lambda pair: pair[0].title))


def _is_procedure(file_name: str) -> bool:
    return file_name.endswith(".toml") and not file_name.endswith(".cases.toml")


def read_procedure(text: str, where: str) -> Procedure:
    """Read one procedure file; raises FilmReviewError with file and key for anything it does not know or lacks."""
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as problem:
        raise FilmReviewError(f"not TOML: {problem}", where=where) from None
    _known_keys(raw, _TOP, where)
    name = _need(raw, "name", str, where)
    called = tuple(raw.get("also_called", ()))
    editions = tuple(_edition(one, name, called, f"{where}, edition {n}") for n, one in enumerate(raw.get("edition", []), 1))
    if not editions:
        raise FilmReviewError("no [[edition]]", where=where, todo="add one with the day it applies from")
    for earlier, later in pairwise(editions):
        if later.first_day <= earlier.first_day:
            raise FilmReviewError(
                f"the edition from {later.first_day} is out of order", where=where, todo="put the oldest first"
            )
    verified = _need(raw, "verified_to", date, where)
    return Procedure(name, _need(raw, "title", str, where), _need(raw, "says", str, where), called, verified, editions)


def _edition(raw: Mapping[str, Any], name: str, called: tuple[str, ...], where: str) -> Edition:
    _known_keys(raw, _EDITION, where)
    first_day = _need(raw, "from", date, where)
    return Edition(
        procedure=name,
        also_called=called,
        first_day=first_day,
        season=season_of(first_day),
        reference=_need(raw, "reference", str, where),
        source=_need(raw, "source", str, where),
        mark=_one_of(_need(raw, "mark", str, where), MARKS, "mark", where),
        steps=tuple(Step(_need(one, "who", str, where), _need(one, "does", str, where)) for one in raw.get("step", [])),
        paths=tuple(raw.get("path", ())),
        ends=raw.get("ends", ""),
        clocks={clock.name: clock for clock in _clocks(raw, where)},
        leaves_when=_one_of(raw.get("leaves_when", "directed to leave"), TRIGGERS, "leaves_when", where),
        covered_by=_one_of(raw.get("covered_by", "nothing"), COVERS, "covered_by", where),
        technicals=raw.get("technicals"),
        gap=raw.get("gap"),
    )


def _clocks(raw: Mapping[str, Any], where: str) -> tuple[Clock, ...]:
    clocks = []
    for one in raw.get("clock", []):
        _known_keys(one, _CLOCK, where)
        reference = one.get("reference", raw["reference"])
        seconds = _need(one, "seconds", int, where)
        clocks.append(
            Clock(_need(one, "name", str, where), seconds, _need(one, "from", str, where), reference, one.get("or_seconds"))
        )
    return tuple(clocks)


def _known_keys(raw: Mapping[str, Any], known: tuple[str, ...], where: str) -> None:
    for key in raw:
        if key not in known:
            raise unknown("key", key, known, where=where)


def _need(raw: Mapping[str, Any], key: str, kind: type[Any], where: str) -> Any:
    value = raw.get(key)
    if not isinstance(value, kind) or value == "":
        todo = "write a date without quotation marks" if kind is date else f'add {key} = "..."'
        raise FilmReviewError(f'"{key}" is missing or not what it must be', where=where, todo=todo)
    return value


def _one_of(value: str, known: tuple[str, ...], kind: str, where: str) -> str:
    if value not in known:
        raise unknown(kind, value, known, where=where)
    return value

"""What comes out of a procedure: the path taken, the departures, and what is missing to tell."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from filmreview.rules.procedures.laid_down import Edition, Procedure


@dataclass(frozen=True)
class Departure:
    """One thing done otherwise than the book asks.

    procedure: its name. what: what happened. asks: what the book asks. at: film time in seconds.
    seconds: over the clock of the book, None where no clock is in it.
    """

    procedure: str
    what: str
    asks: str
    at: Fraction
    reference: str
    source: str
    mark: str
    seconds: Fraction | None = None

    def to_json(self) -> dict[str, Any]:
        """Plain data; times as numbers of seconds to the millisecond."""
        return {
            "what": self.what,
            "asks": self.asks,
            "reference": self.reference,
            "seconds": _number(self.seconds),
            "at": _number(self.at),
            "procedure": self.procedure,
            "source": self.source,
            "mark": self.mark,
        }


@dataclass(frozen=True)
class Missing:
    """What would have to be known. event: an event word, or a few words for a fact. why: what hangs on it."""

    event: str
    why: str


@dataclass(frozen=True)
class ProcedureResult:
    """What the crew did, laid beside the book.

    name: the procedure that the events start; names: every procedure that was followed, the first one first.
    path: in words, the way taken through the book. edition: season in force. gap: set when the book here has no text.
    """

    name: str
    names: tuple[str, ...]
    path: str
    departures: tuple[Departure, ...]
    missing: tuple[Missing, ...]
    edition: str
    reference: str
    source: str
    mark: str
    also_called: tuple[str, ...] = ()
    gap: str | None = None

    @property
    def ruling(self) -> str:
        """ "illegal" with a departure, "cannot be told" when something is missing or the book has a gap, else "legal"."""
        if self.departures:
            return "illegal"
        return "cannot be told" if self.missing or self.gap else "legal"

    def is_called(self, name: str) -> bool:
        """True when any followed procedure goes by this name, or by one whose words hold all of its words or the other way
        round ("blood on a player" for "blood"); capitals and hyphens do not matter."""
        given = _words(name)
        return bool(given) and any(
            given <= known or known <= given for known in (_words(one) for one in (*self.names, *self.also_called))
        )

    def to_json(self) -> dict[str, Any]:
        """Plain data for `--json` and the sheet."""
        return {
            "name": self.name,
            "names": list(self.names),
            "path": self.path,
            "ruling": self.ruling,
            "departures": [departure.to_json() for departure in self.departures],
            "missing": [{"event": one.event, "why": one.why} for one in self.missing],
            "edition": self.edition,
            "reference": self.reference,
            "source": self.source,
            "mark": self.mark,
            "gap": self.gap,
        }


@dataclass(frozen=True)
class Followed:
    """What one procedure gives by itself; `run` puts several together. measured: a clock of it was read and not over."""

    law: Edition
    path: str = ""
    departures: tuple[Departure, ...] = ()
    missing: tuple[Missing, ...] = ()
    measured: bool = False

    def but(self, *departures: Departure, missing: tuple[Missing, ...] = ()) -> Followed:
        """The same with more departures or missing events."""
        return replace(self, departures=(*self.departures, *departures), missing=(*self.missing, *missing))


def departure(law: Edition, what: str, asks: str, at: Fraction, seconds: Fraction | None = None) -> Departure:
    """A departure from this edition's text."""
    return Departure(law.procedure, what, asks, at, law.reference, law.source, law.mark, seconds)


def joined(first: Procedure, edition: Edition, parts: tuple[Followed, ...]) -> ProcedureResult:
    """One result of several followed procedures; the same departure told twice is kept once."""
    departures: dict[tuple[Fraction, str], Departure] = {}
    missing: dict[str, Missing] = {}
    for part in parts:
        for one in part.departures:
            departures.setdefault((one.at, one.what), one)
        for gone in part.missing:
            missing.setdefault(gone.event, gone)
    names = tuple(dict.fromkeys((first.name, *(part.law.procedure for part in parts))))
    called = tuple(dict.fromkeys(name for part in parts for name in part.law.also_called))
    return ProcedureResult(
        name=first.name,
        names=names,
        path="; ".join(dict.fromkeys(part.path for part in parts if part.path)),
        departures=tuple(sorted(departures.values(), key=lambda one: one.at)),
        missing=tuple(missing.values()),
        edition=edition.season,
        reference=edition.reference,
        source=edition.source,
        mark=edition.mark,
        also_called=called,
    )


def _words(name: str) -> frozenset[str]:
    return frozenset(name.casefold().replace("-", " ").split())


def _number(seconds: Fraction | None) -> float | None:
    return None if seconds is None else round(float(seconds), 3)

"""Every case beside the procedures; and that there are enough of them to notice a changed value."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from importlib.resources import files
from typing import Any

import pytest

from filmreview.rules.procedures import charges, laid_down, run
from filmreview.rules.procedures.event import Event, Found, read_event
from filmreview.rules.procedures.laid_down import COVERS, TRIGGERS, Edition, Procedure, procedures_of

BOOKS = ("nfhs", "ncaa-men", "ncaa-women", "fiba")
EXPECT_KEYS = {"day", "departures", "seconds", "what", "missing", "ruling", "path", "reference", "mark", "called"}


@dataclass(frozen=True)
class Case:
    book: str
    file: str
    title: str
    events: tuple[Event, ...]
    found: tuple[Found, ...]
    expect: dict[str, Any]

    @property
    def day(self) -> date:
        return self.expect["day"]

    def __str__(self) -> str:
        return f"{self.book}/{self.file}: {self.title} on {self.day}"


def read_cases() -> list[Case]:
    cases = []
    for book in BOOKS:
        folder = files("filmreview.rules.procedures").joinpath(book)
        for entry in sorted(folder.iterdir(), key=lambda entry: entry.name):
            if not entry.name.endswith(".cases.toml"):
                continue
            for raw in tomllib.loads(entry.read_text(encoding="utf-8"))["case"]:
                assert raw["source"], raw["title"]
                events = tuple(read_event(one, raw["title"]) for one in raw["events"])
                found = tuple(Found(**one) for one in raw.get("found", ()))
                for expect in raw["on"]:
                    assert set(expect) <= EXPECT_KEYS, (raw["title"], set(expect) - EXPECT_KEYS)
                    cases.append(Case(book, entry.name.removesuffix(".cases.toml"), raw["title"], events, found, expect))
    return cases


def differences(case: Case) -> list[str]:
    """What a run gives otherwise than the case expects; empty when all is as expected."""
    result = run.run(case.events, book=case.book, day=case.day, found=case.found)
    if result is None:
        return ["no procedure"]
    told = [one.what for one in result.departures]
    got: list[tuple[str, object, object]] = [("departures", case.expect["departures"], len(told))]
    if "seconds" in case.expect:
        got.append(
            ("seconds", case.expect["seconds"], [float(one.seconds) for one in result.departures if one.seconds is not None])
        )
    if "missing" in case.expect:
        got.append(("missing", set(case.expect["missing"]), {one.event for one in result.missing}))
    for key in ("ruling", "path", "reference", "mark"):
        if key in case.expect:
            mine = getattr(result, key)
            got.append((key, case.expect[key], mine if key != "path" else mine.split("; ")[0]))
    wrong = [f"{key}: expected {want}, got {have} {told}" for key, want, have in got if want != have]
    wrong += [
        f"no departure tells {words!r}: {told}"
        for words in case.expect.get("what", ())
        if not any(words in one for one in told)
    ]
    wrong += [f"is not called {name!r}" for name in case.expect.get("called", ()) if not result.is_called(name)]
    return wrong


def own_procedure(case: Case) -> Any:
    """The procedure of the file that the case stands beside."""
    text = files("filmreview.rules.procedures").joinpath(case.book, f"{case.file}.toml").read_text(encoding="utf-8")
    return procedures_of(case.book)[tomllib.loads(text)["name"]]


CASES = read_cases()


@pytest.mark.parametrize("case", CASES, ids=str)
def test_case(case: Case) -> None:
    assert differences(case) == []


def test_every_edition_has_a_case_on_its_first_day_and_on_its_eve() -> None:
    days = {(own_procedure(case).name, case.book, case.day) for case in CASES}
    lacking = []
    for book in BOOKS:
        for procedure in procedures_of(book).values():
            for number, edition in enumerate(one for one in procedure.editions if one.gap is None):
                wanted = [edition.first_day] + ([edition.first_day - timedelta(days=1)] if number else [])
                lacking += [(book, procedure.name, day) for day in wanted if (procedure.name, book, day) not in days]
    assert lacking == []


def test_every_value_names_its_source() -> None:
    for book in BOOKS:
        for procedure in procedures_of(book).values():
            assert all(edition.source and edition.reference and edition.mark for edition in procedure.editions), procedure.name
            assert all(edition.steps or edition.gap for edition in procedure.editions), procedure.name


def changed_editions(edition: Edition) -> Iterator[tuple[str, Edition]]:
    """Every value of an edition changed a little."""
    for name, clock in edition.clocks.items():
        for by in (-1, 1):
            changed = replace(clock, seconds=clock.seconds + by)
            yield f"{name} {by:+d} s", replace(edition, clocks={**edition.clocks, name: changed})
        if clock.or_seconds is not None:
            changed = replace(clock, or_seconds=clock.or_seconds + 1)
            yield f"{name} other reading +1 s", replace(edition, clocks={**edition.clocks, name: changed})
    if edition.technicals is not None:
        yield "technicals +1", replace(edition, technicals=edition.technicals + 1)
    if edition.leaves_when in ("always", "staff enters", "staff beckoned or enters"):
        for trigger in TRIGGERS:
            if trigger != edition.leaves_when and trigger in ("never", "staff enters", "staff beckoned or enters"):
                yield f"leaves when {trigger}", replace(edition, leaves_when=trigger)
        for cover in COVERS:
            if cover != edition.covered_by:
                yield f"covered by {cover}", replace(edition, covered_by=cover)
    for by in (-1, 1):
        yield f"from {by:+d} day", replace(edition, first_day=edition.first_day + timedelta(days=by))


def mutants() -> Iterator[tuple[str, str, str, Procedure]]:
    for book in BOOKS:
        for procedure in procedures_of(book).values():
            for number, edition in enumerate(procedure.editions):
                if edition.gap is not None:
                    continue
                for what, changed in changed_editions(edition):
                    if what == "from -1 day" and number == 0:
                        continue  # no case can stand before the book
                    editions = (*procedure.editions[:number], changed, *procedure.editions[number + 1 :])
                    yield (
                        f"{book}/{procedure.name} {edition.season}: {what}",
                        book,
                        procedure.name,
                        replace(procedure, editions=editions),
                    )


# Values that two neighbouring editions share: their date shows only in the reference, the mark or the text.
@pytest.mark.parametrize("mutant", list(mutants()), ids=lambda mutant: mutant[0])
def test_a_changed_value_makes_a_case_fail(mutant: tuple[str, str, str, Procedure], monkeypatch: pytest.MonkeyPatch) -> None:
    _, book, name, procedure = mutant
    true = procedures_of

    def changed(asked: str) -> Mapping[str, Procedure]:
        return {**true(asked), name: procedure} if asked == book else true(asked)

    for module in (run, charges, laid_down):
        monkeypatch.setattr(module, "procedures_of", changed)
    assert any(differences(case) for case in CASES if case.book == book)

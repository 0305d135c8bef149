"""Compare what came out with what was expected."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from filmreview.rules.penalty import Penalty
from filmreview.rules.ruling import Ruling
from filmreview.rules.setting import Expect
from filmreview.rules.situation_ruling import Ruled


def differences(expects: Iterable[Expect], ruled: Ruled) -> list[str]:
    """One line for everything that came out otherwise; empty when all holds."""
    return [line for expect in expects for line in _compared(expect, ruled)]


def held(expects: Iterable[Expect], ruled: Ruled) -> int:
    """How many of the expectations hold in full."""
    return sum(not any(True for _ in _compared(expect, ruled)) for expect in expects)


def _compared(expect: Expect, ruled: Ruled) -> Iterator[str]:
    if expect.about is not None:
        ruling = next(one for one in ruled.rulings.rulings if one.id == expect.about)
        return _ruling(expect, ruling)
    if expect.team is not None:
        return _penalty(expect, ruled.rulings.penalties)
    return _procedure(expect, ruled)


def _ruling(expect: Expect, ruling: Ruling) -> Iterator[str]:
    for key, wanted in expect.values.items():
        got: Any = getattr(ruling, key)
        if key == "ahead":
            got = tuple(one.rule for one in ruling.ahead)
        elif key == "needs":
            got = tuple(one.fact for one in ruling.needs)
            if set(wanted) <= set(got) and wanted:
                continue
        elif key == "reasons" and all(any(_says(reason, one) for reason in got) for one in wanted):
            continue
        if got != wanted:
            why = f" ({ruling.reasons[0]})" if ruling.reasons else ""
            yield f'{expect.where}: "{expect.about}" {key}: expected {_show(wanted)}, got {_show(got)}{why}'


def _says(reason: str, wanted: str) -> bool:
    """Whether a sentence is the wanted one, or begins so when that ends in an ellipsis."""
    return reason.startswith(wanted[:-1]) if wanted.endswith("…") else reason == wanted


def _penalty(expect: Expect, penalties: Iterable[Penalty]) -> Iterator[str]:
    values = dict(expect.values)
    count = values.pop("count", None)
    mine = [one for one in penalties if one.team == expect.team and _is_kind(one, values.get("kind"))]
    found = sum(one.count for one in mine if "charged_to" not in values or one.charged_to == values["charged_to"])
    if count is not None and found != count:
        yield f"{expect.where}: {expect.team} penalties: expected {count}, got {found}"
    if count == 0:
        return
    if not mine:
        yield f"{expect.where}: {expect.team} penalties: expected {values.get('kind', 'one')}, got none"
        return
    for key in ("charged_to", "free_throws", "coaching_box", "reference"):
        if key in values and all(getattr(one, key) != values[key] for one in mine):
            got = ", ".join(_show(getattr(one, key)) for one in mine)
            yield f"{expect.where}: {expect.team} {key}: expected {_show(values[key])}, got {got}"


def _is_kind(penalty: Penalty, kind: str | None) -> bool:
    """ "team technical foul" is a technical foul charged to the team; "technical foul" is any kind of it."""
    if kind is None or penalty.kind == kind:
        return True
    if kind == "technical foul":
        return penalty.kind.endswith(kind)
    return f"{penalty.charged_to} {penalty.kind}" == kind


def _procedure(expect: Expect, ruled: Ruled) -> Iterator[str]:
    procedure = ruled.procedure
    name = expect.procedure or ""
    if procedure is None or not procedure.is_called(name):
        got = "no procedure" if procedure is None else ", ".join(procedure.names)
        yield f"{expect.where}: procedure: expected {name}, got {got}"
        return
    wanted = expect.values.get("departures")
    if wanted is not None and len(procedure.departures) != wanted:
        said = "; ".join(one.what for one in procedure.departures)
        got = f"{len(procedure.departures)} ({said})" if said else "0"
        yield f"{expect.where}: {name} departures: expected {wanted}, got {got}"
    ruling = expect.values.get("ruling")
    if ruling is not None and procedure.ruling != ruling:
        yield f"{expect.where}: {name} ruling: expected {ruling}, got {procedure.ruling}"


def _show(value: object) -> str:
    return ", ".join(str(one) for one in value) or "nothing" if isinstance(value, tuple) else str(value)

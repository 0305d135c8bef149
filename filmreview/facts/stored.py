"""Facts as plain JSON data, for the review file and for output."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from filmreview.colour.value import Colour
from filmreview.facts.fact import Amount, Fact, Origin, Value
from filmreview.facts.keys import KEYS, Kind


def fact_to_json(fact: Fact) -> dict[str, Any]:
    """{"key": , "value": , "origin": , "why": }; a colour as {"name", "lab"} and, when measured, "covariance" and "names"."""
    return {"key": fact.key, "value": _value_to_json(fact.value), "origin": fact.origin.value, "why": fact.why}


def fact_from_json(data: Mapping[str, Any]) -> Fact:
    """The inverse of `fact_to_json`."""
    value = _value_from_json(KEYS[data["key"]].kind, data["value"])
    return Fact(data["key"], value, Origin(data["origin"]), data.get("why", ""))


def colour_to_json(colour: Colour) -> dict[str, Any]:
    """{"name": , "lab": [L, a, b]} and, when measured, "covariance" (3x3) and "names" ([[name, probability], ...])."""
    data: dict[str, Any] = {"name": colour.name, "lab": list(colour.lab)}
    if colour.covariance is not None:
        data["covariance"] = [list(row) for row in colour.covariance]
        data["names"] = [list(pair) for pair in colour.names]
    return data


def colour_from_json(data: Mapping[str, Any]) -> Colour:
    """The inverse of `colour_to_json`."""
    lab = (float(data["lab"][0]), float(data["lab"][1]), float(data["lab"][2]))
    if "covariance" not in data:
        return Colour(lab, data["name"])
    rows = [(float(row[0]), float(row[1]), float(row[2])) for row in data["covariance"]]
    names = tuple((str(name), float(chance)) for name, chance in data["names"])
    return Colour(lab, data["name"], (rows[0], rows[1], rows[2]), names)


def _value_to_json(value: Value) -> Any:
    if isinstance(value, Amount):
        return {"value": value.value, "plus_minus": value.plus_minus}
    if isinstance(value, tuple):
        return [colour_to_json(part) if isinstance(part, Colour) else part for part in value]
    return value


def _value_from_json(kind: Kind, data: Any) -> Value:
    if kind is Kind.COLOURS:
        return tuple(colour_from_json(part) for part in data)
    if kind is Kind.AMOUNT:
        return Amount(float(data["value"]), float(data["plus_minus"]))
    if isinstance(data, bool):
        return data
    return str(data)

"""Every single value of a book or an adoption, changed a little: what `test_books_mutation.py` tries, one change at a time.

Changed are: first days and days of publication by a day, limits by 1 % (whole counts by 1), each entry of a list left out, each
check, condition and part of a condition left out or turned round, references, groups, and everything a breach costs. Not
changed: words, sources, marks.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from typing import Any

from filmreview.facts.keys import KEYS
from filmreview.rules.book import COSTS
from filmreview.rules.penalty import KINDS

DAY = timedelta(days=1)
Path = tuple[str | int, ...]
Change = tuple[Path, Any, str]
"""Where in the file's table, the new value (LEFT_OUT to leave it out), in words."""
LEFT_OUT = object()
_WORDS = ("code", "title", "says", "source", "mark", "checked", "id", "about", "readings", "then", "todo", "book")
_TURNED: Mapping[str, str] = {
    "yes": "no", "no": "yes", "at_most": "at_least", "at_least": "at_most", "allowed": "not_allowed", "not_allowed": "allowed",
    "is_one_of": "is_none_of", "is_none_of": "is_one_of", "same_as": "differs_from", "differs_from": "same_as",
    "lightness_at_least": "lightness_at_most", "lightness_at_most": "lightness_at_least",
    "gap": "allowed", "disputed": "allowed",
}  # fmt: skip
_OTHER: Mapping[str, tuple[Any, ...]] = {
    "costs": COSTS,
    "otherwise": COSTS,
    "per": ("team", "player"),
    "charged_to": ("team", "head coach", "player"),
    "coaching_box": ("lost", "kept"),
    "kind": KINDS,
    "before": ("gap", "no rule"),
    "needed": (True, False),
    "if_known": (True, False),
    "team": ("home", "visitor"),
}
"""Keys of one value among few: each of the others is tried."""


def changes(node: Any, groups: tuple[str, ...], path: Path = ()) -> Iterator[Change]:
    """Every change of a rule's, a group's or an adoption's table. groups: codes that a rule could name instead."""
    pairs = list(node.items() if isinstance(node, dict) else enumerate(node))
    for key, value in pairs:
        here = (*path, key)
        if key in _WORDS:
            continue
        if key == "reference":
            yield here, "99-9-9", "renumbered"
        elif key == "group" and isinstance(value, str):
            yield from ((here, other, f"-> {other}") for other in groups if other != value)
        elif key in _OTHER and not isinstance(value, list):
            yield from ((here, other, f"-> {other}") for other in _OTHER[key] if other != value)
        elif key == "is":
            if value in _TURNED:
                yield here, _TURNED[value], f"{value} -> {_TURNED[value]}"
        else:
            yield from _of_value(value, here, groups, whole=key == "free_throws" or _counts(node))
        yield from _without(key, value, here)


def _counts(node: Any) -> bool:
    """Whether the limit of this check is a number of pieces."""
    if not isinstance(node, dict):
        return False
    return node.get("is") in ("count_at_most", "colours_at_most") or (
        node.get("fact") in KEYS and KEYS[node["fact"]].unit == "pieces"
    )


def _of_value(value: Any, here: Path, groups: tuple[str, ...], *, whole: bool) -> Iterator[Change]:
    if isinstance(value, date):
        yield from ((here, value + by * DAY, f"{by:+d} day") for by in (-1, 1))
    elif isinstance(value, int | float) and not isinstance(value, bool):
        step = 1 if whole else max(value * 0.01, 0.01)
        yield from ((here, value + by * step, f"{value} -> {value + by * step:g}") for by in (-1, 1) if value + by * step >= 0)
    elif isinstance(value, list) and all(isinstance(one, str) for one in value):
        if len(value) > 1:
            yield from ((here, [one for one in value if one != gone], f"without {gone}") for gone in value)
    elif isinstance(value, list | dict):
        yield from changes(value, groups, here)


def _without(key: str | int, value: Any, here: Path) -> Iterator[Change]:
    if key in ("when", "trigger", "published", "until", "levels", "disputed", "change", "rule", "limits") and not (
        key == "rule" and isinstance(value, str)
    ):
        yield here, LEFT_OUT, "left out"
    if key in ("check", "all", "any") and isinstance(value, list) and len(value) > 1:
        yield from (((*here, place), LEFT_OUT, "left out") for place in range(len(value)))
    if key in ("all", "any") and len(value) > 1:
        yield (*here[:-1], "all" if key == "any" else "any"), (key, value), f"{key} -> {'all' if key == 'any' else 'any'}"
    if key in ("repealed", "no_limit"):
        yield (*here[:-1], "as_before"), (key, True), f"{key} -> as_before"


def put(raw: Mapping[str, Any], change: Change) -> dict[str, Any]:
    """The table with the change."""
    path, value, _ = change
    new = copy.deepcopy(dict(raw))
    node: Any = new
    for key in path[:-1]:
        node = node[key]
    if value is LEFT_OUT:
        del node[path[-1]]
    elif isinstance(value, tuple):  # one key gives way to another
        old, kept = value
        del node[old]
        node[path[-1]] = kept
    else:
        node[path[-1]] = value
    return new


def as_toml(value: Any) -> str:
    """A table as TOML, everything below its first level on one line."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'
    if isinstance(value, dict):
        return "{ " + ", ".join(f'"{key}" = {as_toml(one)}' for key, one in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(as_toml(one) for one in value) + "]"
    return value.isoformat() if isinstance(value, date) else repr(value)

"""The closed list of fact keys, what each may hold, and reading a value from a file or a command line."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from filmreview.colour.palette import parse_colour
from filmreview.errors import FilmReviewError, unknown
from filmreview.facts.fact import Amount, Value


class Kind(StrEnum):
    """What a fact key holds."""

    COLOURS = "colours"
    AMOUNT = "amount"
    YES_NO = "yes or no"
    CHOICE = "one of a list"
    NUMBER_TEXT = "player number"


@dataclass(frozen=True)
class Key:
    """One fact key. words: how a screen asks for it. unit: of an amount. choices: of a choice, in the order shown."""

    name: str
    kind: Kind
    words: str
    unit: str = ""
    choices: tuple[str, ...] = ()


def _keys(*keys: Key) -> Mapping[str, Key]:
    return {key.name: key for key in keys}


_NECKLINE_PLACES = ("apex of neckline", "front shoulder", "back neckline", "side insert", "above number", "other")
_LETTERED = ("nothing", "school name", "nickname", "mascot name", "player name", "abbreviation", "mascot", "logo", "other")
_WORN = ("forehead", "crown", "neck", "wrist", "forearm", "above elbow", "upper arm", "hand", "elbow", "knee", "lower leg")

KEYS: Mapping[str, Key] = _keys(
    Key("colour", Kind.COLOURS, "colour"),
    Key("solid", Kind.YES_NO, "one solid colour"),
    Key("number", Kind.NUMBER_TEXT, "number shown"),
    Key("number_style", Kind.CHOICE, "number style",
        choices=("solid", "solid with border", "solid with shadow", "jersey colour with border")),
    Key("border_colours", Kind.COLOURS, "border colours"),
    Key("border_in", Kind.AMOUNT, "border width", "in"),
    Key("width_in", Kind.AMOUNT, "width", "in"),
    Key("height_in", Kind.AMOUNT, "height", "in"),
    Key("stroke_in", Kind.AMOUNT, "stroke width", "in"),
    Key("side_in", Kind.AMOUNT, "longest side", "in"),
    Key("area_sq_in", Kind.AMOUNT, "area", "sq in"),
    Key("worn", Kind.CHOICE, "worn at", choices=_WORN),
    Key("count", Kind.AMOUNT, "how many", "pieces"),
    Key("logos", Kind.AMOUNT, "logos seen", "pieces"),
    Key("hard", Kind.YES_NO, "hard"),
    Key("padded", Kind.YES_NO, "padded"),
    Key("altered", Kind.YES_NO, "altered"),
    Key("secured", Kind.YES_NO, "secured close to the head"),
    Key("medical", Kind.YES_NO, "worn for a medical reason"),
    Key("religious", Kind.YES_NO, "worn for a religious reason"),
    Key("approved", Kind.YES_NO, "approved by the state association"),
    Key("taped", Kind.YES_NO, "taped to the body"),
    Key("under_uniform", Kind.YES_NO, "under the uniform"),
    Key("tucked", Kind.YES_NO, "tucked in"),
    Key("rolled", Kind.YES_NO, "rolled at the waist"),
    Key("hazard", Kind.YES_NO, "a hazard"),
    Key("blood", Kind.CHOICE, "blood", choices=("none", "some", "excessive")),
    Key("above_number", Kind.CHOICE, "above the number", choices=_LETTERED),
    Key("below_number", Kind.CHOICE, "below the number", choices=_LETTERED),
    Key("lettering", Kind.CHOICE, "lettering", choices=("horizontal", "vertical", "wraps side")),
    Key("centred", Kind.YES_NO, "centred"),
    Key("side", Kind.CHOICE, "front or back", choices=("front", "back")),
    Key("logo_kind", Kind.CHOICE, "kind of logo",
        choices=("maker", "school", "conference", "mascot", "commemorative", "other")),
    Key("logo_at", Kind.CHOICE, "place of the logo", choices=_NECKLINE_PLACES),
    Key("contrasts", Kind.YES_NO, "stands out to the eye"),
    Key("in_play", Kind.YES_NO, "has become a player wearing it"),
    Key("left_floor", Kind.YES_NO, "left the floor before it was found"),
    Key("when", Kind.CHOICE, "found", choices=("pre-game", "warm-up", "at table", "playing")),
    Key("ball", Kind.CHOICE, "ball", choices=("live", "dead")),
)  # fmt: skip


def key_named(name: str, where: str | None = None) -> Key:
    """The key of that name; raises FilmReviewError with the nearest known one."""
    if name not in KEYS:
        raise unknown("fact", name, KEYS, where=where)
    return KEYS[name]


def read_value(name: str, raw: Any, where: str | None = None) -> Value:
    """Read a value as TOML or JSON gives it: text, number, true or false, list, or {value =, plus_minus =}.

    Raises FilmReviewError naming the key and what it may hold.
    """
    key = key_named(name, where)
    place = f"{where}, {name}" if where else name
    if key.kind is Kind.COLOURS:
        return _colours(raw, place)
    if key.kind is Kind.AMOUNT:
        return _amount(key, raw, place)
    if key.kind is Kind.YES_NO:
        return _yes_no(raw, place)
    if not isinstance(raw, str):
        raise FilmReviewError(f"{raw!r} is not text", where=place, todo="write it in quotation marks")
    if key.kind is Kind.CHOICE and raw not in key.choices:
        raise unknown(f"value of {name}", raw, key.choices, where=place)
    return raw


def parse_value(name: str, text: str, where: str | None = None) -> Value:
    """Read a value typed by a person: "black", "black, white", "2.5", "2.5 +- 0.3", "yes", "no", "forehead"."""
    key = key_named(name, where)
    text = text.strip()
    if key.kind is Kind.COLOURS:
        return read_value(name, [part.strip() for part in text.split(",")], where)
    if key.kind is Kind.YES_NO:
        return read_value(name, {"yes": True, "true": True, "no": False, "false": False}.get(text.casefold(), text), where)
    if key.kind is Kind.AMOUNT:
        number, _, spread = text.replace("±", "+-").partition("+-")
        return read_value(name, {"value": _float(number), "plus_minus": _float(spread or "0")}, where)
    return read_value(name, text, where)


def _float(text: str) -> float | str:
    try:
        return float(text)
    except ValueError:
        return text.strip()


def _colours(raw: Any, place: str) -> Value:
    names = raw if isinstance(raw, list | tuple) else [raw]
    if not names or not all(isinstance(name, str) for name in names):
        raise FilmReviewError(f"{raw!r} is not a colour", where=place, todo='write a name, "#rrggbb", or a list of these')
    return tuple(parse_colour(name, place) for name in names)


def _amount(key: Key, raw: Any, place: str) -> Value:
    value, spread = raw, 0
    if isinstance(raw, Mapping):
        extra = set(raw) - {"value", "plus_minus"}
        if extra:
            raise unknown("key", sorted(extra)[0], ("value", "plus_minus"), where=place)
        value, spread = raw.get("value"), raw.get("plus_minus", 0)
    for number in (value, spread):
        if isinstance(number, bool) or not isinstance(number, int | float) or not 0 <= number < 1e6:
            raise FilmReviewError(f"{number!r} is not an amount", where=place, todo=f"write a number of 0 or more ({key.unit})")
    return Amount(float(value), float(spread))


def _yes_no(raw: Any, place: str) -> Value:
    if not isinstance(raw, bool):
        raise FilmReviewError(f"{raw!r} is neither yes nor no", where=place, todo="write yes or no (true or false in a file)")
    return raw

"""The words a typed line may hold, and what each means."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import Enum
from functools import cache

from filmreview.colour.palette import PALETTE
from filmreview.facts.items import ITEMS
from filmreview.facts.keys import KEYS, Kind


class Sort(Enum):
    """What a phrase stands for."""

    ITEM = "item"
    COLOUR = "colour"
    VALUE = "value of a fact"
    LABEL = "name of a fact, its value follows"
    TEAM = "team"
    DENIAL = "the next yes-or-no fact is no"
    FILLER = "says nothing"


@dataclass(frozen=True)
class Meaning:
    """One meaning of a phrase. word: the item, the colour, the team, or the text of a value. key: the fact it is about."""

    sort: Sort
    word: str = ""
    key: str = ""


Phrase = tuple[str, ...]

_TEAM_WORDS = {"h": "home", "home": "home", "v": "visitor", "visitor": "visitor", "visitors": "visitor"}
_SHORT_LABELS = {
    "above": "above_number",
    "below": "below_number",
    "style": "number_style",
    "border": "border_colours",
    "pieces": "count",
    "logos": "logos",
}
_YES_NO_WORDS = {
    "solid": "solid", "hard": "hard", "padded": "padded", "altered": "altered", "secured": "secured", "medical": "medical",
    "religious": "religious", "approved": "approved", "taped": "taped", "under uniform": "under_uniform", "tucked": "tucked",
    "rolled": "rolled", "hazard": "hazard", "centred": "centred", "became a player": "in_play", "in play": "in_play",
}  # fmt: skip
"""Of several words for one fact the first is the one that is written."""
_PREFERRED_KEYS: Mapping[str, tuple[str, ...]] = {
    "logo": ("logo_kind", "logo_at"),
    "patch": ("logo_kind", "logo_at"),
    "number": ("number_style",),
    "blood": ("blood",),
}

SIZE_WORDS: Mapping[str, str] = {
    "wide": "width_in", "width": "width_in", "high": "height_in", "tall": "height_in", "height": "height_in",
    "stroke": "stroke_in", "long": "side_in", "side": "side_in", "outline": "border_in",
}  # fmt: skip
UNIT_WORDS = ("in", "inch", "inches", '"')
USUAL_SIZE: Mapping[str, str] = {"number": "height_in", "logo": "side_in", "flag": "side_in", "patch": "side_in"}
"""The size meant when a length is typed without saying which; width for every other item."""


@cache
def vocabulary() -> Mapping[Phrase, tuple[Meaning, ...]]:
    """Every phrase (its words, folded) with its meanings, the likeliest first."""
    found: dict[Phrase, list[Meaning]] = {}
    for text, meaning in _all_phrases():
        meanings = found.setdefault(tuple(text.casefold().split()), [])
        if meaning not in meanings:
            meanings.append(meaning)
    return {phrase: tuple(meanings) for phrase, meanings in found.items()}


def _all_phrases() -> Iterable[tuple[str, Meaning]]:
    yield from ((item, Meaning(Sort.ITEM, item)) for item in ITEMS)
    yield from ((name, Meaning(Sort.COLOUR, name)) for name in PALETTE)
    yield from ((word, Meaning(Sort.TEAM, side)) for word, side in _TEAM_WORDS.items())
    for word, key in _YES_NO_WORDS.items():
        yield word, Meaning(Sort.VALUE, "yes", key)
    yield "untucked", Meaning(Sort.VALUE, "no", "tucked")
    for known in KEYS.values():
        yield from ((choice, Meaning(Sort.VALUE, choice, known.name)) for choice in known.choices)
        if known.kind is not Kind.YES_NO:
            yield known.words, Meaning(Sort.LABEL, key=known.name)
            yield known.name.replace("_", " "), Meaning(Sort.LABEL, key=known.name)
    yield from ((word, Meaning(Sort.LABEL, key=key)) for word, key in _SHORT_LABELS.items())
    yield from ((word, Meaning(Sort.DENIAL)) for word in ("not", "no"))
    yield from ((word, Meaning(Sort.FILLER)) for word in ("and", "with", "the", "a"))


def phrases_begun_by(words: Phrase) -> tuple[Phrase, ...]:
    """The phrases of as many words that these words abbreviate, each from its front: ("ar",) and ("arm", "sl") begin
    ("arm", "sleeve"). The first word needs two letters."""
    if len(words[0]) < 2:
        return ()
    return tuple(phrase for phrase in vocabulary() if _begins(words, phrase))


def _begins(words: Phrase, phrase: Phrase) -> bool:
    return len(words) <= len(phrase) and all(whole.startswith(part) for part, whole in zip(words, phrase, strict=False))


def chosen(meanings: tuple[Meaning, ...], item: str | None, label: str | None, denied: bool) -> Meaning | None:
    """The one meaning that fits what stands before it on the line; None when several do."""
    fitting = [meaning for meaning in meanings if _fits(meaning, item, denied)]
    for wanted in (label, *_PREFERRED_KEYS.get(item or "", ())):
        for meaning in fitting:
            if wanted and meaning.sort is Sort.VALUE and meaning.key == wanted:
                return meaning
    values = {meaning.key for meaning in fitting if meaning.sort is Sort.VALUE}
    if fitting and fitting[0].sort is Sort.VALUE and len(values) > 1:
        yes_no = [meaning for meaning in fitting if KEYS[meaning.key].kind is Kind.YES_NO]
        return yes_no[0] if len(yes_no) == 1 else None
    return fitting[0] if fitting else None


def _fits(meaning: Meaning, item: str | None, denied: bool) -> bool:
    if denied:
        return meaning.sort is Sort.VALUE and KEYS[meaning.key].kind is Kind.YES_NO
    return meaning.sort is not Sort.ITEM or item is None

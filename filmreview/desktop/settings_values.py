"""What a person chooses for the desk, as one value, and reading it from what a settings file holds. No Qt.

A wrong value never stands in the way: its default is taken, and one line says which ones were wrong.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from typing import Any

from filmreview.facts.items import BOOKS, LEVELS
from filmreview.film.playback import SOURCES

LEAST_JUMP, LARGEST_JUMP = 0.1, 60.0
LEAST_TEXT, LARGEST_TEXT = 80, 200


@dataclass(frozen=True)
class Chosen:
    """The choices.

    who: the observer's name for new reviews and the history, "" for the name of the login. playback: one of `SOURCES`, "" to
    let the player choose. jump: seconds of a jump back or forward. text: size of the text in per cent of the system's. book,
    level: what a new review begins with, level "" for not said. sheets: the folder that sheets are proposed in, "" for the
    review's own.
    """

    who: str = ""
    playback: str = ""
    jump: float = 1.0
    text: int = 100
    book: str = "nfhs"
    level: str = ""
    sheets: str = ""

    @property
    def jump_words(self) -> str:
        """The jump for a person: "1 s", "0.5 s"."""
        return f"{self.jump:g} s"


NAMES: tuple[str, ...] = tuple(one.name for one in fields(Chosen))
"""The names of the choices, as a settings file has them."""
_DEFAULT = Chosen()


def chosen_from(kept: Mapping[str, object]) -> tuple[Chosen, tuple[str, ...]]:
    """The choices that a settings file holds, and the names of those whose value is wrong. kept: values by NAMES; missing ones
    have their default."""
    read: dict[str, Any] = {}
    wrong = []
    for name in NAMES:
        if name not in kept:
            continue
        try:
            read[name] = _READ[name](_text(kept[name]))
        except ValueError:
            wrong.append(name)
    return Chosen(**read), tuple(wrong)


def kept_from(chosen: Chosen) -> Mapping[str, str]:
    """The choices as text by NAMES; the inverse of `chosen_from`."""
    return {name: f"{value:g}" if isinstance(value := getattr(chosen, name), float) else str(value) for name in NAMES}


def wrong_words(wrong: tuple[str, ...], where: str) -> str:
    """One line about wrong values; "" when there are none. where: the settings file."""
    if not wrong:
        return ""
    return f"{where}: {', '.join(wrong)} cannot be read, so the default is taken; Review, Settings puts it right"


def _text(value: object) -> str:
    """A value as it was typed; the file's reader takes commas for a list."""
    if isinstance(value, list | tuple):
        return ", ".join(map(str, value))
    return "" if value is None else str(value).strip()


def _one_of(known: tuple[str, ...]) -> Callable[[str], str]:
    def read(text: str) -> str:
        if text and text not in known:
            raise ValueError(text)
        return text

    return read


def _book(text: str) -> str:
    if text not in BOOKS:
        raise ValueError(text)
    return text


def _number(least: float, largest: float) -> Callable[[str], float]:
    def read(text: str) -> float:
        if not re.fullmatch(r"\d{1,3}(\.\d{1,3})?", text) or not least <= float(text) <= largest:
            raise ValueError(text)
        return float(text)

    return read


_READ: Mapping[str, Callable[[str], object]] = {
    "who": str,
    "playback": _one_of(tuple(SOURCES)),
    "jump": _number(LEAST_JUMP, LARGEST_JUMP),
    "text": lambda text: int(_number(LEAST_TEXT, LARGEST_TEXT)(text)),
    "book": _book,
    "level": _one_of(LEVELS),
    "sheets": str,
}

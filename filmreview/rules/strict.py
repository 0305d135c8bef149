"""Strict reading of TOML: a file is read whole or refused in one line that says where and what to write instead.

Used for books, cases, adoptions, situations and procedures. Every refusal is a FilmReviewError.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import Any

from filmreview.errors import FilmReviewError, unknown

MARKS: tuple[str, ...] = ("published", "memory", "unsure", "deduced")
_LARGEST_FILE = 2_000_000


def read_toml(path: Path) -> dict[str, Any]:
    """The tables of a TOML file; raises FilmReviewError when it cannot be read or is no TOML (duplicate keys included)."""
    try:
        raw = path.read_bytes()
    except OSError as trouble:
        raise FilmReviewError(f"cannot be read ({trouble.strerror})", where=str(path), todo="check the path") from trouble
    if len(raw) > _LARGEST_FILE:
        raise FilmReviewError("is too large for a file of rules", where=path.name, todo="split it")
    try:
        return tomllib.loads(raw.decode("utf-8-sig").replace("\r\n", "\n"))
    except UnicodeDecodeError as trouble:
        raise FilmReviewError("is not text in UTF-8", where=path.name, todo="save it as UTF-8 text") from trouble
    except tomllib.TOMLDecodeError as trouble:
        raise FilmReviewError(f"is not valid TOML: {trouble}", where=path.name, todo="correct that line") from trouble
    except (RecursionError, ValueError, OverflowError) as trouble:
        # tomllib lets these through for lists nested thousands deep and for numbers or dates out of range
        raise FilmReviewError(f"is not valid TOML: {trouble}", where=path.name, todo="correct it") from trouble


class Table:
    """One table of a file, read key by key; every key not on the list is refused with the nearest known one.

    where: what stands before the key in a message, like "sleeve-colour.toml, edition 2".
    """

    def __init__(self, raw: object, where: str, known: Sequence[str]) -> None:
        if not isinstance(raw, Mapping):
            raise FilmReviewError("is not a table", where=where, todo="write key = value lines under its heading")
        self.raw: Mapping[str, Any] = raw
        self.where = where
        for key in raw:
            if key not in known:
                raise unknown("key", key, known, where=where)

    def __contains__(self, key: str) -> bool:
        return key in self.raw

    def at(self, key: str) -> str:
        """The place of a key, for messages."""
        return f"{self.where}, {key}"

    def need(self, key: str) -> Any:
        """The raw value; refused when it is missing."""
        if key not in self.raw:
            raise FilmReviewError(f'"{key}" is missing', where=self.where, todo=f"add a line {key} = ...")
        return self.raw[key]

    def text(self, key: str) -> str:
        """A text that is not empty."""
        value = self.need(key)
        if not isinstance(value, str):
            raise FilmReviewError(f"{show(value)} is not text", where=self.at(key), todo="write it in quotation marks")
        if not value.strip():
            raise FilmReviewError("is empty", where=self.at(key), todo="write the text")
        return value

    def text_or(self, key: str, default: str) -> str:
        """A text, or the default when the key is not there."""
        return self.text(key) if key in self.raw else default

    def choice(self, key: str, known: Sequence[str]) -> str:
        """A word of a closed list."""
        value = self.text(key)
        if value not in known:
            raise unknown(key, value, known, where=self.at(key))
        return value

    def choices(self, key: str, known: Sequence[str]) -> tuple[str, ...]:
        """A list of words of a closed list."""
        values = self.texts(key)
        for value in values:
            if value not in known:
                raise unknown(key.removesuffix("s"), value, known, where=self.at(key))
        return values

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of texts, at least one; a single text counts as a list of one."""
        value = self.need(key)
        values = [value] if isinstance(value, str) else value
        if values in ([], [""]):
            raise FilmReviewError("is empty", where=self.at(key), todo="write at least one")
        if not isinstance(values, list) or not all(isinstance(part, str) and part.strip() for part in values):
            raise FilmReviewError(f"{show(value)} is not a list of texts", where=self.at(key), todo='write ["one", "two"]')
        if len(set(values)) != len(values):
            raise FilmReviewError("says something twice", where=self.at(key), todo="leave one of them out")
        return tuple(values)

    def day(self, key: str) -> date:
        """A date as TOML writes it, without quotation marks and without a time."""
        value = self.need(key)
        if isinstance(value, str):
            raise FilmReviewError(
                f'the date "{value}" stands in quotation marks', where=self.at(key), todo=f"write {key} = {value}"
            )
        if not isinstance(value, date) or isinstance(value, datetime):
            raise FilmReviewError(f"{show(value)} is not a date", where=self.at(key), todo=f"write {key} = 2024-07-01")
        return value

    def day_or_none(self, key: str) -> date | None:
        """A date, or None when the key is not there."""
        return self.day(key) if key in self.raw else None

    def number(self, key: str) -> float:
        """A number of 0 or more."""
        value = self.need(key)
        if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value < 1e6:
            raise FilmReviewError(f"{show(value)} is not a number", where=self.at(key), todo="write a number of 0 or more")
        return float(value)

    def whole(self, key: str) -> int:
        """A whole number of 0 or more."""
        value = self.number(key)
        if value != int(value):
            raise FilmReviewError(f"{show(value)} is not a whole number", where=self.at(key), todo="write 0, 1, 2 ...")
        return int(value)

    def yes_no(self, key: str, default: bool | None = None) -> bool:
        """true or false."""
        value = self.raw.get(key, default) if default is not None else self.need(key)
        if not isinstance(value, bool):
            raise FilmReviewError(f"{show(value)} is neither true nor false", where=self.at(key), todo="write true or false")
        return value

    def tables(self, key: str) -> tuple[Mapping[str, Any], ...]:
        """A list of tables; empty when the key is not there. One table counts as a list of one."""
        value = self.raw.get(key, [])
        values = [value] if isinstance(value, Mapping) else value
        if not isinstance(values, list) or not all(isinstance(part, Mapping) for part in values):
            raise FilmReviewError("is not a list of tables", where=self.at(key), todo=f"write [[{key}]] above each")
        return tuple(values)

    def table(self, key: str) -> Mapping[str, Any]:
        """One table; empty when the key is not there."""
        value = self.raw.get(key, {})
        if not isinstance(value, Mapping):
            raise FilmReviewError("is not a table", where=self.at(key), todo=f"write [{key}] above its lines")
        return value


def show(value: object) -> str:
    """A value in a message, cut to a readable length."""
    text = str(value) if isinstance(value, int | float | date) else repr(value)
    return text if len(text) <= 40 else text[:37] + "..."

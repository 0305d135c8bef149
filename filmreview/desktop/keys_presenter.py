"""The keys of the desk without a screen: which key does what, what a person changed, and which key is taken already.

In: every deed with the keys it has at first, and the person's own. Out: the keys in force. A key is its text in the portable
form of Qt ("Ctrl+Shift+S", "Del"); the views make it, nothing here needs Qt.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from filmreview.desktop.events import Events

ANYWHERE, ON_FILM = "anywhere in the window", "on the picture and the film strip"
SCOPES: tuple[str, ...] = (ANYWHERE, ON_FILM)
"""Where a key works."""
Taken = Mapping[str, str]
"""Keys that single places of the window use themselves, with what they do there."""


@dataclass(frozen=True)
class Given:
    """The keys of one deed. anywhere: work in the whole window. on_film: only while the picture or the strip has the focus."""

    anywhere: tuple[str, ...] = ()
    on_film: tuple[str, ...] = ()

    @property
    def both(self) -> tuple[str, ...]:
        """All of them."""
        return (*self.anywhere, *self.on_film)

    def with_keys(self, scope: str, keys: tuple[str, ...]) -> Given:
        """The same with other keys in one scope."""
        return Given(keys, self.on_film) if scope == ANYWHERE else Given(self.anywhere, keys)


@dataclass(frozen=True)
class KeyDeed:
    """One thing that can be done. where: its menu. first: the keys it has at first."""

    name: str
    where: str
    words: str
    first: Given


@dataclass(frozen=True)
class KeyRow:
    """One line of the list. name: "" for what the mouse or a single place does, which has no key to change."""

    where: str
    keys: str
    words: str
    name: str = ""
    changed: bool = False

    def holds(self, words: Sequence[str]) -> bool:
        """True when every word (folded) stands somewhere in the line."""
        text = f"{self.where} {self.keys} {self.words}".casefold()
        return all(word in text for word in words)


class KeysPresenter:
    """The keys in force. deeds: all of them. elsewhere: lines about the mouse and single places. taken_anywhere, taken_on_film:
    keys that are no longer free in that scope. own: what the person changed, by name. keep: keeps it."""

    def __init__(
        self,
        deeds: Iterable[KeyDeed],
        elsewhere: Iterable[KeyRow],
        taken: Mapping[str, Taken],
        own: Mapping[str, Given],
        keep: Callable[[Mapping[str, Given]], None],
    ) -> None:
        self.events = Events("keys")
        self._deeds = {deed.name: deed for deed in deeds}
        self._elsewhere = tuple(elsewhere)
        self._taken = taken
        self._keep = keep
        self._own = self._sound(own)

    def given(self, name: str) -> Given:
        """The keys of a deed."""
        if name in self._own:
            return self._own[name]
        first, chosen = self._deeds[name].first, {key for given in self._own.values() for key in given.both}
        return Given(_without(first.anywhere, chosen), _without(first.on_film, chosen))

    def place_of(self, name: str) -> str:
        """Where a deed stands in the menus: "Film, Play or pause"."""
        return f"{self._deeds[name].where}, {self._deeds[name].words}"

    def rows(self, look_for: str = "", shown: Callable[[str], str] = str) -> tuple[KeyRow, ...]:
        """The list, or those lines of it that hold every word. shown: a key as the system writes it."""
        lines = [self._row(deed, shown) for deed in self._deeds.values()]
        words = look_for.casefold().split()
        return tuple(row for row in (*lines, *self._elsewhere) if row.holds(words))

    def give(self, name: str, key: str, scope: str) -> str:
        """Give a deed this key in this scope, in place of the ones it had there. Returns why not, "" when it has it."""
        why_not = self._why_not(name, key, scope)
        if not why_not:
            self._set(name, self.given(name).with_keys(scope, (key,)))
        return why_not

    def take_away(self, name: str, scope: str) -> None:
        """The deed has no key in this scope any more; its menu stays."""
        self._set(name, self.given(name).with_keys(scope, ()))

    def reset(self, name: str) -> str:
        """Give a deed the keys it had at first. Returns why not, when another one has them now."""
        first = self._deeds[name].first
        for key in first.both:
            holder = self._holder(name, key)
            if holder:
                return f"{key} is now for: {holder}; change that one first"
        self._set(name, first)
        return ""

    def reset_all(self) -> None:
        """All keys as they were at first."""
        self._own.clear()
        self._changed()

    @property
    def changed(self) -> bool:
        """Whether any key is not as it was at first."""
        return bool(self._own)

    def _sound(self, own: Mapping[str, Given]) -> dict[str, Given]:
        """The person's own keys without those that a settings file gives twice, or to deeds that are no more."""
        used: set[str] = set()
        sound = {}
        for name, given in own.items():
            if name in self._deeds and given != self._deeds[name].first:
                sound[name] = Given(_without(given.anywhere, used), _without(given.on_film, used))
                used.update(given.both)
        return sound

    def _set(self, name: str, given: Given) -> None:
        if given == self.given(name):
            return
        self._own.pop(name, None)
        if given != self._deeds[name].first:
            self._own[name] = given
        self._changed()

    def _changed(self) -> None:
        self._keep(dict(self._own))
        self.events.tell("keys")

    def _why_not(self, name: str, key: str, scope: str) -> str:
        if not key:
            return "press the new key first"
        holder = self._holder(name, key)
        if holder:
            return f"{key} is taken already, for: {holder}"
        place = self._taken[scope].get(key)
        if place:
            return f"{key} is taken already: {place}"
        if scope == ANYWHERE and types_something(key):
            return f"{key} alone types something: take it with Ctrl or Alt, or only {ON_FILM}"
        return ""

    def _holder(self, name: str, key: str) -> str:
        """The words of another deed that has this key, in whichever scope: on the picture both would be meant."""
        return next(
            (deed.words for deed in self._deeds.values() if deed.name != name and key in self.given(deed.name).both), ""
        )

    def _row(self, deed: KeyDeed, shown: Callable[[str], str]) -> KeyRow:
        given = self.given(deed.name)
        parts = [shown(key) for key in given.anywhere]
        if given.on_film:
            parts.append(" ".join(shown(key) for key in given.on_film) + " on the picture")
        return KeyRow(deed.where, ", or ".join(parts), deed.words, deed.name, deed.name in self._own)


def _without(keys: tuple[str, ...], others: set[str]) -> tuple[str, ...]:
    return tuple(key for key in keys if key not in others)


def types_something(key: str) -> bool:
    """Whether a key writes a letter, digit, sign or space where text is typed."""
    plain = key.removeprefix("Shift+")
    return plain == "Space" or re.fullmatch(r"[^\s]", plain) is not None

"""What the desk remembers between starts: choices, keys, recent files, the window's size. In the system's own place.

A settings file that cannot be read is copied aside before anything is written, so that nothing in it is lost; `trouble` says
so.
"""

from __future__ import annotations

import getpass
import shutil
from collections.abc import Mapping, Sequence
from pathlib import Path

from PyQt6.QtCore import QByteArray, QSettings

from filmreview.aside import free_path
from filmreview.desktop.keys_presenter import Given
from filmreview.desktop.settings_values import NAMES, Chosen, chosen_from, kept_from, wrong_words

MOST_RECENT = 8
_KEYS = {"keys": "anywhere", "film_keys": "on_film"}
"""Groups of the file -> the part of `Given` in it."""


class Settings:
    """The settings of this person on this machine. trouble: one line about what could not be read, "" when all could."""

    def __init__(self) -> None:
        self._kept = QSettings(QSettings.Format.IniFormat, QSettings.Scope.UserScope, "filmreview", "desk")
        path = Path(self._kept.fileName())
        self.trouble = self._unreadable(path)
        _chosen, wrong = chosen_from(self._raw())
        self.trouble = self.trouble or wrong_words(wrong, path.name)

    def chosen(self) -> Chosen:
        """The person's choices; a wrong one has its default."""
        return chosen_from(self._raw())[0]

    def choose(self, chosen: Chosen) -> None:
        """Keep these choices."""
        for name, text in kept_from(chosen).items():
            self._kept.setValue(name, text)
        self._kept.sync()
        kept = self._kept.status() != QSettings.Status.AccessError
        self.trouble = "" if kept else f"the settings hold until the desk closes: {self._kept.fileName()} cannot be written"

    def recent(self) -> tuple[Path, ...]:
        """The reviews opened last that are still there, the last one first."""
        return tuple(Path(path) for path in self._list("recent") if Path(path).is_file())

    def add_recent(self, path: Path) -> None:
        """This review was opened."""
        others = [str(one) for one in self.recent() if one != path.absolute()]
        self._kept.setValue("recent", [str(path.absolute()), *others][:MOST_RECENT])

    def who(self) -> str:
        """The person, for the history of a review."""
        return self.chosen().who or self.login

    @property
    def login(self) -> str:
        """The name of the login, which stands in while the person gives no other."""
        return _login()

    def stand_in(self) -> str:
        """The login where it stands in for a name; "" where the person has given it as his name."""
        return "" if self.chosen().who == self.login else self.login

    def set_who(self, who: str) -> None:
        """Another name for the history."""
        self._kept.setValue("who", who)

    def playback(self) -> str | None:
        """What plays films: "vlc", "built-in", or None to let the player choose."""
        return self.chosen().playback or None

    def own_keys(self) -> Mapping[str, Given]:
        """The keys the person gave to deeds, by the deed's name."""
        found: dict[str, dict[str, tuple[str, ...]]] = {}
        for group, part in _KEYS.items():
            for name in self._names(group):
                found.setdefault(name, {})[part] = tuple(one for one in self._list(f"{group}/{name}") if one)
        return {name: Given(**parts) for name, parts in found.items() if len(parts) == len(_KEYS)}

    def keep_own_keys(self, own: Mapping[str, Given]) -> None:
        """Keep exactly these."""
        for group, part in _KEYS.items():
            self._kept.remove(group)
            for name, given in own.items():
                self._kept.setValue(f"{group}/{name}", list(getattr(given, part)) or [""])
        self._kept.sync()

    def sound(self) -> bool:
        """Whether films play with sound, as it was left last."""
        return str(self._value("sound")).casefold() != "false"

    def keep_sound(self, on: bool) -> None:
        """Keep whether films play with sound."""
        self._kept.setValue("sound", on)

    def layout(self, name: str) -> QByteArray | None:
        """A window's or splitter's kept state."""
        kept = self._value(f"layout/{name}")
        return kept if isinstance(kept, QByteArray) else None

    def keep_layout(self, name: str, state: QByteArray) -> None:
        """Keep a window's or splitter's state."""
        self._kept.setValue(f"layout/{name}", state)

    def _raw(self) -> Mapping[str, object]:
        return {name: self._value(name) for name in NAMES if self._kept.contains(name)}

    def _value(self, name: str) -> object:
        try:
            return self._kept.value(name)
        except TypeError:  # PyQt's answer to a value that some other program wrote
            return None

    def _list(self, name: str) -> Sequence[str]:
        kept = self._value(name)
        if isinstance(kept, str):
            return [kept]
        return [str(one) for one in kept] if isinstance(kept, list) else []

    def _names(self, group: str) -> Sequence[str]:
        self._kept.beginGroup(group)
        names = self._kept.childKeys()
        self._kept.endGroup()
        return names

    def _unreadable(self, path: Path) -> str:
        """Copy a file aside that is no settings file, or cannot be opened; says what was done, "" for a good one."""
        self._kept.sync()
        status = self._kept.status()
        if status == QSettings.Status.NoError and _is_sound(path):
            return ""
        if status == QSettings.Status.AccessError:
            return f"{path.name}: the settings cannot be opened, so the defaults are taken and nothing is kept; see {path}"
        aside = free_path(path.with_name(path.name + ".wrong"))
        shutil.copy2(path, aside)
        return f"{path.name}: not all settings could be read; the file is kept as {aside.name}, defaults are taken for the rest"


def _is_sound(path: Path) -> bool:
    """Whether every line of a settings file is one; Qt passes over some that are not, and then writes the file without them."""
    try:
        lines = path.read_text(encoding="utf-8").splitlines() if path.exists() else []
    except UnicodeDecodeError:
        return False
    return all(not line.strip() or line.lstrip()[0] in ";#[" or "=" in line for line in lines)


def _login() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError):  # a machine without user names
        return "observer"

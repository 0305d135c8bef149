"""What the desk remembers between starts: recent files, the window's size, who reviews. In the system's own place."""

from __future__ import annotations

import getpass
from pathlib import Path

from PyQt6.QtCore import QByteArray, QSettings

MOST_RECENT = 8


class Settings:
    """The settings of this person on this machine."""

    def __init__(self) -> None:
        self._kept = QSettings(QSettings.Format.IniFormat, QSettings.Scope.UserScope, "filmreview", "desk")

    def recent(self) -> tuple[Path, ...]:
        """The reviews opened last that are still there, the last one first."""
        kept = self._kept.value("recent", [])
        paths = [kept] if isinstance(kept, str) else list(kept or [])
        return tuple(Path(path) for path in paths if Path(path).is_file())

    def add_recent(self, path: Path) -> None:
        """This review was opened."""
        others = [str(one) for one in self.recent() if one != path.absolute()]
        self._kept.setValue("recent", [str(path.absolute()), *others][:MOST_RECENT])

    def who(self) -> str:
        """The person, for the history of a review."""
        kept = str(self._kept.value("who", "") or "")
        return kept or _login()

    def set_who(self, who: str) -> None:
        """Another name for the history."""
        self._kept.setValue("who", who)

    def playback(self) -> str | None:
        """What plays films: "vlc", "built-in", or None to let the player choose."""
        kept = str(self._kept.value("playback", "") or "")
        return kept if kept in ("vlc", "built-in") else None

    def layout(self, name: str) -> QByteArray | None:
        """A window's or splitter's kept state."""
        kept = self._kept.value(f"layout/{name}")
        return kept if isinstance(kept, QByteArray) else None

    def keep_layout(self, name: str, state: QByteArray) -> None:
        """Keep a window's or splitter's state."""
        self._kept.setValue(f"layout/{name}", state)


def _login() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError):  # a machine without user names
        return "observer"

"""The keys as the window has them: menus, plain keys on the picture and tool tips follow the person's choice at once."""

from __future__ import annotations

from collections.abc import Mapping

from PyQt6.QtCore import QObject, Qt
from PyQt6.QtGui import QAction, QKeySequence, QShortcut
from PyQt6.QtWidgets import QWidget

from filmreview.desktop.actions import DEEDS, ELSEWHERE, MENUS, plain_words
from filmreview.desktop.keys_presenter import ANYWHERE, ON_FILM, Given, KeyDeed, KeyRow, KeysPresenter, Taken
from filmreview.desktop.procedure_clock_words import KEY_OF
from filmreview.desktop.settings import Settings

_MENU_KEYS: Taken = {f"Alt+{menu[menu.index('&') + 1].upper()}": f"opens the menu {menu.replace('&', '')}" for menu in MENUS}
_ALWAYS: Taken = {
    "Return": "keeps the tag, goes to the moment", "Enter": "keeps the tag, goes to the moment",
    "Esc": "drops what was written, closes dialogs", "Tab": "goes to the next place",
    "Shift+Backtab": "goes to the place before", "Shift+Tab": "goes to the place before",
    "Up": "moves in lists and on the film strip",
    "Down": "moves in lists and on the film strip", "PgUp": "moves in lists and on the film strip",
    "PgDown": "moves in lists and on the film strip", "Del": "takes away what is chosen",
    **_MENU_KEYS,
}  # fmt: skip
_TYPING = "moves or chooses where text is typed"
_IN_TEXT: Taken = {
    **dict.fromkeys(("Left", "Right", "Home", "End", "Shift+Left", "Shift+Right", "Shift+Home", "Shift+End"), _TYPING),
    **dict.fromkeys(("Ctrl+Left", "Ctrl+Right", "Ctrl+A", "Ctrl+Home", "Ctrl+End"), _TYPING),
    **dict.fromkeys(("Ctrl+C", "Ctrl+X", "Ctrl+V", "Shift+Ins", "Shift+Del", "Backspace"), "copies, pastes or takes away text"),
    "F2": "edits in the ledger",
}
_ON_PICTURE: Taken = {
    "Space": "moves the picture while held, plays or pauses when tapped", "+": "shows the picture nearer",
    "-": "shows the picture from farther",
    **dict.fromkeys((f"Alt+{arrow}" for arrow in ("Left", "Right", "Up", "Down")), "moves the region"),
    **dict.fromkeys((f"Alt+{key}" for key in ("PgUp", "PgDown")), "holds another part of the region"),
    **dict.fromkeys((f"Alt+{key}" for key in ("Ins", "Del")), "puts a corner in or takes one away, paints and rubs out"),
    **dict.fromkeys((f"Alt+{key}" for key in ("+", "-", "=")), "changes the brush"),
    **dict.fromkeys((f"Ctrl+{arrow}" for arrow in ("Left", "Right", "Up", "Down")), "looks elsewhere in the picture"),
    **dict.fromkeys((f"Alt+Shift+{arrow}" for arrow in ("Left", "Right", "Up", "Down")), "reshapes the region"),
    "Backspace": "takes a corner back",
    **{key: f"notes at once, while the procedure clock is open: {what}" for what, key in KEY_OF.items()},
}  # fmt: skip
TAKEN: Mapping[str, Taken] = {ANYWHERE: {**_ALWAYS, **_IN_TEXT, **_ON_PICTURE}, ON_FILM: {**_ALWAYS, **_ON_PICTURE}}
"""Keys that are no longer free, by where they would work."""


class KeysInForce(QObject):
    """The keys of one window. actions: by the deed's name. film_place: where plain keys work."""

    def __init__(self, settings: Settings, actions: Mapping[str, QAction], film_place: QWidget, parent: QObject) -> None:
        super().__init__(parent)
        self._actions, self._film_place = actions, film_place
        self._shortcuts: list[QShortcut] = []
        deeds = [
            KeyDeed(deed.name, deed.menu.replace("&", ""), plain_words(deed), _first(deed.keys, deed.film_keys))
            for deed in DEEDS
        ]
        self.presenter = KeysPresenter(
            deeds, [KeyRow(*line) for line in ELSEWHERE], TAKEN, settings.own_keys(), settings.keep_own_keys
        )
        self.presenter.events.on("keys", self.apply)
        self.apply()

    def apply(self) -> None:
        """Have the window obey the keys as they are now."""
        for shortcut in self._shortcuts:
            shortcut.setParent(None)
            shortcut.deleteLater()
        self._shortcuts = []
        for deed in DEEDS:
            given, action = self.presenter.given(deed.name), self._actions[deed.name]
            action.setShortcuts([QKeySequence(key) for key in given.anywhere])
            action.setToolTip(" ".join((plain_words(deed), *(f"({native(key)})" for key in given.anywhere[:1]))))
            self._shortcuts += [self._on_film(key, action) for key in given.on_film]

    def word(self, name: str, words: str) -> None:
        """Another text of a deed in its menu."""
        self._actions[name].setText(words)

    def _on_film(self, key: str, action: QAction) -> QShortcut:
        shortcut = QShortcut(QKeySequence(key), self._film_place)
        shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        shortcut.activated.connect(action.trigger)
        return shortcut


def portable(sequence: QKeySequence) -> str:
    """A key in the form that is kept: "Ctrl+Shift+S"."""
    return sequence.toString(QKeySequence.SequenceFormat.PortableText)


def native(key: str) -> str:
    """A key as this system writes it."""
    return QKeySequence(key).toString(QKeySequence.SequenceFormat.NativeText)


def _first(keys: str, film_keys: tuple[str, ...]) -> Given:
    anywhere = (portable(QKeySequence(keys)),) if keys else ()
    return Given(anywhere, tuple(portable(QKeySequence(key)) for key in film_keys))

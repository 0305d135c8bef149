"""The settings as the desk obeys them: asked for in their dialog, kept, and in force at once."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from PyQt6.QtWidgets import QApplication, QWidget

from filmreview.desktop.actions import JUMPS
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.film_place import FilmPlace
from filmreview.desktop.keys_dialog import KeysDialog
from filmreview.desktop.keys_in_force import KeysInForce
from filmreview.desktop.settings import Settings
from filmreview.desktop.settings_dialog import SettingsDialog
from filmreview.desktop.settings_values import Chosen
from filmreview.errors import FilmReviewError

_SYSTEM_SIZE = "filmreview system text size"  # kept on the application, which more than one window may scale


class SettingsInForce:
    """The settings of one window."""

    def __init__(self, settings: Settings, desk: Desk, film_place: FilmPlace, keys: KeysInForce, window: QWidget) -> None:
        self._settings, self._desk, self._film_place, self._keys, self._window = settings, desk, film_place, keys, window
        self._obey(settings.chosen())
        film_place.player.set_sound(settings.sound())
        film_place.player.sound_changed.connect(settings.keep_sound)

    def jump(self, way: int) -> None:
        """Go the chosen seconds forward (1) or back (-1)."""
        player = self._film_place.player
        player.jump_to(player.time + way * Fraction(str(self._settings.chosen().jump)))

    def ask(self) -> None:
        """Show the choices and take what the person makes of them."""
        settings = self._settings
        dialog = SettingsDialog(settings.chosen(), settings.login, settings.trouble, self._window)
        dialog.accepted.connect(lambda: self._take(dialog.chosen()))
        dialog.keys_wanted.connect(self.ask_keys)
        dialog.open()

    def ask_keys(self) -> None:
        """Show the keys."""
        KeysDialog(self._keys.presenter, self._window).open()

    def tell_trouble(self, tell: Callable[[FilmReviewError], None]) -> None:
        """Say what of the settings could not be read."""
        if self._settings.trouble:
            tell(FilmReviewError(self._settings.trouble))

    def _take(self, chosen: Chosen) -> None:
        self._settings.choose(chosen)
        self._obey(chosen)
        if self._desk.store is not None:
            self._desk.store.who = self._settings.who()  # who is named in the history from now on
        self._desk.message(self._settings.trouble or "these are the settings from now on")

    def _obey(self, chosen: Chosen) -> None:
        self._film_place.player.want_source(chosen.playback or None)
        for name, words in JUMPS.items():
            self._keys.word(name, words.format(chosen.jump_words))
        scale_text(chosen.text)


def scale_text(percent: int) -> None:
    """Text of this size, in per cent of what the system asks for. Widths laid out already follow at the next start."""
    application = QApplication.instance()
    assert isinstance(application, QApplication), "the desk runs in one"
    system = application.property(_SYSTEM_SIZE)
    if system is None:
        system = application.font().pointSizeF()
        application.setProperty(_SYSTEM_SIZE, system)
    font = application.font()
    size = system * percent / 100
    if abs(font.pointSizeF() - size) > 0.01:
        font.setPointSizeF(size)
        application.setFont(font)

"""The row of controls under the picture: play, step, time, speed, sound, and which film of the review."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from PyQt6.QtCore import QEvent, Qt, pyqtSignal
from PyQt6.QtGui import QResizeEvent
from PyQt6.QtWidgets import QHBoxLayout, QLabel, QToolButton, QWidget

from filmreview.desktop.film_bar_rows import WrappingRow
from filmreview.desktop.film_icons import film_icon
from filmreview.desktop.loop_button import LoopButton
from filmreview.desktop.player import Player
from filmreview.desktop.region_choice import RegionChoice
from filmreview.desktop.region_tool import RegionTool
from filmreview.desktop.small_widgets import Choice
from filmreview.film.moment import format_time
from filmreview.review.common_time import title_of
from filmreview.review.model import FilmRef


class FilmBar(QWidget):
    """Shows what the player does and tells it what to do."""

    film_wanted = pyqtSignal(str)  # the id of another film of the review
    white_wanted = pyqtSignal()
    loop_from_here = pyqtSignal()
    loop_to_here = pyqtSignal()
    loop_off = pyqtSignal()

    def __init__(self, player: Player, regions: RegionTool) -> None:
        super().__init__()
        self._player = player
        self.region = RegionChoice(regions)
        self._films: tuple[FilmRef, ...] = ()
        self._length = Fraction(0)
        self._shown = {"back": "back", "play": "play", "forward": "forward", "sound": "sound"}
        self.back = _button("one frame back", lambda: player.step(-1))
        self.play = _button("play", player.toggle)
        self.forward = _button("one frame forward", lambda: player.step(1))
        self.sound = _button("sound on or off", self._switch_sound)
        self.sound.setCheckable(True)
        for button in (self.back, self.forward):
            button.setAutoRepeat(True)
        self.loop = LoopButton(self.loop_from_here.emit, self.loop_to_here.emit, self.loop_off.emit)
        self.time = QLabel("0:00.000")
        self.time.setAccessibleName("time")
        self.rate = Choice("speed", [_rate_words(rate) for rate in player.rates])
        self.film = Choice("film", ())
        self.white = QToolButton()
        self.white.setText("Point at white")
        self.white.setAccessibleName("point at white")
        self.white.setToolTip("Drag over something white in the item's light: colours are measured against it")
        self._lay_out()
        self._draw_icons()
        self._connect()
        self.rate.show_text(_rate_words(player.rate))
        self._show_sound(player.sound)

    def show_films(self, films: Sequence[FilmRef], shown: str | None) -> None:
        """The films of the review, and which one is on the picture."""
        self._films = tuple(films)
        self.film.refill([title_of(film) for film in films])
        place = next((place for place, film in enumerate(films) if film.id == shown), 0)
        self.film.setCurrentIndex(place)
        self.film.setVisible(len(films) > 1)

    def show_length(self, seconds: Fraction) -> None:
        """The length of the film on the picture."""
        self._length = seconds
        self._show_time(Fraction(0))

    def show_no_film(self) -> None:
        """No film, no time."""
        self._length = Fraction(0)
        self.time.clear()

    def show_loop(self, words: str) -> None:
        """The part that is played over and over, "" for none."""
        self.loop.show_loop(words)

    def step_rate(self, way: int) -> None:
        """The next faster (1) or slower (-1) speed."""
        place = min(max(0, self.rate.currentIndex() + way), self.rate.count() - 1)
        self._player.set_rate(self._player.rates[place])

    def resizeEvent(self, _event: QResizeEvent | None) -> None:
        """A second row needs its room, whatever the places below it ask for."""
        self.setMinimumHeight(self.heightForWidth(self.width()))

    def changeEvent(self, event: QEvent | None) -> None:
        """Light or dark: the icons follow."""
        if event is not None and event.type() == QEvent.Type.PaletteChange and hasattr(self, "sound"):
            self._draw_icons()
        super().changeEvent(event)

    def _draw_icons(self) -> None:
        for place, name in self._shown.items():
            getattr(self, place).setIcon(film_icon(name, self.palette()))

    def _lay_out(self) -> None:
        left: tuple[QWidget, ...] = (self.back, self.play, self.forward, self.time)
        right: tuple[QWidget, ...] = (self.film, self.region, self.white, self.loop, self._speed(), self.sound)
        layout = WrappingRow(self, gap_after=len(left))
        for widget in (*left, *right):
            layout.addWidget(widget)
        self.time.setMinimumWidth(self.time.fontMetrics().horizontalAdvance("0:00:00.000 of 0:00:00.000"))

    def _speed(self) -> QWidget:
        """The speed and its word, which stay together where the row goes on in a second one."""
        both = QWidget()
        layout = QHBoxLayout(both)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addWidget(QLabel("Speed"))
        layout.addWidget(self.rate)
        return both

    def _connect(self) -> None:
        player = self._player
        player.time_changed.connect(self._show_time)
        player.playing_changed.connect(self._show_playing)
        player.rate_changed.connect(lambda rate: self.rate.show_text(_rate_words(rate)))
        player.sound_changed.connect(self._show_sound)
        self.rate.chosen.connect(lambda _text: player.set_rate(player.rates[self.rate.currentIndex()]))
        self.film.activated.connect(lambda place: self.film_wanted.emit(self._films[place].id))
        self.white.clicked.connect(self.white_wanted)

    def _show_time(self, seconds: Fraction) -> None:
        self.time.setText(f"{format_time(seconds)} of {format_time(self._length)}")

    def _show_playing(self, playing: bool) -> None:
        words = "pause" if playing else "play"
        self._shown["play"] = words
        self._draw_icons()
        self.play.setAccessibleName(words)
        self.play.setToolTip(words)

    def _show_sound(self, on: bool) -> None:
        self._shown["sound"] = "sound" if on else "silent"
        self._draw_icons()
        self.sound.setChecked(on)
        self.sound.setAccessibleName("sound on" if on else "sound off")
        self.sound.setToolTip("sound is on" if on else "sound is off")

    def _switch_sound(self) -> None:
        self._player.set_sound(not self._player.sound)


def _button(name: str, do: Callable[[], None]) -> QToolButton:
    button = QToolButton()
    button.setAccessibleName(name)
    button.setToolTip(name)
    button.setAutoRaise(True)
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    button.clicked.connect(lambda _checked=False: do())
    return button


def _rate_words(rate: float) -> str:
    return f"{rate:g} x"

"""The picture beside: a moment that is only looked at, with its own stepping, zoomed as the picture is or by itself."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from PyQt6.QtCore import QEvent, Qt, pyqtSignal
from PyQt6.QtGui import QKeyEvent, QResizeEvent
from PyQt6.QtWidgets import QCheckBox, QLabel, QToolButton, QVBoxLayout, QWidget

from filmreview.desktop.film_bar_rows import WrappingRow
from filmreview.desktop.film_icons import film_icon
from filmreview.desktop.picture import PictureCanvas
from filmreview.desktop.player import Player
from filmreview.desktop.small_widgets import Choice
from filmreview.review.model import FilmRef

TITLE = "Beside"
HERE = "Tags go to this picture"
HOW = "Only to look at: tags go to the picture on the left. Swap the two to tag here"
_SECOND = Fraction(1)
_STEPS = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
_SWALLOWED = (Qt.Key.Key_Space, Qt.Key.Key_Insert, Qt.Key.Key_Home, Qt.Key.Key_End)


class BesideCanvas(PictureCanvas):
    """The canvas beside. With the focus here the arrows step it alone, Enter swaps the two moments, Esc puts it away; keys
    that play the film or draw on the picture do nothing."""

    step_wanted = pyqtSignal(int, bool)  # by how many, frames or (True) seconds
    swap_wanted = pyqtSignal()
    off_wanted = pyqtSignal()

    def __init__(self) -> None:
        super().__init__(name="Picture beside", only_look=True)

    def event(self, event: QEvent | None) -> bool:
        """Take our keys before the window's own."""
        asked = event is not None and event.type() == QEvent.Type.ShortcutOverride
        if asked and isinstance(event, QKeyEvent) and _is_own(event):
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent | None) -> None:
        """The keys named at the class; all others go on."""
        assert event is not None
        key = Qt.Key(event.key())
        if not _is_own(event):
            super().keyPressEvent(event)
        elif key in _STEPS:
            self.step_wanted.emit(_STEPS[key], bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier))
        elif key == Qt.Key.Key_Escape:
            self.off_wanted.emit()
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not event.isAutoRepeat():
            self.swap_wanted.emit()


def _is_own(event: QKeyEvent) -> bool:
    keys = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Escape):
        return not keys
    if event.key() in _STEPS:
        return not keys & ~Qt.KeyboardModifier.ShiftModifier
    return event.key() in _SWALLOWED


class ComparePane(QWidget):
    """The canvas beside with its row of controls. player: stands on frames of the film beside; it never plays."""

    film_wanted = pyqtSignal(str)  # the id of the film to have beside
    swap_wanted = pyqtSignal()
    off_wanted = pyqtSignal()
    linked = pyqtSignal(bool)  # whether it is to be zoomed as the picture is
    head_resized = pyqtSignal(int)  # how high the row of controls is

    def __init__(self) -> None:
        super().__init__()
        self.player = Player(self, "built-in")
        self._films: tuple[FilmRef, ...] = ()
        self.head = QWidget()
        self.title = QLabel(TITLE)
        self.title.setToolTip(HOW)
        self.title.setMinimumWidth(self.title.fontMetrics().horizontalAdvance(f"{TITLE}, 00.000 s earlier"))
        self.canvas = BesideCanvas()
        self.back = self._button("beside: one frame back", lambda: self.player.step(-1))
        self.forward = self._button("beside: one frame forward", lambda: self.player.step(1))
        self.film = Choice("beside: film", ())
        self.film.activated.connect(lambda place: self.film_wanted.emit(self._films[place].id))
        self.same_zoom = QCheckBox("Same zoom")
        self.same_zoom.setChecked(True)
        self.same_zoom.setToolTip("Look at the same part of both pictures, as near")
        self.swap = self._word_button("Swap", "swap the two moments", self.swap_wanted.emit)
        self.put_away = self._word_button("Put away", "put the picture beside away", self.off_wanted.emit)
        self._lay_out()
        self._connect()
        self._draw_icons()

    def show_films(self, films: Sequence[FilmRef], shown: str | None) -> None:
        """The films of the game, and which one is beside."""
        self._films = tuple(films)
        self.film.refill([film.what or film.name for film in films])
        place = next((place for place, film in enumerate(films) if film.id == shown), 0)
        self.film.setCurrentIndex(place)
        self.film.setVisible(len(films) > 1)
        self._fit_head()

    def show_apart(self, words: str) -> None:
        """How far it is from the picture in time."""
        self.title.setText(f"{TITLE}, {words}" if words else TITLE)
        self._fit_head()

    def resizeEvent(self, _event: QResizeEvent | None) -> None:
        """The row of controls may have become two, or one again."""
        self._fit_head()

    def _fit_head(self) -> None:
        layout = self.head.layout()
        assert layout is not None, "it was laid out"
        layout.invalidate()
        high = layout.heightForWidth(self.width())
        self.head.setFixedHeight(high)
        self.head_resized.emit(high)

    def changeEvent(self, event: QEvent | None) -> None:
        """Light or dark: the icons follow."""
        if event is not None and event.type() == QEvent.Type.PaletteChange and hasattr(self, "put_away"):
            self._draw_icons()
        super().changeEvent(event)

    def _step(self, count: int, seconds: bool) -> None:
        if seconds:
            self.player.jump_to(self.player.time + count * _SECOND)
        else:
            self.player.step(count)

    def _connect(self) -> None:
        self.player.picture_shown.connect(self.canvas.show_picture)
        self.canvas.step_wanted.connect(self._step)
        self.canvas.swap_wanted.connect(self.swap_wanted)
        self.canvas.off_wanted.connect(self.off_wanted)
        self.same_zoom.toggled.connect(self.linked)

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        row = WrappingRow(self.head)
        controls = (self.back, self.forward, self.film, self.same_zoom, self.swap, self.put_away)
        for widget in (self.title, *controls):
            row.addWidget(widget)
        layout.addWidget(self.head)
        layout.addWidget(self.canvas, 1)

    def _draw_icons(self) -> None:
        self.back.setIcon(film_icon("back", self.palette()))
        self.forward.setIcon(film_icon("forward", self.palette()))

    def _button(self, name: str, do: Callable[[], None]) -> QToolButton:
        button = QToolButton()
        button.setAccessibleName(name)
        button.setToolTip(name)
        button.setAutoRaise(True)
        button.setAutoRepeat(True)
        button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        button.clicked.connect(lambda _checked=False: do())
        return button

    def _word_button(self, words: str, name: str, do: Callable[[], None]) -> QToolButton:
        button = self._button(name, do)
        button.setAutoRepeat(False)
        button.setText(words)
        return button

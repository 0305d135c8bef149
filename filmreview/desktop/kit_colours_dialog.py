"""Picking the kit's colours from the film: a paused frame to point at on the left, what came of it on the right."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from PyQt6.QtCore import Qt
from PyQt6.QtGui import QKeySequence, QShortcut
from PyQt6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QSplitter,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from filmreview.desktop.actions import KeysOf, first_keys
from filmreview.desktop.dialog_parts import take_buttons
from filmreview.desktop.film_bar_rows import WrappingRow
from filmreview.desktop.film_icons import film_icon
from filmreview.desktop.keys_in_force import native
from filmreview.desktop.kit_colours_lists import KitLists
from filmreview.desktop.kit_colours_presenter import KitColours, Part
from filmreview.desktop.picture import PictureCanvas
from filmreview.desktop.player import Player
from filmreview.desktop.region_choice import RegionChoice
from filmreview.desktop.setup_room import fit_to_screen, scrolled
from filmreview.desktop.setup_throwing import ask_to_throw_away
from filmreview.desktop.small_widgets import wrapped
from filmreview.desktop.strip import FilmStrip
from filmreview.desktop.white_words import white_words
from filmreview.facts.fact import Fact
from filmreview.facts.region import Box, Region
from filmreview.film.film import Film
from filmreview.film.frame import Frame
from filmreview.film.moment import Moment, format_time

HOW = (
    "Choose a part of the kit, then draw a region on it{}, on several players and at several moments if you can. Point at "
    "something white in the same light first."
)
BY_KEY = " (or press {} on the picture)"
WHITE_HOW = "Drag over something white that stands in the kit's light, or press Enter for a box to move with Alt and arrows."


class KitColoursDialog(QDialog):
    """Asks for the colours of a kit. film: opened for this dialog, which closes it. names: of the teams, by side. keys_of: what
    the person has set for the picture of the desk works on this one too."""

    def __init__(
        self,
        kit: KitColours,
        film: Film,
        names: Mapping[str, str],
        parent: QWidget | None = None,
        keys_of: KeysOf = first_keys,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle("Kit colours from the film")
        self.kit, self._film = kit, film
        self.player = Player(self, "built-in")
        self.canvas = PictureCanvas(name="Picture to point at the kit")
        self.strip = FilmStrip()
        self.region = RegionChoice(self.canvas.regions)
        self.back = self._button("one frame back", lambda: self.player.step(-1))
        self.forward = self._button("one frame forward", lambda: self.player.step(1))
        self.white = self._button("point at white", self._point_at_white)
        self.white.setText("Point at white")
        self.lists = KitLists(kit, names)
        self.message = wrapped(_how(keys_of("place_region")), "what to do")
        self.buttons, self.take = take_buttons("Take these colours")
        self.take.setAutoDefault(False)
        self._lay_out()
        self._connect()
        self._add_keys(keys_of)
        self.player.open(film)
        self.strip.set_film(film)
        self._show_icons()
        self._show()

    def facts(self) -> Mapping[Part, Fact]:
        """What was picked."""
        return self.kit.facts()

    def reject(self) -> None:
        """Esc, Cancel and the window's own button: what was picked is thrown away only when that is meant."""
        if self.kit.facts():
            ask_to_throw_away(self, "Throw away the colours picked here?", "Go on picking", self._throw_away)
        else:
            self._throw_away()

    def _throw_away(self) -> None:
        super().reject()

    def done(self, result: int) -> None:
        """The film is let go, however the dialog ends."""
        self._close_film()
        super().done(result)

    def _close_film(self) -> None:
        self.strip.close_film()
        self.player.close()

    def _connect(self) -> None:
        player, canvas, strip = self.player, self.canvas, self.strip
        player.picture_shown.connect(canvas.show_picture)
        player.frame_shown.connect(lambda _frame: self._show())
        player.time_changed.connect(strip.set_now)
        player.trouble.connect(self.message.setText)
        strip.jump_wanted.connect(player.jump_to)
        canvas.region_drawn.connect(lambda region: self._with_frame(lambda frame: self.kit.draw(frame, region)))
        canvas.region_changed.connect(self._changed)
        canvas.region_dropped.connect(self.kit.drop)
        canvas.reference_drawn.connect(self._white_pointed_at)
        self.lists.sample_wanted.connect(self._go_to)
        self.kit.events.on("kit", self._show)
        self.kit.events.on("message", lambda: self.message.setText(self.kit.last_message))
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)

    def _add_keys(self, keys_of: KeysOf) -> None:
        """As around the picture of the desk."""
        for name, do in (
            ("place_region", self.canvas.place_region), ("region_shape", self.canvas.regions.next_shape),
            ("point_white", self._point_at_white), ("back", lambda: self.player.step(-1)),
            ("forward", lambda: self.player.step(1)),
        ):  # fmt: skip
            for key in keys_of(name):
                shortcut = QShortcut(QKeySequence(key), self.canvas)
                shortcut.setContext(Qt.ShortcutContext.WidgetShortcut)
                shortcut.activated.connect(do)

    def _changed(self, region: Region) -> None:
        self._with_frame(lambda frame: self.kit.change(frame, region))

    def _with_frame(self, do: Callable[[Frame], None]) -> None:
        frame = self.player.frame
        if frame is not None:
            do(frame)

    def _point_at_white(self) -> None:
        self.canvas.set_pointing(True)
        self.canvas.setFocus()
        self.message.setText(WHITE_HOW)

    def _white_pointed_at(self, box: Box) -> None:
        self.canvas.set_pointing(False)
        self._with_frame(lambda frame: self.kit.point_at_white(frame, box))

    def _go_to(self, sample_id: str) -> None:
        self.kit.work_on(sample_id)
        sample = self.kit.sample
        if sample is not None:
            self.player.jump(sample.moment)

    def _show(self) -> None:
        frame, kit = self.player.frame, self.kit
        self.take.setEnabled(not kit.busy)
        if frame is None:
            return
        sample = kit.sample
        self.canvas.set_region(sample.region if sample is not None and sample.moment == frame.moment else None)
        others = [one.region for one in kit.here.samples if one.moment == frame.moment and one is not sample]
        self.canvas.set_others(others)
        white = kit.white_on(frame.moment)
        self.canvas.set_reference(white.region if white is not None else None)
        against = kit.white_against(sample) if sample is not None and sample.moment == frame.moment else None
        parts = [self._film.path.name, self._time_of(frame.moment), f"frame {frame.number}"]
        parts.append(white_words(against, kit.all_whites, self._time_of))
        self.canvas.set_info("   ".join(parts))

    def _time_of(self, moment: Moment) -> str:
        return format_time(self._film.time_of(moment))

    def _lay_out(self) -> None:
        left = QWidget()
        film = QVBoxLayout(left)
        film.setContentsMargins(0, 0, 0, 0)
        film.addWidget(self.canvas, 1)
        controls = QWidget()
        row = WrappingRow(controls)
        for widget in (self.back, self.forward, self.region, self.white):
            row.addWidget(widget)
        film.addWidget(controls)
        film.addWidget(self.strip)
        sides = QSplitter(Qt.Orientation.Horizontal)
        sides.addWidget(left)
        sides.addWidget(scrolled(self.lists))
        sides.setStretchFactor(0, 1)
        sides.setChildrenCollapsible(False)
        layout = QVBoxLayout(self)
        layout.addWidget(self.message)
        layout.addWidget(sides, 1)
        bottom = QHBoxLayout()
        bottom.addWidget(wrapped("What is not picked here stays as it is in the set-up."), 1)
        bottom.addWidget(self.buttons)
        layout.addLayout(bottom)
        fit_to_screen(self, 980, 560)

    def _show_icons(self) -> None:
        self.back.setIcon(film_icon("back", self.palette()))
        self.forward.setIcon(film_icon("forward", self.palette()))

    def _button(self, name: str, do: Callable[[], None]) -> QToolButton:
        button = QToolButton()
        button.setAccessibleName(name)
        button.setToolTip(name)
        button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        button.clicked.connect(lambda _checked=False: do())
        return button


def _how(keys: tuple[str, ...]) -> str:
    """What to do; the key that puts a region in the middle, where there is one."""
    return HOW.format(BY_KEY.format(native(keys[0])) if keys else "")

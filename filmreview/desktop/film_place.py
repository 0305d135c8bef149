"""The picture, its controls and the film strip as one place, joined to the player, the desk and the card."""

from __future__ import annotations

from collections.abc import Callable

from PyQt6.QtCore import pyqtSignal
from PyQt6.QtWidgets import QVBoxLayout, QWidget

from filmreview.colour.palette import colour_named
from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.compare_place import ComparePlace
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.draft import Draft
from filmreview.desktop.film_bar import FilmBar
from filmreview.desktop.film_bar_keys import SpacePresses
from filmreview.desktop.ledger_presenter import LedgerPresenter, LedgerRow
from filmreview.desktop.loop_place import LoopPlace
from filmreview.desktop.picture import PictureCanvas
from filmreview.desktop.picture_outlines import outlines_at
from filmreview.desktop.player import Player
from filmreview.desktop.region_choice import HOW
from filmreview.desktop.region_work import RegionWork
from filmreview.desktop.strip import FilmStrip, StripTag
from filmreview.desktop.white_words import white_words
from filmreview.facts.region import Box
from filmreview.film.film import Film
from filmreview.film.frame import Frame
from filmreview.film.moment import Moment, format_time
from filmreview.review.changes import SetReference
from filmreview.review.model import PlacedReference

WHITE = "white"
NO_FILM = "no film in the review: redo, or add one with Review, Add a film"


class FilmPlace(QWidget):
    """The left side of the window. wanted_source: what plays the film, None to let the player choose."""

    tag_chosen = pyqtSignal(str)  # a tag's shape on the strip was clicked
    tag_opened = pyqtSignal(str)  # a kept tag on the picture was clicked
    card_wanted = pyqtSignal()  # a region was drawn: the card takes the keys

    def __init__(self, desk: Desk, card: CardPresenter, ledger: LedgerPresenter, wanted_source: str | None = None) -> None:
        super().__init__()
        self._desk, self._card, self._ledger = desk, card, ledger
        self.player = Player(self, wanted_source)
        self.canvas = PictureCanvas()
        self.bar = FilmBar(self.player, self.canvas.regions)
        self.strip = FilmStrip()
        self._waiting: Callable[[Frame], None] | None = None
        self._whites: tuple[PlacedReference, ...] = ()
        self._jump_when_open: tuple[str, Moment] | None = None
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        self.compare = ComparePlace(desk, card, ledger, self.canvas, self)
        layout.addWidget(self.compare, 1)
        layout.addWidget(self.bar)
        layout.addWidget(self.strip)
        self.regions = RegionWork(self.canvas, desk, card, self, self.card_wanted.emit)
        self.loop = LoopPlace(desk, self, self.player, self.bar, self.strip)
        self._space = SpacePresses(self)
        self._connect()

    @property
    def frame(self) -> Frame | None:
        """The exact frame on the picture; None while the film plays or nothing is open."""
        return self.player.frame

    def place_now(self) -> tuple[str, Moment] | None:
        """Film and moment on the picture: exact while it stands, the frame of the player's time while it runs."""
        film, film_id = self._desk.film, self._desk.film_id
        if film is None or film_id is None:
            return None
        frame = self.frame
        if frame is not None:
            return film_id, frame.moment
        last = film.moment_of(len(film.index) - 1)
        time = max(self.player.time, film.time_of(film.moment_of(0)))
        return film_id, last if time >= film.time_of(last) else film.moment_at(time)

    def go_to(self, film_id: str, moment: Moment) -> None:
        """Stand on this moment; when it is on another film, as soon as that one is on the picture."""
        if film_id == self._desk.film_id and self._desk.film is not None:
            self.player.jump(moment)
        else:
            self._jump_when_open = (film_id, moment)
            self.bar.film_wanted.emit(film_id)

    def on_frame(self, do: Callable[[Frame], None]) -> None:
        """Do it with the exact frame: now, or as soon as the player has found it after a pause or jump."""
        if self.frame is not None:
            do(self.frame)
        else:
            self._waiting = do

    def tag_here(self) -> None:
        """Open the card on the frame shown, without a region."""
        self.player.pause()

        def begin(frame: Frame) -> None:
            self._card.open_new(frame)
            self.card_wanted.emit()

        self.on_frame(begin)

    def give_crew_moment(self) -> None:
        """The frame on the picture is when the crew acted."""
        film_id = self._desk.film_id
        self.player.pause()
        if film_id is not None:
            self.on_frame(lambda frame: self._card.set_crew_moment(film_id, frame.moment))

    def hold_beside(self) -> None:
        """Have this moment beside the picture, which can then go on."""
        self.player.pause()
        self.compare.hold_here()

    def point_at_white(self) -> None:
        """The next drag points at white."""
        self.player.pause()
        self.canvas.set_pointing(True)
        self.canvas.setFocus()
        self._desk.message(
            "drag over something white that stands in the item's light, or press Enter for a box to move with Alt and arrows"
        )

    def next_shape(self) -> None:
        """The next drag draws another shape of region."""
        self.canvas.regions.next_shape()
        shape = self.canvas.regions.shape
        self._desk.message(f"{shape}: {HOW[shape]}")

    def close_film(self) -> None:
        """Let go of the film; called before the window closes."""
        self.strip.close_film()
        self.compare.close_film()
        self.player.close()

    def _connect(self) -> None:
        player, canvas, strip = self.player, self.canvas, self.strip
        player.picture_shown.connect(canvas.show_picture)
        player.frame_shown.connect(self._show_frame)
        player.time_changed.connect(strip.set_now)
        player.playing_changed.connect(self._playing)
        player.trouble.connect(self._desk.message)
        canvas.drawing_started.connect(player.pause)
        canvas.reference_drawn.connect(self._white_pointed_at)
        canvas.tag_chosen.connect(self.tag_opened)
        canvas.tag_wanted.connect(self.tag_here)
        canvas.space_tapped.connect(player.toggle)
        strip.jump_wanted.connect(player.jump_to)
        strip.tag_chosen.connect(self.tag_chosen)
        self.bar.white_wanted.connect(self.point_at_white)
        self._desk.events.on("film", self._film_changed)
        self._desk.events.on("findings", self._show_tags)
        self._desk.events.on("review", self._show_tags)
        self._desk.events.on("review", self._whites_changed)
        self._card.events.on("open", self._show_info)
        self._card.events.on("measured", self._show_info)

    def _film_changed(self) -> None:
        film, review = self._desk.film, self._desk.review
        self._whites = self._desk.whites
        self._waiting = None
        self.strip.close_film()
        if film is None:
            self.player.close()
            self.canvas.show_picture(None)
            self.canvas.set_info("" if review is None or review.films else NO_FILM)
            self.bar.show_no_film()
        else:
            self.player.open(film)
            self.strip.set_film(film)
            self.bar.show_length(film.info.duration)
            self._after_opening(film)
        self.bar.show_films(review.films if review else (), self._desk.film_id)
        self._show_tags()

    def _after_opening(self, film: Film) -> None:
        wanted, self._jump_when_open = self._jump_when_open, None
        if wanted is not None and wanted[0] == self._desk.film_id:
            self.player.jump(wanted[1])
        if film.info.trouble:
            self._desk.message(film.info.trouble[0])

    def _playing(self, playing: bool) -> None:
        if playing:
            self.canvas.set_tags(())
            self.canvas.regions.give_up()
            self.canvas.set_region(None)
            self.canvas.set_reference(None)
            self._show_info()

    def _show_frame(self, frame: Frame) -> None:
        waiting, self._waiting = self._waiting, None
        if waiting is not None:
            waiting(frame)
        self.regions.show()
        self.compare.show_apart()
        self._show_outlines()
        self._show_info()

    def _white_pointed_at(self, box: Box) -> None:
        self.canvas.set_pointing(False)
        film_id = self._desk.film_id
        if film_id is not None:
            self.on_frame(lambda frame: self._keep_white(frame, box, film_id))

    def _keep_white(self, frame: Frame, box: Box, film_id: str) -> None:
        change = SetReference(film_id, frame.moment, box, colour_named(WHITE))
        self._desk.set_white(frame, box, change, self._show_outlines)

    def _whites_changed(self) -> None:
        """Where the whites are others, what was measured on this frame is measured against them."""
        whites, card, frame = self._desk.whites, self._card, self.frame
        if whites == self._whites:
            return
        self._whites = whites
        self._show_info()
        draft, measured = card.draft, card.is_new or card.measured is not None
        if draft is None or draft.region is None or frame is None or card.keeping or not measured:
            return
        if self._stands_at(draft, frame):
            card.set_region(frame, draft.region)

    def _rows_here(self) -> list[LedgerRow]:
        return [row for row in self._ledger.rows() if row.film == self._desk.film_id]

    def _show_tags(self) -> None:
        self.strip.set_tags(
            [StripTag(row.tag, row.seconds, row.ruling, row.ahead, f"{row.who}: {row.item}") for row in self._rows_here()]
        )
        self._show_outlines()

    def _show_outlines(self) -> None:
        review, frame = self._desk.review, self.frame
        if review is None or frame is None:
            self.canvas.set_tags(())
            return
        film_id = self._desk.film_id or ""
        self.canvas.set_tags(outlines_at(review, self._ledger.rows(), film_id, frame.moment))
        white = self._desk.white_on(frame.moment)
        self.canvas.set_reference(white.region if white is not None else None)

    def _show_info(self) -> None:
        film, frame = self._desk.film, self.frame
        if film is None:
            return
        parts = [film.path.name]
        if frame is not None:
            parts += [self._time_of(frame.moment), f"frame {frame.number}"]
            measured, draft = self._card.measured, self._card.draft
            white = None
            if measured is not None and draft is not None and self._stands_at(draft, frame):
                parts.append(f"view {measured.view}")
                white = self._desk.white_of(draft.moment, draft.region) if measured.reference and draft.region else None
            parts.append(white_words(white, self._desk.whites, self._time_of))
        self.canvas.set_info("   ".join(parts))

    def _stands_at(self, draft: Draft, frame: Frame) -> bool:
        return (draft.film, draft.moment) == (self._desk.film_id, frame.moment)

    def _time_of(self, moment: Moment) -> str:
        film = self._desk.film
        return format_time(film.time_of(moment)) if film is not None else ""

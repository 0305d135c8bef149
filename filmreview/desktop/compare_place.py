"""The picture beside, joined to the picture: opened and put away, zoomed with it, its line and tags, swapping the two."""

from __future__ import annotations

from collections.abc import Callable

from PyQt6.QtCore import Qt
from PyQt6.QtWidgets import QLabel, QSizePolicy, QSplitter, QVBoxLayout, QWidget

from filmreview.desktop.card_presenter import CardPresenter
from filmreview.desktop.compare_pane import HERE, ComparePane
from filmreview.desktop.compare_presenter import Beside
from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.ledger_presenter import LedgerPresenter
from filmreview.desktop.measuring import Measuring
from filmreview.desktop.picture import PictureCanvas
from filmreview.desktop.picture_outlines import outlines_at, reference_on
from filmreview.desktop.region_work import Standing
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Region
from filmreview.film.film import Film
from filmreview.film.frame import Frame
from filmreview.film.moment import Moment, format_time
from filmreview.measure.colour import MeasuredColour
from filmreview.progress import Progress

JOB = "measure beside"


class ComparePlace(QSplitter):
    """The picture, and beside it a second moment whenever one is held there."""

    def __init__(
        self, desk: Desk, card: CardPresenter, ledger: LedgerPresenter, canvas: PictureCanvas, place: Standing
    ) -> None:
        super().__init__(Qt.Orientation.Horizontal)
        self._desk, self._card, self._ledger, self._canvas, self._place = desk, card, ledger, canvas, place
        self._film: Film | None = None
        self._measuring = Measuring()
        self._view_words = ""
        self._looking = False  # while one canvas follows the other
        self.pane = ComparePane()
        self.here = QLabel(HERE)
        self.beside = Beside(desk, self._take_film, self._stand)
        self._lay_out()
        self._connect()

    def hold_here(self) -> None:
        """Have the moment on the picture beside, too; the picture can then go on."""
        film_id = self._desk.film_id
        if film_id is not None:
            self._place.on_frame(lambda frame: self.beside.hold(film_id, frame.moment))

    def take_keys(self) -> None:
        """The picture beside gets the keys."""
        if self.beside.on:
            self.pane.canvas.setFocus(Qt.FocusReason.ShortcutFocusReason)
        else:
            self._desk.message("nothing is beside the picture: Film, This moment beside")

    def hold_tag(self, tag_id: str) -> None:
        """Have a kept tag's moment beside."""
        self.beside.hold_tag(tag_id)

    def swap(self) -> None:
        """Go to the moment beside, and have the one on the picture beside."""
        film_id, moment, here = self._desk.film_id, self.beside.moment, self.beside.film_id
        if film_id is None or moment is None or here is None:
            return

        def change(frame: Frame) -> None:
            self.beside.hold(film_id, frame.moment)
            self._place.go_to(here, moment)

        self._place.on_frame(change)

    def close_film(self) -> None:
        """Let go of the film beside; called before the window closes."""
        self.beside.off()
        self.pane.player.close()

    def show_apart(self) -> None:
        """The picture went on: how far the moment beside is from it now."""
        frame = self._place.frame
        self.pane.show_apart(self.beside.apart(frame.moment if frame is not None else None))

    def _lay_out(self) -> None:
        left = QWidget()
        layout = QVBoxLayout(left)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        self.here.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.here.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom)
        layout.addWidget(self.here)
        layout.addWidget(self._canvas, 1)
        self.addWidget(left)
        self.addWidget(self.pane)
        self.setChildrenCollapsible(False)
        self.here.hide()
        self.pane.hide()

    def _connect(self) -> None:
        pane, canvas = self.pane, self._canvas
        pane.player.frame_shown.connect(self._frame_shown)
        pane.player.trouble.connect(self._desk.message)
        pane.film_wanted.connect(self._other_film)
        pane.swap_wanted.connect(self.swap)
        pane.off_wanted.connect(self._put_away)
        pane.head_resized.connect(self.here.setFixedHeight)  # so that both pictures have the same place
        pane.linked.connect(lambda on: self._follow(canvas, pane.canvas) if on else None)
        canvas.view_changed.connect(lambda _view: self._follow(canvas, pane.canvas))
        pane.canvas.view_changed.connect(lambda _view: self._follow(pane.canvas, canvas))
        self.beside.events.on("beside", self._show)
        self._desk.events.on("findings", self._show_marks)
        self._desk.events.on("review", self._show_marks)
        self._card.events.on("open", self._show_marks)
        self._card.events.on("measured", self._show_marks)

    def _put_away(self) -> None:
        self.beside.off()
        self._canvas.setFocus()

    def _take_film(self, film: Film | None) -> None:
        self.pane.player.close()
        self._film = film
        self._measuring.take_film(film)
        if film is not None:
            self.pane.player.open(film)

    def _stand(self, moment: Moment) -> None:
        self.pane.player.jump(moment)

    def _other_film(self, film_id: str) -> None:
        frame = self._place.frame
        self.beside.hold_film(film_id, frame.moment if frame is not None else None)

    def _frame_shown(self, frame: Frame) -> None:
        self.beside.stands_on(frame.moment)

    def _follow(self, leader: PictureCanvas, follower: PictureCanvas) -> None:
        """One canvas looks where the other does, while they are linked and both are shown."""
        if self._looking or not self.beside.on or not self.pane.same_zoom.isChecked():
            return
        self._looking = True
        if follower.picture_size != (0, 0):
            follower.look_at(leader.view)
        self._looking = False

    def _show(self) -> None:
        on, review = self.beside.on, self._desk.review
        was_on = self.pane.isVisibleTo(self)
        self.pane.setVisible(on)
        self.here.setVisible(on)
        if on and not was_on:
            self.setSizes([self.width() // 2, self.width() // 2])
        self.pane.show_films(review.films if review else (), self.beside.film_id)
        self.show_apart()
        self._show_marks()

    def _show_marks(self) -> None:
        """The tags kept at that frame, the region on the card when it is there, and what the region's view is worth."""
        review, film_id, frame = self._desk.review, self.beside.film_id, self.pane.player.frame
        if review is None or film_id is None or frame is None or frame.moment != self.beside.moment:
            self._desk.forget(JOB)
            return
        outlines = outlines_at(review, self._ledger.rows(), film_id, frame.moment)
        self.pane.canvas.set_tags(outlines)
        draft = self._card.draft
        own = draft.region if draft is not None and (draft.film, draft.moment) == (film_id, frame.moment) else None
        self.pane.canvas.set_region(own)
        white = reference_on(review, film_id, frame.moment)
        self.pane.canvas.set_reference(white.region if white is not None else None)
        self._view_words = ""
        self._show_info(frame)
        region = own or (outlines[0].region if outlines else None)
        if region is not None:
            self._measure(frame, region, film_id)

    def _measure(self, frame: Frame, region: Region, film_id: str) -> None:
        review = self._desk.review
        whites = tuple(one for one in review.references if one.film == film_id) if review is not None else ()

        def work(progress: Progress) -> MeasuredColour:
            return self._measuring.measure(frame, region, whites, progress)

        def then(measured: MeasuredColour) -> None:
            self._view_words = f"view {measured.view}" + (f"   looks {measured.colour.name}" if measured.colour else "")
            self._show_info(frame)

        self._desk.start(work, then, self._not_measured, JOB)

    def _not_measured(self, _error: FilmReviewError) -> None:
        """The line then goes without a view grade; the card says why a region cannot be measured."""

    def _show_info(self, frame: Frame) -> None:
        film = self._film
        if film is not None and frame == self.pane.player.frame:
            parts = [film.path.name, format_time(film.time_of(frame.moment)), f"frame {frame.number}", self._view_words]
            self.pane.canvas.set_info("   ".join(part for part in parts if part))


def chosen_tag(card: CardPresenter, chosen: Callable[[], tuple[str, ...]]) -> str | None:
    """The kept tag that is meant: the one on the card, else the first one chosen in the ledger."""
    if card.draft is not None and not card.is_new:
        return card.draft.id
    found = chosen()
    return found[0] if found else None

"""The stoppages on the film strip: those of the film on the picture, and the one that is being set, up to now."""

from __future__ import annotations

from PyQt6.QtCore import QObject

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.film_place import FilmPlace
from filmreview.desktop.stoppage_presenter import StoppagePresenter
from filmreview.desktop.strip import Stretch


class StoppageShades(QObject):
    """Keeps the strip's shades as the review has them."""

    def __init__(self, desk: Desk, presenter: StoppagePresenter, film_place: FilmPlace) -> None:
        super().__init__(film_place)
        self._desk, self._presenter, self._strip = desk, presenter, film_place.strip
        presenter.events.on("stoppages", self.refresh)
        desk.events.on("film", self.refresh)

    def refresh(self) -> None:
        """Shade what there is."""
        rows = self._presenter.on_film(self._desk.film_id)
        self._strip.set_stoppages([Stretch(row.start, row.end, row.words, row.proposed) for row in rows])
        begun = self._presenter.begun
        here = begun is not None and begun[0] == self._desk.film_id
        self._strip.set_begun(self._desk.seconds_of(*begun) if begun is not None and here else None)

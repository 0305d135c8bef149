"""The stoppages on the film strip: those of the film on the picture, and the one that is being set, up to now."""

from __future__ import annotations

from fractions import Fraction

from PyQt6.QtCore import QObject

from filmreview.desktop.desk_presenter import Desk
from filmreview.desktop.film_place import FilmPlace
from filmreview.desktop.stoppage_presenter import StoppagePresenter
from filmreview.desktop.strip import Stretch


class StoppageShades(QObject):
    """Keeps the strip's shades as the review has them."""

    def __init__(self, desk: Desk, presenter: StoppagePresenter, film_place: FilmPlace) -> None:
        super().__init__(film_place)
        self._desk, self._presenter, self._film_place = desk, presenter, film_place
        presenter.events.on("stoppages", self.refresh)
        desk.events.on("film", self.refresh)
        film_place.player.time_changed.connect(self._time_changed)

    def refresh(self) -> None:
        """Shade what there is."""
        rows = self._presenter.on_film(self._desk.film_id)
        stretches = [Stretch(row.start, row.end, row.words, row.proposed) for row in rows]
        begun = self._presenter.begun
        if begun is not None and begun[0] == self._desk.film_id:
            start, now = sorted((self._desk.seconds_of(*begun), self._film_place.player.time))
            stretches.append(Stretch(start, now, "stoppage being set", True))
        self._film_place.strip.set_stoppages(stretches)

    def _time_changed(self, _seconds: Fraction) -> None:
        if self._presenter.begun is not None:
            self.refresh()

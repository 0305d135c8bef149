"""Small pictures of any time of the film, made beside the screen from a film of their own, so that the player's stays put."""

from __future__ import annotations

from collections import OrderedDict
from fractions import Fraction

from PyQt6.QtCore import QObject, Qt, pyqtSignal
from PyQt6.QtGui import QImage

from filmreview.desktop.picture import image_of
from filmreview.desktop.player_worker import NewestWorker
from filmreview.film.film import Film

WIDTH, HEIGHT = 208, 117  # the most a small picture takes, pixels
_KEPT = 100  # small pictures, some 100 kB each
_FILM_BYTES = 4 << 20  # decoded pictures of the second film kept: a frame or two


class Thumbnails(QObject):
    """Makes small pictures of one film. ready: (seconds asked for, QImage); nothing comes of a time that cannot be shown."""

    ready = pyqtSignal(object, QImage)

    def __init__(self, film: Film, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._of = film
        self._film: Film | None = None  # an opening of its own
        self._made: OrderedDict[Fraction, QImage] = OrderedDict()
        self._asked: dict[int, Fraction] = {}
        self._worker = NewestWorker("film-thumbnails", self)
        self._worker.done.connect(self._take)

    def ask(self, seconds: Fraction) -> None:
        """Have the small picture of this time made; one that is there already comes at once."""
        if seconds in self._made:
            self._made.move_to_end(seconds)
            self.ready.emit(seconds, self._made[seconds])
            return
        self._asked[self._worker.ask(lambda: self._make(seconds))] = seconds

    def close(self) -> None:
        """End the worker and let the second film go."""
        if self._film is not None:
            self._film.close()  # first, so that the worker does not decode a whole group for nobody
        self._worker.close()
        if self._film is not None:
            self._film.close()
            self._film = None

    def _make(self, seconds: Fraction) -> QImage:
        """On the worker's thread. Raises FilmReviewError when the film is gone or damaged there."""
        if self._film is None:
            self._film = self._of.again(kept_bytes=_FILM_BYTES)
        picture = self._film.frame_at(self._film.moment_at(seconds)).picture()
        return image_of(picture).scaled(
            WIDTH, HEIGHT, Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
        )

    def _take(self, ticket: int, image: object) -> None:
        seconds = self._asked[ticket]
        self._asked = {other: asked for other, asked in self._asked.items() if other > ticket}
        assert isinstance(image, QImage)
        self._made[seconds] = image
        if len(self._made) > _KEPT:
            self._made.popitem(last=False)
        self.ready.emit(seconds, image)

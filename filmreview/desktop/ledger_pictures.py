"""The small pictures of the ledger, made one after another by a job that opens the films for itself."""

from __future__ import annotations

import threading
from collections.abc import Sequence

import numpy as np
from PyQt6.QtCore import QObject, Qt, pyqtSignal
from PyQt6.QtGui import QImage

from filmreview.desktop.jobs import Jobs
from filmreview.desktop.known_films import KnownFilms
from filmreview.desktop.ledger_model import PICTURE_SIZE
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box, Region
from filmreview.film.film import Film
from filmreview.measure.shape import bounds_of
from filmreview.progress import Progress
from filmreview.review.films import found_film
from filmreview.review.model import PlacedTag, Review

AROUND = 2.0
"""How much of the picture is shown, in widths of the region."""


class LedgerPictures(QObject):
    """Makes what is missing. made: the tag's id and its picture."""

    made = pyqtSignal(str, QImage)

    def __init__(self, jobs: Jobs, films: KnownFilms) -> None:
        super().__init__()
        self._jobs, self._films = jobs, films
        self._known: dict[str, tuple[object, ...]] = {}
        self._lock = threading.Lock()

    def want(self, review: Review | None) -> None:
        """Make the pictures of these tags that are not made yet, or whose place has changed."""
        if review is None:
            self._known.clear()
            self._jobs.drop("pictures")
            return
        missing = [tag for tag in review.tags if self._known.get(tag.id) != _place(tag)]
        if missing:
            self._jobs.start(lambda progress: self._make(review, missing, progress), failed=_not_told, only="pictures")

    def _make(self, review: Review, tags: Sequence[PlacedTag], progress: Progress) -> None:
        with self._lock:  # an older job that is being stopped may still hold a film
            for film_id in dict.fromkeys(tag.film for tag in tags):
                here = [tag for tag in tags if tag.film == film_id]
                with self._films.open(found_film(review, film_id), progress, kept_bytes=1) as film:
                    self._make_of(film, here, progress)

    def _make_of(self, film: Film, tags: Sequence[PlacedTag], progress: Progress) -> None:
        for number, tag in enumerate(tags):
            progress(number / len(tags), "small pictures")
            picture = film.frame_at(tag.moment).picture()
            self._known[tag.id] = _place(tag)
            self.made.emit(tag.id, small_picture(picture, tag.region))


def _not_told(_error: FilmReviewError) -> None:
    """A film that is missing is told when it is opened, not once more for its small pictures."""


def _place(tag: PlacedTag) -> tuple[object, ...]:
    return (tag.film, tag.moment, tag.region)


def small_picture(picture: np.ndarray, region: Region | None) -> QImage:
    """The part of the picture around a region, or all of it, small. picture: uint8 (h, w, 3)."""
    height, width = picture.shape[:2]
    left, top, right, bottom = _window(bounds_of(region) if region is not None else None, width, height)
    part = np.ascontiguousarray(picture[top:bottom, left:right])
    image = QImage(part.tobytes(), part.shape[1], part.shape[0], part.strides[0], QImage.Format.Format_RGB888)
    scaled = image.scaled(PICTURE_SIZE, Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation)
    return scaled.copy()


def _window(region: Box | None, width: int, height: int) -> tuple[int, int, int, int]:
    if region is None:
        return 0, 0, width, height
    ratio = PICTURE_SIZE.width() / PICTURE_SIZE.height()
    wide = min(float(width), max(region.width * AROUND, region.height * AROUND * ratio, PICTURE_SIZE.width()))
    high = min(float(height), wide / ratio)
    left = min(max(0.0, region.x + region.width / 2 - wide / 2), width - wide)
    top = min(max(0.0, region.y + region.height / 2 - high / 2), height - high)
    return round(left), round(top), round(left + wide), round(top + high)

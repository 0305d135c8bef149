"""Where the sheet's pictures come from: the exact frames of the review's films."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager

from filmreview.errors import FilmReviewError
from filmreview.film.film import Film, open_film
from filmreview.film.moment import Moment
from filmreview.review.films import found_film
from filmreview.review.model import FilmRef, Review
from filmreview.sheets.marking import Picture

PictureSource = Callable[[FilmRef, Moment], Picture]
"""The upright picture at a moment of a film, uint8 (height, width, 3); raises FilmReviewError when it cannot be had."""

KEPT_BYTES = 8 * 2**20
"""How much decoded picture a film keeps for a sheet: two frames or so, as findings are asked for once each, in order."""


class Missed:
    """A source of pictures that remembers which could not be had. `asked` and `missed` count pictures; `why` holds each reason
    once."""

    def __init__(self, pictures: PictureSource) -> None:
        self._pictures = pictures
        self.asked = self.missed = 0
        self.why: dict[str, None] = {}

    def __call__(self, film: FilmRef, moment: Moment) -> Picture:
        """The picture of the source; what the source raises goes on."""
        self.asked += 1
        try:
            return self._pictures(film, moment)
        except FilmReviewError as error:
            self.missed += 1
            self.why[str(error)] = None
            raise


@contextmanager
def film_pictures(review: Review) -> Iterator[PictureSource]:
    """The pictures of the review's own films; each is opened when first asked for and closed at the end."""
    with ExitStack() as stack:
        opened: dict[str, Film] = {}

        def picture(film: FilmRef, moment: Moment) -> Picture:
            if film.id not in opened:
                opened[film.id] = stack.enter_context(open_film(found_film(review, film.id), kept_bytes=KEPT_BYTES))
            return opened[film.id].frame_at(moment).picture()

        yield picture

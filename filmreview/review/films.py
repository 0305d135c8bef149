"""The films of a review: how one comes in, and where it is now."""

from __future__ import annotations

import os
from pathlib import Path

from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.review.changes import AddFilm, MoveFilm
from filmreview.review.model import FilmRef, Review


def add_film(film: Film, review: Path) -> AddFilm:
    """The change that adds an open film. review: the review's file, to keep the way from one to the other."""
    identity, path = film.identity, Path(film.path).absolute()
    width, height = film.info.width, film.info.height
    return AddFilm(
        str(path), identity.size, identity.length, identity.digest, film.start, width, height, way_from(review.parent, path)
    )


def found_film(review: Review, film_id: str) -> Path:
    """Where the film is now: as it lay from the review's folder, else where it was.

    Raises FilmReviewError when it is at neither place, or another file has taken its place (its size differs).
    """
    film = review.film(film_id)
    for place in _places(review, film):
        if place.is_file():
            if place.stat().st_size != film.size:
                raise FilmReviewError(f"this is not the film of the review, which has {film.size} bytes", where=str(place))
            return place
    todo = "put it back, or open the review at the desk and choose it there"
    raise FilmReviewError("the film is not there any more", where=film.path, todo=todo)


def move_film(review: Review, film_id: str, film: Film) -> MoveFilm:
    """The change that finds a film at the path of an open one; raises FilmReviewError when that is another film."""
    known, identity, path = review.film(film_id), film.identity, Path(film.path).absolute()
    if (identity.size, identity.digest) != (known.size, known.digest):
        raise FilmReviewError(f"this is another film than {known.name}", where=str(path), todo="choose the same recording")
    return MoveFilm(film_id, str(path), way_from(review.path.parent, path))


def way_from(folder: Path, path: Path) -> str:
    """The path as seen from a folder, with forward slashes; "" when there is none (another drive)."""
    try:
        return Path(os.path.relpath(path.absolute(), folder.absolute())).as_posix()
    except ValueError:
        return ""


def _places(review: Review, film: FilmRef) -> list[Path]:
    beside = [Path(os.path.normpath(review.path.parent / film.beside))] if film.beside else []
    return [*beside, Path(film.path)]

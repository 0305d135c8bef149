"""The films of a review: how one comes in, where it is now, and how one is found again that was moved or renamed."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from pathlib import Path

from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.film.identity import digest_of_parts
from filmreview.progress import Progress, silent
from filmreview.review.changes import AddFilm, MoveFilm
from filmreview.review.model import FilmRef, Review


def add_film(film: Film, review: Path) -> AddFilm:
    """The change that adds an open film. review: the review's file, to keep the way from one to the other."""
    identity, path = film.identity, Path(film.path).absolute()
    width, height = film.info.width, film.info.height
    way = way_from(review.parent, path)
    return AddFilm(_told(path, way), identity.size, identity.length, identity.digest, film.start, width, height, way)


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
    todo = f"put it back, or say where it is now: filmreview films {review.path.name} --find FOLDER, or at the desk"
    raise FilmReviewError("the film is not there any more", where=film.path, todo=todo)


def move_film(review: Review, film_id: str, film: Film) -> MoveFilm:
    """The change that finds a film at the path of an open one; raises FilmReviewError when that is another film."""
    known, identity, path = review.film(film_id), film.identity, Path(film.path).absolute()
    if (identity.size, identity.digest) != (known.size, known.digest):
        raise FilmReviewError(f"this is another film than {known.name}", where=str(path), todo="choose the same recording")
    return _moved(review, film_id, path)


def lost_films(review: Review) -> tuple[FilmRef, ...]:
    """The films that are not where they were, or whose place another file has taken."""
    return tuple(film for film in review.films if _lost(review, film))


def find_lost_films(review: Review, place: Path, progress: Progress = silent) -> tuple[MoveFilm, ...]:
    """The changes that find the lost films again in a folder or below it (or as that very file), by size and digest.

    Links to folders are not followed, and what cannot be read is passed over. Raises FilmReviewError when there is no such
    place.
    """
    if not place.exists():
        raise FilmReviewError(
            "there is no such folder", where=str(place), todo="name the folder that the film lies in or below"
        )
    wanted = {(film.size, film.digest): film for film in lost_films(review)}
    found: dict[str, MoveFilm] = {}
    for path in _files(place):
        if len(found) == len(wanted):
            break
        progress(0.0, f"looking at {path.name}")
        film = _known_again(path, wanted)
        if film is not None and film.id not in found:
            found[film.id] = _moved(review, film.id, path.absolute())
    progress(1.0, "looked")
    return tuple(found[film.id] for film in wanted.values() if film.id in found)


def way_from(folder: Path, path: Path) -> str:
    """The path as seen from a folder, with forward slashes; "" when there is none (another drive)."""
    try:
        return Path(os.path.relpath(path.absolute(), folder.absolute())).as_posix()
    except ValueError:
        return ""


def place_of(review: Review, film: FilmRef) -> Path:
    """Where the film is, or where it would be if it were there."""
    return next((place for place in _places(review, film) if place.is_file()), _places(review, film)[-1])


def _places(review: Review, film: FilmRef) -> list[Path]:
    folder = review.path.parent
    beside = [Path(os.path.normpath(folder / film.beside))] if film.beside else []
    return [*beside, folder / film.path]  # an absolute path stands as it is


def _told(path: Path, way: str) -> str:
    """The path as the review keeps it: where the film lies in the review's folder or below, only the way to it, so that the
    file, handed to somebody, does not tell the folders of this machine."""
    return str(path) if way == "" or way.split("/", 1)[0] == ".." else way


def _moved(review: Review, film_id: str, path: Path) -> MoveFilm:
    way = way_from(review.path.parent, path)
    return MoveFilm(film_id, _told(path, way), way)


def _lost(review: Review, film: FilmRef) -> bool:
    try:
        found_film(review, film.id)
    except FilmReviewError:
        return True
    return False


def _files(place: Path) -> Iterator[Path]:
    """The file itself, or all files of the folder and below, by name."""
    if place.is_file():
        yield place
        return
    for folder, below, names in os.walk(place):
        below.sort()
        yield from (Path(folder) / name for name in sorted(names))


def _known_again(path: Path, wanted: Mapping[tuple[int, str], FilmRef]) -> FilmRef | None:
    """The film that the file is; only what has the size of one is read."""
    try:
        if not path.is_file() or path.stat().st_size not in {size for size, _ in wanted}:
            return None
        return wanted.get(digest_of_parts(path))
    except OSError:
        return None

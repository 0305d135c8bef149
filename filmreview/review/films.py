"""The films of a review: how one comes in, and where it is now. `films_search` finds one again that was moved or renamed."""

from __future__ import annotations

import os
import shlex
from dataclasses import dataclass, field
from pathlib import Path

from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.film.identity import digest_of_parts
from filmreview.review.changes import AddFilm, MoveFilm
from filmreview.review.model import FilmRef, Review

THERE, MISSING, ANOTHER = "there", "missing", "another film"


@dataclass(frozen=True)
class Whereabouts:
    """state: THERE, MISSING or ANOTHER. place: where the film is; where it would be; the file that lies in its place. differs:
    what tells that file from the film, in words."""

    state: str
    place: Path
    differs: str = field(default="", compare=False)


def add_film(film: Film, review: Path) -> AddFilm:
    """The change that adds an open film. review: the review's file, to keep the way from one to the other."""
    identity, path = film.identity, Path(film.path).absolute()
    width, height = film.info.width, film.info.height
    way = way_from(review.parent, path)
    return AddFilm(_told(path, way), identity.size, identity.length, identity.digest, film.start, width, height, way)


def whereabouts(review: Review, film: FilmRef) -> Whereabouts:
    """Where the film is now: as it lay from the review's folder, else where it was; known by size and digest."""
    taken: list[Whereabouts] = []
    for place in _places(review, film):
        if not _is_file(place):
            continue
        differs = other_words(place, film)
        if not differs:
            return Whereabouts(THERE, place)
        taken.append(Whereabouts(ANOTHER, place, differs))
    return taken[0] if taken else Whereabouts(MISSING, _places(review, film)[-1])


def found_film(review: Review, film_id: str) -> Path:
    """Where the film is now.

    Raises FilmReviewError when it is at neither of its places, or another file has taken them (size or digest differ).
    """
    film = review.film(film_id)
    now = whereabouts(review, film)
    if now.state == THERE:
        return now.place
    todo = f"put it back, or say where it is now: {find_line(review)}, or at the desk"
    if now.state == ANOTHER:
        told = f"this is not the film of the review: {now.differs}"
        raise FilmReviewError(told, where=str(now.place), todo=todo)
    raise FilmReviewError("the film is not there any more", where=film.path, todo=todo)


def find_line(review: Review) -> str:
    """What to type to find a film that was moved or renamed."""
    return f"filmreview films {shlex.quote(str(review.path))} --find FOLDER"


def other_words(path: Path, film: FilmRef) -> str:
    """What tells a file from the film, in words; "" for the film itself, and for a file that cannot be read, which whoever
    opens it is told."""
    try:
        size = path.stat().st_size
        if size != film.size:
            return f"it has {size:,} bytes, not {film.size:,}"
        return "" if digest_of_parts(path)[1] == film.digest else "it is as large, and something else is in it"
    except OSError:
        return ""


def move_film(review: Review, film_id: str, film: Film) -> MoveFilm:
    """The change that finds a film at the path of an open one; raises FilmReviewError when that is another film."""
    known, identity, path = review.film(film_id), film.identity, Path(film.path).absolute()
    if (identity.size, identity.digest) != (known.size, known.digest):
        raise FilmReviewError(f"this is another film than {known.name}", where=str(path), todo="choose the same recording")
    return moved(review, film_id, path)


def lost_films(review: Review) -> tuple[FilmRef, ...]:
    """The films that are not where they were, or whose place another file has taken."""
    return tuple(film for film in review.films if whereabouts(review, film).state != THERE)


def moved(review: Review, film_id: str, path: Path) -> MoveFilm:
    """The change that says where the film is now."""
    way = way_from(review.path.parent, path)
    return MoveFilm(film_id, _told(path, way), way)


def way_from(folder: Path, path: Path) -> str:
    """The path as seen from a folder, with forward slashes; "" when there is none (another drive)."""
    try:
        return Path(os.path.relpath(path.absolute(), folder.absolute())).as_posix()
    except ValueError:
        return ""


def place_of(review: Review, film: FilmRef) -> Path:
    """Where the film is, or where it would be if it were there."""
    return whereabouts(review, film).place


def _places(review: Review, film: FilmRef) -> list[Path]:
    folder = review.path.parent
    beside = [Path(os.path.normpath(folder / film.beside))] if film.beside else []
    return [*beside, folder / film.path]  # an absolute path stands as it is


def _told(path: Path, way: str) -> str:
    """The path as the review keeps it: where the film lies in the review's folder or below, only the way to it, so that the
    file, handed to somebody, does not tell the folders of this machine."""
    return str(path) if way == "" or way.split("/", 1)[0] == ".." else way


def _is_file(path: Path) -> bool:
    """Whether a file lies there that may be looked at."""
    try:
        return path.is_file()
    except OSError:
        return False

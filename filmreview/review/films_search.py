"""Finding the films of a review again that were moved or renamed: in a folder or below it, by size and digest."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from pathlib import Path

from filmreview.errors import FilmReviewError
from filmreview.film.film import open_film
from filmreview.film.identity import digest_of_parts
from filmreview.film.moment import format_time
from filmreview.progress import Progress, silent
from filmreview.review.changes import MoveFilm
from filmreview.review.films import lost_films, moved, other_words
from filmreview.review.model import FilmRef, Review


def check_place(place: Path) -> None:
    """Raise FilmReviewError when there is no such place to look in; OSError when it may not be looked into."""
    if not place.exists():
        todo = "name the folder that the film lies in or below"
        raise FilmReviewError("there is no such folder", where=str(place), todo=todo)
    if place.is_dir():
        os.scandir(place).close()


def find_lost_films(review: Review, place: Path, progress: Progress = silent) -> tuple[MoveFilm, ...]:
    """The changes that find the lost films again in a folder or below it (or as that very file), by size and digest.

    Links to folders are not followed, and what cannot be read is passed over. Raises as `check_place` does.
    """
    check_place(place)
    wanted = {(film.size, film.digest): film for film in lost_films(review)}
    found: dict[str, MoveFilm] = {}
    for path in _files(place):
        if len(found) == len(wanted):
            break
        progress(0.0, f"looking at {path.name}")
        film = _known_again(path, wanted)
        if film is not None and film.id not in found:
            found[film.id] = moved(review, film.id, path.absolute())
    progress(1.0, "looked")
    return tuple(found[film.id] for film in wanted.values() if film.id in found)


def others_taken_for(film: FilmRef, place: Path) -> tuple[tuple[Path, str], ...]:
    """Files there that somebody could take for the film and that are other ones: of its name, or the very file named.

    Each with what tells it from the film, in words: how long it is where it can be opened and is not as long, else its size
    or that something else is in it.
    """
    found = []
    for path in _files(place):
        if path == place or path.name.casefold() == film.name.casefold():
            words = other_words(path, film)
            if words:
                found.append((path, _length_words(path, film) or words))
    return tuple(found)


def _length_words(path: Path, film: FilmRef) -> str:
    """ "it is 0:03.003 long, not 0:03.185"; "" where it is no film or as long."""
    try:
        with open_film(path, kept_bytes=1) as other:
            here, wanted = format_time(other.info.duration), format_time(film.length)
    except (FilmReviewError, OSError):
        return ""
    return f"it is {here} long, not {wanted}" if here != wanted else ""


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

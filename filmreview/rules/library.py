"""Finding books and adoptions: those that ship with the program, and the user's own.

Where `folders` is left out, the user's own folder is looked through before what ships (`own_folder`).
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path

from platformdirs import user_config_path

from filmreview.errors import FilmReviewError, unknown
from filmreview.rules.adoption import Adoption, book_of_adoption, read_adoption
from filmreview.rules.book import Book
from filmreview.rules.reading import CASES, read_book

BOOKS_FOLDER = Path(__file__).parent / "books"
ADOPTIONS_FOLDER = Path(__file__).parent / "adoptions"


def own_folder() -> Path:
    """Where the user's own books (folders) and adoptions (files) are looked for, whether it is there or not."""
    return user_config_path("filmreview", appauthor=False) / "books"


def _places(folders: Sequence[Path] | None, shipped: Path) -> tuple[Path, ...]:
    return (*((own_folder(),) if folders is None else folders), shipped)


def book_names(folders: Sequence[Path] | None = None) -> tuple[str, ...]:
    """Codes of all books found: in the folders given, then those that ship."""
    found = [path.parent.name for folder in _places(folders, BOOKS_FOLDER) for path in sorted(folder.glob("*/book.toml"))]
    return tuple(dict.fromkeys(found))


def book_named(name: str, folders: Sequence[Path] | None = None, where: str | None = None) -> Book:
    """The book of that code, read once; a user's folder before the program's own. Raises FilmReviewError for an unknown one."""
    for folder in _places(folders, BOOKS_FOLDER):
        if name in {path.parent.name for path in folder.glob("*/book.toml")}:
            return _book((folder / name).resolve())
    raise unknown("book", name, book_names(folders), where=where)


def adoption_names(folders: Sequence[Path] | None = None) -> tuple[str, ...]:
    """Codes of all adoptions found."""
    paths = [path for folder in _places(folders, ADOPTIONS_FOLDER) for path in sorted(folder.glob("*.toml"))]
    return tuple(dict.fromkeys(path.stem for path in paths if not path.name.endswith(CASES)))


def adoption_named(name: str, book: Book, folders: Sequence[Path] | None = None, where: str | None = None) -> Adoption:
    """The adoption of that code, or of the file at that path; raises FilmReviewError when there is none or it is of another
    book."""
    path = Path(name)
    if path.suffix == ".toml":
        if not _is_file(path):
            raise FilmReviewError(f'there is no adoption file "{name[:200]}"', where=where, todo="check the path")
        return _adoption(path.resolve(), book)
    for folder in _places(folders, ADOPTIONS_FOLDER):
        if name in {one.stem for one in folder.glob("*.toml")}:
            return _adoption((folder / f"{name}.toml").resolve(), book)
    raise unknown("adoption", name, adoption_names(folders), where=where)


def adoptions_found(folders: Sequence[Path] | None = None) -> tuple[Adoption, ...]:
    """All adoptions found, each read over the book it changes."""
    found = []
    for name in adoption_names(folders):
        candidates = [folder / f"{name}.toml" for folder in _places(folders, ADOPTIONS_FOLDER)]
        path = next(path for path in candidates if path.is_file())
        found.append(_adoption(path.resolve(), book_named(book_of_adoption(path), folders, where=path.name)))
    return tuple(found)


@lru_cache(maxsize=32)
def _book(folder: Path) -> Book:
    return read_book(folder)


@lru_cache(maxsize=64)
def _adoption(path: Path, book: Book) -> Adoption:
    return read_adoption(path, book)


def _is_file(path: Path) -> bool:
    """Whether it is a file; a name that no file can have is none."""
    try:
        return path.is_file()
    except OSError:
        return False

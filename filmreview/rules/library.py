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
from filmreview.rules.strict import read_toml

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
    """Codes of all adoptions found; the file's name stands for a code that cannot be read."""
    return tuple(dict.fromkeys(_code(path) or path.stem for path in _adoption_files(folders)))


def adoption_named(name: str, book: Book, folders: Sequence[Path] | None = None, where: str | None = None) -> Adoption:
    """The adoption of that code, else of that file name, or of the file at that path.

    Raises FilmReviewError when there is none, when two files of one folder have that code, or it is of another book.
    """
    path = Path(name)
    if path.suffix == ".toml":
        if not _is_file(path):
            raise FilmReviewError(f'there is no adoption file "{name[:200]}"', where=where, todo="check the path")
        return _adoption(path.resolve(), book)
    return _adoption(_adoption_file(name, folders, where).resolve(), book)


def adoptions_found(folders: Sequence[Path] | None = None) -> tuple[Adoption, ...]:
    """All adoptions found, each read over the book it changes; raises FilmReviewError as `adoption_named` does."""
    paths = [_adoption_file(name, folders) for name in adoption_names(folders)]
    return tuple(_adoption(path.resolve(), book_named(book_of_adoption(path), folders, where=path.name)) for path in paths)


def _adoption_file(name: str, folders: Sequence[Path] | None, where: str | None = None) -> Path:
    """The file of an adoption: a code goes before a file's name, a user's folder before the program's own."""
    files = _adoption_files(folders)
    coded = [path for path in files if _code(path) == name]
    beside = [path for path in coded if path.parent == coded[0].parent]
    if len(beside) > 1:
        told = f'two adoptions have the code "{name}": {beside[0]} and {beside[1]}'
        raise FilmReviewError(told, where=where, todo="give one of them another code, or name one by its path")
    found = coded or [path for path in files if path.stem == name]
    if not found:
        raise unknown("adoption", name, adoption_names(folders), where=where)
    return found[0]


def _adoption_files(folders: Sequence[Path] | None) -> list[Path]:
    places = _places(folders, ADOPTIONS_FOLDER)
    return [path for folder in places for path in sorted(folder.glob("*.toml")) if not path.name.endswith(CASES)]


def _code(path: Path) -> str | None:
    """The code that an adoption gives itself; None when the file cannot be read or gives none."""
    try:
        stamp = path.stat()
    except OSError:
        return None
    return _code_written(path, stamp.st_mtime_ns, stamp.st_size)


@lru_cache(maxsize=256)
def _code_written(path: Path, _changed: int, _size: int) -> str | None:
    """Read once for each state of the file: every ruling asks for its adoption anew."""
    try:
        code = read_toml(path).get("code")
    except FilmReviewError:
        return None  # whoever names the file is told what is wrong with it
    return code if isinstance(code, str) and code.strip() else None


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

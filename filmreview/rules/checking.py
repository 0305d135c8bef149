"""Checking a user's book or adoption: read it, run its cases, list the values that nobody read again for a year."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

from filmreview.errors import FilmReviewError
from filmreview.rules.adoption import book_of_adoption, read_adoption
from filmreview.rules.book import Book
from filmreview.rules.cases import read_cases, run_case
from filmreview.rules.library import book_named
from filmreview.rules.reading import CASES, read_book

_YEAR = timedelta(days=365)


@dataclass(frozen=True)
class Checked:
    """What the check found. rules, cases: how many. differences: a line for each case that comes out otherwise.
    stale: editions whose values were not read again for a year."""

    title: str
    rules: int
    cases: int
    differences: tuple[str, ...]
    stale: tuple[str, ...]


def check_path(path: Path, today: date) -> Checked:
    """Check a book's folder or an adoption file. Raises FilmReviewError in words for whatever the reader refuses."""
    if path.is_dir():
        return _check_book(path, today)
    if not path.is_file():
        raise FilmReviewError("there is no such file or folder", where=str(path), todo="name a book's folder or an adoption")
    if path.suffix != ".toml":
        raise FilmReviewError("this is no adoption", where=str(path), todo="name a .toml file, or a book's folder")
    return _check_adoption(path)


def _check_book(folder: Path, today: date) -> Checked:
    book = read_book(folder)
    count, differences = 0, []
    for cases in sorted(folder.glob(f"*{CASES}")):
        for case in read_cases(cases, book.sources):
            count += 1
            differences += run_case(case, book)[1]
    return Checked(book.title, len(book.rules), count, tuple(differences), tuple(_stale(book, today)))


def _check_adoption(path: Path) -> Checked:
    book = book_named(book_of_adoption(path))
    adoption = read_adoption(path, book)
    cases_file = path.with_name(path.stem + CASES)
    count, differences = 0, []
    for case in read_cases(cases_file) if cases_file.is_file() else ():
        count += 1
        differences += run_case(case, book, (path.parent,))[1]
    return Checked(adoption.title, len(adoption.changes) + len(adoption.rules), count, tuple(differences), ())


def _stale(book: Book, today: date) -> Iterator[str]:
    """Editions of rules and costs, by the day they were last read at the source."""
    dated = [(rule.code, edition.starts, edition.checked) for rule in book.rules for edition in rule.editions]
    dated += [(group.code, cost.starts, cost.checked) for group in book.groups.values() for cost in group.costs]
    for code, starts, checked in dated:
        if checked is None or today - checked > _YEAR:
            yield f"{code}, from {starts}" + (f" (read on {checked})" if checked else " (never)")

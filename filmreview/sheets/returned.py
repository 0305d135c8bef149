"""A workbook that came back: its replies, and what is to be said of its rows.

Rows are known by the hidden key, so they may be sorted, filtered or left out. Only replies are read; nothing else that was
written into the workbook comes into the review.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import openpyxl

from filmreview.errors import FilmReviewError, unknown
from filmreview.review.crew_changes import SetReply
from filmreview.review.model import LONGEST_WORDS, REPLIES, Review
from filmreview.sheets.findings_page import key_of
from filmreview.sheets.inert import inert
from filmreview.sheets.keys import finding_key

PAGE = "Findings"
MOST_BYTES = 500 * 2**20
MOST_ROWS = 20_000
_NEEDED = ("Reply", "Reply in words", "Key", "Tag", "Time", "Whose", "Item", "Seen", "Ruling", "Why", "What the book asks",
           "The crew")  # fmt: skip
_MISSING_SHOWN = 12

Row = Mapping[str, str]


@dataclass(frozen=True)
class Returned:
    """What a workbook brought. replies: to be put into the review. told: a line for each thing that is not as it was sent."""

    replies: tuple[SetReply, ...]
    told: tuple[str, ...]


def read_returned(path: Path, review: Review, by: str = "") -> Returned:
    """Read the replies of a returned workbook. by: the position of who replied, "" when not told.

    Raises FilmReviewError when it is no workbook, or not one of this program's findings sheets.
    """
    rows = _rows(path)
    keys = {finding_key(review.film(tag.film), tag): tag.id for tag in review.tags}
    twice = {key for key, count in Counter(_finding(row) for _, row in rows if _finding(row) in keys).items() if count > 1}
    replies: list[SetReply] = []
    told: list[str] = []
    for number, row in rows:
        tag = keys.get(_finding(row))
        if tag is None:
            told.extend(_stranger(number, row, review))
            continue
        told.extend(_changed(number, row, tag))
        if _finding(row) in twice:
            told.append(f"row {number} ({tag}): this finding has more than one row; no reply was taken from them")
            continue
        reply, trouble = _reply(number, row, tag, by)
        told.extend(trouble)
        replies.extend(reply)
    told.extend(_missing(review, {keys[key] for _, row in rows if (key := _finding(row)) in keys}))
    return Returned(tuple(replies), tuple(told))


def _rows(path: Path) -> list[tuple[int, Row]]:
    """The rows of the findings page that hold anything, with their numbers, as text by head."""
    try:
        if path.stat().st_size > MOST_BYTES:
            raise FilmReviewError("the file is too big for a findings sheet", where=str(path), todo="give the sheet itself")
        return _read(path)
    except FilmReviewError:
        raise
    except OSError as error:
        what = (error.strerror or str(error)).lower()
        raise FilmReviewError(what, where=str(path), todo="give the returned sheet") from error
    except Exception as error:
        raise FilmReviewError("this is not a workbook", where=str(path), todo="give the .xlsx that came back") from error


def _read(path: Path) -> list[tuple[int, Row]]:
    book = openpyxl.load_workbook(path, read_only=True)
    try:
        if PAGE not in book.sheetnames:
            raise unknown("page", PAGE, book.sheetnames, where=str(path))
        return list(_records(book[PAGE].iter_rows(max_row=MOST_ROWS, values_only=True), path))
    finally:
        book.close()


def _records(lines: Iterable[tuple[object, ...]], path: Path) -> Iterator[tuple[int, Row]]:
    rows = iter(lines)
    heads = [_text(value) for value in next(rows, ())]
    for needed in _NEEDED:
        if heads.count(needed) != 1:
            many = "no column" if needed not in heads else "more than one column"
            todo = "ask for the sheet with its columns as they were sent"
            raise FilmReviewError(f'{many} "{needed}" on the page {PAGE}', where=str(path), todo=todo)
    for number, values in enumerate(rows, 2):
        row = {head: _text(value) for head, value in zip(heads, values, strict=False) if head}
        if any(row.values()):
            yield number, {needed: row.get(needed, "") for needed in _NEEDED}


def _text(value: object) -> str:
    return "" if value is None else inert(str(value))


def _finding(row: Row) -> str:
    """The part of the key that names the finding."""
    return " ".join(row["Key"].split()[:2])


def _stranger(number: int, row: Row, review: Review) -> Iterator[str]:
    """A row that is no finding of the review as it is now."""
    tag = row["Key"].partition(" ")[0]
    if tag in {one.id for one in review.tags}:
        yield f"row {number} ({tag}): the review has another finding by that name now; the reply was not taken"
    elif row["Key"]:
        yield f"row {number} ({tag}): this finding is not in the review any more; the reply was not taken"
    else:
        yield f"row {number}: the key is gone, so nobody knows which finding it was; the reply was not taken"


def _changed(number: int, row: Row, tag: str) -> Iterator[str]:
    if key_of(_finding(row), row) != row["Key"]:
        yield f"row {number} ({tag}): its words were changed in the workbook; only the reply is read, the review keeps its own"


def _reply(number: int, row: Row, tag: str, by: str) -> tuple[list[SetReply], list[str]]:
    """The reply of a row, none when it says nothing; and what could not be taken."""
    answer, words = row["Reply"].strip(), row["Reply in words"].strip()
    told = []
    if answer and answer.casefold() not in REPLIES:
        told.append(f'row {number} ({tag}): "{answer[:60]}" is none of {", ".join(REPLIES)}; it was taken as words')
        answer, words = "", "\n".join(part for part in (answer, words) if part)
    if len(words) > LONGEST_WORDS:
        told.append(f"row {number} ({tag}): {len(words)} characters; the first {LONGEST_WORDS} were taken")
        words = words[:LONGEST_WORDS]
    return ([SetReply(tag, by, answer.casefold(), words)] if answer or words else []), told


def _missing(review: Review, found: set[str]) -> Iterator[str]:
    gone = [tag.id for tag in review.tags if tag.id not in found]
    if gone:
        more = f" and {len(gone) - _MISSING_SHOWN} more" if len(gone) > _MISSING_SHOWN else ""
        names = ", ".join(gone[:_MISSING_SHOWN])
        yield f"no row for {names}{more}: taken out of the sheet, or tagged after it was made"

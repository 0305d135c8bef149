"""Own calls and their score stay in the review: no kind of sheet carries them, and none is made while rulings are hidden."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import openpyxl
import pytest
from pypdf import PdfReader

from filmreview.errors import FilmReviewError
from filmreview.review import store
from filmreview.review.changes import EditGame
from filmreview.review.lesson_changes import SetOwnCall
from filmreview.review.ruled import findings
from filmreview.review.store import Store
from filmreview.sheets.handover import READERS
from filmreview.sheets.kinds import WRITERS, write_sheet
from filmreview.sheets.telling import hand_over
from tests.review.small_game import a_film, a_game, a_tag

WORDS = "Quenvarrow thought otherwise"
"""Words that stand nowhere but in an own call."""


@pytest.fixture
def called(tmp_path: Path) -> Iterator[Store]:
    """Two tags with an own call on each, one of them with words, one otherwise than the book."""
    with store.create(tmp_path / "game.filmreview", a_game(), "U. Thornvex") as opened:
        opened.apply(a_film())
        opened.apply(a_tag())
        opened.apply(a_tag("30", item="headband"))
        opened.apply(SetOwnCall("t1", "illegal", "technical foul", WORDS))
        opened.apply(SetOwnCall("t2", "cannot be told"))
        yield opened


def said(path: Path) -> str:
    if path.suffix == ".pdf":
        return " ".join(page.extract_text() for page in PdfReader(path).pages)
    if path.suffix == ".xlsx":
        book = openpyxl.load_workbook(path)
        return " ".join(str(cell.value) for page in book for row in page.iter_rows() for cell in row)
    return path.read_text(encoding="utf-8")


@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize("ending", WRITERS)
def test_no_kind_of_sheet_carries_them(called: Store, tmp_path: Path, ending: str, reader: str) -> None:
    made = write_sheet(hand_over(findings(called.review), made_for=reader), tmp_path / f"sheet{ending}")
    words = " ".join(said(path) for path in made)
    assert "headband" in words
    assert WORDS.split(maxsplit=1)[0] not in words
    for told in ("own call", "agreed of", "of 2 agreed"):
        assert told not in words.casefold()


@pytest.mark.parametrize("reader", READERS)
def test_the_hand_over_is_the_same_without_them(called: Store, reader: str) -> None:
    found = findings(called.review)
    without = replace(found, review=replace(found.review, own_calls=()))
    assert hand_over(found, made_for=reader) == hand_over(without, made_for=reader)


def test_no_sheet_while_a_ruling_is_hidden(called: Store) -> None:
    called.apply(EditGame(replace(called.review.game, rulings_hidden=True)))
    assert hand_over(findings(called.review)).lines
    called.apply(a_tag("40", item="wristband"))
    with pytest.raises(FilmReviewError, match="rulings are hidden until your own call on t3"):
        hand_over(findings(called.review))

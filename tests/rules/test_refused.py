"""Every refusal of the readers: one tiny broken file each, and its words (`refused/words.tsv`)."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from filmreview.errors import FilmReviewError
from filmreview.rules.adoption import read_adoption
from filmreview.rules.cases import read_cases
from filmreview.rules.library import adoption_named, book_named
from filmreview.rules.reading import read_book
from filmreview.rules.situation import read_situation

HERE = Path(__file__).parent / "refused"
WORDS = dict(line.split("\t") for line in (HERE / "words.tsv").read_text(encoding="utf-8").splitlines())


def read(name: str, folder: Path) -> object:
    """Read the broken file as what its name says: a situation, an adoption, cases, or one file of the small book."""
    _, _, kind = name.partition(".")
    if kind == "situation.toml":
        return read_situation(HERE / name)
    if kind == "adoption.toml":
        return read_adoption(HERE / name, book_named("nfhs"))
    if kind == "case.toml":
        return read_cases(HERE / name)
    shutil.copytree(HERE / "small", folder / "small")
    shutil.copy(HERE / name, folder / "small" / kind)
    return read_book(folder / "small")


def test_every_broken_file_has_its_words() -> None:
    assert {path.name for path in HERE.glob("*.toml")} == set(WORDS)


def test_the_small_book_is_right() -> None:
    assert [rule.code for rule in read_book(HERE / "small").rules] == ["sleeve"]


@pytest.mark.parametrize("name", sorted(WORDS))
def test_it_is_refused_in_these_words(name: str, tmp_path: Path) -> None:
    with pytest.raises(FilmReviewError) as refused:
        read(name, tmp_path)
    assert str(refused.value) == WORDS[name]
    assert "\n" not in str(refused.value)


def test_a_file_that_cannot_be_read(tmp_path: Path) -> None:
    with pytest.raises(FilmReviewError, match="cannot be read"):
        read_situation(tmp_path / "none.situation.toml")
    with pytest.raises(FilmReviewError, match="cannot be read"):
        read_situation(tmp_path)


@pytest.mark.parametrize(
    "raw", [b"\xff\xfe", b"a = \x00", b"", b"[" * 5000, b"a = 1e999999", b"a = 0000-00-00", b"x" * 3_000_000]
)
def test_a_file_that_is_no_text_of_this_kind(raw: bytes, tmp_path: Path) -> None:
    path = tmp_path / "odd.situation.toml"
    path.write_bytes(raw)
    with pytest.raises(FilmReviewError):
        read_situation(path)


def test_a_folder_without_a_book(tmp_path: Path) -> None:
    with pytest.raises(FilmReviewError, match=r"book\.toml: cannot be read"):
        read_book(tmp_path)
    with pytest.raises(FilmReviewError, match="not a folder with a book"):
        read_book(tmp_path / "none")


def test_names_that_are_not_there() -> None:
    with pytest.raises(FilmReviewError, match=r"unknown book .\.\./nfhs"):
        book_named("../nfhs")
    with pytest.raises(FilmReviewError, match='unknown book ""'):
        book_named("")
    with pytest.raises(FilmReviewError, match="unknown adoption"):
        adoption_named("nowhere", book_named("nfhs"))

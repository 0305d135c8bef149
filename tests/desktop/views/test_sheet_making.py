"""The name of the sheet's file."""

from pathlib import Path

import pytest

from filmreview.desktop.sheet_making import KINDS, reader_of, with_ending
from filmreview.sheets.kinds import WRITERS


@pytest.mark.parametrize(
    ("typed", "kind", "path"),
    [
        ("game", "Workbook (*.xlsx)", "game.xlsx"),
        ("game.html", "Workbook (*.xlsx)", "game.html"),
        ("game", "Web page (*.html)", "game.html"),
        ("game.xlsx", "", "game.xlsx"),
        ("game", "Paper for the crew (*.pdf)", "game.pdf"),
    ],
)
def test_the_ending_says_the_kind(typed: str, kind: str, path: str) -> None:
    assert with_ending(Path(typed), kind) == Path(path)


def test_every_kind_of_sheet_can_be_chosen() -> None:
    assert all(f"(*{ending})" in KINDS for ending in WRITERS)


def test_the_kind_says_whom_it_is_for() -> None:
    made_for = {kind: reader_of(kind) for kind in KINDS.split(";;")}
    assert [kind for kind, reader in made_for.items() if reader == "crew"] == [
        "Workbook for the crew (*.xlsx)", "Web page for the crew (*.html)", "Paper for the crew (*.pdf)",
    ]  # fmt: skip
    assert reader_of("") == "coordinator"

"""Numbers that no film has, given to `filmreview measure`: one line each, never a fault of the program."""

import pytest

from filmreview.commandline.measure_words import share_of
from filmreview.errors import FilmReviewError
from tests.commandline.conftest import FILMS, Say

FILM = FILMS / "constant.mp4"  # 320x180 pixels (its truth file)
LENGTH = ("measure", FILM, "--ends", "100,50,100,67", "--known", "boys' ball=130,50,130,77")


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (("--at", "9" * 5000), f'--at: "{"9" * 40}..." is not a time'),
        (("--at", "0.5", "--depth", "1e400"), '--depth: "1e400" is not a share'),
        (("--at", "0.5", "--blur", "1e308"), "--blur: the blur is longer than the picture; write 0 to 500 pixels"),
    ],
)
def test_a_number_beyond_all_films_is_one_line(say: Say, words: tuple[str, ...], line: str) -> None:
    refused = say(*LENGTH, *words)
    assert (refused.code, refused.out) == (2, "")
    assert refused.line.startswith(f"filmreview: {line}")


def test_a_share_is_a_number_a_percentage_or_feet_by_feet() -> None:
    assert [share_of(one, "--depth") for one in ("0.02", "2%", "3/48", "0")] == [0.02, 0.02, 0.0625, 0.0]
    with pytest.raises(FilmReviewError, match="--depth: 1 is not from 0 to under 1"):
        share_of("1", "--depth")

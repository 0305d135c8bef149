"""A review of a film, made through the command line."""

from pathlib import Path

from tests.commandline.conftest import Say


def made_review(say: Say, film: Path, folder: Path) -> Path:
    path = folder / "game.filmreview"
    made = say(
        "new", path, "--film", film, "--book", "nfhs", "--day", "2024-01-09", "--level", "varsity",
        "--home", "Thrunnockby=white", "--visitor", "Ovvermire=green",
    )  # fmt: skip
    assert made.code == 0, made.told
    return path

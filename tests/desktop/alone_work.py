"""Work for another process, as the tests need it; `alone` names it in words."""

import os
import time
from dataclasses import dataclass
from pathlib import Path

from filmreview.aside import written_aside
from filmreview.errors import FilmReviewError
from filmreview.progress import Progress


def doubled(number: int, progress: Progress) -> int:
    """Twice the number, after a word on the way."""
    print("what a library prints")
    progress(0.5, "half")
    return 2 * number


def refuse(_progress: Progress) -> None:
    """A fault of the world."""
    raise FilmReviewError("the disk is full", where="a.xlsx", todo="make room")


def divide(_progress: Progress) -> float:
    """A fault of the program."""
    return 1 / 0


def die(_progress: Progress) -> None:
    """As if the system had killed it."""
    os._exit(9)


def whoami(_progress: Progress) -> tuple[int, int]:
    """The process and its priority."""
    return os.getpid(), os.nice(0)


def write_slowly(_review: object, path: Path, _made_for: str, progress: Progress) -> tuple[Path, ...]:
    """A sheet that takes a minute; it is written aside, as all sheets are."""
    with written_aside(path) as aside:
        aside.write_text("half a sheet")
        for _ in range(1200):
            progress(0.5, "slowly")
            time.sleep(0.05)
    return (path,)


@dataclass(frozen=True)
class Drawn:
    """What came of drawing."""

    review: Path


def pretend_to_draw(folder: Path, progress: Progress) -> Drawn:
    """Nothing is drawn: the review lies beside the folder already."""
    progress(0.5, "drawing")
    return Drawn(folder.parent / "game.filmreview")

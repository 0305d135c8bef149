"""`make_demo`: the whole job on the made-up game - film, truth, review, situations, sheet - and the sheet held to the truth."""

from __future__ import annotations

import json
import shutil
import time
from dataclasses import dataclass
from importlib import resources
from pathlib import Path

from filmreview.demo.checking import differences
from filmreview.demo.filming import film_game
from filmreview.demo.reviewing import Measured, put_down
from filmreview.demo.truth import truth
from filmreview.errors import FilmReviewError
from filmreview.progress import Progress, silent
from filmreview.review import store
from filmreview.review.ruled import findings, keep
from filmreview.rules.situation import compare, read_situation, rule_situation
from filmreview.sheets.pictures import film_pictures
from filmreview.sheets.telling import hand_over
from filmreview.sheets.workbook import write_workbook

NAME = "made-up-game"
_FILMED, _REVIEWED = 0.80, 0.90  # shares of the work done after each step


@dataclass(frozen=True)
class DemoResult:
    """What was made. differences: of sheet and situations from the truth, a line each, empty when all is equal. measured: the
    colours measured on the film, each with its distance to the true one. seconds: that it took."""

    folder: Path
    film: Path
    truth: Path
    review: Path
    situations: tuple[Path, ...]
    sheet: Path
    findings: int
    measured: tuple[Measured, ...]
    differences: tuple[str, ...]
    seconds: float

    def lines(self) -> tuple[str, ...]:
        """The same for a reader."""
        told = [one.off for one in self.measured if one.off is not None]
        made = (
            (self.film, "the film, drawn"),
            (self.truth, "what is on it in truth"),
            (self.review, "the review"),
            (self.situations[0].parent, f"{len(self.situations)} situations to rule without a film"),
            (self.sheet, "the findings sheet"),
        )
        same = f"all {self.findings} rulings of the sheet equal the truth"
        return (
            *(f"{path}: {words}" for path, words in made),
            f"{len(told)} colours measured, at most dE00 {max(told):.1f} from the true ones",
            *(self.differences or (same,)),
            f"made in {self.seconds:.0f} s",
        )


def make_demo(folder: Path, progress: Progress = silent) -> DemoResult:
    """Make the made-up game in a folder (made when missing) and do the whole job on it.

    Nothing of an earlier run is touched: when the folder holds one, the next free of "made-up-game-2", "-3" ... in it is used.
    Raises FilmReviewError when the folder cannot be written, Stopped when progress raises it; nothing half-made stays.
    """
    started = time.monotonic()
    place = _free_place(folder)
    made_before = set(place.iterdir())
    try:
        return _made(place, progress, started)
    except BaseException:
        for path in set(place.iterdir()) - made_before:
            shutil.rmtree(path) if path.is_dir() else path.unlink(missing_ok=True)
        if place != folder:
            place.rmdir()
        raise


def _made(place: Path, progress: Progress, started: float) -> DemoResult:
    film, truth_file, review = (place / f"{NAME}{ending}" for ending in (".mp4", ".truth.json", ".filmreview"))
    sheet = place / f"{NAME}.xlsx"
    film_game(film, _part(progress, 0.0, _FILMED))
    truth_file.write_text(json.dumps(truth(), indent=1) + "\n", encoding="utf-8")
    measured = put_down(review, film, _part(progress, _FILMED, _REVIEWED))
    count = _hand_over(review, sheet, _part(progress, _REVIEWED, 1.0))
    situations = _copy_situations(place / "situations")
    found = (*differences(sheet, truth_file), *_situation_differences(situations))
    seconds = time.monotonic() - started
    return DemoResult(place, film, truth_file, review, situations, sheet, count, measured, found, seconds)


def _hand_over(review: Path, sheet: Path, progress: Progress) -> int:
    with store.open(review, "filmreview demo") as opened:
        found = keep(opened, findings(opened.review))
        with film_pictures(opened.review) as pictures:
            write_workbook(hand_over(found, pictures), sheet, progress)
    return len(found)


def _copy_situations(folder: Path) -> tuple[Path, ...]:
    folder.mkdir()
    kept = resources.files("filmreview.demo") / "situations"
    for one in sorted(kept.iterdir(), key=lambda path: path.name):
        (folder / one.name).write_text(one.read_text(encoding="utf-8"), encoding="utf-8")
    return tuple(sorted(folder.iterdir()))


def _situation_differences(paths: tuple[Path, ...]) -> tuple[str, ...]:
    lines = []
    for path in paths:
        situation = read_situation(path)
        lines += [f"{path.name}: {line}" for line in compare(situation, rule_situation(situation))]
    return tuple(lines)


def _free_place(folder: Path) -> Path:
    """The folder itself, or the next free one in it; it is there when this returns."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        place, number = folder, 1
        while any(place.glob(f"{NAME}.*")) or (place / "situations").exists():
            number += 1
            place = folder / f"{NAME}-{number}"
            place.mkdir(exist_ok=True)
    except OSError as error:
        raise FilmReviewError(
            f"the folder cannot be written ({error.strerror})", where=str(folder), todo="choose another with --to"
        ) from error
    return place


def _part(progress: Progress, start: float, end: float) -> Progress:
    """Progress of one step as a part of the whole."""
    return lambda share, words: progress(start + (end - start) * share, words)

"""`filmreview sheet`: write the findings sheet; the file's ending says the kind."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path

from filmreview.commandline.answers import bar, print_lines
from filmreview.errors import unknown
from filmreview.progress import Progress
from filmreview.review.reading import read
from filmreview.review.ruled import findings
from filmreview.sheets.handover import HandOver
from filmreview.sheets.pictures import film_pictures
from filmreview.sheets.telling import hand_over
from filmreview.sheets.workbook import write_workbook

WRITERS: dict[str, Callable[[HandOver, Path, Progress], None]] = {".xlsx": write_workbook}


def sheet(given: argparse.Namespace) -> int:
    """Write the sheet in place of an older one, only when it is whole."""
    target = Path(given.to)
    writer = WRITERS.get(target.suffix.casefold())
    if writer is None:
        raise unknown("kind of sheet", target.suffix, WRITERS, where=given.to)
    review = read(given.review)
    with film_pictures(review) as pictures:
        writer(hand_over(findings(review), pictures), target, bar())
    print_lines(str(target))
    return 0

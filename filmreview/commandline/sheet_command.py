"""`filmreview sheet`: write the findings sheet; the file's ending says the kind."""

from __future__ import annotations

import argparse
from pathlib import Path

from filmreview.commandline.answers import bar, print_lines
from filmreview.review.reading import read
from filmreview.review.ruled import findings
from filmreview.sheets.kinds import check_ending, write_sheet
from filmreview.sheets.pictures import film_pictures
from filmreview.sheets.telling import check_reader, hand_over


def sheet(given: argparse.Namespace) -> int:
    """Write the sheet in place of an older one, only when it is whole; prints what was written."""
    target = Path(given.to)
    check_ending(target)
    check_reader(given.made_for)
    review = read(given.review)
    with film_pictures(review) as pictures:
        written = write_sheet(hand_over(findings(review), pictures, given.made_for), target, bar())
    print_lines(*(str(path) for path in written))
    return 0

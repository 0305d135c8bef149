"""`filmreview sheet`: write the findings sheet; the file's ending says the kind."""

from __future__ import annotations

import argparse
from pathlib import Path

from filmreview.commandline.answers import bar, counted, print_lines, tell
from filmreview.review.reading import read
from filmreview.review.ruled import findings
from filmreview.sheets.kinds import check_ending, write_sheet
from filmreview.sheets.pictures import Missed, film_pictures
from filmreview.sheets.telling import check_reader, hand_over


def sheet(given: argparse.Namespace) -> int:
    """Write the sheet in place of an older one, only when it is whole; prints what was written.

    Pictures that cannot be had are told on standard error; the sheet says it in their place.
    """
    target = Path(given.to)
    check_ending(target)
    check_reader(given.made_for)
    review = read(given.review)
    with film_pictures(review) as pictures:
        watched = Missed(pictures)
        written = write_sheet(hand_over(findings(review), watched, given.made_for), target, bar())
    print_lines(*(str(path) for path in written))
    if watched.missed:
        tell(f"{watched.missed} of {counted(watched.asked, 'picture')} could not be had: {'; '.join(watched.why)}")
    return 0

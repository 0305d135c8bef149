"""Write the findings sheet, in the process that `sheet_making` gives it. No Qt."""

from __future__ import annotations

from pathlib import Path

from filmreview.progress import Progress, silent
from filmreview.review.model import Review
from filmreview.review.ruled import findings
from filmreview.sheets.handover import COORDINATOR
from filmreview.sheets.kinds import write_sheet
from filmreview.sheets.pictures import film_pictures
from filmreview.sheets.telling import hand_over


def write(review: Review, path: Path, made_for: str = COORDINATOR, progress: Progress = silent) -> tuple[Path, ...]:
    """Write the findings of a review; an older file is replaced only when the new one is whole. Returns what was written."""
    with film_pictures(review) as pictures:
        return write_sheet(hand_over(findings(review), pictures, made_for), path, progress)

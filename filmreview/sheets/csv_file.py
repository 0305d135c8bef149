"""The findings as comma-separated values (RFC 4180) for other programs: UTF-8, a head, CRLF between records.

One value a column, no pictures. A text that a spreadsheet would take for a formula (it begins with = + - @ or a tab) gets an
apostrophe in front, as spreadsheets themselves mark text.
"""

from __future__ import annotations

import csv
from collections.abc import Callable, Mapping
from pathlib import Path

from filmreview.aside import written_aside
from filmreview.measure.shape import bounds_of
from filmreview.progress import Progress, silent
from filmreview.sheets.handover import HandOver, Line
from filmreview.sheets.inert import inert

_ACTS = ("=", "+", "-", "@", "\t")

COLUMNS: Mapping[str, Callable[[Line], str]] = {
    "number": lambda line: str(line.number),
    "tag": lambda line: line.tag,
    "film": lambda line: line.film.name,
    "time": lambda line: line.time,
    "seconds": lambda line: f"{float(line.seconds):.3f}",
    "team": lambda line: line.team,
    "side": lambda line: line.side,
    "player": lambda line: line.player or "",
    "item": lambda line: line.item,
    "region": lambda line: str(bounds_of(line.region)) if line.region else "",
    "seen": lambda line: "\n".join(line.seen),
    "ruling": lambda line: line.ruling,
    "consequence": lambda line: line.consequence,
    "reasons": lambda line: "\n".join(line.reasons),
    "what_the_book_asks": lambda line: line.todo,
    "rule": lambda line: line.rule,
    "reference": lambda line: line.reference,
    "edition": lambda line: line.edition,
    "adoption": lambda line: line.adoption,
    "how_sure": lambda line: line.mark,
    "source": lambda line: line.source,
    "would_change_it": lambda line: "\n".join(line.asks),
    "ahead": lambda line: "\n".join(f"{one.ruling} from {one.starts} ({one.rule})" for one in line.ahead),
    "ruled_before": lambda line: line.earlier,
    "crew_mark": lambda line: line.crew_mark,
    "crew_time": lambda line: line.crew_time,
    "crew_did": lambda line: line.did,
    "could_have_done": lambda line: line.could_have_done,
    "official": lambda line: line.official,
    "replies": lambda line: "\n".join(line.replies),
    "note": lambda line: line.note,
}


def write_csv(sheet_of: HandOver, path: Path, progress: Progress = silent) -> None:
    """Write the file, in place of an older one only when it is whole. Raises FilmReviewError when it cannot be written."""
    with written_aside(path) as aside, aside.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\r\n")
        writer.writerow(COLUMNS)
        writer.writerows([held(value(line)) for value in COLUMNS.values()] for line in sheet_of.lines)
    progress(1.0, "written")


def held(text: str) -> str:
    """The text made harmless, and held back from being taken for a formula."""
    plain = inert(text)
    return f"'{plain}" if plain.startswith(_ACTS) else plain

"""The findings as WebVTT (W3C, "WebVTT: The Web Video Text Tracks Format"), to be shown while a film plays.

One file a film, as a track belongs to one film. A cue begins at the moment of its finding and stays for a few seconds.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from filmreview.aside import written_aside
from filmreview.errors import FilmReviewError
from filmreview.progress import Progress, silent
from filmreview.review.model import FilmRef
from filmreview.sheets.handover import HandOver, Line
from filmreview.sheets.inert import one_line
from filmreview.sheets.sheet_words import ruling_words, so_since

SHOWN_SECONDS = 4


def write_captions(sheet_of: HandOver, path: Path, progress: Progress = silent) -> None:
    """Write the captions; with several films one file each, the film's id before the ending (`caption_paths`).

    Raises FilmReviewError when a file cannot be written, or there is no film to write for.
    """
    if not sheet_of.films:
        raise FilmReviewError("the review has no film, and captions belong to one", where=str(path), todo="add the film first")
    for film, one in zip(sheet_of.films, caption_paths(sheet_of, path), strict=True):
        with written_aside(one) as aside:
            aside.write_text(captions(sheet_of, film), encoding="utf-8", newline="\n")
    progress(1.0, "written")


def caption_paths(sheet_of: HandOver, path: Path) -> tuple[Path, ...]:
    """The files that `write_captions` writes, one a film."""
    if len(sheet_of.films) == 1:
        return (path,)
    return tuple(path.with_name(f"{path.stem}-{film.id}{path.suffix}") for film in sheet_of.films)


def captions(sheet_of: HandOver, film: FilmRef) -> str:
    """The whole file for one film: its head, notes with the cautions, a cue a finding; blocks stand apart by an empty line."""
    told = (f"{sheet_of.title}: findings on {film.name}", *sheet_of.cautions)
    notes = [f"NOTE {_escaped(text)}" for text in told]
    lines = sorted((line for line in sheet_of.lines if line.film.id == film.id), key=lambda line: line.seconds)
    cues = [_cue(line, film) for line in lines]
    return "\n\n".join(["WEBVTT", *notes, *cues]) + "\n"


def _cue(line: Line, film: FilmRef) -> str:
    start = _milliseconds(line.seconds)
    end = max(start + 1, min(start + SHOWN_SECONDS * 1000, _milliseconds(film.length)))
    said = f"{ruling_words(line.ruling)}: {one_line(line.whose)}, {line.item}"
    rule = (
        f"Rule {one_line(line.reference)}, {so_since(line.edition)}" if line.reference else "The book here has no text for it"
    )
    crew = f"Crew: {line.crew_mark}"
    return "\n".join([line.tag, f"{_stamp(start)} --> {_stamp(end)}", *(_escaped(text) for text in (said, rule, crew))])


def _milliseconds(seconds: Fraction) -> int:
    return int(seconds * 1000 + Fraction(1, 2))


def _stamp(milliseconds: int) -> str:
    """hh:mm:ss.mmm, hours always written."""
    seconds, part = divmod(milliseconds, 1000)
    return f"{seconds // 3600:02}:{seconds // 60 % 60:02}:{seconds % 60:02}.{part:03}"


def _escaped(text: str) -> str:
    """Cue text on one line: no markup, and no arrow, which would begin a cue."""
    return one_line(text).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")

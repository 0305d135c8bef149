"""What a lesson says, as WebVTT (W3C, "WebVTT: The Web Video Text Tracks Format"), at the times at which the film says it.

A cue a card, a question and a ruling: for those who have the screen read to them, and for players that draw words themselves.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import ExitStack
from fractions import Fraction
from pathlib import Path

from filmreview.aside import written_aside
from filmreview.film.colours import ColourSettings
from filmreview.film.film import Film, open_film
from filmreview.lessons.clip import Clip, Piece, Said
from filmreview.lessons.pictures import Look, Plan, card_of, plans_of
from filmreview.progress import Progress, silent
from filmreview.sheets.inert import one_line

_KEPT_BYTES = 2**20  # no frame is looked at
_Told = tuple[Fraction, Fraction, tuple[str, ...]]
"""When a text begins and is over, seconds, and its lines."""


def write_captions(pieces: Sequence[Piece], path: Path, version: str, progress: Progress = silent) -> None:
    """Write the captions of a lesson as `write_lesson` writes it, or of one clip.

    Raises FilmReviewError when a film or a span cannot be used, or the file cannot be written.
    """
    with ExitStack() as stack:
        opened: dict[tuple[Path, ColourSettings | None], Film] = {}
        for clip in (piece for piece in pieces if isinstance(piece, Clip)):
            key = (clip.film, clip.colours)
            if key not in opened:
                opened[key] = stack.enter_context(open_film(clip.film, clip.colours, progress, kept_bytes=_KEPT_BYTES))
        films = [opened[piece.film, piece.colours] if isinstance(piece, Clip) else None for piece in pieces]
        plans = plans_of(pieces, films, version)
    with written_aside(path) as aside:
        aside.write_text(captions_of(plans), encoding="utf-8", newline="\n")


def captions_of(plans: Sequence[Plan]) -> str:
    """The whole file for clips that follow each other."""
    cues = [_cue(*said) for said in _joined(plans)]
    numbered = [f"{number}\n{cue}" for number, cue in enumerate(cues, start=1)]
    return "\n\n".join(["WEBVTT", *numbered]) + "\n"


def _joined(plans: Sequence[Plan]) -> list[_Told]:
    """What all say, seconds from the start of the first; a card that stays on from one look to the next is said once."""
    start, told = Fraction(0), list[_Told]()
    for plan in plans:
        for at, end, lines in _said(plan):
            stays = bool(told) and told[-1][1:] == (start + at, lines)
            first = told.pop()[0] if stays else start + at
            told.append((first, start + end, lines))
        start += plan.seconds
    return told


def _said(plan: Plan) -> Iterator[_Told]:
    """When each text begins and is over, seconds from the clip's start, and its lines."""
    for look in Look:
        first, last = plan.first_of(look), plan.end_of(look)
        kept = tuple(escaped for line in _lines(plan.piece, look) if (escaped := _escaped(line)))
        if first is not None and last is not None and kept:
            yield first, last, kept


def _lines(piece: Piece, look: Look) -> tuple[str, ...]:
    card = card_of(piece, look)
    if card is not None:
        return card.lines
    if isinstance(piece, Said):
        return ()
    return {Look.QUESTION: (piece.question,), Look.ANSWER: piece.ruling}.get(look, ())


def _cue(start: Fraction, end: Fraction, lines: tuple[str, ...]) -> str:
    return "\n".join([f"{_stamp(start)} --> {_stamp(end)}", *lines])


def _stamp(seconds: Fraction) -> str:
    """hh:mm:ss.mmm, hours always written, to the nearest millisecond."""
    whole, part = divmod(int(seconds * 1000 + Fraction(1, 2)), 1000)
    return f"{whole // 3600:02}:{whole // 60 % 60:02}:{whole % 60:02}.{part:03}"


def _escaped(text: str) -> str:
    """Cue text on one line: no markup, and no arrow, which would begin a cue."""
    return one_line(text).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")

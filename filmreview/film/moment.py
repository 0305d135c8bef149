"""Moments and spans in a stream's own ticks, and times as people write them.

Times are exact fractions of a second, never floats: a moment is a whole number of ticks of a stream's time base.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from filmreview.errors import FilmReviewError

_WRITTEN = re.compile(r"(?:(?:(?P<hours>\d+):)?(?P<minutes>\d+):)?(?P<seconds>\d+(?:\.\d+)?|\.\d+)", re.ASCII)


@dataclass(frozen=True)
class Moment:
    """One exact frame of one film by its presentation time.

    pts: ticks, as the stream counts them (the film's first frame need not be 0). time_base: seconds of a tick.
    """

    pts: int
    time_base: Fraction

    @property
    def seconds(self) -> Fraction:
        """The absolute presentation time in seconds, on the stream's own clock."""
        return self.pts * self.time_base


@dataclass(frozen=True)
class Span:
    """From start to end, the end not included."""

    start: Moment
    end: Moment

    def __post_init__(self) -> None:
        if self.end.seconds < self.start.seconds:
            raise FilmReviewError("a span ends before it starts", todo="give the earlier moment first")

    @property
    def seconds(self) -> Fraction:
        """How long the span is."""
        return self.end.seconds - self.start.seconds


def parse_time(text: str, where: str | None = None) -> Fraction:
    """Seconds from the start of the film from "m:ss.mmm", "h:mm:ss.mmm" or seconds; raises FilmReviewError for other text."""
    found = _WRITTEN.fullmatch(text.strip())
    if found is None:
        raise FilmReviewError(f'"{text}" is not a time', where=where, todo="write m:ss.mmm, h:mm:ss.mmm or seconds")
    hours, minutes, seconds = (Fraction(found[part] or 0) for part in ("hours", "minutes", "seconds"))
    if (found["minutes"] and seconds >= 60) or (found["hours"] and minutes >= 60):
        raise FilmReviewError(f'"{text}" is not a time', where=where, todo="keep minutes and seconds under 60")
    return hours * 3600 + minutes * 60 + seconds


def format_time(seconds: Fraction) -> str:
    """ "m:ss.mmm", or "h:mm:ss.mmm" from an hour on; rounded to the nearest millisecond, halves to the later one."""
    if seconds < 0:
        return "-" + format_time(-seconds)
    whole, part = divmod(int(seconds * 1000 + Fraction(1, 2)), 1000)
    minutes, second = divmod(whole, 60)
    hours, minute = divmod(minutes, 60)
    start = f"{hours}:{minute:02}" if hours else f"{minute}"
    return f"{start}:{second:02}.{part:03}"

"""Times as people write them: read and written in one way, on a film and in a situation.

Exact fractions of a second, never floats.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from filmreview.errors import FilmReviewError

_WRITTEN = re.compile(r"(?:(?:(?P<hours>\d+):)?(?P<minutes>\d+):)?(?P<seconds>\d+(?:\.\d+)?|\.\d+)", re.ASCII)
_LONGEST = 40  # characters: no film is so long, and numbers of thousands of digits cannot be worked with


def parse_time(text: str, where: str | None = None) -> Fraction:
    """Seconds, of a film from its start, from "m:ss.mmm", "h:mm:ss.mmm" or seconds; raises FilmReviewError for other text."""
    found = _WRITTEN.fullmatch(text.strip()) if len(text) <= _LONGEST else None
    if found is None:
        shown = text if len(text) <= _LONGEST else f"{text[:_LONGEST]}..."
        raise FilmReviewError(f'"{shown}" is not a time', where=where, todo="write m:ss.mmm, h:mm:ss.mmm or seconds")
    hours, minutes, seconds = (Fraction(found[part] or 0) for part in ("hours", "minutes", "seconds"))
    if (found["minutes"] and seconds >= 60) or (found["hours"] and minutes >= 60):
        raise FilmReviewError(f'"{text}" is not a time', where=where, todo="keep minutes and seconds under 60")
    return hours * 3600 + minutes * 60 + seconds


@lru_cache(maxsize=4096)  # lists of hundreds of findings are written again and again
def format_time(seconds: Fraction) -> str:
    """ "m:ss.mmm", or "h:mm:ss.mmm" from an hour on; rounded to the nearest millisecond, halves to the later one."""
    if seconds < 0:
        return "-" + format_time(-seconds)
    whole, part = divmod(int(seconds * 1000 + Fraction(1, 2)), 1000)
    minutes, second = divmod(whole, 60)
    hours, minute = divmod(minutes, 60)
    start = f"{hours}:{minute:02}" if hours else f"{minute}"
    return f"{start}:{second:02}.{part:03}"

"""Moments and spans in a stream's own ticks.

Times are exact fractions of a second, never floats: a moment is a whole number of ticks of a stream's time base.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from filmreview.errors import FilmReviewError
from filmreview.facts.times import format_time, parse_time

__all__ = ["Moment", "Span", "format_time", "parse_time"]  # times on a film are written as all others are


@dataclass(frozen=True)
class Moment:
    """One exact frame of one film by its presentation time.

    pts: ticks, as the stream counts them (the film's first frame need not be 0). time_base: seconds of a tick.
    """

    pts: int
    time_base: Fraction

    @cached_property
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

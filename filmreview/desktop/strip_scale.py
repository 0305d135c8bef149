"""Where a time of the film lies on a line of the strip: plain arithmetic, no widget."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

_STEPS = (1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600)  # seconds between two written times


@dataclass(frozen=True)
class Scale:
    """Seconds from the film's start along a line. start, end: what the line shows. left, width: where it lies, in pixels."""

    start: Fraction
    end: Fraction
    left: float
    width: float

    def x_of(self, seconds: Fraction) -> float:
        """Where a time lies; outside the line for a time that it does not show."""
        start, length = self._floats  # a pixel needs no exact fractions, and hundreds are asked for at once
        return self.left + (float(seconds) - start) / length * self.width if length > 0 else self.left

    @cached_property
    def _floats(self) -> tuple[float, float]:
        return float(self.start), float(self.end - self.start)

    def seconds_at(self, x: float) -> Fraction:
        """The time at a place, held on the line; to a thousandth of a second."""
        share = min(max(0.0, (x - self.left) / self.width), 1.0) if self.width > 0 else 0.0
        return self.start + (self.end - self.start) * Fraction(round(share * 1_000_000), 1_000_000)

    def written_times(self, room: float) -> list[Fraction]:
        """Round times to write along the line, each with this many pixels of room."""
        length = self.end - self.start
        if length <= 0 or self.width < room:
            return []
        least = length * Fraction(room / self.width)
        step = next((step for step in _STEPS if step >= least), _STEPS[-1])
        first = -(-self.start // step) * step
        return [Fraction(first + n * step) for n in range(int((self.end - first) // step) + 1)] if first <= self.end else []


def around(now: Fraction, span: Fraction, length: Fraction) -> tuple[Fraction, Fraction]:
    """The stretch of that span with now in its middle, held inside the film."""
    span = min(span, length)
    start = min(max(Fraction(0), now - span / 2), length - span)
    return start, start + span

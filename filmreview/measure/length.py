"""A length on a picture with all that is told of it: the way in for command line and desk, so that both get the same figures.

Read `size` first: there is the arithmetic by a thing of known size; `floor` has that by court points.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from filmreview.measure.courts import NOT_SURE, of_any_size
from filmreview.measure.decision import Answer, Limit, answer
from filmreview.measure.ends import Ends
from filmreview.measure.floor import Floor
from filmreview.measure.known import Known
from filmreview.measure.size import Length, Sighting, callable_outside, drawn_length, length_of, sighting, view_of
from filmreview.measure.view import ViewGrade

CM = 2.54
_MOST_MISFIT = 3.0


@dataclass(frozen=True)
class ByKnown:
    """A thing of known size on the same picture. ends: its two ends. depth: share that the item may be nearer or farther.
    lean: degrees the item may lean away, 0 to this."""

    known: Known
    ends: Ends
    depth: float = 0.02
    lean: float = 0.0


@dataclass(frozen=True)
class ByFloor:
    """Court points on the same picture. points: their names."""

    floor: Floor
    points: tuple[str, ...]


@dataclass(frozen=True)
class SeenLength:
    """length: value, uncertainty, parts. view: how well it is seen. notes: what it rests on, in sentences. blur: length of
    motion blur along it in px, None when not known. seen: what first-order propagation took, None for the floor."""

    ends: Ends
    against: ByKnown | ByFloor
    length: Length
    view: ViewGrade
    notes: tuple[str, ...]
    blur: float | None = None
    seen: Sighting | None = field(default=None)

    @property
    def px_to_inch(self) -> float:
        """The scale along the item."""
        return self.ends.pixels / self.length.inches

    def draws(self) -> NDArray[np.float64]:
        """Draws of the length in inches, (count,): a Monte Carlo of the same causes."""
        if self.seen is not None:
            return drawn_length(self.seen)
        assert isinstance(self.against, ByFloor), "without a sighting it is the floor"
        return self.against.floor.drawn_length(self.ends)

    def decide(self, limit: Limit) -> Decision:
        """Whether the limit is kept."""
        chance = limit.chance(self.length.amount)
        seen = self.seen
        bands = () if seen is None else tuple(callable_outside(end, seen) for end in limit.ends)
        return Decision(limit, Answer.UNKNOWN if self.length.why_not else answer(chance), chance, bands)


@dataclass(frozen=True)
class Decision:
    """A limit in inches, the answer, the probability that it is kept; bands: for each of its ends between which true sizes this
    scale cannot call it, none when not known."""

    limit: Limit
    answer: Answer
    chance: float
    bands: tuple[tuple[float, float], ...] = ()

    @property
    def words(self) -> str:
        """One line."""
        line = f"{self.limit} in: {self.answer} (P {self.chance:.2f})"
        for end, (below, above) in zip(self.limit.ends, self.bands, strict=False):
            low, high = math.floor(10 * below) / 10, math.ceil(10 * above) / 10  # never sooner than it can be
            line += f"; at this scale {end:g} in can only be called below {low:g} or above {high:g} in"
        return line


def see_length(
    ends: Ends, against: ByKnown | ByFloor, blur: float | None = None, sharpness_share: float | None = None
) -> SeenLength:
    """Measure a length. blur: of motion along it in px, None when not known. sharpness_share: of the frame, against the film's
    sharpest. Raises FilmReviewError when both ends are one point or, on the floor, above its horizon."""
    view = view_of(ends.pixels, blur, sharpness_share)
    notes = _notes(against, blur)
    if isinstance(against, ByFloor):
        return SeenLength(ends, against, against.floor.length(ends), view, notes, blur)
    seen = sighting(ends, against.ends, against.known, against.depth, against.lean, blur or 0.0)
    return SeenLength(ends, against, length_of(seen), view, notes, blur, seen)


def _notes(against: ByKnown | ByFloor, blur: float | None) -> tuple[str, ...]:
    notes = [] if blur is not None else ["motion blur is not known and not counted"]
    if isinstance(against, ByKnown):
        known = against.known
        assumed = "an assumption: " if known.assumed else ""
        size = f"{known.name} {known.low:.2f} to {known.high:.2f} in: {assumed}{known.source}"
        notes.insert(0, known.words if known.declared else size)
        return tuple(notes)
    notes.insert(0, "for things on the floor only: what stands a foot above it is feet off")
    if of_any_size(against.floor.court, against.points):
        notes.append(NOT_SURE)
    if against.floor.misfit > _MOST_MISFIT:
        notes.append(
            f"the court points lie {against.floor.misfit:.0f} px off a {against.floor.court} court: check them and the court"
        )
    return tuple(notes)

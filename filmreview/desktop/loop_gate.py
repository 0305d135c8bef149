"""The ends of a loop: keep what lies outside from being painted, though not every source tells the time exactly.

Near an end the picture handed over is compared with the decoded frames on both sides of it. No Qt.
"""

from __future__ import annotations

import time
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

import numpy as np

from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.film.moment import Moment
from filmreview.film.playback import Shown

_BESIDE = 8  # frames on either side of an end that a picture is held against: more than a source's time may be off
_PATIENCE = 0.8  # seconds, by the film's own clock, after which a source that does not hand over the start is let through
_ALIKE = 2.5  # mean difference in levels: some sources scale the picture, so it need not be equal


@dataclass(frozen=True)
class LoopGate:
    """One loop of one film, made ready for playing.

    start: its first moment. first, last: numbers of the first frame and of the first one past it. begin, end: seconds of these
    (of the film's end when the loop goes up to it). step: seconds of a frame there. Samples of pictures: before, of the frames
    just before it; opening, of its first ones; closing, of its last ones; after, of those past it.
    """

    start: Moment
    first: int
    last: int
    begin: Fraction
    end: Fraction
    step: Fraction
    before: tuple[np.ndarray, ...]
    opening: tuple[np.ndarray, ...]
    closing: tuple[np.ndarray, ...]
    after: tuple[np.ndarray, ...]

    def holds(self, number: int) -> bool:
        """Whether the frame of that number is in the loop."""
        return self.first <= number < self.last

    def early(self, picture: np.ndarray, seconds: Fraction, slack: Fraction) -> bool:
        """Whether this picture is from before the start. Where the time is known to half a frame it is believed; elsewhere the
        picture decides, as long as the time leaves it open."""
        if slack <= self.step:
            return seconds < self.begin - self.step / 2
        if seconds - slack >= self.begin:
            return False
        return seconds + slack < self.begin or _nearer(picture, self.before, self.opening)

    def past(self, picture: np.ndarray, seconds: Fraction, slack: Fraction) -> bool:
        """Whether this picture is past the end; found out in the same way."""
        if slack <= self.step:
            return seconds + self.step / 2 >= self.end
        if seconds + slack < self.end:
            return False
        return seconds - slack >= self.end or _nearer(picture, self.after, self.closing)

    def opened_by(self, picture: np.ndarray) -> Fraction | None:
        """The time of the first frame this picture is alike to, when the loop may begin with it."""
        apart = _apart(picture, self.opening)
        number = min(range(len(apart)), key=apart.__getitem__, default=None)
        if number is None or apart[number] >= _ALIKE or _nearer(picture, self.before, self.opening):
            return None
        return self.begin + number * self.step


class Verdict(Enum):
    """What becomes of a picture handed over."""

    PAINT = "paint it"
    SKIP = "it is none of the loop's"
    AGAIN = "the loop is through: begin anew"


class LoopWatch:
    """Judges the pictures of one loop while it plays.

    Sent to another place, a source first hands over some pictures from where it was, and one that reckons its time is wrong
    from then on. So the loop begins with the first picture that is one of its own, and the time is put right by that.
    """

    def __init__(self, gate: LoopGate) -> None:
        self.gate = gate
        self._off = Fraction(0)
        self._opening = False
        self._since: float | None = None
        self._patience = _PATIENCE

    def begin_again(self, rate: float) -> None:
        """The source was sent to the start, to play at this rate."""
        self._opening, self._since, self._off = True, None, Fraction(0)
        self._patience = _PATIENCE / rate

    def judge(self, shown: Shown) -> Verdict:
        """What becomes of this picture."""
        if self._opening and not self._opens(shown):
            return Verdict.SKIP
        self._opening = False
        seconds = shown.seconds + self._off
        if self.gate.past(shown.picture, seconds, shown.slack):
            return Verdict.AGAIN
        return Verdict.SKIP if self.gate.early(shown.picture, seconds, shown.slack) else Verdict.PAINT

    def _opens(self, shown: Shown) -> bool:
        self._since = self._since or time.monotonic()
        began = self.gate.opened_by(shown.picture)
        if began is not None and shown.slack > self.gate.step:
            self._off = began - shown.seconds
        return began is not None or time.monotonic() - self._since > self._patience


def loop_gate(film: Film, start: Moment, end: Moment | None) -> LoopGate:
    """Make a loop ready. end: not included; None for the end of the film. Slow: it decodes about a dozen frames.

    Raises FilmReviewError when the film has no such frame, or the loop holds none.
    """
    first = film.number_of(start)
    last = film.info.frames if end is None else film.number_of(end)
    if last <= first:
        raise FilmReviewError("the loop holds no frame", todo="let it end after it starts")
    until = film.time_of(film.moment_of(last)) if last < film.info.frames else film.info.duration
    step = until - film.time_of(film.moment_of(last - 1))
    return LoopGate(
        start, first, last, film.time_of(start), until, step,
        before=_pictures(film, first - _BESIDE, first),
        opening=_pictures(film, first, min(first + _BESIDE, last)),  # a short one must not open past its own end
        closing=_pictures(film, max(first, last - _BESIDE), last),
        after=_pictures(film, last, last + _BESIDE),
    )  # fmt: skip


def _pictures(film: Film, first: int, last: int) -> tuple[np.ndarray, ...]:
    """Of these frames, as far as there are any; a damaged one is shown by no source either."""
    made = []
    for number in range(max(0, first), min(last, film.info.frames)):
        try:
            made.append(_sample(film.frame(number).picture()))
        except FilmReviewError:
            continue
    return tuple(made)


def _sample(picture: np.ndarray) -> np.ndarray:
    """What pictures are compared by: green, most of the luma, of every second row."""
    return np.ascontiguousarray(picture[::2, :, 1])


def _apart(picture: np.ndarray, samples: tuple[np.ndarray, ...]) -> list[float]:
    """Mean difference in levels from each; infinite from one of another size."""
    own, far = _sample(picture), float("inf")
    return [float(np.mean(np.maximum(own, one) - np.minimum(own, one))) if own.shape == one.shape else far for one in samples]


def _nearer(picture: np.ndarray, out: tuple[np.ndarray, ...], held: tuple[np.ndarray, ...]) -> bool:
    """Whether a picture is one of those outside the loop and not rather one of those in it."""
    apart = min(_apart(picture, out), default=float("inf"))
    return apart < _ALIKE and apart < min(_apart(picture, held), default=float("inf"))

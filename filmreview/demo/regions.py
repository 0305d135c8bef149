"""The truth about regions: which thing of whom is on top at each pixel of a picture, and boxes that lie inside a thing."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from filmreview.demo.drawing import HEIGHT, WIDTH, person_in
from filmreview.demo.play import PEOPLE, RATE, Placement, placed
from filmreview.demo.shots import shot_at
from filmreview.demo.sketch import code
from filmreview.facts.region import Box

Mask = NDArray[np.bool_]
_SHRINK = 1  # pixels off each side of a box inside a thing: its edge is a mixture


@dataclass(frozen=True)
class Seen:
    """What a picture shows, (height, width). thing: code of `sketch.OWNERS`. who: place in `play.PEOPLE` plus 1, 0 = nobody."""

    thing: NDArray[np.uint8]
    who: NDArray[np.uint8]

    def mask(self, key: str, thing: str) -> Mask:
        """Where this thing of this person is on top."""
        found: Mask = (self.who == PEOPLE.index(key) + 1) & (self.thing == code(thing))
        return found


@lru_cache(maxsize=32)
def seen_in(number: int) -> Seen:
    """What picture `number` of the film shows, people only; the ball is left out."""
    second = number / RATE
    seen = Seen(np.zeros((HEIGHT, WIDTH), np.uint8), np.zeros((HEIGHT, WIDTH), np.uint8))
    people = [placed(key, second) for key in PEOPLE]
    for person in sorted(people, key=lambda one: -one.y):
        _lay(seen, person, second)
    return seen


def _lay(seen: Seen, person: Placement, second: float) -> None:
    found = person_in(person, shot_at(second))
    if found is None:
        return
    drawn, window = found
    left, top = max(math.ceil(window.left), 0), max(math.ceil(window.top), 0)
    right = min(math.floor(window.left + drawn.picture.width * window.factor), WIDTH)
    bottom = min(math.floor(window.top + drawn.picture.height * window.factor), HEIGHT)
    if left >= right or top >= bottom:
        return
    rows = ((np.arange(top, bottom) + 0.5 - window.top) / window.factor).astype(int).clip(0, drawn.owner.shape[0] - 1)
    columns = ((np.arange(left, right) + 0.5 - window.left) / window.factor).astype(int).clip(0, drawn.owner.shape[1] - 1)
    part = drawn.owner[np.ix_(rows, columns)]
    shown = part > 0
    seen.thing[top:bottom, left:right][shown] = part[shown]
    seen.who[top:bottom, left:right][shown] = PEOPLE.index(person.key) + 1


def box_inside(mask: Mask) -> Box | None:
    """The largest box all of whose pixels are in the mask, a little smaller; None when none is 3 pixels across."""
    best, best_area = None, 0
    heights = np.zeros(mask.shape[1], int)
    for row, line in enumerate(mask):
        heights = np.where(line, heights + 1, 0)
        if not line.any():
            continue
        for left, right, high in _blocks(heights):
            if high * (right - left) > best_area:
                best, best_area = (left, row - high + 1, right - left, high), high * (right - left)
    if best is None or min(best[2:]) < 3 + 2 * _SHRINK:
        return None
    x, y, wide, high = best
    return Box(x + _SHRINK, y + _SHRINK, wide - 2 * _SHRINK, high - 2 * _SHRINK)


def _blocks(heights: NDArray[np.int_]) -> list[tuple[int, int, int]]:
    """Every widest block (left, right, height) under a skyline, by the stack of rising steps."""
    found: list[tuple[int, int, int]] = []
    steps: list[tuple[int, int]] = []
    for place, high in enumerate([*heights.tolist(), 0]):
        start = place
        while steps and steps[-1][1] > high:
            start, top = steps.pop()
            found.append((start, place, top))
        if high and (not steps or steps[-1][1] < high):
            steps.append((start, high))
    return found


def box_around(mask: Mask, margin: int = 3) -> Box | None:
    """The box around everything in the mask, with a margin inside the picture; None when the mask is empty."""
    rows, columns = np.flatnonzero(mask.any(1)), np.flatnonzero(mask.any(0))
    if not len(rows):
        return None
    left, top = max(int(columns[0]) - margin, 0), max(int(rows[0]) - margin, 0)
    right, bottom = min(int(columns[-1]) + margin + 1, mask.shape[1]), min(int(rows[-1]) + margin + 1, mask.shape[0])
    return Box(left, top, right - left, bottom - top)

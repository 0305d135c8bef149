"""The frames around a moment: follow the region, take the sharpest, and see how much the frames differ.

More frames of one shot never make a colour surer: what is wrong with the light is wrong in all of them. They give a sharper
picture, and their differences are one more part of the uncertainty.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from filmreview.colour.spaces import linear_to_lab
from filmreview.colour.value import Covariance
from filmreview.colour.video import Matrix
from filmreview.facts.region import Box, Region
from filmreview.measure.colour import MeasuredColour, measure_colour
from filmreview.measure.pixels import pixels_in
from filmreview.measure.reference import Reference, gains_of
from filmreview.measure.shape import bounds_of, mask_of, moved
from filmreview.measure.uncertainty import plain
from filmreview.measure.view import OPEN_SHARE, Blur, blur_length, frame_sharpness, sharpness

Floats = NDArray[np.float64]

_REACH = 12
_ALIKE = 0.7
_MARGIN = 10
"""Pixels around the region that help to find it again: cloth alone has little to hold on to, its edges have."""
_LARGE = 100
"""Pixels across from which a region is followed on every other row and column."""
_LEAST_FRAMES = 3
_SHARPER = 1.3


class FrameLike(Protocol):
    """What is needed of a frame of the film room."""

    def picture(self) -> NDArray[np.uint8]:
        """Fast picture for display, uint8 (height, width, 3)."""

    def exact_picture(self) -> NDArray[np.float32]:
        """Exact picture for measuring, float32 (height, width, 3) in 0..1."""


@dataclass(frozen=True)
class Followed:
    """Where a region is on another frame. number: of the frame in the list. region: there. alike: correlation, 0 to 1."""

    number: int
    region: Region
    alike: float


@dataclass(frozen=True)
class ShotColour:
    """measured: on the sharpest frame. number: which one that was. region: where the region was there. frames: how many could
    be followed. best: the sharpness there."""

    measured: MeasuredColour
    number: int
    region: Region
    frames: int
    best: float


def measure_shot(
    frames: Sequence[FrameLike],
    place: int,
    region: Region,
    reference: Reference | None = None,
    erode: int = 4,
    assumed_matrix: Matrix | None = None,
    best_sharpness: float | None = None,
    bits: float | None = None,
    blur: Blur | None = None,
) -> ShotColour:
    """Measure the colour of a region of frames[place] on the sharpest of the frames it can be followed to.

    frames: neighbours of one shot in order. best_sharpness: of the film's sharpest frame, for the view grade.
    bits: of the film for each pixel of a frame. blur: by motion, for a frame without neighbours; with them they tell it.
    Raises FilmReviewError when the region reaches outside the picture.
    """
    pictures = [frame.picture() for frame in frames]
    found = follow(pictures, place, region)
    sharp = {one.number: _sharpness_around(pictures[one.number], one.region) for one in found}
    number = max(sharp, key=lambda one: sharp[one])
    if sharp[number] < _SHARPER * sharp[place]:  # not worth leaving the frame that the reviewer looks at
        number = place
    there = next(one.region for one in found if one.number == number)
    between = _between(pictures, found, reference, erode)
    exact = frames[number].exact_picture()
    share = frame_sharpness(pictures[number]) / best_sharpness if best_sharpness else None
    blur = blur_at(found, number) or blur
    measured = measure_colour(exact, there, reference, erode, between, assumed_matrix, share, bits, blur)
    return ShotColour(measured, number, there, len(found), sharp[number])


def follow(pictures: Sequence[NDArray[np.uint8]], place: int, region: Region) -> list[Followed]:
    """The region on the frames around pictures[place], outward on both sides until it is lost: moved by whole pixels, up to 12
    from frame to frame, to where normalised cross-correlation of luma is highest (0.7 at least)."""
    found = [Followed(place, region, 1.0)]
    height, width = pictures[place].shape[:2]
    box, _ = mask_of(region, width, height)
    if min(box.width, box.height) < 4:
        return found
    coarse = 2 if min(box.width, box.height) > _LARGE else 1
    template = _luma(_cut_box(pictures[place], _grown(box, _MARGIN, width, height)), coarse)
    for step in (-1, 1):
        last, number = region, place + step
        while 0 <= number < len(pictures):
            shift, alike = _best_shift(pictures[number], template, _grown(bounds_of(last), _MARGIN, width, height), coarse)
            there = moved(last, *shift)
            if alike < _ALIKE or not _inside(there, width, height):
                break
            found.append(Followed(number, there, alike))
            last, number = there, number + step
    return found


def steps_beside(found: Sequence[Followed], number: int) -> list[tuple[int, int]]:
    """How many px right and down a followed region lies on the frames next to one, from where it is on that one."""
    here = bounds_of(next(one.region for one in found if one.number == number))
    beside = [bounds_of(one.region) for one in found if abs(one.number - number) == 1]
    return [(one.x - here.x, one.y - here.y) for one in beside]


def blur_at(found: Sequence[Followed], number: int) -> Blur | None:
    """Motion blur of a followed region on one of the frames, from where it is on those next to it; None without any."""
    steps = steps_beside(found, number)
    if not steps:
        return None
    here = bounds_of(next(one.region for one in found if one.number == number))
    right, down = (max(abs(step[side]) for step in steps) for side in (0, 1))
    share = max(right / here.width, down / here.height)
    return Blur(blur_length(float(np.hypot(right, down)), OPEN_SHARE), blur_length(share, OPEN_SHARE))


def _best_shift(picture: NDArray[np.uint8], template: Floats, around: Box, coarse: int) -> tuple[tuple[int, int], float]:
    height, width = picture.shape[:2]
    if (-(-around.width // coarse), -(-around.height // coarse)) != template.shape[::-1]:
        return (0, 0), 0.0  # cut by the picture's edge
    left, top = (place - coarse * (min(_REACH, place) // coarse) for place in (around.x, around.y))
    right, bottom = min(around.right + _REACH, width), min(around.bottom + _REACH, height)
    alike = _correlation(_luma(picture[top:bottom, left:right], coarse), template)
    row, column = np.unravel_index(int(np.argmax(alike)), alike.shape)
    shift = (coarse * int(column) + left - around.x, coarse * int(row) + top - around.y)
    return shift, float(alike[row, column])


def _correlation(area: Floats, template: Floats) -> Floats:
    """Zero-mean normalised cross-correlation of every place where the template fits in the area."""
    rows, columns = template.shape
    centred = template - template.mean()
    shape = (_even(area.shape[0]), _even(area.shape[1]))
    product = np.fft.irfft2(np.fft.rfft2(area, shape) * np.conj(np.fft.rfft2(centred, shape)), shape)
    places = (area.shape[0] - rows + 1, area.shape[1] - columns + 1)
    sums, squares = (_window_sums(values, rows, columns) for values in (area, area * area))
    spread = np.sqrt(np.maximum(squares - sums * sums / template.size, 1e-6)) * max(
        float(np.sqrt((centred * centred).sum())), 1e-6
    )
    result: Floats = product[: places[0], : places[1]] / spread
    return result


def _window_sums(values: Floats, rows: int, columns: int) -> Floats:
    summed = np.pad(values, ((1, 0), (1, 0))).cumsum(axis=0).cumsum(axis=1)
    result: Floats = summed[rows:, columns:] - summed[:-rows, columns:] - summed[rows:, :-columns] + summed[:-rows, :-columns]
    return result


def _between(
    pictures: Sequence[NDArray[np.uint8]], found: Sequence[Followed], reference: Reference | None, erode: int
) -> Covariance | None:
    """Covariance of the plain means of the frames, not divided by their number; None for fewer than three frames."""
    if len(found) < _LEAST_FRAMES:
        return None
    gains = gains_of(reference)
    means = []
    for one in found:
        box, mask = mask_of(one.region, pictures[one.number].shape[1], pictures[one.number].shape[0])
        cut = _cut_box(pictures[one.number], box)
        inner = (
            pixels_in(cut.astype(np.float32) / np.float32(255), moved(one.region, -box.x, -box.y), erode)
            if mask.any()
            else None
        )
        if inner is not None and len(inner.linear):
            means.append(linear_to_lab(inner.linear.mean(axis=0) * gains))
    return plain(np.cov(np.array(means).T)) if len(means) >= _LEAST_FRAMES else None


def _luma(picture: NDArray[np.uint8], coarse: int) -> Floats:
    result: Floats = picture[::coarse, ::coarse].astype(np.float64) @ np.array([0.2126, 0.7152, 0.0722])
    return result


def _sharpness_around(picture: NDArray[np.uint8], region: Region) -> float:
    """With the margin: the item's edges tell more than its cloth."""
    around = _grown(bounds_of(region), _MARGIN, picture.shape[1], picture.shape[0])
    return sharpness(_cut_box(picture, around) / np.float32(255))


def _cut_box(picture: NDArray[np.uint8], box: Box) -> NDArray[np.uint8]:
    return picture[box.y : box.bottom, box.x : box.right]


def _grown(box: Box, by: int, width: int, height: int) -> Box:
    left, top = max(box.x - by, 0), max(box.y - by, 0)
    return Box(left, top, min(box.right + by, width) - left, min(box.bottom + by, height) - top)


def _inside(region: Region, width: int, height: int) -> bool:
    box = bounds_of(region)
    return box.x >= 0 and box.y >= 0 and box.right <= width and box.bottom <= height


def _even(size: int) -> int:
    """A size next above that the fast Fourier transform likes: a multiple of 16."""
    return (size + 15) // 16 * 16

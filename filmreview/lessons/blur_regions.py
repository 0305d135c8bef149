"""Where faces are to be blurred at a moment: the boxes put down, interpolated in between, with room around them."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from fractions import Fraction

from filmreview.facts.region import Box
from filmreview.film.moment import Moment
from filmreview.review.model import Blur

ROOM = 0.2
"""Of the box's longer side, added on every side: a box drawn tight, or followed a little off, still covers the face."""


def box_at(blur: Blur, moment: Moment) -> Box | None:
    """The box of a blur at a moment as put down or interpolated, without room; None when it is not there then."""
    at = moment.seconds
    if not blur.start.seconds <= at < blur.end.seconds:
        return None
    place = bisect_right(blur.regions, at, key=lambda one: one.moment.seconds) - 1
    here = blur.regions[place]
    if place + 1 == len(blur.regions):
        return here.box
    after = blur.regions[place + 1]
    share = (at - here.moment.seconds) / (after.moment.seconds - here.moment.seconds)
    return _between(here.box, after.box, share)


def blurred_at(blurs: Iterable[Blur], moment: Moment, width: int, height: int) -> tuple[Box, ...]:
    """The boxes to blur at a moment, with room around them, cut to a picture of this size."""
    found = (box_at(blur, moment) for blur in blurs)
    roomy = (with_room(box, width, height) for box in found if box is not None)
    return tuple(box for box in roomy if box.width > 0 and box.height > 0)


def with_room(box: Box, width: int, height: int) -> Box:
    """A box with ROOM around it, cut to a picture of this size; it may be left without a pixel."""
    room = round(max(box.width, box.height) * ROOM) + 1
    left, top = max(0, box.x - room), max(0, box.y - room)
    right, bottom = min(width, box.right + room), min(height, box.bottom + room)
    return Box(left, top, max(0, right - left), max(0, bottom - top))


def _between(one: Box, other: Box, share: Fraction) -> Box:
    return Box(*(round(a + (b - a) * share) for a, b in zip(_sides(one), _sides(other), strict=True)))


def _sides(box: Box) -> tuple[int, int, int, int]:
    return box.x, box.y, box.width, box.height

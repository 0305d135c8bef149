"""Which of a film's references a region is measured against: one of its own camera view, the nearest in the picture.

The light that falls on an item is best told by what stands beside it, in the same view; how long before or after hardly
matters there, since lamps and camera stay as they are. Desk and command line both choose by this.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Generic, Protocol, TypeVar

from filmreview.colour.value import Colour
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Region
from filmreview.film.film import Film, Moment
from filmreview.measure.camera_view import alike, look_of
from filmreview.measure.reference import reference_from
from filmreview.measure.shape import apart, bounds_of


class OnFilm(Protocol):
    """A reference as it is put down: on which frame, where in its picture, and which colour it has."""

    @property
    def moment(self) -> Moment:
        """The frame it stands on."""

    @property
    def region(self) -> Region:
        """Where it is in that frame's picture."""

    @property
    def colour(self) -> Colour:
        """As declared."""


One = TypeVar("One", bound=OnFilm)


@dataclass(frozen=True)
class Nearest(Generic[One]):
    """The reference to measure against. elsewhere: whether it stands in another camera view, for want of one in this."""

    reference: One
    elsewhere: bool


def nearest_reference(
    references: Iterable[One], moment: Moment, region: Region, in_view: Callable[[One], bool | None]
) -> Nearest[One] | None:
    """The reference for a region of the frame at a moment; None when there is none at all.

    in_view: whether the frame of a reference shows the camera view of that moment (a frame does its own), None for a reference
    that cannot serve: it is taken only where none can, for what is wrong to be told. It is asked from the nearest in the
    picture on, and no further than the first one in view. Distances are between the middles of the regions, the nearer in time
    of equal ones; with none in view it is the nearest in time.
    Raises FilmReviewError for a polygon of fewer than three corners.
    """
    box = bounds_of(region)

    def away(one: One) -> Fraction:
        return abs(one.moment.seconds - moment.seconds)

    near = sorted(references, key=lambda one: (apart(bounds_of(one.region), box), away(one)))
    elsewhere = []
    for one in near:
        there = in_view(one)
        if there:
            return Nearest(one, elsewhere=False)
        if there is not None:
            elsewhere.append(one)
    found = min(elsewhere or near, key=away, default=None)
    return None if found is None else Nearest(found, elsewhere=True)


def nearest_on_film(film: Film, references: Iterable[One], moment: Moment, region: Region) -> Nearest[One] | None:
    """The same, the views told from the film's own frames. Slow: decodes up to one frame for each of them."""

    def in_view(one: One) -> bool | None:
        try:
            there = film.frame_at(one.moment)
            reference_from(there.exact_picture(), one.region, one.colour)
        except FilmReviewError:
            return None
        return one.moment == moment or alike(look_of(there.picture()), look_of(film.frame_at(moment).picture()))

    return nearest_reference(references, moment, region, in_view)

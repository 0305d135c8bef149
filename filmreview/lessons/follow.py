"""Follow a region put down on one frame over the frames after it or before it, as far as it can be told where it is.

What comes out is a proposal for a person to look at: any box of it can be put right on any frame (`corrected`), and from there
it is followed anew.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import av
import numpy as np
from PIL import Image

from filmreview.facts.region import Box
from filmreview.film.film import Film
from filmreview.film.moment import Moment
from filmreview.lessons.blur_regions import box_at
from filmreview.lessons.flow import Grey, Step, flow, pyramid
from filmreview.lessons.frames import FrameSource
from filmreview.lessons.planes import PlaneMaker, tags_of
from filmreview.progress import Progress, silent
from filmreview.review.model import Blur, BlurAt

_WORKED_AT = 56  # pixels of the box's longer side when it is looked at: more is slower and no surer
_AROUND = 1.2  # of the longer side, looked at on every side of the box
_LEVELS = 4
_LEAST_SURE, _SURE = 0.25, 0.5  # share of the windows: below the one it is lost, above the other nothing else is tried
_CHUNK = 24  # frames held at once when following backwards
_TELLING = 1.5  # pixels that a box may be off when it is interpolated instead of kept


@dataclass(frozen=True)
class Followed:
    """Where a region went. regions: in order of time, the first or the last being what was given. end: the first moment it is
    not told for any more. lost: True when it could not be followed as far as asked; False when it was, or left the picture."""

    regions: tuple[BlurAt, ...]
    end: Moment
    lost: bool


@dataclass(frozen=True)
class _Place:
    """A box in whole or parts of pixels."""

    x: float
    y: float
    width: float
    height: float

    def moved(self, step: Step) -> _Place:
        width, height = self.width * step.scale, self.height * step.scale
        middle_x, middle_y = self.x + self.width / 2 + step.x, self.y + self.height / 2 + step.y
        return _Place(middle_x - width / 2, middle_y - height / 2, width, height)

    def box_in(self, width: int, height: int) -> Box | None:
        """The whole pixels of it in a picture; None when less than a third of it is left."""
        left, top = max(0, round(self.x)), max(0, round(self.y))
        right, bottom = min(width, round(self.x + self.width)), min(height, round(self.y + self.height))
        if (right - left) * (bottom - top) * 3 < self.width * self.height or right - left < 2 or bottom - top < 2:
            return None
        return Box(left, top, right - left, bottom - top)


def follow(film: Film, start: BlurAt, until: Moment, progress: Progress = silent) -> Followed:
    """Follow a box from its frame on up to a moment (not included), or back to one (included) when that lies before it.

    Raises FilmReviewError when the frame is not of this film, Stopped when progress raises it.
    """
    first, last = film.number_of(start.moment), _number_at(film, until)
    backwards = until.seconds < start.moment.seconds
    with FrameSource(film) as source:
        numbers = range(first - 1, last - 1, -1) if backwards else range(first + 1, last)
        found, lost = _path(film, source, start.box, first, numbers, progress)
    places = {first: start.box, **found}
    regions = thinned([BlurAt(film.moment_of(number), places[number]) for number in sorted(places)])
    return Followed(regions, _after(film, max(places)), lost)


def corrected(blur: Blur, at: BlurAt, film: Film, progress: Progress = silent) -> Blur:
    """The blur with its box put right on one frame: what lies before stays, from there on it is followed anew to its end.

    Where it cannot be followed, what was there before stays. Raises as `follow`.
    """
    followed = follow(film, at, blur.end, progress)
    regions = [region for region in blur.regions if region.moment.seconds < at.moment.seconds]
    edge = _before(film, at.moment)
    if regions and edge is not None and regions[-1].moment != edge:
        regions += _old_way(blur, edge)  # the old way up to the frame that was put right, and no further
    regions += followed.regions
    if not followed.lost:
        return replace(blur, regions=tuple(regions), end=followed.end)
    later = [region for region in blur.regions if region.moment.seconds > followed.end.seconds]
    return replace(blur, regions=(*regions, *_old_way(blur, followed.end), *later))


def _old_way(blur: Blur, moment: Moment) -> list[BlurAt]:
    box = box_at(blur, moment)
    return [] if box is None else [BlurAt(moment, box)]


def thinned(regions: list[BlurAt]) -> tuple[BlurAt, ...]:
    """Only the boxes that are needed for the others to be interpolated to about a pixel."""
    kept, here = [0], 0
    while here < len(regions) - 1:
        reach = here + 1
        while reach + 1 < len(regions) and _is_between(regions, here, reach + 1):
            reach += 1
        kept.append(reach)
        here = reach
    return tuple(regions[place] for place in kept)


def _is_between(regions: list[BlurAt], first: int, last: int) -> bool:
    one, other = regions[first], regions[last]
    length = float(other.moment.seconds - one.moment.seconds)
    for region in regions[first + 1 : last]:
        share = float(region.moment.seconds - one.moment.seconds) / length
        for a, b, c in zip(_sides(one.box), _sides(other.box), _sides(region.box), strict=True):
            if abs(a + (b - a) * share - c) > _TELLING:
                return False
    return True


def _sides(box: Box) -> tuple[int, int, int, int]:
    return box.x, box.y, box.right, box.bottom


def _path(
    film: Film, source: FrameSource, box: Box, first: int, numbers: range, progress: Progress
) -> tuple[dict[int, Box], bool]:
    """Box by number for the frames in order, as far as it goes, and whether it was lost on the way."""
    found: dict[int, Box] = {}
    place, speed = _Place(box.x, box.y, box.width, box.height), (0.0, 0.0)
    before: Grey | None = None
    maker: PlaneMaker | None = None
    size = (film.info.width, film.info.height)
    for number, frame in _frames(source, first, numbers):
        maker = maker or PlaneMaker(film, frame, tags_of(film, frame))
        grey = np.asarray(maker.planes(frame).luma, np.float32)
        if before is not None:
            step = _step(before, grey, place, speed)
            if step is None:
                return found, True
            place, speed = place.moved(step), (step.x, step.y)
            here = place.box_in(*size)
            if here is None:
                return found, False
            found[number] = here
            progress(len(found) / max(1, len(numbers)), "following")
        before = grey
    return found, False


def _step(before: Grey, after: Grey, place: _Place, speed: tuple[float, float]) -> Step | None:
    """How the box moved; looked at close, at a size that does not depend on its own."""
    longer = max(place.width, place.height)
    share, room = min(1.0, _WORKED_AT / longer), longer * _AROUND
    left, top = max(0, int(place.x - room)), max(0, int(place.y - room))
    right = min(before.shape[1], int(place.x + place.width + room) + 1)
    bottom = min(before.shape[0], int(place.y + place.height + room) + 1)
    if right - left < 16 or bottom - top < 16:
        return None
    one, other = (_shrunk(grey[top:bottom, left:right], share) for grey in (before, after))
    across, down = one.shape[1] / (right - left), one.shape[0] / (bottom - top)
    patch = ((place.x - left) * across, (place.y - top) * down, place.width * across, place.height * down)
    pyramids = pyramid(one, _LEVELS), pyramid(other, _LEVELS)
    best = None
    for guess in ((speed[0] * across, speed[1] * down), (0.0, 0.0)):
        step = flow(*pyramids, patch, guess)
        if step is not None and (best is None or step.sure > best.sure):
            best = step
        if best is not None and best.sure > _SURE:
            break
    if best is None or best.sure < _LEAST_SURE:
        return None
    return Step(best.x / across, best.y / down, best.scale, best.sure)


def _shrunk(grey: Grey, share: float) -> Grey:
    if share == 1.0:
        return grey
    size = (max(16, round(grey.shape[1] * share)), max(16, round(grey.shape[0] * share)))
    return np.asarray(Image.fromarray(np.ascontiguousarray(grey)).resize(size, Image.Resampling.BOX), np.float32)


def _frames(source: FrameSource, first: int, numbers: range) -> Iterator[tuple[int, av.VideoFrame]]:
    """The frame that was given and then the others, in the order of following."""
    if numbers.step > 0:
        yield from source.row(first, max(first, numbers.stop - 1) + 1)
        return
    high = first + 1
    low = numbers.stop + 1
    while high > low:
        start = max(low, high - _CHUNK)
        yield from reversed(list(source.row(start, high)))
        high = start


def _number_at(film: Film, moment: Moment) -> int:
    """The first frame that is not before a moment; after the last one for the film's end."""
    ticks = moment.seconds / film.index.time_base
    return int(np.searchsorted(film.index.pts, -(-ticks.numerator // ticks.denominator), side="left"))


def _after(film: Film, number: int) -> Moment:
    if number + 1 < len(film.index):
        return film.moment_of(number + 1)
    return Moment(film.index.end, film.index.time_base)


def _before(film: Film, moment: Moment) -> Moment | None:
    number = film.number_of(moment)
    return film.moment_of(number - 1) if number else None

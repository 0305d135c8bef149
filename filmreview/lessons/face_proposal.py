"""Propose which faces to blur on a span of film: found on frames at even distances and joined to faces over time, for a person
to look at and put right."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from filmreview.facts.region import Box
from filmreview.film.film import Film
from filmreview.film.moment import Moment, Span
from filmreview.lessons.face_model import FaceFinder, face_finder
from filmreview.lessons.follow import thinned
from filmreview.lessons.frames import FrameSource
from filmreview.lessons.pictures import frames_of
from filmreview.lessons.planes import PlaneMaker, tags_of, to_rgb
from filmreview.progress import Progress, silent
from filmreview.review.lesson_changes import AddBlur
from filmreview.review.model import BlurAt

LOOKED_AT = Fraction(1, 8)  # seconds from one frame that is looked at to the next
_MISSED = 4  # frames looked at in a row in which a face may not be found and still be the same
_NEAR = 1.0  # of a face's size: so far from where it is expected it may be
_ALIKE = 1.8  # times larger or smaller it may be


@dataclass
class _Face:
    """One face over time. seen: number of the frame and box, in order."""

    seen: list[tuple[int, Box]] = field(default_factory=list)

    def expected(self, number: int) -> tuple[float, float]:
        """Where its middle should be by now, going on as it went."""
        here_number, here = self.seen[-1]
        x, y = _middle(here)
        if len(self.seen) < 2:
            return x, y
        before_number, before = self.seen[-2]
        share = (number - here_number) / (here_number - before_number)
        before_x, before_y = _middle(before)
        return x + (x - before_x) * share, y + (y - before_y) * share


def propose_faces(
    film: Film, span: Span, film_id: str, progress: Progress = silent, finder: FaceFinder | None = None
) -> tuple[AddBlur, ...]:
    """A blur for every face found on a span, "proposed": nobody has looked at them yet.

    film_id: of the film in the review. finder: None takes that of the extra `faces`. Raises FilmReviewError where that is not
    installed (`face_model.faces_trouble`) or the span cannot be used, Stopped when progress raises it.
    """
    finder = finder or face_finder()
    first, last = frames_of(span, film)
    step = max(1, round(LOOKED_AT * film.info.rate))
    faces: list[_Face] = []
    looked = [number for number in range(first, last) if (number - first) % step == 0 or number == last - 1]
    with FrameSource(film) as source:
        maker: PlaneMaker | None = None
        wanted = set(looked)
        for number, frame in source.row(first, last):
            if number not in wanted:
                continue
            maker = maker or PlaneMaker(film, frame, tags_of(film, frame))
            found = [one.box for one in finder(to_rgb(maker.planes(frame), maker.tags))]
            _join(faces, number, found, step)
            progress((number - first + 1) / (last - first), "looking for faces")
    return tuple(_blur(film, film_id, face, first, last, step) for face in faces)


def _join(faces: list[_Face], number: int, found: list[Box], step: int) -> None:
    """Give every box to the face it belongs to, the nearest first; what belongs to none is a new face."""
    open_faces = [face for face in faces if number - face.seen[-1][0] <= (_MISSED + 1) * step]
    pairs = sorted(
        (distance, place, other)
        for place, face in enumerate(open_faces)
        for other, box in enumerate(found)
        if (distance := _apart(face, number, box)) is not None
    )
    taken: set[int] = set()
    given: set[int] = set()
    for _, place, other in pairs:
        if place not in given and other not in taken:
            open_faces[place].seen.append((number, found[other]))
            given.add(place)
            taken.add(other)
    faces.extend(_Face([(number, box)]) for other, box in enumerate(found) if other not in taken)


def _apart(face: _Face, number: int, box: Box) -> float | None:
    """How far a box is from where the face should be, in sizes of the face; None when it cannot be the same."""
    last = face.seen[-1][1]
    size, other = (max(1, (one.width + one.height) / 2) for one in (last, box))
    x, y = face.expected(number)
    box_x, box_y = _middle(box)
    distance = ((box_x - x) ** 2 + (box_y - y) ** 2) ** 0.5 / max(size, other)
    return distance if distance <= _NEAR and 1 / _ALIKE <= size / other <= _ALIKE else None


def _blur(film: Film, film_id: str, face: _Face, first: int, last: int, step: int) -> AddBlur:
    """From a step before the face was first seen to a step after it was last seen, within the span."""
    start, end = max(first, face.seen[0][0] - step), min(last, face.seen[-1][0] + step + 1)
    regions = [BlurAt(film.moment_of(number), box) for number, box in face.seen]
    if start < face.seen[0][0]:
        regions.insert(0, BlurAt(film.moment_of(start), face.seen[0][1]))
    over = film.moment_of(end) if end < len(film.index) else Moment(film.index.end, film.index.time_base)
    return AddBlur(film_id, thinned(regions), over, "proposed")


def _middle(box: Box) -> tuple[float, float]:
    return box.x + box.width / 2, box.y + box.height / 2

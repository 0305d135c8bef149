"""The finished pictures of a clip: each frame blurred, fitted to the size that is written, and drawn on where it is held."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import av
import numpy as np
from numpy.typing import NDArray

from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box
from filmreview.film.film import Film
from filmreview.lessons.blur_drawing import blur
from filmreview.lessons.blur_regions import blurred_at
from filmreview.lessons.card_drawing import card_picture
from filmreview.lessons.hold_drawing import held_picture
from filmreview.lessons.pictures import Look, Plan, card_of
from filmreview.lessons.planes import BT709, PlaneMaker, Planes, Tags, evened, frame_of, from_rgb, scaled, to_rgb

SMALLEST, LARGEST = 120, 4320  # lines of a written picture
CARD_SIZE = (1280, 720)  # of a lesson that has no film


@dataclass(frozen=True)
class Canvas:
    """What is written: size in pixels, even; colours."""

    width: int
    height: int
    tags: Tags


def canvas_for(films: Sequence[Film], tags: Tags, height: int | None) -> Canvas:
    """As large as the largest film, each made smaller to `height` lines where it is higher."""
    _check_height(height)
    sizes = [fitted_size(film, height) for film in films]
    return Canvas(max(width for width, _ in sizes), max(lines for _, lines in sizes), tags)


def canvas_of_cards(height: int | None) -> Canvas:
    """For a lesson that has no film."""
    _check_height(height)
    width, lines = CARD_SIZE
    if height is not None and height < lines:
        width, lines = round(width * height / lines), height
    return Canvas(width + width % 2, lines + lines % 2, BT709)


def fitted_size(film: Film, height: int | None) -> tuple[int, int]:
    """The size, even, at which a film is written: its own, or `height` lines where it is higher."""
    width, lines = film.info.width, film.info.height
    if height is not None and height < lines:
        width, lines = round(width * height / lines), height
    return max(2, width + width % 2), max(2, lines + lines % 2)


class ClipPictures:
    """Makes the pictures of one plan. first: any decoded frame of the film."""

    def __init__(self, plan: Plan, film: Film, first: av.VideoFrame, canvas: Canvas, height: int | None) -> None:
        self.plan, self._film, self.canvas = plan, film, canvas
        self._maker = PlaneMaker(film, first, canvas.tags)
        width, lines = fitted_size(film, height)
        x, y = (canvas.width - width) // 4 * 2, (canvas.height - lines) // 4 * 2  # chroma stands on even pixels
        self.placed = Box(x, y, width, lines)
        self._fills = (width, lines) == (canvas.width, canvas.height)
        self._as_it_is = self._fills and (width, lines) == (film.info.width, film.info.height)

    def played(self, number: int, frame: av.VideoFrame) -> av.VideoFrame:
        """A frame that is played, for the encoder; the decoded one itself where nothing has to be done to it."""
        same = (frame.width, frame.height) == (self.canvas.width, self.canvas.height)  # some broadcasts change theirs
        if self._as_it_is and same and self._maker.is_ready(frame) and not self.boxes(number):
            return frame
        return frame_of(self._fitted(self._whole(number, frame)), self.canvas.tags)

    def boxes(self, number: int) -> tuple[Box, ...]:
        """Where faces are blurred in a frame."""
        info = self._film.info
        return blurred_at(self.plan.clip.blurs, self._film.moment_of(number), info.width, info.height)

    def held(self, look: Look, number: int, frame: av.VideoFrame) -> Planes:
        """The held frame with all that is drawn on it; what is not drawn on stays exactly as it was."""
        tags = self.canvas.tags
        whole = self._whole(number, frame)
        fitted = self._fitted(whole)
        before = to_rgb(fitted, tags)
        made = held_picture(self.plan.clip, look, before, to_rgb(whole, tags), self.placed)
        return _drawn_over(fitted, from_rgb(made, tags), (made != before).any(axis=2))

    def shown(self, look: Look, number: int | None, frame: av.VideoFrame | None) -> Planes:
        """Any picture of the plan. number, frame: of the film, None for a card."""
        if number is None or frame is None:
            return drawn_card(self.plan, look, self.canvas)
        if look in (Look.QUESTION, Look.ANSWER):
            return self.held(look, number, frame)
        return self._fitted(self._whole(number, frame))

    def _whole(self, number: int, frame: av.VideoFrame) -> Planes:
        """The upright frame, full size, blurred. A frame of another size than the film's is brought to it first, so that boxes
        fit it."""
        info, planes = self._film.info, self._maker.planes(frame)
        if planes.size != (info.width, info.height):
            planes = scaled(evened(planes), info.width + info.width % 2, info.height + info.height % 2, self.canvas.tags)
        return blur(planes, self.boxes(number))

    def _fitted(self, whole: Planes) -> Planes:
        """The frame at the size that is written, on black where it does not fill it."""
        placed, tags = self.placed, self.canvas.tags
        even = evened(whole)
        fitted = even if even.size == (placed.width, placed.height) else scaled(even, placed.width, placed.height, tags)
        return fitted if self._fills else _on_black(fitted, self.canvas, placed)


def drawn_card(plan: Plan, look: Look, canvas: Canvas) -> Planes:
    """A card of a plan: the title, the end, or a question without film."""
    card = card_of(plan.piece, look)
    assert card is not None
    return from_rgb(card_picture(card, canvas.width, canvas.height), canvas.tags)


def _check_height(height: int | None) -> None:
    if height is not None and not SMALLEST <= height <= LARGEST:
        raise FilmReviewError(f"a picture of {height} lines", todo=f"give {SMALLEST} to {LARGEST} lines")


def _drawn_over(planes: Planes, drawn: Planes, where: NDArray[np.bool_]) -> Planes:
    """The drawn picture where something is drawn, the other elsewhere. where: (h, w), even."""
    height, width = where.shape
    coarse = where.reshape(height // 2, 2, width // 2, 2).any(axis=(1, 3))
    return Planes(*(np.where(mask, new, old) for mask, new, old in zip((where, coarse, coarse), drawn, planes, strict=True)))


def _on_black(planes: Planes, canvas: Canvas, placed: Box) -> Planes:
    black = 0 if canvas.tags.range == "full" else 16
    made = []
    for plane, shade, part in zip(planes, (black, 128, 128), (1, 2, 2), strict=True):
        whole = np.full((canvas.height // part, canvas.width // part), shade, np.uint8)
        x, y = placed.x // part, placed.y // part
        whole[y : y + plane.shape[0], x : x + plane.shape[1]] = plane
        made.append(whole)
    return Planes(*made)


def check_place(path: Path, films: Sequence[Film]) -> None:
    """Raise FilmReviewError when writing there would overwrite a film that is cut from."""
    for film in films:
        if path.exists() and path.samefile(film.path):
            raise FilmReviewError("this is the film that is cut from", where=str(path), todo="give another name")

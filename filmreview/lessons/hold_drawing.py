"""The held frame as it is shown: marked, the item enlarged, the question and the ruling written on it."""

from __future__ import annotations

from filmreview.facts.region import Box
from filmreview.lessons.caption_drawing import band_of, draw_band
from filmreview.lessons.clip import Clip
from filmreview.lessons.mark_drawing import dimmed, item_mask, outlined, shown_item, with_inset
from filmreview.lessons.pictures import Look
from filmreview.lessons.planes import Picture
from filmreview.measure.shape import bounds_of


def held_picture(clip: Clip, look: Look, picture: Picture, frame: Picture, placed: Box) -> Picture:
    """The held frame with all that is drawn over it.

    picture: as it is written, without anything drawn. frame: the whole upright frame, full size. placed: where it lies in the
    picture. look: QUESTION or ANSWER. Raises FilmReviewError when the marked region reaches outside the frame.
    """
    item = None if clip.mark is None else bounds_of(clip.mark.region)
    shown = None if item is None else shown_item(item, frame, placed)
    height, width = picture.shape[:2]
    band, lines = band_of(width, height, clip.question, clip.ruling if look is Look.ANSWER else (), shown)
    made = picture if clip.mark is None else _marked(clip, picture, frame, placed)
    made = draw_band(made, band, lines)
    return with_inset(made, frame, item, placed, band) if item is not None and clip.inset else made


def _marked(clip: Clip, picture: Picture, frame: Picture, placed: Box) -> Picture:
    assert clip.mark is not None
    mask = item_mask(clip.mark.region, (frame.shape[1], frame.shape[0]), (placed.width, placed.height))
    made = picture.copy()
    part = (slice(placed.y, placed.bottom), slice(placed.x, placed.right))
    made[part] = (dimmed if clip.mark.look == "dim" else outlined)(picture[part], mask)
    return made

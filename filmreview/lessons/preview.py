"""The very picture that will be written, to be looked at before anything is."""

from __future__ import annotations

from filmreview.errors import FilmReviewError
from filmreview.film.film import Film
from filmreview.lessons.canvas import ClipPictures, canvas_for
from filmreview.lessons.clip import Clip
from filmreview.lessons.frames import FrameSource
from filmreview.lessons.pictures import plan_of
from filmreview.lessons.planes import Picture, tags_of, to_rgb


def preview(clip: Clip, film: Film, number: int, version: str, height: int | None = None) -> Picture:
    """One picture of a clip as it will be written, before it is encoded: (h, w, 3) R'G'B'.

    film: the clip's own, open. number: from 0, of `pictures_of`. height: lines to write, None for the film's own. It needs no
    answer about the faces, as nothing is written. Raises FilmReviewError for a picture that is not in the clip.
    """
    plan = plan_of(clip, film, version)
    if not 0 <= number < len(plan.pictures):
        raise FilmReviewError(f"the clip has pictures 0 to {len(plan.pictures) - 1}, and no {number}", where=str(clip.film))
    shown = plan.pictures[number]
    with FrameSource(film) as source:
        wanted = frame_needed(shown.source, clip, film)
        _, frame = next(source.row(wanted, wanted + 1))
        canvas = canvas_for([film], tags_of(film, frame), height)
        pictures = ClipPictures(plan, film, frame, canvas, height)
        return to_rgb(pictures.shown(shown.look, shown.source, None if shown.source is None else frame), canvas.tags)


def frame_needed(source: int | None, clip: Clip, film: Film) -> int:
    """Which frame to decode for a picture: a card takes its colours from the first one of the clip."""
    if source is not None:
        return source
    return int(film.index.number_on_screen(clip.span.start.seconds / film.index.time_base))

"""The films of a lesson: one with chapters or single files, in each version, with captions; the clips of the page; the stills.

PyAV is used by `writing` and its neighbours; here is only said what is written where.
"""

from __future__ import annotations

import io
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from PIL import Image

from filmreview.film.film import open_film
from filmreview.film.moment import Moment, Span
from filmreview.lessons.captions import write_captions
from filmreview.lessons.clip import Clip
from filmreview.lessons.lesson import Lesson
from filmreview.lessons.lesson_clips import asked_on_film, pieces_of
from filmreview.lessons.lesson_paper import Still
from filmreview.lessons.pictures import Look, plan_of
from filmreview.lessons.plan import ONE_FILM, PAGE_HEIGHT
from filmreview.lessons.preview import preview
from filmreview.lessons.writing import write_clip, write_lesson
from filmreview.progress import Progress, silent

CLIPS = "clips"
_STILL_HEIGHT = 480
_JPEG = 85
_HELD_ON_PAGE = Fraction(1)  # second
Written = tuple[dict[str, str], tuple[str, ...]]
"""What each file is, by its name; and the notes of the writing."""
FILM_NAMES: Mapping[str, tuple[str, str]] = {
    "question": ("questions", "asks only: for participants"),
    "answer": ("answers", "asks, and answers after a pause"),
}


def write_films(lesson: Lesson, aside: Path, progress: Progress) -> Written:
    """Write the films of all versions."""
    settings, pieces = lesson.plan.settings, pieces_of(lesson)
    told: dict[str, str] = {}
    notes: list[str] = []
    for place, version in enumerate(settings.versions):
        part = _part(progress, place, len(settings.versions))
        if settings.layout == ONE_FILM:
            name, words = FILM_NAMES[version]
            written = write_lesson(pieces, aside / f"{name}.mp4", version, part, height=settings.height, title=lesson.title)
            write_captions(pieces, aside / f"{name}.vtt", version)
            told[f"{name}.mp4"], told[f"{name}.vtt"] = f"the film, {words}", "its captions"
            notes += written.notes
        else:
            more, said = _single(lesson, aside, version, part)
            told |= more
            notes += said
    return told, tuple(dict.fromkeys(notes))


def page_clips(lesson: Lesson, folder: Path, progress: Progress) -> dict[str, Path]:
    """The clips that go into the page, by the id of the question: they only ask, have no cards, and end on the held frame,
    where a player stays."""
    height = min(PAGE_HEIGHT, lesson.plan.settings.height)
    made, asked = {}, asked_on_film(lesson)
    for place, (question, clip) in enumerate(asked):
        path = folder / f"{place + 1:02}.mp4"
        write_clip(ending_held(clip), path, "question", _part(progress, place, len(asked)), height=height)
        made[question.id] = path
    return made


def stills_of(lesson: Lesson, progress: Progress = silent) -> dict[str, Still]:
    """The held frame of every question seen on film, as it is written, by the id of the question."""
    made, asked = {}, asked_on_film(lesson)
    for place, (question, clip) in enumerate(asked):
        progress(place / len(asked), f"still {place + 1} of {len(asked)}")
        made[question.id] = still_of(clip)
    return made


def still_of(clip: Clip) -> Still:
    """The held frame of a clip with its mark, inset and blur, without the words of the question."""
    silent_clip = without_words(clip)
    with open_film(clip.film, clip.colours) as film:
        plan = plan_of(silent_clip, film, "question")
        number = next(n for n, one in enumerate(plan.pictures) if one.look is Look.QUESTION)
        picture = preview(silent_clip, film, number, "question", height=_STILL_HEIGHT)
    data = io.BytesIO()
    Image.fromarray(picture).save(data, "JPEG", quality=_JPEG)
    return Still(data.getvalue(), picture.shape[1], picture.shape[0])


def ending_held(clip: Clip) -> Clip:
    """The clip cut off on its held frame, which is held for a moment only: whoever watches has it before him."""
    if clip.hold is None:
        return clip
    at = clip.hold.moment
    span = Span(clip.span.start, Moment(at.pts + 1, at.time_base))
    return replace(clip, span=span, hold=replace(clip.hold, seconds=min(clip.hold.seconds, _HELD_ON_PAGE)))


def without_words(clip: Clip) -> Clip:
    """The clip with nothing written on its held frame, as on a sheet the words stand beside it; and with the item outlined, as
    a dimmed picture is hard to see on paper."""
    mark = None if clip.mark is None else replace(clip.mark, look="outline")
    return replace(clip, question="", ruling=(), mark=mark)


def _single(lesson: Lesson, aside: Path, version: str, progress: Progress) -> Written:
    """Write every question into a file of its own, with its captions beside it and no title or end card."""
    (aside / CLIPS).mkdir(exist_ok=True)
    told: dict[str, str] = {}
    notes: list[str] = []
    pieces = pieces_of(replace(lesson, plan=replace(lesson.plan, settings=replace(lesson.plan.settings, card=Fraction(0)))))
    for place, piece in enumerate(pieces):
        stem, part = f"{CLIPS}/{place + 1:02}-{version}", _part(progress, place, len(pieces))
        written = write_clip(piece, aside / f"{stem}.mp4", version, part, height=lesson.plan.settings.height)
        write_captions((piece,), aside / f"{stem}.vtt", version)
        told[f"{stem}.mp4"] = f"question {place + 1}, {FILM_NAMES[version][1]}"
        told[f"{stem}.vtt"] = "its captions"
        notes += written.notes
    return told, tuple(notes)


def _part(progress: Progress, place: int, count: int) -> Progress:
    """Progress of one of several equal steps."""
    return lambda share, words: progress((place + share) / count, words)

"""Write clips and lessons as films that play everywhere: mp4, H.264, AAC.

Played frames stand at exactly their own distances, stills are repeated at the film's rate, the sound keeps to its pictures by
the sample. What is not drawn on is copied where that can be done (`copying`). The file is written aside and takes its name at
the end: a stop, an error or a full disk leaves nothing half-made, and an older file of that name as it was.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import av

from filmreview.aside import written_aside
from filmreview.errors import FilmReviewError
from filmreview.lessons.canvas import check_place, drawn_card
from filmreview.lessons.clip import Piece
from filmreview.lessons.clip_file import Chapter, ClipFile
from filmreview.lessons.copying import taken
from filmreview.lessons.encoding import Coded, Encoder
from filmreview.lessons.job import Job, Part, Stretch, job_for
from filmreview.lessons.pictures import Look
from filmreview.lessons.planes import Planes, frame_of
from filmreview.lessons.sound_track import SoundTrack, sound_for
from filmreview.progress import Progress, silent
from filmreview.sheets.inert import one_line

_TOLD_EVERY = 8  # pictures between two calls of progress
_SOUND_AHEAD = 1  # seconds by which the sound is written before its pictures


@dataclass(frozen=True)
class Written:
    """What was written. pictures: how many, copied: how many of them as they were in the film. notes: what the person should
    know, in sentences: why nothing was copied, what was damaged, what has no sound."""

    path: Path
    pictures: int
    copied: int
    seconds: Fraction
    notes: tuple[str, ...] = ()


def write_clip(clip: Piece, path: Path, version: str, progress: Progress = silent, *, height: int | None = None) -> Written:
    """Write one clip, or one question without film. version: one of VERSIONS. height: lines of the pictures, None for the
    film's own; nothing is enlarged.

    Raises FilmReviewError when the film or the span cannot be used, nobody has answered for the faces, or the file cannot be
    written; Stopped when progress raises it.
    """
    return _write([clip], path, version, progress, height, clip.name, chapters=False)


def write_lesson(
    clips: Sequence[Piece], path: Path, version: str, progress: Progress = silent, *, height: int | None = None, title: str = ""
) -> Written:
    """Write the clips as one film, a chapter a clip; as large as the largest, the others on black. Raises as `write_clip`."""
    return _write(clips, path, version, progress, height, title, chapters=True)


def write_files(
    clips: Sequence[Piece], paths: Sequence[Path], version: str, progress: Progress = silent, *, height: int | None = None
) -> tuple[Written, ...]:
    """Write every clip as a file of its own. Raises as `write_clip`; the files before the one that failed stay."""
    written = []
    for number, (clip, path) in enumerate(zip(clips, paths, strict=True)):

        def told(share: float, words: str, number: int = number) -> None:
            progress((number + share) / len(clips), f"{number + 1} of {len(clips)}: {words}")

        written.append(write_clip(clip, path, version, told, height=height))
    return tuple(written)


def _write(
    clips: Sequence[Piece], path: Path, version: str, progress: Progress, height: int | None, title: str, *, chapters: bool
) -> Written:
    if not clips:
        raise FilmReviewError("there is no clip to write", where=str(path), todo="choose a finding or a span first")
    progress(0.0, "reading the films")
    with job_for(clips, version, height) as job:
        check_place(path, [part.film for part in job.parts if part.film is not None])
        with written_aside(path) as aside:
            copied = _write_job(job, aside, progress, title, chapters)
        pictures = sum(len(part.plan.pictures) for part in job.parts)
        progress(1.0, "written")
        return Written(path, pictures, copied, job.seconds, (*job.notes, *_notes(job)))


def _write_job(job: Job, path: Path, progress: Progress, title: str, chapters: bool) -> int:
    """Write the whole job; returns how many pictures were copied."""
    plans, films = [part.plan for part in job.parts], [part.film for part in job.parts]
    ticks = [job.tick(part, shown) for part in job.parts for shown in part.plan.pictures]
    sound = sound_for(plans, films)
    track = None if sound is None else SoundTrack(plans, films, [part.start for part in job.parts], job.seconds, sound)
    rows = _Rows(job)
    with ClipFile(
        path, (job.canvas.width, job.canvas.height), job.coding.rate, job.time_base, ticks, round(job.seconds / job.time_base),
        sets=_sets(job), depth=job.depth, sound=sound, chapters=_chapters(job) if chapters else (), title=one_line(title),
    ) as file:  # fmt: skip
        for number, coded in enumerate(rows.coded()):
            if not number % _TOLD_EVERY:
                progress(number / len(ticks), "writing")
            at = file.add_picture(coded)
            if track is not None:
                for samples in track.up_to(at + _SOUND_AHEAD):
                    file.add_sound(samples)
        if track is not None:
            for samples in track.up_to(None):
                file.add_sound(samples)
    return rows.copied


class _Rows:
    """All coded pictures of a job in the order of decoding. copied: how many were taken over so far."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self.copied = 0

    def coded(self) -> Iterator[Coded]:
        """The pictures; one encoder runs on until something is copied."""
        encoder: Encoder | None = None
        for part, stretch in self._stretches():
            if stretch.copied:
                if encoder is not None:
                    yield from encoder.finish()
                    encoder = None
                yield from self._taken(part, stretch)
                continue
            encoder = encoder or Encoder(self._job.coding)
            for frame, tick in self._frames(part, stretch):
                yield from encoder.encode(frame, tick)
        if encoder is not None:
            yield from encoder.finish()

    def _stretches(self) -> Iterator[tuple[Part, Stretch]]:
        for part in self._job.parts:
            for stretch in part.stretches:
                yield part, stretch

    def _taken(self, part: Part, stretch: Stretch) -> Iterator[Coded]:
        shown = part.plan.pictures[stretch.first : stretch.last]
        ticks = {one.source: self._job.tick(part, one) for one in shown}
        assert self._job.ground is not None
        assert part.film is not None
        first, film, count = shown[0].source or 0, part.film, 0
        for one in taken(film, self._job.ground, first, first + len(shown)):
            yield Coded(ticks[one.number], one.data, one.is_key)
            count += 1
        if count != len(shown):
            raise FilmReviewError("the film changed while it was read", where=str(film.path), todo="write the clip again")
        self.copied += count

    def _frames(self, part: Part, stretch: Stretch) -> Iterator[tuple[av.VideoFrame, int]]:
        """The pictures of a stretch for the encoder, with the tick of each."""
        shown = part.plan.pictures[stretch.first : stretch.last]
        numbers = [one.source for one in shown if one.source is not None]
        row = part.source.frames.row(numbers[0], numbers[-1] + 1) if numbers and part.source is not None else iter(())
        number, frame = -1, None
        for look, alike in itertools.groupby(shown, key=lambda one: one.look):
            still = None
            for one in alike:
                while one.source is not None and number < one.source:
                    number, frame = next(row)
                if look in (Look.PLAY, Look.SLOW):
                    assert frame is not None
                    assert part.pictures is not None
                    yield part.pictures.played(number, frame), self._job.tick(part, one)
                    continue
                if still is None:
                    still = frame_of(self._still(part, look, one.source, frame), self._job.canvas.tags)
                yield still, self._job.tick(part, one)

    def _still(self, part: Part, look: Look, number: int | None, frame: av.VideoFrame | None) -> Planes:
        if part.pictures is None:
            return drawn_card(part.plan, look, self._job.canvas)
        return part.pictures.shown(look, number, frame)


def _sets(job: Job) -> bytes:
    """The parameter sets of all pictures in the file."""
    own = job.ground.tagged if job.ground is not None else b""
    wanted = any(not stretch.copied for part in job.parts for stretch in part.stretches)
    return own + (Encoder(job.coding).sets if wanted else b"")


def _chapters(job: Job) -> list[Chapter]:
    return [
        Chapter(one_line(part.plan.piece.name) or f"Clip {number}", part.start, part.start + part.plan.seconds)
        for number, part in enumerate(job.parts, start=1)
    ]


def _notes(job: Job) -> Iterator[str]:
    for source in {id(part.source): part.source for part in job.parts if part.source is not None}.values():
        name = source.film.path.name
        if source.frames.missing:
            yield f"{name}: damaged frames, the one beside each stands in its place: {len(source.frames.missing)}"
        if not source.film.info.sound and any(part.source is source and part.plan.clip.sound == "kept" for part in job.parts):
            yield f"{name}: the film has no sound"

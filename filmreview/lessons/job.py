"""What has to be settled before the first picture is written: the films opened, the plans, the size, what is copied."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from fractions import Fraction

import av

from filmreview.film.colours import ColourSettings
from filmreview.film.film import Film, open_film
from filmreview.lessons.canvas import Canvas, ClipPictures, canvas_for, canvas_of_cards, fitted_size
from filmreview.lessons.clip import Clip, Piece
from filmreview.lessons.copying import Ground, Unit, ground_of, units_between
from filmreview.lessons.encoding import DEPTH, Coding
from filmreview.lessons.faces import check_choice, is_blurred
from filmreview.lessons.frames import FrameSource
from filmreview.lessons.pictures import Look, Plan, Shown, plans_of
from filmreview.lessons.planes import Tags, tags_of

KEPT_BYTES = 8 * 2**20  # frames are taken in order, so hardly any need be kept
_FINEST = 2**24  # ticks a second that players are known to count with
_USUAL_TICKS = 90_000


@dataclass(frozen=True)
class Source:
    """One film that is cut from. first: one of its frames, decoded."""

    film: Film
    frames: FrameSource
    first: av.VideoFrame


@dataclass(frozen=True)
class Stretch:
    """Pictures of one clip that are either all copied or all encoded. first, last: places in the plan, last not included."""

    first: int
    last: int
    copied: bool


@dataclass(frozen=True)
class Part:
    """One piece of what is written. source, pictures: None for a question without film. start: seconds from the start of the
    file. stretches: in order, without gaps."""

    plan: Plan
    source: Source | None
    pictures: ClipPictures | None
    start: Fraction
    stretches: tuple[Stretch, ...]

    @property
    def film(self) -> Film | None:
        """The film it is cut from."""
        return None if self.source is None else self.source.film


@dataclass(frozen=True)
class Job:
    """Everything that is written. ground: what the copied pictures stand on, None when none is copied. depth: by how many
    pictures one may come out of order. notes: what the person should know."""

    parts: tuple[Part, ...]
    canvas: Canvas
    time_base: Fraction
    ground: Ground | None
    depth: int
    notes: tuple[str, ...]

    @property
    def coding(self) -> Coding:
        """How the pictures that are not copied are encoded."""
        rate = max(part.plan.rate for part in self.parts)
        profile, number = ("high", 0) if self.ground is None else (self.ground.profile, self.ground.free_id)
        return Coding(self.canvas.width, self.canvas.height, self.canvas.tags, rate, self.time_base, profile, number)

    @property
    def seconds(self) -> Fraction:
        """How long the whole is."""
        return self.parts[-1].start + self.parts[-1].plan.seconds

    def tick(self, part: Part, shown: Shown) -> int:
        """When a picture is shown, in units of the time base."""
        return round((part.start + shown.at) / self.time_base)


@contextmanager
def job_for(pieces: Sequence[Piece], version: str, height: int | None) -> Iterator[Job]:
    """Open the films and settle the job. Raises FilmReviewError for all that is wrong with the clips or their films."""
    with ExitStack() as stack:
        opened: dict[tuple[str, ColourSettings | None], Source] = {}
        sources = [_source(piece, opened, stack) if isinstance(piece, Clip) else None for piece in pieces]
        for piece, source in zip(pieces, sources, strict=True):
            if isinstance(piece, Clip) and source is not None:
                check_choice(piece, source.film.start)
        plans = plans_of(pieces, [None if source is None else source.film for source in sources], version)
        canvas = _canvas([source for source in sources if source is not None], height)
        copying = _Copying(canvas, height)
        starts = itertools.accumulate((plan.seconds for plan in plans), initial=Fraction(0))
        parts = tuple(
            _part(plan, source, start, copying, canvas, height)
            for plan, source, start in zip(plans, sources, starts, strict=False)
        )
        base = _time_base([source.film for source in sources if source is not None])
        yield Job(parts, canvas, base, copying.ground, copying.depth, tuple(dict.fromkeys(copying.notes)))


def _part(plan: Plan, source: Source | None, start: Fraction, copying: _Copying, canvas: Canvas, height: int | None) -> Part:
    if source is None:
        return Part(plan, None, None, start, (Stretch(0, len(plan.pictures), False),))
    pictures = ClipPictures(plan, source.film, source.first, canvas, height)
    return Part(plan, source, pictures, start, copying.stretches(plan, source.film))


def _canvas(sources: Sequence[Source], height: int | None) -> Canvas:
    if not sources:
        return canvas_of_cards(height)
    return canvas_for([source.film for source in sources], tags_of(sources[0].film, sources[0].first), height)


def _source(clip: Clip, opened: dict[tuple[str, ColourSettings | None], Source], stack: ExitStack) -> Source:
    key = (str(clip.film), clip.colours)
    if key not in opened:
        film = stack.enter_context(open_film(clip.film, clip.colours, kept_bytes=KEPT_BYTES))
        frames = stack.enter_context(FrameSource(film))
        _, first = next(frames.row(0, len(film.index)))
        frames.missing.clear()
        opened[key] = Source(film, frames, first)
    return opened[key]


def _time_base(films: Sequence[Film]) -> Fraction:
    """Fine enough for every film's own times to be exact, where players can count that fine."""
    ticks = math.lcm(*(film.index.time_base.denominator for film in films))
    ticks *= -(-_USUAL_TICKS // ticks)
    return Fraction(1, ticks if ticks <= _FINEST else _USUAL_TICKS)


class _Copying:
    """Decides what is copied. The first film that can be copied from gives the parameter sets of the whole file; others are
    copied from only where theirs are the same."""

    def __init__(self, canvas: Canvas, height: int | None) -> None:
        self._canvas, self._height = canvas, height
        self._grounds: dict[tuple[str, Tags], Ground | str] = {}
        self.ground: Ground | None = None
        self.depth = DEPTH
        self.notes: list[str] = []

    def stretches(self, plan: Plan, film: Film) -> tuple[Stretch, ...]:
        """The plan's pictures in stretches that are copied or encoded."""
        ground = self._ground(plan, film)
        if isinstance(ground, str):
            self.notes.append(f"{film.path.name}: every picture is encoded anew, because {ground}")
            return (Stretch(0, len(plan.pictures), False),)
        copied = [pair for row in _rows_played(plan.pictures) for pair in self._copied(plan.pictures, row, film, ground)]
        if copied:
            self.ground = ground
        edges = [0, *itertools.chain.from_iterable(copied), len(plan.pictures)]
        cut = [Stretch(first, last, place % 2 == 1) for place, (first, last) in enumerate(itertools.pairwise(edges))]
        return tuple(stretch for stretch in cut if stretch.first < stretch.last)

    def _ground(self, plan: Plan, film: Film) -> Ground | str:
        tags = self._canvas.tags
        if is_blurred(plan.clip):
            return "faces are blurred in it"
        if fitted_size(film, self._height) != (film.info.width, film.info.height):
            return "it is written at another size"
        if (self._canvas.width, self._canvas.height) != (film.info.width, film.info.height):
            return "another film of the lesson has another size"
        if (film.info.matrix, film.info.range) != (tags.matrix, tags.range):
            return "another film of the lesson has other colours"
        key = (str(film.path), tags)
        if key not in self._grounds:
            self._grounds[key] = ground_of(film, tags)
        ground = self._grounds[key]
        if isinstance(ground, Ground) and self.ground is not None and ground.tagged != self.ground.tagged:
            return "another film of the lesson is coded in another way"
        return ground

    def _copied(
        self, pictures: tuple[Shown, ...], row: tuple[int, int], film: Film, ground: Ground
    ) -> Iterator[tuple[int, int]]:
        """Places in the plan of what is copied of a row, neighbouring groups put together."""
        source = pictures[row[0]].source
        assert source is not None
        units = units_between(film, ground, source, source + row[1] - row[0])
        self.depth = max([self.depth, *(unit.depth for unit in units)])
        for first, last in _joined(units):
            yield row[0] + first - source, row[0] + last - source


def _rows_played(pictures: tuple[Shown, ...]) -> Iterator[tuple[int, int]]:
    """Places of every row of pictures that are played at the film's own speed."""
    at = 0
    for look, row in itertools.groupby(pictures, key=lambda one: one.look):
        count = sum(1 for _ in row)
        if look is Look.PLAY:
            yield at, at + count
        at += count


def _joined(units: list[Unit]) -> list[tuple[int, int]]:
    joined: list[tuple[int, int]] = []
    for unit in units:
        if joined and joined[-1][1] == unit.first:
            joined[-1] = (joined[-1][0], unit.last)
        else:
            joined.append((unit.first, unit.last))
    return joined

"""A film: open it, reach any frame of it exactly.

`open_film` reads the times of all frames without decoding (`index`), decodes the first one to settle colours and turn
(`colours`, `upright`), and starts a worker that decodes around the frame last asked for (`reach`).
"""

from __future__ import annotations

import math
from fractions import Fraction
from pathlib import Path
from types import TracebackType
from typing import Self

import av

from filmreview.errors import FilmReviewError
from filmreview.film.colours import ColourSettings, settle_colours
from filmreview.film.decoder import Decoder, set_threads
from filmreview.film.frame import Frame
from filmreview.film.identity import Identity, digest_of_parts
from filmreview.film.index import Index, build_index, without_times
from filmreview.film.info import FilmInfo, Told, describe, read_told
from filmreview.film.moment import Moment, format_time
from filmreview.film.opening import open_container
from filmreview.film.reach import KEPT_BYTES, FrameReach
from filmreview.film.upright import Upright, turn_of
from filmreview.progress import Progress, silent

__all__ = ["ColourSettings", "Film", "FilmInfo", "Frame", "Identity", "Index", "Moment", "open_film"]

_HALF_WRITTEN = Fraction(1, 2000)  # seconds: times are written to the millisecond, halves to the later one
USUAL_RATE = Fraction(25)  # frames a second of a film that tells neither times nor rate
_FIRST_FRAMES = 50  # so many may be damaged before a film counts as one that cannot be decoded


class Film:
    """One open film; use it as a context manager, or call `close`. Frames can be asked for from several threads.

    path: the file. info: what it holds. index: the time of every frame. identity: to know it again. start: the moment of
    its first frame.
    """

    def __init__(
        self, path: Path, info: FilmInfo, index: Index, identity: Identity, reach: FrameReach, upright: Upright
    ) -> None:
        self.path = path
        self.info = info
        self.index = index
        self.identity = identity
        self.start = self._moment(0, index)
        self._reach = reach
        self._upright = upright

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        self.close()

    def close(self) -> None:
        """End the worker and close the file; frames already handed out stay usable."""
        self._reach.close()

    def again(self, kept_bytes: int = KEPT_BYTES) -> Film:
        """Another opening of the same file that takes over index and colours, so that it costs next to nothing; works after
        this one is closed, too. kept_bytes: as in `open_film`. Raises FilmReviewError when the file is gone or another one.
        """
        reach = self._reach.again(kept_bytes)
        try:
            if self.path.stat().st_size != self.identity.size:
                raise FilmReviewError("the film was changed meanwhile", where=str(self.path), todo="open it again")
        except OSError as error:
            reach.close()
            raise FilmReviewError("the film is not there any more", where=str(self.path), todo="put it back") from error
        except FilmReviewError:
            reach.close()
            raise
        upright = Upright(self._upright.colours, self._upright.turn, self._upright.aspect)
        return Film(self.path, self.info, self.index, self.identity, reach, upright)

    def moment_at(self, seconds: Fraction) -> Moment:
        """The moment of the frame on screen at a time from the film's start; raises FilmReviewError outside the film.

        A time in whole milliseconds is a written one: the frame whose own time is written so (`format_time`) is meant, though
        it may come up to half a millisecond later, so that a time told by one command names the same frame in the next.
        """
        if seconds < 0 or seconds >= self.info.duration:
            last = format_time(self.time_of(self.moment_of(len(self.index) - 1)))
            given = f"{format_time(seconds)} is " + ("before the start" if seconds < 0 else "past the end")
            raise FilmReviewError(
                f"{given} of the film, whose last frame is at {last}",
                where=str(self.path),
                todo=f"give a time from 0:00.000 to {last}",
            )
        return self.moment_of(self.index.number_on_screen(self._ticks_meant(seconds)))

    def moment_of(self, number: int) -> Moment:
        """The moment of a frame by its number, from 0; raises FilmReviewError outside the film."""
        if not 0 <= number < len(self.index):
            raise FilmReviewError(
                f"there is no frame {number}: the film has frames 0 to {len(self.index) - 1}", where=str(self.path)
            )
        return self._moment(number, self.index)

    def number_of(self, moment: Moment) -> int:
        """The number of the frame at exactly this moment; raises FilmReviewError when the film has none there."""
        ticks = moment.seconds / self.index.time_base
        number = self.index.number_of(ticks.numerator) if ticks.denominator == 1 else None
        if number is None:
            raise FilmReviewError(
                f"the film has no frame at exactly {moment.pts} ticks of {moment.time_base} s",
                where=str(self.path),
                todo="check that it is the same film",
            )
        return number

    def time_of(self, moment: Moment) -> Fraction:
        """Seconds from the film's start."""
        return moment.seconds - self.start.seconds

    def next(self, moment: Moment) -> Moment | None:
        """The moment one frame later; None at the last frame."""
        number = self.number_of(moment) + 1
        return self.moment_of(number) if number < len(self.index) else None

    def previous(self, moment: Moment) -> Moment | None:
        """The moment one frame earlier; None at the first frame."""
        number = self.number_of(moment) - 1
        return self.moment_of(number) if number >= 0 else None

    def frame_at(self, moment: Moment) -> Frame:
        """The frame at exactly this moment; raises FilmReviewError when there is none or it is damaged."""
        return self.frame(self.number_of(moment))

    def frame(self, number: int) -> Frame:
        """The frame by its number, from 0; raises FilmReviewError when there is none or it is damaged."""
        return Frame(self.moment_of(number), number, self._reach.frame(number), self._upright)

    @property
    def trouble(self) -> tuple[str, ...]:
        """What is wrong with the film, in sentences: what was found on opening and what came out while decoding."""
        lost, refused = len(self._reach.lost), self._reach.refused
        found = list(self.info.trouble)
        if refused:
            found.append(f"packets refused by the decoder so far: {refused}")
        if lost:
            found.append(f"frames that cannot be decoded: {lost}")
        return tuple(found)

    def wait_until_filled(self, timeout: float = 60.0) -> bool:
        """Wait until the worker has decoded all it wants around the frame last asked for; False after timeout seconds."""
        return self._reach.wait_until_filled(timeout)

    def _ticks_meant(self, seconds: Fraction) -> Fraction:
        """Where on the stream's own clock to look for the frame of a time from the film's start."""
        ticks = (self.start.seconds + seconds) / self.index.time_base
        if (seconds * 1000).denominator != 1:
            return ticks
        return Fraction(math.ceil(ticks + _HALF_WRITTEN / self.index.time_base) - 1)  # what comes then is written as the next

    @staticmethod
    def _moment(number: int, index: Index) -> Moment:
        return Moment(int(index.pts[number]), index.time_base)


def open_film(
    path: Path | str,
    settings: ColourSettings | None = None,
    progress: Progress = silent,
    *,
    kept_bytes: int = KEPT_BYTES,
) -> Film:
    """Open a film and read its index.

    settings: colours as the reviewer sets them, over what the film says. kept_bytes: how much decoded picture is kept around
    the frame last asked for.

    Raises FilmReviewError, one line, for a file that is missing, unreadable, empty, a folder, a text, sound only, or of which
    no frame can be decoded; lets `Stopped` of progress through. Nothing stays open then.
    """
    path = Path(path)
    container, stream = open_container(path)
    try:
        told = read_told(container, stream)
        set_threads(stream)
        index = build_index(container, stream, told.rate or USUAL_RATE, progress)
        if not len(index):
            raise FilmReviewError("the film holds no frame with a time", where=str(path), todo="copy it again")
    except BaseException:
        container.close()
        raise
    decoder = Decoder(path, container, stream, index, fill_fields=told.interlaced)
    try:
        if not decoder.times_rise():
            decoder.index = without_times(index, told.rate or USUAL_RATE)
    except BaseException:
        decoder.close()
        raise
    return _film(path, told, FrameReach(decoder, kept_bytes), settings or ColourSettings())


def _film(path: Path, told: Told, reach: FrameReach, settings: ColourSettings) -> Film:
    index = reach.index
    try:
        first = _first_frame(path, reach, index)
        colours, turn = settle_colours(first, settings), turn_of(first)
        upright = Upright(colours, turn, told.sample_aspect)
        info = describe(told, index, first, upright.size(first), colours, turn)
        size, digest = digest_of_parts(path)
        return Film(path, info, index, Identity(size, digest, info.duration), reach, upright)
    except BaseException:
        reach.close()
        raise


def _first_frame(path: Path, reach: FrameReach, index: Index) -> av.VideoFrame:
    for number in range(min(len(index), _FIRST_FRAMES)):
        try:
            return reach.frame(number)
        except FilmReviewError:
            continue  # damaged; the next may be whole
    raise FilmReviewError("no picture of the film can be decoded", where=str(path), todo="copy it again or choose another film")

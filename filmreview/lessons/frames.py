"""Frames of a film one after the other, for cutting: decoded straight through, each under its own number."""

from __future__ import annotations

from collections.abc import Iterator
from types import TracebackType
from typing import Self

import av

from filmreview.errors import FilmReviewError
from filmreview.film.decoder import Decoder, set_threads
from filmreview.film.film import Film
from filmreview.film.opening import open_container

_FURTHER_BACK = (0, 1, 2, 4)  # groups to start from, until the decoder hands out the first frame wanted


class FrameSource:
    """Decodes rows of frames of one film; a context manager. missing: numbers of damaged frames so far, in whose place the
    frame before (or after) stood."""

    def __init__(self, film: Film) -> None:
        container, stream = open_container(film.path)
        set_threads(stream)
        self._film = film
        self._decoder = Decoder(film.path, container, stream, film.index, fill_fields=film.info.interlaced)
        self.missing: set[int] = set()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        self._decoder.close()

    def row(self, first: int, last: int) -> Iterator[tuple[int, av.VideoFrame]]:
        """Every frame from first up to last, not included, in order and none left out.

        Raises FilmReviewError when none of them can be decoded.
        """
        due, before = first, None
        for number, frame in self._decoded(first, last):
            while due < number:
                self.missing.add(due)
                yield due, frame if before is None else before
                due += 1
            yield number, frame
            due, before = number + 1, frame
        if before is None:
            raise FilmReviewError(
                f"frames {first} to {last - 1} cannot be decoded", where=str(self._film.path), todo="choose another span"
            )
        for number in range(due, last):
            self.missing.add(number)
            yield number, before

    def _decoded(self, first: int, last: int) -> Iterator[tuple[int, av.VideoFrame]]:
        """What the decoder hands out of these frames, in order."""
        group = self._film.index.group_of(first)
        starts = list(dict.fromkeys(max(0, group - back) for back in _FURTHER_BACK))
        for start in starts:
            got = self._from(start, first, last)
            found = next(got, None)
            if found is not None and (found[0] == first or start == starts[-1]):
                yield found
                yield from got
                return

    def _from(self, group: int, first: int, last: int) -> Iterator[tuple[int, av.VideoFrame]]:
        frames, due = self._decoder.run(group).frames, first
        while True:
            try:
                number, frame = next(frames)
            except (StopIteration, av.FFmpegError):  # the end of the film, or of what can be read of it
                return
            if number >= last:
                return
            if number >= due:
                due = number + 1
                yield number, frame

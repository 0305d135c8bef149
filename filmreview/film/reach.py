"""Reach any frame of a film: from the frames kept, or by decoding up to it; a worker fills the rest of the group.

One decoder serves both: whoever asks for a frame goes first, the worker decodes one frame at a time in between.
"""

from __future__ import annotations

import atexit
import threading
import weakref

import av

from filmreview.errors import FilmReviewError
from filmreview.film.decoder import Decoder, Run
from filmreview.film.kept import KeptFrames, stored_bytes

KEPT_BYTES = 224 * 2**20  # 169 frames of 720 lines, 75 of 1080
NEAR = 30  # this close to a group's edge the neighbour is decoded ahead of the step over it
_FURTHER_BACK = (0, 1, 2, 4)  # groups to start from, before the frame's own, until the decoder hands it out

_open: weakref.WeakSet[FrameReach] = weakref.WeakSet()


class FrameReach:
    """Hands out decoded frames by number; safe to call from several threads. Ends its worker in `close`."""

    def __init__(self, decoder: Decoder, limit: int = KEPT_BYTES) -> None:
        self._decoder = decoder
        self.index = decoder.index
        self._run: Run | None = None  # touched only with _decoding held
        self._decoding = threading.Lock()
        self._work = threading.Condition()  # guards all below
        self._kept = KeptFrames(limit)
        self._lost: set[int] = set()  # not handed out by the decoder from any start
        self._passed: set[int] = set()  # not handed out from their own group's start
        self._asking = 0
        self._backwards = False
        self._frame_bytes = 1
        self._settled = False  # True when the worker has nothing left to do here
        self._closed = False
        self._worker: threading.Thread | None = None
        _open.add(self)

    def again(self, limit: int) -> FrameReach:
        """Another one of the same file, with frames and a worker of its own; raises FilmReviewError when the file is gone."""
        return FrameReach(self._decoder.again(), limit)

    def frame(self, number: int) -> av.VideoFrame:
        """The decoded frame; raises FilmReviewError when the film is damaged there, or closed."""
        with self._work:
            self._check_open()
            self._go_to(number)
            frame = self._kept.get(number)
            if frame is not None:
                self._work.notify_all()
                return frame
            self._asking += 1
        try:
            with self._decoding:
                return self._decode_to(number)
        finally:
            with self._work:
                self._asking -= 1
                self._start_worker()
                self._work.notify_all()

    @property
    def lost(self) -> frozenset[int]:
        """Numbers that the decoder does not hand out, as far as that is known."""
        with self._work:
            return frozenset(self._lost)

    @property
    def refused(self) -> int:
        """How many packets the decoder did not take so far."""
        return len(self._decoder.refused)

    def wait_until_filled(self, timeout: float) -> bool:
        """Wait until the worker has done all it wants to do here; False when the seconds are over."""
        with self._work:
            return self._work.wait_for(lambda: self._settled or self._closed, timeout)

    def close(self) -> None:
        """End the worker, let the frames go, close the file; a second time does nothing."""
        with self._work:
            self._closed = True
            self._work.notify_all()
        if self._worker is not None:
            self._worker.join()
        with self._work:
            self._kept.clear()  # before the decoder goes: what comes back to its pool later stays as long as any frame is held
        with self._decoding:
            self._run = None
            self._decoder.close()

    def _check_open(self) -> None:
        if self._closed:
            raise FilmReviewError("the film is closed", todo="open it again")

    def _go_to(self, number: int) -> None:
        """Note where the reviewer is, so that the right frames are kept."""
        if number != self._kept.here:
            self._backwards = number == self._kept.here - 1
            self._kept.here = number
            self._settled = False

    def _decode_to(self, number: int) -> av.VideoFrame:
        with self._work:
            self._check_open()
            frame = self._kept.get(number)
            if frame is not None:
                return frame  # the worker got there while we waited
            if number in self._lost:
                raise self._damaged(number)
        group = self.index.group_of(number)
        if self._run is not None and self.index.groups[group].first <= self._run.position <= number:
            frame = self._advance(number)
            if frame is not None:
                return frame
        for start in dict.fromkeys(max(0, group - back) for back in _FURTHER_BACK):
            self._run = self._decoder.run(start)
            frame = self._advance(number)
            if frame is not None:
                return frame
        with self._work:
            self._lost.add(number)
        raise self._damaged(number)

    def _advance(self, number: int) -> av.VideoFrame | None:
        """Decode up to a frame, keeping what comes; None when the run passes it or ends."""
        while self._run is not None and self._run.position <= number:
            self._check_open()  # closing does not wait for a whole group
            got = self._next_of_run()
            if got is None:
                return None
            if got[0] == number:
                return got[1]
        return None

    def _next_of_run(self) -> tuple[int, av.VideoFrame] | None:
        assert self._run is not None
        try:
            number, frame = next(self._run)
        except (StopIteration, av.FFmpegError):  # the end of the film, or of what can be read of it
            self._run = None
            return None
        with self._work:
            self._frame_bytes = stored_bytes(frame)
            self._kept.put(number, frame)
        return number, frame

    def _damaged(self, number: int) -> FilmReviewError:
        return FilmReviewError(
            f"frame {number} is damaged and cannot be decoded",
            where=str(self._decoder.path),
            todo="step to the frame before or after it",
        )

    def _start_worker(self) -> None:
        if self._worker is None and not self._closed:
            self._worker = threading.Thread(target=self._fill, name="film-frames", daemon=True)
            self._worker.start()

    def _fill(self) -> None:
        """The worker: one frame at a time, never while somebody asks."""
        while True:
            with self._work:
                self._work.wait_for(lambda: self._closed or (not self._asking and not self._settled))
                if self._closed:
                    return
            with self._decoding:
                with self._work:
                    wanted = None if self._asking else self._wanted()
                    self._settled = wanted is None and not self._asking
                    if self._settled:
                        self._work.notify_all()
                if wanted is not None and not self._fill_towards(wanted):
                    with self._work:
                        self._settled = True
                        self._work.notify_all()

    def _fill_towards(self, number: int) -> bool:
        """Decode one frame more on the way to the wanted one; False when the file cannot be read any more."""
        group = self.index.group_of(number)
        if self._run is None or not self.index.groups[group].first <= self._run.position <= number:
            self._run = self._decoder.run(group)
        try:
            got = self._next_of_run()
        except FilmReviewError:
            return False  # whoever asks for the frame is told why
        if got is None or got[0] > number:
            with self._work:
                self._passed.add(number)
        return True

    def _wanted(self) -> int | None:
        """The next frame worth decoding: the rest of the group, then what lies over the near edge in the way of travel."""
        here, room = self._kept.here, self._kept.limit // self._frame_bytes
        group = self.index.groups[self.index.group_of(here)]
        near = min(NEAR, room // 2)
        before = (max(0, here - near), here)
        after = (here + 1, min(len(self.index), here + 1 + near))
        for first, last in ((here + 1, min(group.last, here + 1 + room)), before if self._backwards else after):
            number = self._first_missing(first, last)
            if number is not None and self._kept.has_room_for(number, self._frame_bytes):
                return number
        return None

    def _first_missing(self, first: int, last: int) -> int | None:
        known = (self._kept, self._passed, self._lost)
        return next((number for number in range(first, last) if not any(number in some for some in known)), None)


@atexit.register
def _close_all() -> None:
    """A worker must not be inside the decoder while Python ends."""
    for reach in list(_open):
        reach.close()

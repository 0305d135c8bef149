"""Decode a film from the key frame of a group on, each frame under its own number.

The decoder is fed from exactly the key frame's packet on, whatever place a seek lands at: past it, the seek is tried further
back (a transport stream needs that often). Frames that come out before the key frame's own time lean on what was not decoded
and are dropped.
"""

from __future__ import annotations

import contextlib
import itertools
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import av

from filmreview.film.index import Group, Index
from filmreview.film.interlace import FieldFiller
from filmreview.film.opening import reopen_container

Decoded = tuple[int, av.VideoFrame]
TRIED = 32  # frames decoded to see whether times rise
THREADS = 4  # more would only hold more frames back


@dataclass
class Run:
    """One way through the film from a group's start. position: the number that is due next. frames: what comes."""

    position: int
    frames: Iterator[Decoded]

    def __next__(self) -> Decoded:
        number, frame = next(self.frames)
        self.position = number + 1
        return number, frame


class Decoder:
    """The one open container of a film. Not safe to share: one thread at a time, and only the newest run goes on.

    path: the file. container, stream: open, and closed by this from now on. index: may be exchanged before the first run.
    fill_fields: True for interlaced films. refused: times of the packets that the decoder did not take so far.
    """

    def __init__(
        self,
        path: Path,
        container: av.container.InputContainer,
        stream: av.VideoStream,
        index: Index,
        fill_fields: bool = False,
    ) -> None:
        self.path = path
        self._container = container
        self._stream = stream
        self._number = stream.index
        self.index = index
        self._fill_fields = fill_fields
        self.refused: set[int | None] = set()
        self._closed = False

    def close(self) -> None:
        """Close the file, and let go of what decoding needs: who keeps this for its index keeps no pictures. A second time does
        nothing."""
        if not self._closed:
            self._closed = True
            self._container.close()
            del self._container, self._stream

    def again(self) -> Decoder:
        """Another one of the same file with the same index; raises FilmReviewError when the file went away meanwhile."""
        container, stream = reopen_container(self.path, self._number)
        set_threads(stream)
        return Decoder(self.path, container, stream, self.index, self._fill_fields)

    def run(self, group: int) -> Run:
        """Decode from the start of a group to the end of the film; ends the run before it."""
        start = self.index.groups[group]
        decoded = self._decoded(start) if self.index.timed else self._counted()
        return Run(start.first, self._filled(decoded) if self._fill_fields else decoded)

    def times_rise(self) -> bool:
        """False when the first frames come out in another order than their times: some files keep decoding times alone."""
        if not (self.index.timed and self.index.in_stored_order and self._stream.codec_context.has_b_frames):
            return True
        frames = (frame for packet in self._packets_from(self.index.groups[0]) for frame in self._decode(packet))
        times = []
        with contextlib.suppress(av.FFmpegError):  # what cannot be read is told of when it is asked for
            times = [frame.pts for frame in itertools.islice(frames, TRIED) if frame.pts is not None]
        return times == sorted(times)

    def _decoded(self, group: Group) -> Iterator[Decoded]:
        for packet in self._packets_from(group):
            for frame in self._decode(packet):
                number = None if frame.pts is None else self.index.number_of(frame.pts)
                if number is not None and number >= group.first:
                    yield number, frame

    def _counted(self) -> Iterator[Decoded]:
        """A film without times can only be read from its start."""
        self._reopen()
        frames = (frame for packet in self._container.demux(self._stream) for frame in self._decode(packet))
        yield from enumerate(frames)

    def _decode(self, packet: av.Packet[av.VideoStream]) -> list[av.VideoFrame]:
        try:
            return packet.decode()
        except av.FFmpegError:
            self.refused.add(packet.pts)
            return []

    def _filled(self, decoded: Iterator[Decoded]) -> Iterator[Decoded]:
        """The same frames with their fields filled up; the filter starts anew at every group."""
        waiting: list[int] = []
        filler, group = None, -1
        for number, frame in decoded:
            if filler is None or self.index.group_of(number) != group:
                if filler is not None:
                    yield from zip(waiting, filler.push(None), strict=False)
                filler, group, waiting = FieldFiller(frame), self.index.group_of(number), []
            waiting.append(number)
            done = filler.push(frame)
            yield from zip(waiting, done, strict=False)
            waiting = waiting[len(done) :]
        if filler is not None:
            yield from zip(waiting, filler.push(None), strict=False)

    def _packets_from(self, group: Group) -> Iterator[av.Packet[av.VideoStream]]:
        """The key frame's packet and all after it."""
        for target in self._seek_targets(group):
            self._seek(target)
            packets = self._container.demux(self._stream)
            key = self._find(group, packets)
            if key is not None:
                yield key
                yield from packets
                return
        self._reopen()
        yield from self._container.demux(self._stream)

    def _find(self, group: Group, packets: Iterator[av.Packet[av.VideoStream]]) -> av.Packet[av.VideoStream] | None:
        """Read on to the key frame's packet; None when the reading started past it.

        Right after a seek some readers hand out half a packet under the time of the next, and the next under a time of its
        own: a packet must be the key frame's in time, kind and size.
        """
        place = self.index.place_of(group.pts)
        for packet in packets:
            if packet.pts == group.pts and packet.size == group.size:
                return packet
            at = None if packet.pts is None else self.index.place_of(packet.pts)
            if place is None or not packet.size or (at is not None and at >= place):
                return None
        return None

    def _seek_targets(self, group: Group) -> Iterator[int]:
        """The key frame's decoding time, then times of groups further and further before it."""
        yield group.dts
        at, back = self.index.group_of(group.first), 1
        while at - back > 0:
            yield self.index.groups[at - back].dts
            back *= 4

    def _seek(self, target: int) -> None:
        try:
            self._container.seek(target, stream=self._stream, backward=True)
        except av.FFmpegError:
            self._reopen()

    def _reopen(self) -> None:
        """Start over at the very beginning: some files cannot be wound back. Raises FilmReviewError when the file is gone or
        broken; what was open stays open then, so that the next try is told the same."""
        container, stream = reopen_container(self.path, self._number)
        self._container.close()
        self._container, self._stream = container, stream
        set_threads(self._stream)


def set_threads(stream: av.VideoStream) -> None:
    """Decode with several threads, by frame and by slice; set before the first packet is decoded."""
    stream.thread_type = "AUTO"
    stream.codec_context.thread_count = THREADS

"""The file that a clip or a lesson becomes: H.264 pictures and AAC sound in one mp4, with chapters.

Nothing of a source file's own streams, pictures or words about itself is taken over: only what is handed in here gets in.
"""

from __future__ import annotations

import contextlib
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from types import TracebackType
from typing import Self

import av
import numpy as np
from numpy.typing import NDArray

from filmreview.lessons.encoding import Coded

_SOUND_BLOCK = 1024  # samples in one AAC frame
_SOUND_BITS = {1: 96_000, 2: 160_000}
_MILLISECOND = Fraction(1, 1000)


@dataclass(frozen=True)
class Chapter:
    """A named stretch. start, end: seconds from the start of the file."""

    name: str
    start: Fraction
    end: Fraction


@dataclass(frozen=True)
class Sound:
    """rate: samples a second. channels: 1 or 2."""

    rate: int
    channels: int


class ClipFile:
    """Writes one mp4 file; a context manager. Raises OSError (the library's own ones too) when it cannot be written.

    ticks: when every picture is shown, in units of time_base, rising; end: when the last one is over. depth: by how many
    pictures one may come out of order. sets: parameter sets of all pictures, behind start codes.
    """

    def __init__(
        self, path: Path, size: tuple[int, int], rate: Fraction, time_base: Fraction, ticks: Sequence[int], end: int, *,
        sets: bytes, depth: int, sound: Sound | None, chapters: Sequence[Chapter], title: str,
    ) -> None:  # fmt: skip
        self._time_base, self._sets, self._depth = time_base, sets, depth
        following = [*ticks[1:], end]
        self._ticks, self._lengths = ticks, {tick: after - tick for tick, after in zip(ticks, following, strict=True)}
        self._written = self._sound_tick = 0
        self._waiting = np.zeros((sound.channels if sound else 1, 0), np.float32)
        self._out = av.open(str(path), "w", format="mp4", options={"movflags": "+faststart"})
        try:
            self._pictures = self._out.add_mux_stream("h264", rate=rate, width=size[0], height=size[1])
            self._pictures.time_base = time_base
            self._sound = None if sound is None else self._sound_stream(sound)
            if title:
                self._out.metadata["title"] = title
            self._out.set_chapters([_library_chapter(number, one) for number, one in enumerate(chapters)])
        except BaseException:
            self._out.close()
            raise

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        if kind is None:
            if self._sound is not None:
                self._send_sound(self._waiting)
                self._out.mux(self._sound.encode(None))
            self._out.close()
            return
        with contextlib.suppress(OSError):  # the file goes away in any case
            self._out.close()

    def add_picture(self, coded: Coded) -> Fraction:
        """Add the next picture in the order of decoding; returns the time, in seconds, up to which sound is wanted."""
        packet = av.Packet(coded.data if self._written else self._sets + coded.data)
        decoded = self._decoding_tick(self._written)
        assert decoded <= coded.tick, "a picture comes later than it is shown"
        packet.pts, packet.dts, packet.duration = coded.tick, decoded, self._lengths[coded.tick]
        packet.time_base, packet.is_keyframe, packet.stream = self._time_base, coded.is_key, self._pictures
        self._out.mux(packet)
        self._written += 1
        return decoded * self._time_base

    def add_sound(self, samples: NDArray[np.float32]) -> None:
        """Add sound after what is there: (n, channels), -1 to 1. The first picture comes before any sound."""
        self._waiting = np.concatenate([self._waiting, np.clip(samples.T, -1.0, 1.0)], axis=1)
        whole = self._waiting.shape[1] // _SOUND_BLOCK * _SOUND_BLOCK
        for at in range(0, whole, _SOUND_BLOCK):
            self._send_sound(self._waiting[:, at : at + _SOUND_BLOCK])
        self._waiting = self._waiting[:, whole:]

    def _decoding_tick(self, number: int) -> int:
        """The times at which pictures are decoded are those at which they are shown, `depth` pictures earlier."""
        if number >= self._depth:
            return self._ticks[number - self._depth]
        return self._ticks[0] - (self._depth - number) * next(iter(self._lengths.values()))

    def _send_sound(self, block: NDArray[np.float32]) -> None:
        if not block.shape[1] or self._sound is None:
            return
        layout = "mono" if block.shape[0] == 1 else "stereo"
        frame = av.AudioFrame.from_ndarray(np.ascontiguousarray(block), format="fltp", layout=layout)
        frame.sample_rate = self._sound.codec_context.sample_rate
        frame.time_base, frame.pts = Fraction(1, frame.sample_rate), self._sound_tick
        self._sound_tick += block.shape[1]
        self._out.mux(self._sound.encode(frame))

    def _sound_stream(self, sound: Sound) -> av.AudioStream:
        stream = self._out.add_stream("aac", rate=sound.rate)
        assert isinstance(stream, av.AudioStream)
        stream.layout = "mono" if sound.channels == 1 else "stereo"
        stream.bit_rate = _SOUND_BITS[sound.channels]
        return stream


def _library_chapter(number: int, chapter: Chapter) -> av.container.Chapter:
    start, end = (round(at / _MILLISECOND) for at in (chapter.start, chapter.end))
    return {"id": number, "start": start, "end": end, "time_base": _MILLISECOND, "metadata": {"title": chapter.name}}

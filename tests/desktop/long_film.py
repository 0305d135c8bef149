"""A film as long as a game, made in seconds: one group of frames written again and again without decoding it."""

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import av
import numpy as np

from fixtures.films.burnt import burn

RATE = 30
SOUND = 48_000
BLOCK = 1024


def long_film(path: Path, seconds: int, *, width: int = 1280, height: int = 720, group: int = 240) -> Path:
    """A film with sound, 30 frames a second. Every frame carries its number within its group of so many frames."""
    with av.open(str(path), "w") as container:
        stream = container.add_stream(
            "libx264", rate=RATE, options={"g": str(group), "bf": "2", "crf": "30", "preset": "veryfast"}
        )
        stream.width, stream.height, stream.pix_fmt = width, height, "yuv420p"
        sound = container.add_stream("aac", rate=SOUND, layout="mono")
        pictures = [packet for frame in _frames(width, height, group) for packet in stream.encode(frame)]
        pictures += stream.encode(None)
        blocks = [packet for number in range(group * SOUND // RATE // BLOCK) for packet in sound.encode(_block(number))]
        del blocks[group * SOUND // RATE // BLOCK :]
        once = [_Kept(packet) for packet in sorted((*pictures, *blocks), key=lambda one: one.dts * one.time_base)]
        steps = {one.stream: round(Fraction(group, RATE) / one.time_base) for one in once}
        for turn in range(seconds * RATE // group):
            for one in once:
                container.mux(one.later(turn * steps[one.stream]))
    return path


def _frames(width: int, height: int, count: int) -> Iterator[av.VideoFrame]:
    across = np.linspace(60, 180, width).astype(np.uint8)
    ground = np.full((height, width, 3), (0, 80, 90), np.uint8)
    ground[..., 0] = across
    for number in range(count):
        picture = ground.copy()
        left = (number * 4) % (width - height // 4)
        picture[height // 2 : height * 3 // 4, left : left + height // 4] = (225, 120, 40)
        burn(picture, number)
        frame = av.VideoFrame.from_ndarray(picture, format="rgb24").reformat(format="yuv420p")
        frame.pts, frame.time_base = number, Fraction(1, RATE)
        yield frame


def _block(number: int) -> av.AudioFrame:
    at = (number * BLOCK + np.arange(BLOCK)) / SOUND
    tone = (0.1 * np.sin(2 * np.pi * 440 * at)).astype(np.float32)
    block = av.AudioFrame.from_ndarray(tone[None], format="fltp", layout="mono")
    block.sample_rate, block.pts, block.time_base = SOUND, number * BLOCK, Fraction(1, SOUND)
    return block


class _Kept:
    """A packet to be written again and again."""

    def __init__(self, packet: av.Packet) -> None:
        self.stream, self.time_base = packet.stream, packet.time_base
        self._data, self._key = bytes(packet), packet.is_keyframe
        self._pts, self._dts, self._duration = packet.pts, packet.dts, packet.duration

    def later(self, ticks: int) -> av.Packet:
        """The same packet that much later."""
        copy = av.Packet(self._data)
        copy.pts, copy.dts, copy.duration, copy.time_base = self._pts + ticks, self._dts + ticks, self._duration, self.time_base
        copy.is_keyframe, copy.stream = self._key, self.stream
        return copy

"""Encode pictures to H.264 packets, with numbers of their own for the parameter sets so that they join copied ones."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import av
from av.codec.context import Flags
from av.video.frame import PictureType

from filmreview.lessons.planes import Tags

PRESET, QUALITY = "veryfast", 18
"""The encoder's own words; quality: crf, at which flat colours stay within two levels."""
KEY_EVERY = 2  # seconds at most from one key frame to the next
DEPTH = 2  # pictures by which the encoder, set like this, may take one out of order


@dataclass(frozen=True)
class Coded:
    """One coded picture. tick: when it is shown, in units of the file's time base. data: units behind start codes."""

    tick: int
    data: bytes
    is_key: bool


@dataclass(frozen=True)
class Coding:
    """How pictures are encoded. profile: the encoder's word. sets_id: the number of its parameter sets."""

    width: int
    height: int
    tags: Tags
    rate: Fraction
    time_base: Fraction
    profile: str = "high"
    sets_id: int = 0


class Encoder:
    """One unbroken row of encoded pictures; it begins with a key frame that nothing before is needed for."""

    def __init__(self, coding: Coding) -> None:
        context = av.CodecContext.create("libx264", "w")
        assert isinstance(context, av.VideoCodecContext)
        context.width, context.height, context.pix_fmt = coding.width, coding.height, coding.tags.format
        context.time_base, context.framerate = coding.time_base, coding.rate
        context.gop_size = max(1, round(KEY_EVERY * coding.rate))
        context.color_primaries, context.color_trc = coding.tags.primaries, coding.tags.transfer
        context.colorspace, context.color_range = coding.tags.code, 2 if coding.tags.range == "full" else 1
        context.options = {"preset": PRESET, "crf": str(QUALITY), "x264-params": f"sps-id={coding.sets_id}"}
        context.profile = {"baseline": "Baseline", "main": "Main", "high": "High"}[coding.profile]
        context.flags |= Flags.global_header
        context.open()
        self._context = context
        self.sets = bytes(context.extradata or b"")

    def encode(self, frame: av.VideoFrame, tick: int) -> list[Coded]:
        """Take one picture in; whatever is done comes out, in the order of decoding."""
        frame.pts, frame.time_base = tick, self._context.time_base
        frame.pict_type = PictureType.NONE  # the decoder's choice of key frames is not ours
        return self._coded(frame)

    def finish(self) -> list[Coded]:
        """The rest; nothing can be taken in after that."""
        return self._coded(None)

    def _coded(self, frame: av.VideoFrame | None) -> list[Coded]:
        return [Coded(packet.pts or 0, bytes(packet), packet.is_keyframe) for packet in self._context.encode(frame)]

"""Write a film: pictures as numpy arrays and sound as samples, to H.264 and AAC in one mp4 file.

The file is written aside and renamed at the end, so a stop, an error or a full disk leaves nothing half-made behind and an
older file of that name untouched. Colours are ITU-R BT.709, limited range, converted and tagged explicitly: a converter left
to itself takes HD pictures for BT.601, and a player left to itself guesses.
"""

from __future__ import annotations

import os
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from types import TracebackType
from typing import Self

import av
import numpy as np
from av.video.reformatter import ColorRange, Colorspace, Interpolation
from numpy.typing import NDArray

from filmreview.errors import FilmReviewError

_BT709 = 1  # primaries, transfer and matrix share this code in ITU-T H.273
_LIMITED = 1  # libav's AVCOL_RANGE_MPEG
_SCALING = Interpolation.BICUBIC | Interpolation.ACCURATE_RND | Interpolation.FULL_CHR_H_INT | Interpolation.BITEXACT
_SOUND_BLOCK = 1024  # samples in one AAC frame


@dataclass(frozen=True)
class Writing:
    """How a film is written.

    width, height: pixels, both even (4:2:0). rate: pictures a second, exact. preset: speed word of libx264. crf: constant
    quality, lower is better; not used when bitrate (bits a second) is given. key_every: pictures from one key frame to the
    next at most. sound_rate: samples a second, None for a film without sound. channels: 1 or 2.
    """

    width: int
    height: int
    rate: Fraction
    preset: str = "veryfast"
    crf: int = 20
    bitrate: int | None = None
    key_every: int = 50
    sound_rate: int | None = None
    channels: int = 1


class FilmWriter:
    """Writes one film; use it as a context manager.

    Picture n stands at exactly n / rate seconds unless its tick is given. Leaving the block normally finishes the file and
    gives it its name; leaving it by an error (`Stopped` too) removes what was written.

    Raises FilmReviewError when the file cannot be written (folder missing or read-only, disk full).
    """

    def __init__(self, path: Path, writing: Writing) -> None:
        if writing.width % 2 or writing.height % 2:
            raise ValueError("4:2:0 pictures have an even width and height")
        self.path = path
        self.writing = writing
        self._aside = path.with_name(f".{path.name}.{os.getpid()}.part")
        self._next_tick = 0
        self._sound_tick = 0
        self._waiting = np.zeros((writing.channels, 0), np.float32)
        try:
            self._out = av.open(str(self._aside), "w", format="mp4", options={"movflags": "+faststart"})
            self._pictures = self._picture_stream()
            self._sound = self._sound_stream()
            self._out.start_encoding()  # opens the file now, not at the first picture
        except OSError as error:
            raise self._cannot(error) from error

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        if kind is not None:
            self._drop()
            return
        try:
            self._finish()
        except OSError as failed:
            self._drop()
            raise self._cannot(failed) from failed

    def add_picture(self, picture: NDArray[np.uint8], tick: int | None = None) -> None:
        """Add one picture: (height, width, 3) R'G'B' of 8 bits. tick: its time in units of 1 / rate; the next one if None."""
        frame = av.VideoFrame.from_numpy_buffer(np.ascontiguousarray(picture), format="rgb24")  # no copy: 3 ms less
        if (frame.width, frame.height) != (self.writing.width, self.writing.height):
            raise ValueError(
                f"a picture of {frame.width}x{frame.height} in a film of {self.writing.width}x{self.writing.height}"
            )
        frame = frame.reformat(
            format="yuv420p", src_colorspace=Colorspace.ITU709, dst_colorspace=Colorspace.ITU709,
            src_color_range=ColorRange.JPEG, dst_color_range=ColorRange.MPEG, interpolation=_SCALING,
        )  # fmt: skip
        frame.time_base = 1 / self.writing.rate
        frame.pts = self._next_tick if tick is None else tick
        self._next_tick = frame.pts + 1
        self._send(self._pictures, frame)

    def add_sound(self, samples: NDArray[np.floating]) -> None:
        """Add sound after what is there: (n,) or (n, channels), -1 to 1. Give it about as far as the pictures have come."""
        block = np.asarray(samples, np.float32).reshape(len(samples), -1).T
        self._waiting = np.concatenate([self._waiting, np.clip(block, -1.0, 1.0)], axis=1)
        while self._waiting.shape[1] >= _SOUND_BLOCK:
            self._send_sound(self._waiting[:, :_SOUND_BLOCK])
            self._waiting = self._waiting[:, _SOUND_BLOCK:]

    def _send_sound(self, block: NDArray[np.float32]) -> None:
        layout = "mono" if self.writing.channels == 1 else "stereo"
        frame = av.AudioFrame.from_ndarray(np.ascontiguousarray(block), format="fltp", layout=layout)
        frame.sample_rate = self.writing.sound_rate or 0
        frame.time_base = Fraction(1, self.writing.sound_rate or 1)
        frame.pts = self._sound_tick
        self._sound_tick += block.shape[1]
        assert self._sound is not None
        self._send(self._sound, frame)

    def _picture_stream(self) -> av.VideoStream:
        stream = self._out.add_stream("libx264", rate=self.writing.rate)
        assert isinstance(stream, av.VideoStream)
        stream.width, stream.height, stream.pix_fmt = self.writing.width, self.writing.height, "yuv420p"
        context = stream.codec_context
        context.time_base = 1 / self.writing.rate
        context.gop_size = self.writing.key_every
        context.color_primaries = context.color_trc = context.colorspace = _BT709
        context.color_range = _LIMITED
        stream.options = {"preset": self.writing.preset}
        if self.writing.bitrate:
            stream.bit_rate = self.writing.bitrate
        else:
            stream.options = {**stream.options, "crf": str(self.writing.crf)}
        return stream

    def _sound_stream(self) -> av.AudioStream | None:
        if self.writing.sound_rate is None:
            return None
        stream = self._out.add_stream("aac", rate=self.writing.sound_rate)
        assert isinstance(stream, av.AudioStream)
        stream.layout = "mono" if self.writing.channels == 1 else "stereo"
        stream.bit_rate = 96_000
        return stream

    def _send(self, stream: av.VideoStream | av.AudioStream, frame: av.VideoFrame | av.AudioFrame | None) -> None:
        try:
            self._out.mux(stream.encode(frame))  # type: ignore[arg-type]  # each stream gets frames of its own kind
        except OSError as error:
            raise self._cannot(error) from error

    def _finish(self) -> None:
        if self._sound is not None:
            if self._waiting.shape[1]:
                self._send_sound(self._waiting)
            self._send(self._sound, None)
        self._send(self._pictures, None)
        self._out.close()
        os.replace(self._aside, self.path)

    def _drop(self) -> None:
        try:
            self._out.close()
        except OSError:
            pass  # the file goes away in any case
        finally:
            self._aside.unlink(missing_ok=True)

    def _cannot(self, error: OSError) -> FilmReviewError:
        reason = os.strerror(error.errno) if error.errno else str(error)
        return FilmReviewError(
            f"the film cannot be written ({reason})",
            where=str(self.path),
            todo="choose a folder you may write to with room in it",
        )

"""The sound of a span, as samples."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
from numpy.typing import NDArray

from filmreview.errors import FilmReviewError
from filmreview.film.moment import Span
from filmreview.film.opening import open_container

_RUN_UP = Fraction(1)  # seconds decoded before the span, so that the decoder has settled


def read_sound(path: Path, span: Span, track: int = 0) -> tuple[NDArray[np.float32], int]:
    """Samples (count, channels) from -1 to 1 of a span, and the samples a second.

    Sample n stands at span.start + n / rate on the film's own clock; where the film has no sound there are zeros. track:
    counted from 0 among the sound tracks. Raises FilmReviewError when there is no such track.
    """
    start, end = span.start.seconds, span.end.seconds
    container, _ = open_container(path)
    with container:
        stream = _stream(container, track, path)
        rate = stream.codec_context.sample_rate
        samples = np.zeros((round((end - start) * rate), stream.codec_context.layout.nb_channels), np.float32)
        for first, block in _blocks(container, stream, start, end):
            at = round((first - start) * rate)
            low, high = max(0, at), min(len(samples), at + len(block))
            if low < high:
                samples[low:high] = block[low - at : high - at]
    return samples, rate


def _stream(container: av.container.InputContainer, track: int, path: Path) -> av.AudioStream:
    tracks = container.streams.audio
    if not 0 <= track < len(tracks):
        held = f"{len(tracks)} sound tracks" if tracks else "no sound"
        raise FilmReviewError(f"there is no sound track {track}: the film has {held}", where=str(path))
    return tracks[track]


def _blocks(
    container: av.container.InputContainer, stream: av.AudioStream, start: Fraction, end: Fraction
) -> Iterator[tuple[Fraction, NDArray[np.float32]]]:
    """Time and samples (count, channels) of every decoded block from the span's start, or before, to its end."""
    context = stream.codec_context
    layout, rate = context.layout.name, context.sample_rate  # some broadcasts change theirs on the way
    resampler, shape = av.AudioResampler("fltp", layout, rate), None
    for frame in _frames(container, stream, start):
        base = frame.time_base or stream.time_base
        if frame.pts is None or base is None:
            continue
        if frame.pts * base >= end:
            return
        if shape not in (None, (frame.layout.name, frame.sample_rate)):
            resampler = av.AudioResampler("fltp", layout, rate)
        shape = (frame.layout.name, frame.sample_rate)
        for block in resampler.resample(frame):
            yield frame.pts * base, np.asarray(block.to_ndarray(), np.float32).T


def _frames(container: av.container.InputContainer, stream: av.AudioStream, start: Fraction) -> Iterator[av.AudioFrame]:
    """Decoded frames from a little before a time on; what is damaged stays silent."""
    with contextlib.suppress(av.FFmpegError):  # what cannot be wound is read from its start
        container.seek(int((start - _RUN_UP) / (stream.time_base or 1)), stream=stream, backward=True)
    with contextlib.suppress(av.FFmpegError):  # the rest of a file that breaks off
        for packet in container.demux(stream):
            try:
                yield from packet.decode()
            except av.FFmpegError:
                continue

"""What a film file holds, told in plain values: read while the file is open, because afterwards the library makes them up."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import av

from filmreview.film.colours import FilmColours
from filmreview.film.index import Index
from filmreview.film.moment import format_time
from filmreview.film.upright import Turn

_INTERLACED_ORDERS = (2, 3, 4, 5)  # libav's AVFieldOrder: TT, BB, TB, BT


@dataclass(frozen=True)
class SoundTrack:
    """One sound track. number: from 0 among the sound tracks. rate: samples a second. language, title: None when not told."""

    number: int
    codec: str
    rate: int
    channels: int
    language: str | None
    title: str | None


@dataclass(frozen=True)
class FilmInfo:
    """What a film holds.

    container, codec, pixel_format: the library's short names. streams: every stream in the file, a line each. width, height:
    upright with square pixels; stored_width, stored_height: as coded. rate: frames a second, the average. constant_rate: all
    steps between frames alike, within a tick. frames: how many. duration: seconds. start: seconds on the film's own clock of
    the first frame; file_start: of the earliest stream, None when not told. matrix, range: how the colours are read, each
    with whether that is assumed. high_dynamic: "PQ", "HLG" or None. rotation: degrees clockwise to stand upright, mirrored
    left-right after it. sample_aspect: width of a pixel over its height. trouble: sentences, empty when all is well.
    """

    container: str
    codec: str
    pixel_format: str
    streams: tuple[str, ...]
    width: int
    height: int
    stored_width: int
    stored_height: int
    rate: Fraction
    constant_rate: bool
    frames: int
    duration: Fraction
    start: Fraction
    file_start: Fraction | None
    matrix: str
    matrix_assumed: bool
    range: str
    range_assumed: bool
    high_dynamic: str | None
    rotation: int
    mirrored: bool
    sample_aspect: Fraction
    interlaced: bool
    sound: tuple[SoundTrack, ...]
    trouble: tuple[str, ...]


@dataclass(frozen=True)
class Told:
    """What the file itself tells of its streams."""

    container: str
    codec: str
    streams: tuple[str, ...]
    rate: Fraction | None
    frames: int
    file_start: Fraction | None
    sample_aspect: Fraction
    interlaced: bool
    sound: tuple[SoundTrack, ...]


def read_told(container: av.container.InputContainer, stream: av.VideoStream) -> Told:
    """Read all that is needed of the streams' attributes; call it while the container is open."""
    return Told(
        container=container.format.name,
        codec=stream.codec_context.name,
        streams=tuple(_stream_line(one) for one in container.streams),
        rate=stream.average_rate or stream.guessed_rate or None,
        frames=stream.frames,
        file_start=None if container.start_time is None else Fraction(container.start_time, av.time_base),
        sample_aspect=stream.sample_aspect_ratio or Fraction(1),
        interlaced=stream.codec_context.field_order in _INTERLACED_ORDERS,
        sound=tuple(_sound_track(number, one) for number, one in enumerate(container.streams.audio)),
    )


def describe(
    told: Told, index: Index, frame: av.VideoFrame, size: tuple[int, int], colours: FilmColours, turn: Turn
) -> FilmInfo:
    """Put together what the file tells, what its index counts and what its first frame shows. size: upright."""
    duration = (index.end - int(index.pts[0])) * index.time_base
    steps = index.pts[1:] - index.pts[:-1]
    return FilmInfo(
        container=told.container,
        codec=told.codec,
        pixel_format=frame.format.name,
        streams=told.streams,
        width=size[0],
        height=size[1],
        stored_width=frame.width,
        stored_height=frame.height,
        rate=told.rate or len(index) / duration,
        constant_rate=bool(len(steps) == 0 or steps.max() - steps.min() <= 1),
        frames=len(index),
        duration=duration,
        start=int(index.pts[0]) * index.time_base,
        file_start=told.file_start,
        matrix=colours.matrix,
        matrix_assumed=colours.matrix_assumed,
        range=colours.range,
        range_assumed=colours.range_assumed,
        high_dynamic=colours.high_dynamic,
        rotation=turn.degrees,
        mirrored=turn.mirrored,
        sample_aspect=told.sample_aspect,
        interlaced=told.interlaced,
        sound=told.sound,
        trouble=tuple(trouble_of(told, index, colours)),
    )


def trouble_of(told: Told, index: Index, colours: FilmColours) -> list[str]:
    """What is wrong with the film, in sentences."""
    counted = index.counted
    found = []
    if told.frames > len(index) + counted.missing + counted.double + counted.hidden + counted.orphaned:
        end = format_time((index.end - int(index.pts[0])) * index.time_base)
        found.append(f"the file is cut off: it promises {told.frames} frames, the last whole one ends at {end}")
    elif counted.cut:
        found.append("the file is cut off in its last frame")
    if counted.broken:
        found.append("the file could not be read to its end")
    if not index.timed:
        found.append("the file carries no times for its frames: they are numbered as decoded, and late ones are slow to reach")
    if index.timed and counted.missing:
        found.append(f"frames without a time, left out: {counted.missing}")
    if counted.double:
        found.append(f"frames with the time of another one, left out: {counted.double}")
    if counted.orphaned:
        found.append(f"frames at the front that lean on what the file does not hold, left out: {counted.orphaned}")
    if counted.corrupt:
        found.append(f"packets marked as damaged: {counted.corrupt}")
    if colours.high_dynamic:
        found.append(f"the film has a high dynamic range ({colours.high_dynamic}): its colours cannot be measured")
    return found


def _stream_line(stream: av.stream.Stream) -> str:
    codec = stream.codec_context.name if stream.codec_context is not None else "unknown"
    return f"{stream.index}: {stream.type} {codec}"


def _sound_track(number: int, stream: av.AudioStream) -> SoundTrack:
    context = stream.codec_context
    language, title = stream.metadata.get("language"), stream.metadata.get("title")
    return SoundTrack(
        number=number,
        codec=context.name,
        rate=context.sample_rate or 0,
        channels=context.layout.nb_channels,
        language=None if language in (None, "und") else language,
        title=title,
    )

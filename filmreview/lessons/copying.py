"""Take coded pictures over from a film as they are, where nothing is drawn on them.

Only whole groups are taken: from a picture that needs none before it (an IDR picture) up to the next one, all of them shown.
The pieces at both ends are encoded with parameter sets of their own number, beside the film's; a decoder goes from one to the
other at a key frame without noticing. What cannot be joined like that is encoded whole, and `why_not` says why.
"""

from __future__ import annotations

import contextlib
import io
from collections.abc import Iterator
from dataclasses import dataclass

import av
from av.bitstream import BitStreamFilterContext

from filmreview.film.film import Film
from filmreview.film.opening import open_container
from filmreview.lessons.nal import DELIMITER, IDR, PICTURE, SEQUENCE, Sets, kind_of, sets_of, units_of, with_start_codes
from filmreview.lessons.planes import Tags

_READY_FORMATS = ("yuv420p", "yuvj420p")
_DEEPEST = 16  # max_num_reorder_frames can be no more (ITU-T H.264 E.2.1)


@dataclass(frozen=True)
class Unit:
    """One group that can be taken over. first, last: numbers of its frames, last not included. depth: by how many pictures one
    comes out of order."""

    first: int
    last: int
    depth: int


@dataclass(frozen=True)
class Taken:
    """One coded picture of the film. number: of its frame. data: units behind start codes."""

    number: int
    data: bytes
    is_key: bool


@dataclass(frozen=True)
class Ground:
    """What a film's coded pictures stand on. sets: its own parameter sets. tagged: the same, saying the colours of `tags`,
    behind start codes. profile: the encoder's word for its profile. free_id: for the sets of the pieces that are encoded."""

    sets: Sets
    tagged: bytes
    profile: str
    free_id: int


def why_not(film: Film) -> str | None:
    """Why no coded picture of a film can be taken over, by what is known without reading it; None when one may be."""
    info, counted = film.info, film.index.counted
    if info.codec != "h264":
        return f"the film is {info.codec}, not H.264"
    if info.pixel_format not in _READY_FORMATS:
        return f"the film's pictures are {info.pixel_format}, which few players show"
    if info.interlaced:
        return "the film is interlaced"
    if info.rotation or info.mirrored:
        return "the film is turned"
    if info.sample_aspect != 1:
        return "the film's pixels are not square"
    if info.width % 2 or info.height % 2:
        return "the film's width or height is odd"
    if not film.index.timed or counted.missing or counted.double or counted.corrupt or counted.broken or counted.cut:
        return "the film is damaged or has no times"
    return None


def ground_of(film: Film, tags: Tags) -> Ground | str:
    """What copying from this film stands on, or why it cannot be done."""
    reason = why_not(film)
    if reason is not None:
        return reason
    container, stream = open_container(film.path)
    with container:
        extra = bytes(stream.codec_context.extradata or b"")
    try:
        sets = sets_of(extra)
        tagged = _tagged(sets, tags)
    except (ValueError, IndexError, av.FFmpegError):
        return "the film's parameter sets cannot be read"
    if sets.profile is None or sets.free_id is None:
        return "the film's H.264 profile cannot be matched"
    return Ground(sets, tagged, sets.profile, sets.free_id)


def units_between(film: Film, ground: Ground, first: int, last: int) -> list[Unit]:
    """The groups that lie wholly between two frames and can be taken over, in order."""
    found: list[Unit] = []
    order: list[int | None] = []
    for number, _, starts in _packets(film, ground, first, last):
        if starts:
            _close(found, order, first, last)
            order = []
        order.append(number)
    _close(found, order, first, last)
    return found


def taken(film: Film, ground: Ground, first: int, last: int) -> Iterator[Taken]:
    """The coded pictures of these frames, which are whole groups, in the order of decoding."""
    for number, units, starts in _packets(film, ground, first, last):
        if number is not None and first <= number < last:
            yield Taken(number, with_start_codes(units), starts)


def _close(found: list[Unit], order: list[int | None], first: int, last: int) -> None:
    """Keep a group if every picture of it is shown, they are without gaps, and they lie in the span."""
    numbers = [number for number in order if number is not None]
    if not numbers or len(numbers) != len(order):
        return
    low = min(numbers)
    if sorted(numbers) != list(range(low, low + len(numbers))) or low != numbers[0] or low < first or low + len(numbers) > last:
        return
    depth = max(place - (number - low) for place, number in enumerate(numbers))
    if depth <= _DEEPEST:
        found.append(Unit(low, low + len(numbers), depth))


def _packets(film: Film, ground: Ground, first: int, last: int) -> Iterator[tuple[int | None, list[bytes], bool]]:
    """From the first whole group at or after a frame up to the group with the last one: the frame's number (None for one that
    is not shown), its units without parameter sets, and whether a group starts there.

    Ends early where parameter sets change on the way or a packet is damaged, with a packet that is not shown, so that the group
    it broke off in is not taken for whole.
    """
    index = film.index
    container, stream = open_container(film.path)
    with container:
        group = index.groups[index.group_of(first)]
        with contextlib.suppress(av.FFmpegError):  # what cannot be wound is read from its start
            container.seek(group.dts, stream=stream, backward=True)
        begun = False
        for packet in container.demux(stream):
            if not packet.size:
                return  # the end of the film
            units = _units_of(packet, ground)
            if units is None:
                yield None, [], False
                return
            starts = any(kind_of(unit) == IDR for unit in units)
            number = _number_of(film, packet, starts)
            begun = begun or (starts and number is not None and number >= first)
            if begun and starts and (number is None or number >= last):
                return
            if begun:
                yield number, [unit for unit in units if kind_of(unit) not in (SEQUENCE, PICTURE, DELIMITER)], starts


def _units_of(packet: av.Packet[av.VideoStream], ground: Ground) -> list[bytes] | None:
    """The packet's units; None when it is damaged or brings parameter sets that are not the film's."""
    try:
        units = units_of(bytes(packet), ground.sets.length_bytes)
    except ValueError:
        return None
    other = any(kind_of(unit) in (SEQUENCE, PICTURE) and unit not in ground.sets.units for unit in units)
    return None if packet.is_corrupt or other else units


def _number_of(film: Film, packet: av.Packet[av.VideoStream], starts: bool) -> int | None:
    """The frame's number. A packet that starts a group must be as large as the index knows it: right after a seek some readers
    hand out half of one."""
    number = None if packet.pts is None or packet.is_discard else film.index.number_of(packet.pts)
    if number is None or not starts:
        return number
    return number if film.index.groups[film.index.group_of(number)].size == packet.size else None


def _tagged(sets: Sets, tags: Tags) -> bytes:
    """The parameter sets with the colours told in them."""
    told = {
        "colour_primaries": tags.primaries, "transfer_characteristics": tags.transfer, "matrix_coefficients": tags.code,
        "video_full_range_flag": int(tags.range == "full"),
    }  # fmt: skip
    words = ":".join(f"{key}={value}" for key, value in told.items())
    with av.open(io.BytesIO(), "w", format="h264") as nowhere:
        context = BitStreamFilterContext(f"h264_metadata={words}", nowhere.add_mux_stream("h264"))
        made = context.filter(av.Packet(with_start_codes(sets.units)))
    units = [unit for packet in made for unit in units_of(bytes(packet), 0)]
    if [kind_of(unit) for unit in units] != [kind_of(unit) for unit in sets.units]:
        raise ValueError("parameter sets were lost")
    return with_start_codes(units)

"""The index of a film: the time of every frame it shows, by reading packets without decoding any.

Packets that the film marks as not to be shown (an edit list's run-up) and packets without a time are left out, the rest is
sorted by presentation time. Frames before the first key frame lean on what the file does not hold and are left out. A film in
which no packet has a time (a raw stream) is numbered in the order it is decoded.
"""

from __future__ import annotations

from array import array
from dataclasses import dataclass, field, replace
from fractions import Fraction

import av
import numpy as np
from numpy.typing import NDArray

from filmreview.progress import Progress, silent

_NONE = np.iinfo(np.int64).min  # stands for "no time" in an array of ticks
_EVERY = 2048  # packets between two calls of progress
_PTS, _DTS, _KEY, _HIDDEN, _CORRUPT, _LENGTH, _SIZE = range(7)  # columns of the table of packets


@dataclass(frozen=True)
class Counted:
    """What was found about the packets besides good ones.

    missing: without a time. double: with the time of another one. corrupt: marked so by the reader of the file. cut: the
    last one is only partly there. broken: reading stopped at an error. orphaned: frames before the first key frame. hidden:
    not to be shown, which is no trouble.
    """

    missing: int = 0
    double: int = 0
    corrupt: int = 0
    cut: bool = False
    broken: bool = False
    orphaned: int = 0
    hidden: int = 0


@dataclass(frozen=True)
class Group:
    """Frames that are decoded from one key frame on.

    first, last: their numbers, last not included. pts, dts, size: the key frame's packet, times in ticks and bytes; 0 in a
    film without times.
    """

    first: int
    last: int
    pts: int
    dts: int
    size: int


@dataclass(frozen=True)
class Index:
    """Every frame's time. pts: ticks, rising. end: ticks at which the last frame is over. timed: False when the film carries
    no times and pts only counts frames. groups: in rising order, without gaps."""

    pts: NDArray[np.int64]
    time_base: Fraction
    end: int
    timed: bool
    groups: tuple[Group, ...]
    counted: Counted
    _starts: NDArray[np.int64] = field(repr=False)
    _packets: NDArray[np.int64] = field(repr=False)  # times of all packets, sorted ...
    _places: NDArray[np.int64] = field(repr=False)  # ... and where each stands in the file

    def __len__(self) -> int:
        return len(self.pts)

    @property
    def in_stored_order(self) -> bool:
        """True when frames are shown in the order they stand in the file."""
        return bool(np.all(np.diff(self._places) > 0))

    def number_of(self, pts: int) -> int | None:
        """The number of the frame with exactly this time, or None."""
        number = int(np.searchsorted(self.pts, pts))
        return number if number < len(self.pts) and self.pts[number] == pts else None

    def number_on_screen(self, ticks: Fraction) -> int:
        """The last frame that has come by then; the first one before that."""
        return max(0, int(np.searchsorted(self.pts, ticks.numerator // ticks.denominator, side="right")) - 1)

    def group_of(self, number: int) -> int:
        """Which group a frame belongs to."""
        return int(np.searchsorted(self._starts, number, side="right")) - 1

    def place_of(self, pts: int) -> int | None:
        """Where the packet with this time stands in the file, counted in packets; None for an unknown time."""
        at = int(np.searchsorted(self._packets, pts))
        return int(self._places[at]) if at < len(self._packets) and self._packets[at] == pts else None


def build_index(
    container: av.container.InputContainer, stream: av.VideoStream, rate: Fraction, progress: Progress = silent
) -> Index:
    """Read every packet of the stream. rate: frames a second, used only where the film carries no times."""
    table, broken = _read_packets(container, stream, progress)
    cut = bool(len(table) and table[-1, _CORRUPT])
    table = table[: len(table) - cut]
    counted = Counted(corrupt=int(table[:, _CORRUPT].sum()), cut=cut, broken=broken)
    if (table[:, _PTS] == _NONE).all():
        return _untimed(len(table), rate, counted)
    return _timed(table, stream.time_base or Fraction(1), counted)


def without_times(index: Index, rate: Fraction) -> Index:
    """The same frames numbered in the order they are decoded, because the times in the file cannot be right."""
    return _untimed(len(index), rate, index.counted)


def _read_packets(
    container: av.container.InputContainer, stream: av.VideoStream, progress: Progress
) -> tuple[NDArray[np.int64], bool]:
    """A row for every packet, and whether reading stopped at an error."""
    cells, count, size, broken = array("q"), 0, max(container.size, 1), False
    try:
        for packet in container.demux(stream):
            if not packet.size:
                continue  # the mark at the end
            pts, dts = packet.pts, packet.dts
            cells.extend(
                (
                    _NONE if pts is None else pts,
                    _NONE if dts is None else dts,
                    packet.is_keyframe,
                    packet.is_discard,
                    packet.is_corrupt,
                    packet.duration or 0,
                    packet.size,
                )
            )
            count += 1
            if not count % _EVERY:
                progress(min(1.0, max(0, packet.pos or 0) / size), "reading the times of the frames")
    except av.FFmpegError:
        broken = True  # what came before it is good; the count of trouble tells of it
    return np.frombuffer(cells, np.int64).reshape(-1, 7) if count else np.zeros((0, 7), np.int64), broken


def _untimed(count: int, rate: Fraction, counted: Counted) -> Index:
    numbers = np.arange(count, dtype=np.int64)
    return Index(
        pts=numbers,
        time_base=1 / rate,
        end=count,
        timed=False,
        groups=(Group(0, count, 0, 0, 0),) if count else (),
        counted=counted,
        _starts=np.zeros(1, np.int64),
        _packets=numbers,
        _places=numbers,
    )


def _timed(table: NDArray[np.int64], time_base: Fraction, counted: Counted) -> Index:
    places = np.flatnonzero(table[:, _PTS] != _NONE)
    known = table[places]
    keys = known[known[:, _KEY] == 1]
    orphaned = known[:, _PTS] < keys[:, _PTS].min() if len(keys) else np.zeros(len(known), bool)
    wanted = known[(known[:, _HIDDEN] == 0) & ~orphaned]
    shown, first_of = np.unique(wanted[:, _PTS], return_index=True)
    if not len(keys):
        keys = known[:1].copy()
        keys[:, _PTS] = shown[:1]  # no packet is like this, so reading starts at the front of the file
    groups = _groups(shown, keys)
    order = np.argsort(known[:, _PTS], kind="stable")
    return Index(
        pts=shown,
        time_base=time_base,
        end=int(shown[-1]) + _last_length(shown, wanted[first_of, _LENGTH]) if len(shown) else 0,
        timed=True,
        groups=groups,
        counted=replace(
            counted,
            missing=len(table) - len(known),
            double=len(wanted) - len(shown),
            orphaned=int(orphaned.sum()),
            hidden=int(known[~orphaned, _HIDDEN].sum()),
        ),
        _starts=np.array([group.first for group in groups], np.int64),
        _packets=known[order, _PTS],
        _places=places[order],
    )


def _groups(shown: NDArray[np.int64], keys: NDArray[np.int64]) -> tuple[Group, ...]:
    """From each key frame's own time on, up to the next one's: pictures that are stored after a key frame but shown before it
    lean on the group before. Of several key frames before one shown frame the last one counts."""
    keys = keys[np.argsort(keys[:, _PTS], kind="stable")]
    firsts = np.searchsorted(shown, keys[:, _PTS])
    starts = {int(first): key for first, key in zip(firsts, keys, strict=True) if first < len(shown)}
    return tuple(
        Group(first, last, int(key[_PTS]), int(key[_PTS] if key[_DTS] == _NONE else key[_DTS]), int(key[_SIZE]))
        for (first, key), last in zip(starts.items(), [*list(starts)[1:], len(shown)], strict=True)
    )


def _last_length(shown: NDArray[np.int64], lengths: NDArray[np.int64]) -> int:
    """Ticks the last frame stays: as the film says, else as long as most others."""
    if lengths[-1] > 0:
        return int(lengths[-1])
    return int(np.median(np.diff(shown))) if len(shown) > 1 else 1

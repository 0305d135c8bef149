"""The index of a film: the time of every frame it shows, by reading packets without decoding any.

Packets that the film marks as not to be shown (an edit list's run-up) and packets without a time are left out, the rest is
sorted by presentation time. A film in which no packet has a time (a raw stream) is numbered in the order it is decoded.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

import av
import numpy as np
from numpy.typing import NDArray

from filmreview.progress import Progress, silent

_NONE = np.iinfo(np.int64).min  # stands for "no time" in an array of ticks
_EVERY = 2048  # packets between two calls of progress


@dataclass(frozen=True)
class Counted:
    """What was wrong with the packets. missing: without a time; double: with the time of another one; corrupt: marked so by
    the reader of the file; cut: the last one, only partly there; broken: reading stopped at an error. hidden: not to be
    shown (an edit list's run-up), which is no trouble."""

    missing: int = 0
    double: int = 0
    corrupt: int = 0
    cut: bool = False
    broken: bool = False
    hidden: int = 0


@dataclass(frozen=True)
class Group:
    """Frames that are decoded from one key frame on. first, last: their numbers, last not included. pts, dts: the key
    frame's times in ticks, presentation and decoding; 0 in a film without times."""

    first: int
    last: int
    pts: int
    dts: int


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
    rows, broken = _read_packets(container, stream, progress)
    table = np.array(rows, np.int64).reshape(-1, 6)
    cut = bool(len(table) and table[-1, 4])
    table = table[: len(table) - cut]
    pts, _, _, hidden, corrupt, length = table.T
    missing = pts == _NONE
    timed = not missing.all()
    if not timed:
        counted = Counted(corrupt=int(corrupt.sum()), cut=cut, broken=broken)
        return _untimed(len(table), rate, counted)
    wanted = ~missing & (hidden == 0)
    shown, first_of = np.unique(pts[wanted], return_index=True)
    counted = Counted(
        missing=int(missing.sum()),
        double=int(wanted.sum()) - len(shown),
        corrupt=int(corrupt.sum()),
        cut=cut,
        broken=broken,
        hidden=int(hidden.sum()),
    )
    lengths = length[wanted][first_of]
    places = np.flatnonzero(~missing)
    order = np.argsort(pts[places], kind="stable")
    groups = _groups(shown, table[~missing])
    return Index(
        pts=shown,
        time_base=stream.time_base or Fraction(1, 1),
        end=int(shown[-1]) + _last_length(shown, lengths) if len(shown) else 0,
        timed=True,
        groups=groups,
        counted=counted,
        _starts=np.array([group.first for group in groups], np.int64),
        _packets=pts[places][order],
        _places=places[order],
    )


def _read_packets(
    container: av.container.InputContainer, stream: av.VideoStream, progress: Progress
) -> tuple[list[tuple[int, int, bool, bool, bool, int]], bool]:
    rows: list[tuple[int, int, bool, bool, bool, int]] = []
    size = max(container.size, 1)
    try:
        for packet in container.demux(stream):
            if not packet.size:
                continue  # the mark at the end
            pts, dts = packet.pts, packet.dts
            rows.append(
                (
                    _NONE if pts is None else pts,
                    _NONE if dts is None else dts,
                    packet.is_keyframe,
                    packet.is_discard,
                    packet.is_corrupt,
                    packet.duration or 0,
                )
            )
            if not len(rows) % _EVERY:
                progress(min(1.0, max(0, packet.pos or 0) / size), "reading the times of the frames")
    except av.FFmpegError:
        return rows, True  # what came before it is good; the count of trouble tells of it
    return rows, False


def _untimed(count: int, rate: Fraction, counted: Counted) -> Index:
    numbers = np.arange(count, dtype=np.int64)
    return Index(
        pts=numbers,
        time_base=1 / rate,
        end=count,
        timed=False,
        groups=(Group(0, count, 0, 0),) if count else (),
        counted=counted,
        _starts=np.zeros(1, np.int64),
        _packets=numbers,
        _places=numbers,
    )


def _groups(shown: NDArray[np.int64], table: NDArray[np.int64]) -> tuple[Group, ...]:
    """From each key frame's own time on, up to the next one's: pictures that are stored after a key frame but shown before it
    lean on the group before."""
    if not len(shown):
        return ()
    keys = table[table[:, 2] == 1]
    keys = keys[np.argsort(keys[:, 0], kind="stable")]
    starts: dict[int, tuple[int, int]] = {}
    if not len(keys) or keys[0, 0] > shown[0]:
        starts[0] = (int(table[0, 0]), int(table[0, 1]))  # a film cut off at its front
    for first, (pts, dts) in zip(np.searchsorted(shown, keys[:, 0]).tolist(), keys[:, :2].tolist(), strict=True):
        if first < len(shown):
            starts[first] = (pts, dts)
    firsts = [*starts, len(shown)]
    return tuple(
        Group(first, last, pts, pts if dts == _NONE else dts)
        for (first, (pts, dts)), last in zip(starts.items(), firsts[1:], strict=True)
    )


def _last_length(shown: NDArray[np.int64], lengths: NDArray[np.int64]) -> int:
    """Ticks the last frame stays: as the film says, else as long as most others."""
    if lengths[-1] > 0:
        return int(lengths[-1])
    return int(np.median(np.diff(shown))) if len(shown) > 1 else 1

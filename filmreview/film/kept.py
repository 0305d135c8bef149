"""The decoded frames that are kept: around where the reviewer is, bounded in bytes."""

from __future__ import annotations

import av

AHEAD_COST = 3  # a frame ahead counts as if it were three times as far: stepping back is what costs decoding


class KeptFrames:
    """Frames by number. limit: bytes of decoded pictures, at least one frame is always kept.

    The frames farthest from `here` go first. Not safe to share: the owner locks.
    """

    def __init__(self, limit: int) -> None:
        self.limit = limit
        self.here = 0
        self.bytes = 0
        self._frames: dict[int, av.VideoFrame] = {}

    def __contains__(self, number: int) -> bool:
        return number in self._frames

    def __len__(self) -> int:
        return len(self._frames)

    def get(self, number: int) -> av.VideoFrame | None:
        """The frame, or None when it is not kept."""
        return self._frames.get(number)

    def put(self, number: int, frame: av.VideoFrame) -> None:
        """Keep a frame; farther ones go when there is no room."""
        if number in self._frames:
            return
        self._frames[number] = frame
        self.bytes += stored_bytes(frame)
        while self.bytes > self.limit and len(self._frames) > 1:
            farthest = max(self._frames, key=self._distance)
            self.bytes -= stored_bytes(self._frames.pop(farthest))

    def has_room_for(self, number: int, frame_bytes: int) -> bool:
        """True when keeping this frame would not push out a nearer one."""
        if self.bytes + frame_bytes <= self.limit or not self._frames:
            return True
        return self._distance(number) < max(map(self._distance, self._frames))

    def clear(self) -> None:
        """Let all frames go."""
        self._frames.clear()
        self.bytes = 0

    def _distance(self, number: int) -> int:
        return self.here - number if number <= self.here else (number - self.here) * AHEAD_COST


def stored_bytes(frame: av.VideoFrame) -> int:
    """Bytes that a decoded frame takes."""
    return sum(plane.buffer_size for plane in frame.planes)

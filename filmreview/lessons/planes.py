"""Pictures as three planes of Y'CbCr 4:2:0, the way films keep them, so that what is not drawn on keeps its colours exactly.

All pictures here are upright, with square pixels, 8 bits. Conversions to and from R'G'B' name matrix and range explicitly and
round exactly: flat colours come back within a level.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import av
import numpy as np
from av.video.reformatter import ColorRange, Interpolation, VideoReformatter
from numpy.typing import NDArray

from filmreview.film.colours import SCALER_MATRIX, SCALER_RANGE
from filmreview.film.film import Film
from filmreview.film.upright import Turn, square_size, turn_of

Plane = NDArray[np.uint8]
Picture = NDArray[np.uint8]
"""(height, width, 3) R'G'B'."""

_EXACT = Interpolation.BICUBIC | Interpolation.ACCURATE_RND | Interpolation.FULL_CHR_H_INT | Interpolation.BITEXACT
_CODE_OF_MATRIX = {"bt709": 1, "fcc": 4, "bt601": 6, "smpte240m": 7, "bt2020": 9}  # ITU-T H.273, table 4
_TRANSFER_OF = {9: 14}  # BT.2020 with 10 bits; the others have the code of their matrix
_UNTOLD = (0, 2, 3)  # reserved and unspecified codes of ITU-T H.273


class Planes(NamedTuple):
    """Luma (h, w) and both chroma planes, each half as wide and high, rounded up."""

    luma: Plane
    blue: Plane
    red: Plane

    @property
    def size(self) -> tuple[int, int]:
        """Width and height in pixels."""
        return self.luma.shape[1], self.luma.shape[0]


@dataclass(frozen=True)
class Tags:
    """How colours are written, and what the file says of it: matrix and range by our words; codes of ITU-T H.273 for primaries,
    transfer and matrix."""

    matrix: str
    range: str
    primaries: int
    transfer: int
    code: int

    @property
    def format(self) -> str:
        """The library's word for such pictures."""
        return "yuvj420p" if self.range == "full" else "yuv420p"


BT709 = Tags("bt709", "limited", 1, 1, 1)


def tags_of(film: Film, frame: av.VideoFrame) -> Tags:
    """The tags of a film as it is read: what it says itself where that is no other thing, else what its matrix implies.
    A film stored as R'G'B' becomes BT.709."""
    matrix = film.info.matrix
    if matrix not in _CODE_OF_MATRIX:
        return BT709
    code = _CODE_OF_MATRIX[matrix]
    told = frame.colorspace
    same = told == code or {told, code} in ({5, 6}, {9, 10})
    primaries = frame.color_primaries if same and frame.color_primaries not in _UNTOLD else code
    transfer = frame.color_trc if same and frame.color_trc not in _UNTOLD else _TRANSFER_OF.get(code, code)
    return Tags(matrix, film.info.range, primaries, transfer, told if same else code)


class PlaneMaker:
    """Makes upright planes of one film's decoded frames, in other colours if asked for. Not safe to share between threads."""

    def __init__(self, film: Film, first: av.VideoFrame, tags: Tags) -> None:
        self.tags = tags
        self.turn: Turn = turn_of(first)
        self._aspect = film.info.sample_aspect
        self._own = (film.info.matrix, film.info.range)
        self._reformatter = VideoReformatter()

    def is_ready(self, frame: av.VideoFrame) -> bool:
        """True when a decoded frame already is what `planes` would make of it."""
        return (
            frame.format.name == self.tags.format
            and self.turn == Turn()
            and self._aspect == 1
            and self._own == (self.tags.matrix, self.tags.range)
            and frame.width % 2 == frame.height % 2 == 0
        )

    def planes(self, frame: av.VideoFrame) -> Planes:
        """The upright planes of a decoded frame, full size."""
        width, height = square_size(frame.width, frame.height, self._aspect)
        if not (
            frame.format.name == self.tags.format and self._aspect == 1 and self._own == (self.tags.matrix, self.tags.range)
        ):
            matrix, range_ = self._own
            frame = self._reformatter.reformat(
                frame, width=width, height=height, format=self.tags.format,
                src_colorspace=SCALER_MATRIX[matrix], dst_colorspace=SCALER_MATRIX[self.tags.matrix],
                src_color_range=SCALER_RANGE[range_], dst_color_range=SCALER_RANGE[self.tags.range], interpolation=_EXACT,
            )  # fmt: skip
        return Planes(*(self.turn.apply(plane) for plane in planes_of(frame)))


def planes_of(frame: av.VideoFrame) -> Planes:
    """The planes of a 4:2:0 frame as it is; they share its memory."""
    rows = (np.asarray(memoryview(plane)).view(np.uint8).reshape(-1, plane.line_size) for plane in frame.planes)
    return Planes(*(row[: plane.height, : plane.width] for row, plane in zip(rows, frame.planes, strict=True)))


def frame_of(planes: Planes, tags: Tags) -> av.VideoFrame:
    """A frame for the encoder, of even width and height."""
    whole = np.concatenate([np.ascontiguousarray(plane).ravel() for plane in planes])
    width, height = planes.size
    frame = av.VideoFrame.from_ndarray(whole.reshape(height * 3 // 2, width), format=tags.format)
    frame.colorspace, frame.color_range = tags.code, 2 if tags.range == "full" else 1
    return frame


def evened(planes: Planes) -> Planes:
    """The same picture of even width and height: the last column and row stand twice where one is missing."""
    width, height = planes.size
    luma = np.pad(planes.luma, ((0, height % 2), (0, width % 2)), mode="edge")
    return Planes(luma, planes.blue, planes.red)


def scaled(planes: Planes, width: int, height: int, tags: Tags) -> Planes:
    """The picture at another size, both even."""
    if planes.size == (width, height):
        return planes
    frame = frame_of(evened(planes), tags)
    return Planes(*(plane.copy() for plane in planes_of(_converted(frame, width, height, tags.format, tags, tags.range))))


def to_rgb(planes: Planes, tags: Tags) -> Picture:
    """R'G'B' of a picture; of an odd size too."""
    width, height = planes.size
    even = evened(planes)
    made = _converted(frame_of(even, tags), *even.size, "rgb24", tags, "full").to_ndarray()
    return np.ascontiguousarray(made[:height, :width], np.uint8)


def from_rgb(picture: Picture, tags: Tags) -> Planes:
    """The planes of an R'G'B' picture of even size."""
    frame = av.VideoFrame.from_ndarray(np.ascontiguousarray(picture), format="rgb24")
    matrix = SCALER_MATRIX[tags.matrix]
    made = VideoReformatter().reformat(
        frame, format=tags.format, src_colorspace=matrix, dst_colorspace=matrix, src_color_range=ColorRange.JPEG,
        dst_color_range=SCALER_RANGE[tags.range], interpolation=_EXACT,
    )  # fmt: skip
    return Planes(*(plane.copy() for plane in planes_of(made)))


def _converted(frame: av.VideoFrame, width: int, height: int, layout: str, tags: Tags, range_: str) -> av.VideoFrame:
    matrix = SCALER_MATRIX[tags.matrix]
    return VideoReformatter().reformat(
        frame, width=width, height=height, format=layout, src_colorspace=matrix, dst_colorspace=matrix,
        src_color_range=SCALER_RANGE[tags.range], dst_color_range=SCALER_RANGE[range_], interpolation=_EXACT,
    )  # fmt: skip

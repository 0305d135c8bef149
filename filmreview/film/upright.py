"""From a decoded frame to the upright picture with square pixels, as R'G'B'.

The fast way is for showing. The exact way is for measuring: matrix and range are given explicitly, rounding is exact, chroma
is interpolated at full width; flat colours come out within 0.05 of an 8-bit level of the formulas of BT.601 and BT.709.
"""

from __future__ import annotations

import struct
import threading
from dataclasses import dataclass
from fractions import Fraction

import av
import numpy as np
from av.sidedata.sidedata import SideData
from av.video.reformatter import ColorRange, Interpolation, VideoReformatter
from numpy.typing import NDArray

from filmreview.film.colours import SCALER_MATRIX, SCALER_RANGE, FilmColours

_EXACT = Interpolation.BICUBIC | Interpolation.ACCURATE_RND | Interpolation.FULL_CHR_H_INT | Interpolation.BITEXACT
_EXACT_WHITE = 255 * 256  # the library widens 8 bits to 16 by a shift, so white is not 65535


@dataclass(frozen=True)
class Turn:
    """How the stored picture is laid upright: first exchange rows and columns, then mirror left-right and top-bottom."""

    exchanged: bool = False
    left_right: bool = False
    top_bottom: bool = False

    @property
    def degrees(self) -> int:
        """Clockwise turn, 0, 90, 180 or 270; of a mirrored picture the turn before it is mirrored left-right."""
        if self.exchanged:
            return 270 if self.top_bottom else 90
        return 180 if self.top_bottom else 0

    @property
    def mirrored(self) -> bool:
        """True when the picture is also mirrored."""
        return (self.exchanged + self.left_right + self.top_bottom) % 2 == 1

    def apply(self, picture: NDArray[np.uint8]) -> NDArray[np.uint8]:
        """Lay a stored picture (h, w, 3) upright; the result is contiguous."""
        if self.exchanged:
            picture = picture.swapaxes(0, 1)
        if self.left_right:
            picture = picture[:, ::-1]
        if self.top_bottom:
            picture = picture[::-1]
        return np.ascontiguousarray(picture)


def turn_of(frame: av.VideoFrame) -> Turn:
    """The turn from the frame's display matrix (ISO/IEC 14496-12 8.3.2: x' = a x + c y, y' = b x + d y), the nearest of the
    eight that map pixels onto pixels."""
    matrix: SideData | None = frame.side_data.get("DISPLAYMATRIX")  # type: ignore[assignment]  # the stubs know one key only
    if matrix is None:
        return Turn()
    a, b, _, c, d = struct.unpack("=5i", bytes(matrix)[:20])
    if abs(a) + abs(d) >= abs(b) + abs(c):
        return Turn(False, a < 0, d < 0)
    return Turn(True, c < 0, b < 0)


def square_size(width: int, height: int, aspect: Fraction) -> tuple[int, int]:
    """Width and height with square pixels; the narrow direction is stretched, so that no pixel is lost."""
    if aspect >= 1:
        return max(1, round(width * aspect)), height
    return width, max(1, round(height / aspect))


class Upright:
    """Turns decoded frames of one film into upright pictures. Safe to call from several threads.

    colours: how to read them. turn: from the display matrix. aspect: width of a pixel over its height.
    """

    def __init__(self, colours: FilmColours, turn: Turn, aspect: Fraction) -> None:
        self.colours = colours
        self.turn = turn
        self.aspect = aspect
        # The library keeps its tables in the reformatter and marks the frame while it works, so one thread at a time.
        self._lock = threading.Lock()
        self._fast, self._exact = VideoReformatter(), VideoReformatter()

    def size(self, frame: av.VideoFrame) -> tuple[int, int]:
        """Width and height of the upright picture."""
        width, height = square_size(frame.width, frame.height, self.aspect)
        return (height, width) if self.turn.exchanged else (width, height)

    def picture(self, frame: av.VideoFrame) -> NDArray[np.uint8]:
        """(h, w, 3) R'G'B' of 8 bits, the fast way."""
        return self.turn.apply(self._converted(self._fast, frame, "rgb24", Interpolation.BILINEAR))

    def exact_picture(self, frame: av.VideoFrame) -> NDArray[np.float32]:
        """(h, w, 3) nonlinear R'G'B' from 0 to 1, the exact way."""
        wide = self.turn.apply(self._converted(self._exact, frame, "rgb48le", _EXACT))
        return np.minimum(wide.astype(np.float32) / _EXACT_WHITE, np.float32(1))

    def _converted(
        self, reformatter: VideoReformatter, frame: av.VideoFrame, layout: str, interpolation: int
    ) -> NDArray[np.uint8]:
        width, height = square_size(frame.width, frame.height, self.aspect)
        matrix = SCALER_MATRIX[self.colours.matrix]
        with self._lock:
            converted = reformatter.reformat(
                frame,
                width=width,
                height=height,
                format=layout,
                src_colorspace=matrix,
                dst_colorspace=matrix,
                src_color_range=SCALER_RANGE[self.colours.range],
                dst_color_range=ColorRange.JPEG,
                interpolation=interpolation,
            )
        array: NDArray[np.uint8] = converted.to_ndarray()  # type: ignore[assignment]  # 8 bits, or 16 of the exact way
        return array

"""Turn what a playback source decodes into the same upright pictures that `Frame.picture` gives of the same frame."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import av
import numpy as np
from av.video.reformatter import Interpolation
from numpy.typing import NDArray

from filmreview.film.colours import FilmColours
from filmreview.film.film import Film
from filmreview.film.upright import Turn, Upright

Plane = tuple[NDArray[np.uint8], int]  # bytes, bytes from one row to the next


class PictureMaker:
    """Makes upright pictures of one film from planes in memory. Safe to call from several threads.

    turned: True for a source that lays the picture upright by itself. range: "limited" for a source that turns full-range
    pictures into limited-range ones; None when it leaves them as the film has them. stored_size: width and height of the
    planes, unless the source makes the pixels square by itself.
    """

    def __init__(self, film: Film, turned: bool, range: str | None = None) -> None:
        info = film.info
        colours = FilmColours(info.matrix, range or info.range, info.matrix_assumed, info.range_assumed)
        turn = turn_from(info.rotation, info.mirrored)
        stored, aspect = (info.stored_width, info.stored_height), info.sample_aspect
        if turned and turn.exchanged:
            stored, aspect = (stored[1], stored[0]), 1 / aspect
        self.stored_size = stored
        self._size = (info.width, info.height)
        self._square_size = self._size[::-1] if turn.exchanged and not turned else self._size
        turn = Turn() if turned else turn
        self._stored = Upright(colours, turn, aspect)
        self._square = Upright(colours, turn, Fraction(1))

    def picture(self, layout: str, size: tuple[int, int], planes: Sequence[Plane]) -> NDArray[np.uint8]:
        """(h, w, 3) upright R'G'B' of a picture in memory.

        layout: FFmpeg's name of the pixel format, such as "yuv420p" or "nv12". size: width and height of what is to be seen,
        from the top left of the planes.
        """
        frame = av.VideoFrame(*size, layout)
        for plane, (data, stride) in zip(frame.planes, planes, strict=True):
            _copy_rows(plane, data, stride)
        if size == self.stored_size:
            return self._stored.picture(frame)
        if size != self._square_size:
            frame = frame.reformat(*self._square_size, interpolation=Interpolation.BILINEAR)
        return self._square.picture(frame)

    def fitted(self, picture: NDArray[np.uint8]) -> NDArray[np.uint8]:
        """An upright picture in the film's own size: sources that make pixels square round to a pixel more or less."""
        height, width = picture.shape[:2]
        if (width, height) == self._size:
            return picture
        rows = ((2 * np.arange(self._size[1]) + 1) * height) // (2 * self._size[1])
        columns = ((2 * np.arange(self._size[0]) + 1) * width) // (2 * self._size[0])
        return np.ascontiguousarray(picture[rows][:, columns])


def turn_from(rotation: int, mirrored: bool) -> Turn:
    """The turn that `FilmInfo` tells as degrees and mirroring."""
    exchanged, top_bottom = rotation in (90, 270), rotation in (180, 270)
    return Turn(exchanged, (exchanged + top_bottom) % 2 != mirrored, top_bottom)


def _copy_rows(plane: av.video.plane.VideoPlane, data: NDArray[np.uint8], stride: int) -> None:
    target = np.frombuffer(memoryview(plane), np.uint8).reshape(-1, plane.line_size)
    rows, width = min(plane.height, len(data) // stride), min(plane.line_size, stride)
    target[:rows, :width] = data[: rows * stride].reshape(rows, stride)[:, :width]


def frame_step(film: Film) -> Fraction:
    """Seconds between two frames of the film, on average."""
    return film.info.duration / max(1, film.info.frames)

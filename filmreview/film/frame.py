"""One exact frame of a film, ready to be shown or measured."""

from __future__ import annotations

from dataclasses import dataclass, field

import av
import numpy as np
from numpy.typing import NDArray

from filmreview.film.moment import Moment
from filmreview.film.upright import Upright


@dataclass(frozen=True)
class Frame:
    """One frame. number: from 0, in the order shown. It stays usable after the film is closed."""

    moment: Moment
    number: int
    _decoded: av.VideoFrame = field(repr=False, compare=False)
    _upright: Upright = field(repr=False, compare=False)

    @property
    def width(self) -> int:
        """Pixels of the upright, square-pixel picture."""
        return self._upright.size(self._decoded)[0]

    @property
    def height(self) -> int:
        """Pixels of the upright, square-pixel picture."""
        return self._upright.size(self._decoded)[1]

    def picture(self) -> NDArray[np.uint8]:
        """(height, width, 3) R'G'B' of 8 bits for showing: fast, up to 3 levels off. A new array each time."""
        return self._upright.picture(self._decoded)

    def exact_picture(self) -> NDArray[np.float32]:
        """(height, width, 3) nonlinear R'G'B' from 0 to 1 for measuring: exact, about ten times as slow."""
        return self._upright.exact_picture(self._decoded)

"""The picture: one canvas of our own that paints every frame, playing or paused, with the marks on it.

In: numpy pictures, a region, the marks of kept tags. Out: what the person does, as signals; the canvas decides nothing.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from PyQt6.QtCore import pyqtSignal
from PyQt6.QtWidgets import QWidget

from filmreview.desktop.picture_marks import Mark
from filmreview.facts.region import Box


class PictureCanvas(QWidget):
    """Shows one picture of the film and lets a person look closer and point at things.

    Wheel zooms on the pointer, middle-drag or space-drag pans, double click fits, drag draws a region, Shift-drag points at the
    white reference; the region's corners and edges reshape it, its inside moves it. With the focus here Alt+arrows move the
    region by one picture pixel, Alt+Shift+arrows reshape it. All boxes are in pixels of the upright picture.
    """

    region_drawn = pyqtSignal(object)  # Box: a new region, when the button is let go
    region_changed = pyqtSignal(object)  # Box: the region was moved or reshaped, by mouse (on release) or keys
    region_dropped = pyqtSignal()  # a click beside the region took it away
    reference_drawn = pyqtSignal(object)  # Box: the white reference pointed at
    drawing_started = pyqtSignal()  # a drag began to draw: the film had better pause
    mark_chosen = pyqtSignal(str)  # the id of the tag whose mark was clicked
    space_tapped = pyqtSignal()  # the space bar was pressed and let go without a drag
    zoom_changed = pyqtSignal(float)  # screen pixels (device independent) for one picture pixel

    def show_picture(self, picture: np.ndarray | None) -> None:
        """Show a picture: uint8, (height, width, 3), R'G'B'; None shows the empty ground. Keeps zoom and region."""

    def set_region(self, box: Box | None) -> None:
        """Show this region as the one being worked on; None takes it away. Emits nothing."""

    def set_reference(self, box: Box | None) -> None:
        """Show where the white reference is; None takes it away. Emits nothing."""

    def set_marks(self, marks: Sequence[Mark]) -> None:
        """Draw the marks of tags kept at this frame."""

    def set_info(self, text: str) -> None:
        """The line under the picture: film, time, frame, view grade."""

    def set_pointing(self, reference: bool) -> None:
        """True: a plain drag points at the white reference (once); False: it draws a region."""

    def place_region(self) -> Box | None:
        """Put a region in the middle of what is seen, for work without a mouse; emits region_drawn."""

    def move_region(self, dx: int, dy: int) -> None:
        """Move the region by picture pixels, kept inside the picture; emits region_changed."""

    def reshape_region(self, dx: int, dy: int) -> None:
        """Move the region's right and bottom edges by picture pixels; emits region_changed."""

    def zoom_by(self, factor: float) -> None:
        """Zoom on the middle of what is seen."""

    def fit(self) -> None:
        """Show the whole picture."""

    @property
    def region(self) -> Box | None:
        """The region being worked on."""
        return None

    @property
    def picture_size(self) -> tuple[int, int]:
        """(width, height) of the picture shown, (0, 0) when there is none."""
        return (0, 0)

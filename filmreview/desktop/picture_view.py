"""Where the picture lies in the canvas: zoom and pan as plain numbers, no widget."""

from __future__ import annotations

from dataclasses import dataclass, replace

Point = tuple[float, float]
MOST = 40.0  # screen pixels for one picture pixel at the closest
_PART_IN_SIGHT = 40.0  # so many screen pixels of the picture stay in the canvas however far it is dragged


@dataclass(frozen=True)
class View:
    """How picture pixels lie on the canvas. All lengths in device-independent screen pixels.

    canvas, picture: width and height. scale: screen pixels for one picture pixel. left, top: where the picture's corner is.
    fitted: whether it follows the canvas's size.
    """

    canvas: Point = (1.0, 1.0)
    picture: tuple[int, int] = (0, 0)
    scale: float = 1.0
    left: float = 0.0
    top: float = 0.0
    fitted: bool = True

    def fit(self) -> View:
        """The whole picture, as large as the canvas allows, in the middle."""
        width, height = self.picture
        if not width or not height:
            return replace(self, scale=1.0, left=0.0, top=0.0, fitted=True)
        scale = min(self.canvas[0] / width, self.canvas[1] / height)
        left, top = (self.canvas[0] - width * scale) / 2, (self.canvas[1] - height * scale) / 2
        return replace(self, scale=scale, left=left, top=top, fitted=True)

    def on_canvas(self, width: float, height: float) -> View:
        """The same view on a canvas of another size."""
        changed = replace(self, canvas=(max(1.0, width), max(1.0, height)))
        return changed.fit() if self.fitted else changed._held()

    def of_picture(self, width: int, height: int) -> View:
        """The same view of another picture; of another size it is fitted anew."""
        return self if (width, height) == self.picture else replace(self, picture=(width, height)).fit()

    def zoomed(self, factor: float, at: Point) -> View:
        """Closer by a factor, the picture pixel under a canvas point staying there. Zooming out ends at the fitted view."""
        least = self.fit().scale
        scale = min(max(self.scale * factor, least), max(MOST, least))
        if scale <= least:
            return self.fit()
        x, y = self.to_picture(at)
        return replace(self, scale=scale, left=at[0] - x * scale, top=at[1] - y * scale, fitted=False)._held()

    def panned(self, dx: float, dy: float) -> View:
        """Dragged by screen pixels."""
        return replace(self, left=self.left + dx, top=self.top + dy, fitted=False)._held()

    def like(self, other: View) -> View:
        """The part that another view shows, as large and around the same place, on this canvas and of this picture; of pictures
        of two sizes the same share of each."""
        if other.fitted or not all(other.picture) or not all(self.picture):
            return self.fit()
        ratio = other.picture[0] / self.picture[0]
        scale = other.scale * ratio
        x, y = other.to_picture((other.canvas[0] / 2, other.canvas[1] / 2))
        left = self.canvas[0] / 2 - x / ratio * scale
        top = self.canvas[1] / 2 - y * (self.picture[1] / other.picture[1]) * scale
        return replace(self, scale=scale, left=left, top=top, fitted=False)._held()

    def to_picture(self, point: Point) -> Point:
        """Canvas point to picture point."""
        return ((point[0] - self.left) / self.scale, (point[1] - self.top) / self.scale)

    def to_canvas(self, point: Point) -> Point:
        """Picture point to canvas point."""
        return (self.left + point[0] * self.scale, self.top + point[1] * self.scale)

    def in_sight(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom of the part of the picture that can be seen, in picture pixels."""
        left, top = self.to_picture((0.0, 0.0))
        right, bottom = self.to_picture(self.canvas)
        width, height = self.picture
        return (max(0.0, left), max(0.0, top), min(float(width), right), min(float(height), bottom))

    def _held(self) -> View:
        width, height = self.picture[0] * self.scale, self.picture[1] * self.scale
        left = min(max(self.left, _PART_IN_SIGHT - width), self.canvas[0] - _PART_IN_SIGHT)
        top = min(max(self.top, _PART_IN_SIGHT - height), self.canvas[1] - _PART_IN_SIGHT)
        return replace(self, left=left, top=top)

"""The choice of what a drag on the picture draws: a box, a polygon or a painted patch, and for a patch the brush."""

from __future__ import annotations

from PyQt6.QtWidgets import QHBoxLayout, QLabel, QWidget

from filmreview.desktop.region_brush import BRUSHES
from filmreview.desktop.region_parts import Shape
from filmreview.desktop.region_tool import RegionTool
from filmreview.desktop.small_widgets import Choice

HOW = {
    Shape.BOX: "Drag over the item; drag an edge or a corner to reshape it",
    Shape.POLYGON: "Click the corners; click the first one again, click twice or press Enter to close it",
    Shape.PATCH: "Paint over the item with the mouse; with Ctrl rub out",
}


class RegionChoice(QWidget):
    """Shows what a region tool draws, and tells it what to draw."""

    def __init__(self, regions: RegionTool) -> None:
        super().__init__()
        self._regions = regions
        self.shape = Choice("shape of the region", [str(shape) for shape in Shape])
        self.brush = Choice("brush, picture pixels across", [_words(across) for across in BRUSHES])
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        for widget in (QLabel("Region"), self.shape, self.brush):
            layout.addWidget(widget)
        self.shape.chosen.connect(lambda text: regions.set_shape(Shape(text)))
        self.brush.chosen.connect(lambda _text: regions.set_brush(BRUSHES[self.brush.currentIndex()]))
        regions.shape_changed.connect(lambda _shape: self._show())
        regions.brush_changed.connect(lambda _across: self._show())
        self._show()

    def _show(self) -> None:
        shape = self._regions.shape
        self.shape.show_text(str(shape))
        self.shape.setToolTip(HOW[shape])
        self.brush.show_text(_words(self._regions.brush))
        self.brush.setToolTip("How many pixels of the picture the brush is across")
        self.brush.setVisible(shape is Shape.PATCH)


def _words(across: int) -> str:
    return f"{across} px"

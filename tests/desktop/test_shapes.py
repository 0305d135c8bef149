"""The shapes of rulings: apart by shape, and their help colours by published contrast and colour-vision figures."""

import itertools

import numpy as np
import pytest
from PyQt6.QtCore import QRectF
from PyQt6.QtGui import QColor, QImage, QPainter, QPalette
from PyQt6.QtWidgets import QApplication

from filmreview.colour.contrast import wcag_ratio
from filmreview.desktop.shapes import RULINGS, draw_ruling, ruling_colour, ruling_icon
from tests.desktop.pixels import array_of

LIGHT, DARK = QPalette(QColor("white")), QPalette(QColor("#202020"))
DARK.setColor(QPalette.ColorRole.Base, QColor("#202020"))
LIGHT.setColor(QPalette.ColorRole.Base, QColor("white"))
GROUNDS = [pytest.param(LIGHT, id="light"), pytest.param(DARK, id="dark")]


def inked(ruling: str, ahead: bool, side: int) -> np.ndarray:
    """Where a shape puts ink, whatever its colour."""
    image = QImage(side, side, QImage.Format.Format_RGB888)
    image.fill(QColor("white"))
    painter = QPainter(image)
    draw_ruling(painter, QRectF(0, 0, side, side), ruling, ahead, LIGHT)
    painter.end()
    return (array_of(image).min(axis=2) < 200).astype(int)


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("side", [14, 16, 24, 48])
def test_all_six_are_apart_without_colour(side: int) -> None:
    shapes = [inked(ruling, ahead, side) for ruling in RULINGS for ahead in (False, True)]
    for one, other in itertools.combinations(shapes, 2):
        assert (one != other).sum() > 0.15 * min(one.sum(), other.sum())


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("side", [14, 16, 24, 48])
def test_no_ruling_to_be_seen_is_unlike_any_ruling(side: int) -> None:
    """A tag whose ruling is hidden must not look as if it could not be told."""
    dot = inked("", False, side)
    assert dot.sum() > 4
    for ruling, ahead in itertools.product(RULINGS, (False, True)):
        shape = inked(ruling, ahead, side)
        assert (shape != dot).sum() > 0.5 * min(shape.sum(), dot.sum())
        assert ahead or (dot[side // 2, side // 2], shape[side // 2, side // 2]) == (1, 0)


@pytest.mark.usefixtures("qapp")
def test_shapes_stay_inside_their_square() -> None:
    for ruling, ahead in itertools.product(RULINGS, (False, True)):
        image = QImage(60, 60, QImage.Format.Format_RGB888)
        image.fill(QColor("white"))
        painter = QPainter(image)
        draw_ruling(painter, QRectF(20, 20, 20, 20), ruling, ahead, LIGHT)
        painter.end()
        inside = array_of(image).min(axis=2) < 250
        inside[19:41, 19:41] = False
        assert not inside.any()


@pytest.mark.parametrize("palette", GROUNDS)
@pytest.mark.parametrize("word", [*RULINGS, "ahead"])
def test_colours_stand_out_by_three_to_one(palette: QPalette, word: str) -> None:
    # WCAG 2.2, success criterion 1.4.11: graphical objects, 3:1.
    ground = palette.color(QPalette.ColorRole.Base)
    assert wcag_ratio(_rgb(ruling_colour(word, palette)), _rgb(ground)) >= 3


def _rgb(colour: QColor) -> np.ndarray:
    return np.array([colour.redF(), colour.greenF(), colour.blueF()])


def test_icons_are_drawn_for_fine_screens(qapp: QApplication) -> None:
    icon = ruling_icon("illegal", False, qapp.palette())
    assert {size.width() for size in icon.availableSizes()} >= {16, 32, 48}

"""What the edge of a thin region tells of its surroundings, on pictures of which every pixel is known."""

import cv2
import numpy as np
import pytest

from filmreview.colour.palette import PALETTE, colour_named
from filmreview.colour.spaces import lab_to_srgb
from filmreview.facts.region import Box
from filmreview.measure.colour import MeasuredColour, measure_colour
from filmreview.measure.edge import is_of_edge
from filmreview.measure.reference import reference_from

BAND, WHITE = Box(60, 40, 16, 6), Box(122, 32, 26, 26)
INSIDE = 7.815  # chi-squared of three degrees of freedom, 95 % (a standard table)


def _picture(name: str, wall: str, rows: int, blur: float = 0.0) -> np.ndarray:
    """A white at 120,30 and, in the middle of BAND and beyond it on both sides, a band of so many rows before a wall."""
    picture = np.tile(lab_to_srgb(PALETTE[wall]), (90, 180, 1))
    top = BAND.y + (BAND.height - rows) // 2
    picture[top : top + rows, BAND.x - 6 : BAND.right + 6] = lab_to_srgb(PALETTE[name])
    picture[30:60, 120:150] = 0.9 * lab_to_srgb(PALETTE["white"])
    if blur:
        picture = cv2.GaussianBlur(picture, (0, 0), blur)
    noise = np.random.default_rng(rows).normal(0, 0.01, picture.shape)
    return np.clip(picture + noise, 0, 1).astype(np.float32)


def _away(found: MeasuredColour, name: str) -> float:
    assert found.colour is not None
    error = np.array(found.colour.lab) - np.array(PALETTE[name])
    return float(error @ np.linalg.solve(np.array(found.colour.covariance), error))


@pytest.mark.parametrize(("name", "wall"), [("red", "grey"), ("black", "gold"), ("white", "navy"), ("royal blue", "brown")])
@pytest.mark.parametrize(("rows", "blur"), [(2, 0.0), (2, 0.5), (4, 0.0), (4, 0.5), (6, 0.5)])
def test_a_band_drawn_too_wide_is_not_taken_for_its_wall(name: str, wall: str, rows: int, blur: float) -> None:
    """With two rows of six the wall is the larger of the two colours in the region."""
    picture = _picture(name, wall, rows, blur)
    found = measure_colour(picture, BAND, reference_from(picture, WHITE, colour_named("white")))
    assert _away(found, name) < INSIDE
    assert found.solid is not False, "what looks like a second colour may be the wall's"


def test_a_row_of_surroundings_is_of_the_edge_and_halves_are_not() -> None:
    mask = np.ones((4, 10), dtype=np.bool_)
    row, half = np.zeros((4, 10), dtype=np.bool_), np.zeros((4, 10), dtype=np.bool_)
    row[0], half[:, :5] = True, True
    every = np.arange(40)
    assert is_of_edge(mask, every, row[mask])
    assert is_of_edge(mask, every, ~row[mask])
    assert not is_of_edge(mask, every, half[mask])
    assert not is_of_edge(mask[:2], every[:20], row[:2][mask[:2]]), "nothing lies further in"


def test_two_colours_side_by_side_are_told_apart_in_a_thin_region() -> None:
    """Both have as much of the edge as of what lies further in."""
    picture = _picture("red", "red", 6)
    picture[BAND.y - 4 : BAND.bottom + 4, BAND.x + 10 : BAND.right + 4] = lab_to_srgb(PALETTE["white"])
    found = measure_colour(picture, BAND)
    assert len(found.clusters) == 2
    assert found.colour is not None
    assert found.colour.name == "red"

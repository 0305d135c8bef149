"""Regions as masks, and taking their edge off."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box, Patch, Polygon, region_from_json, region_to_json
from filmreview.measure.shape import erode, mask_of, patch_of


def _eroded(width: int, height: int) -> tuple[int, int, int]:
    box, mask = mask_of(Box(0, 0, width, height), 200, 200)
    left = erode(box, mask, 4)
    return left.across, left.by, left.pixels


@pytest.mark.parametrize(
    ("width", "height", "across", "by", "pixels"),
    [(100, 50, 50, 4, 92 * 42), (11, 30, 11, 4, 3 * 22), (10, 30, 10, 3, 4 * 24), (6, 30, 6, 1, 4 * 28), (3, 3, 3, 0, 9)],
)
def test_erosion_goes_as_far_as_leaves_3_px(width: int, height: int, across: int, by: int, pixels: int) -> None:
    assert _eroded(width, height) == (across, by, pixels)


def test_a_polygon_holds_the_pixels_whose_centre_is_inside() -> None:
    box, mask = mask_of(Polygon(((10.0, 10.0), (20.0, 10.0), (20.0, 15.0), (10.0, 15.0))), 100, 100)
    assert box == Box(10, 10, 10, 5)
    assert mask.all()
    _, triangle = mask_of(Polygon(((0.0, 0.0), (40.0, 0.0), (0.0, 40.0))), 100, 100)
    assert triangle.sum() == pytest.approx(800, abs=25)


def test_a_polygon_needs_three_corners() -> None:
    with pytest.raises(FilmReviewError, match="three corners"):
        mask_of(Polygon(((0, 0), (5, 5))), 100, 100)


@settings(max_examples=60, deadline=None)
@given(st.integers(1, 9), st.integers(1, 9), st.integers(0, 2**81 - 1))
def test_a_painted_patch_keeps_its_pixels(width: int, height: int, bits: int) -> None:
    mask = np.array([bits >> place & 1 for place in range(width * height)], dtype=bool).reshape(height, width)
    patch = patch_of(Box(3, 4, width, height), mask)
    box, again = mask_of(patch, 50, 50)
    assert box == Box(3, 4, width, height)
    assert np.array_equal(again, mask)
    assert region_from_json(region_to_json(patch)) == patch


@pytest.mark.parametrize(
    "region", [Box(1, 2, 3, 4), Polygon(((0.5, 1.0), (2.0, 3.0), (4.0, 0.0))), Patch(Box(0, 0, 2, 1), ((1, 1),))]
)
def test_regions_go_to_json_and_back(region: Box | Polygon | Patch) -> None:
    assert region_from_json(region_to_json(region)) == region


def test_across_a_disc_is_the_square_that_fits_in() -> None:
    y, x = np.mgrid[:41, :41]
    disc = (x - 20) ** 2 + (y - 20) ** 2 <= 20**2
    left = erode(Box(0, 0, 41, 41), disc, 4)
    assert left.across == pytest.approx(20 * 2**0.5, abs=1.5)
    assert left.by == 4

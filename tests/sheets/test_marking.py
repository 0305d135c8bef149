"""The picture of a finding: the region marked on the frame, and the close crop."""

import io

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box, Patch, Polygon
from filmreview.sheets.marking import GAP, HEIGHT, Marked, close_crop, marked


def shown(one: Marked) -> np.ndarray:
    image = Image.open(io.BytesIO(one.jpeg))
    assert (image.format, image.size) == ("JPEG", (one.width, one.height))
    return np.asarray(image).astype(int)


@pytest.mark.parametrize("ground", [0, 128, 255])
def test_the_mark_shows_on_any_ground_and_around_the_region_only(ground: int) -> None:
    picture = np.full((720, 1280, 3), ground, np.uint8)
    region = Box(600, 300, 100, 60)
    plain, with_mark = shown(marked(picture, None)), shown(marked(picture, region))[:, : marked(picture, None).width]
    changed = np.abs(with_mark - plain).max(axis=2) > 60
    rows, columns = np.nonzero(changed)
    scale = HEIGHT / 720
    assert columns.min() == pytest.approx(600 * scale, abs=7)
    assert columns.max() == pytest.approx(700 * scale, abs=7)
    assert (rows.min(), rows.max()) == (pytest.approx(300 * scale, abs=7), pytest.approx(360 * scale, abs=7))
    inside = changed[int(300 * scale) + 4 : int(360 * scale) - 4, int(600 * scale) + 4 : int(700 * scale) - 4]
    assert not inside.any(), "what is marked stays as it is"


def test_the_close_crop_shows_the_region_large() -> None:
    picture = np.full((720, 1280, 3), 90, np.uint8)
    picture[300:330, 600:630] = (250, 120, 0)
    one = marked(picture, Box(600, 300, 30, 30))
    assert one.width == one.frame_width + GAP + HEIGHT
    crop = shown(one)[:, one.frame_width + GAP :]
    orange = (crop[..., 0] > 180) & (crop[..., 2] < 90)
    assert orange.sum() > 0.15 * HEIGHT * HEIGHT
    assert orange[HEIGHT // 2, HEIGHT // 2]


def test_without_a_region_the_frame_alone_is_shown() -> None:
    one = marked(np.zeros((480, 640, 3), np.uint8), None)
    assert (one.width, one.height) == (440, HEIGHT) == (one.frame_width, HEIGHT)


def test_a_region_outside_is_refused() -> None:
    with pytest.raises(FilmReviewError, match="outside the picture of 640x480"):
        marked(np.zeros((480, 640, 3), np.uint8), Box(630, 0, 20, 20))


@settings(max_examples=200, deadline=None)
@given(st.integers(1, 400), st.integers(1, 300), st.data())
def test_the_crop_lies_inside_and_holds_the_region_where_it_can(width: int, height: int, data: st.DataObject) -> None:
    region_width, region_height = data.draw(st.integers(1, width)), data.draw(st.integers(1, height))
    region = Box(
        data.draw(st.integers(0, width - region_width)), data.draw(st.integers(0, height - region_height)),
        region_width, region_height,
    )  # fmt: skip
    crop = close_crop(region, width, height)
    crop.check_inside(width, height)
    assert crop.width == crop.height >= 1
    if max(region_width, region_height) <= min(width, height):
        assert crop.x <= region.x
        assert crop.y <= region.y
        assert region.right <= crop.right
        assert region.bottom <= crop.bottom


def test_any_shape_of_region_is_marked_along_its_edge() -> None:
    picture = np.full((720, 1280, 3), 128, np.uint8)
    triangle = Polygon(((400.0, 500.0), (600.0, 500.0), (500.0, 200.0)))
    plain, with_mark = shown(marked(picture, None)), shown(marked(picture, triangle))[:, : marked(picture, None).width]
    changed = np.abs(with_mark - plain).max(axis=2) > 60
    scale = HEIGHT / 720
    assert not changed[int(400 * scale), int(500 * scale)], "inside"
    assert not changed[int(230 * scale), int(420 * scale)], "in the box, but outside the triangle"
    assert changed[int(503 * scale) : int(503 * scale) + 5, int(500 * scale)].any(), "below its lower edge"
    patch = Patch(Box(10, 10, 20, 2), ((0, 20), (15, 5)))
    assert np.abs(shown(marked(picture, patch))[:, : plain.shape[1]] - plain).max() > 60

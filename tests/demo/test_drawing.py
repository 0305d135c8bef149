"""The drawn pictures hold what the truth says: colours in linear light, sizes, regions, the same each time."""

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from skimage.color import deltaE_ciede2000, rgb2lab

from filmreview.demo.drawing import draw_picture
from filmreview.demo.figure import sprite
from filmreview.demo.gym_light import decode, encode, encode_8bit, gains, table_at
from filmreview.demo.numerals import DIGIT_UNITS, numeral
from filmreview.demo.observed import PUTS, Put
from filmreview.demo.regions import box_around, box_inside
from filmreview.demo.sketch import code
from filmreview.demo.trunk import BORDER_IN, FRONT_HIGH_IN
from filmreview.demo.truth import frame_of, region_of, true_colour, truth, white_of
from filmreview.facts.region import Box

MEASURED = [put for put in PUTS if put.measured]


def part(picture: np.ndarray, box: Box) -> np.ndarray:
    return picture[box.y : box.bottom, box.x : box.right].reshape(-1, 3)


def test_the_curve_is_that_of_srgb() -> None:
    # IEC 61966-2-1: 0.5 linear is code 188, code 128 is 0.2158 linear
    assert round(255 * float(encode(np.array(0.5)))) == 188
    assert float(decode(np.array(128 / 255))) == pytest.approx(0.2158, abs=1e-4)


@given(st.floats(0.0, 1.0))
def test_the_quick_curve_is_within_a_level(linear: float) -> None:
    assert abs(int(encode_8bit(np.array(linear))) - 255 * float(encode(np.array(linear)))) <= 0.8


def test_light_scales_linear_light() -> None:
    tables = np.array(table_at(20, 20)).reshape(3, 256)
    wanted = 255 * encode(decode(np.arange(256) / 255)[None, :] * gains(20, 20)[:, None])
    assert np.abs(tables - wanted).max() <= 1.0


def test_the_light_is_warm_and_uneven_and_white_does_not_clip() -> None:
    places = gains(*np.meshgrid(np.linspace(0, 42, 30), np.linspace(0, 50, 30)))
    assert (places[..., 0] > places[..., 2] * 1.1).all()
    assert places[..., 1].max() / places[..., 1].min() > 1.15
    assert places.max() < 0.98


def test_a_picture_is_the_same_each_time() -> None:
    assert np.array_equal(draw_picture(345, (320, 180)), draw_picture(345, (320, 180)))


@pytest.mark.parametrize("put", MEASURED, ids=lambda put: put.name)
def test_a_thing_against_its_white_has_its_true_colour(put: Put) -> None:
    # by scikit-image alone: mean linear light of the thing over that of the white jersey, times the white's true colour
    picture = draw_picture(frame_of(put)) / 255.0
    white = white_of(put)
    assert white is not None
    light = decode(part(picture, white)).mean(0) / decode(np.array([242, 243, 244]) / 255)
    found = rgb2lab(encode(decode(part(picture, region_of(put))).mean(0) / light))
    assert deltaE_ciede2000(found, rgb2lab(np.array(true_colour(put)) / 255)) < 4


def test_regions_for_measuring_are_wide_enough_and_apart_from_their_white() -> None:
    for put in MEASURED:
        region, white = region_of(put), white_of(put)
        assert white is not None
        assert min(region.width, region.height) >= 12
        assert min(white.width, white.height) >= 20
        apart = region.right <= white.x or white.right <= region.x or region.bottom <= white.y or white.bottom <= region.y
        assert apart, put.name


def test_torsos_are_big_enough_where_tags_lie() -> None:
    tags = {tag["name"]: tag for tag in truth()["tags"]}
    assert tags["visitors' jersey"]["region"][2] >= 60
    assert tags["number 27"]["region"][3] >= 30


def test_numbers_have_their_size() -> None:
    detail = 128
    high = round(FRONT_HIGH_IN / 12 * detail)
    share = BORDER_IN / (FRONT_HIGH_IN / DIGIT_UNITS)
    digits, whole = numeral("12", high, share)
    rows = np.flatnonzero(digits.max(1) > 0.5)
    assert len(rows) == pytest.approx(high, abs=1.5)
    border = (len(np.flatnonzero(whole.max(1) > 0.5)) - len(rows)) / 2
    assert border / detail * 12 == pytest.approx(BORDER_IN, abs=0.06)


def test_a_sprite_knows_what_it_shows() -> None:
    front, back = sprite("v31", "wait", 0, 64), sprite("v31", "wait", 180, 64)
    for drawn in (front, back):
        assert {code("jersey"), code("number"), code("arm sleeve"), code("skin"), code("shoe")} <= set(np.unique(drawn.owner))
        assert drawn.owner.shape == drawn.picture.size[::-1]
    sleeve = [
        np.flatnonzero((drawn.owner == code("arm sleeve")).any(0)).mean() / drawn.picture.width for drawn in (front, back)
    ]
    assert sleeve[0] > 0.5 > sleeve[1]  # the left arm: at the right of the picture from the front, at the left from the back


def test_what_is_taken_off_is_gone() -> None:
    assert code("wristband") in sprite("v24", "wait", 0, 64).owner
    assert code("wristband") not in sprite("v24", "wait", 0, 64, frozenset({"wristband"})).owner


@given(arrays(bool, (7, 9), elements=st.booleans(), fill=st.nothing()))
@settings(max_examples=60, deadline=None)
def test_no_box_inside_is_larger(mask: np.ndarray) -> None:
    # against trying every box
    areas = [
        (bottom - top) * (right - left)
        for top in range(7)
        for bottom in range(top + 1, 8)
        for left in range(9)
        for right in range(left + 1, 10)
        if mask[top:bottom, left:right].all()
    ]
    found = box_inside(np.kron(mask, np.ones((8, 8), bool)).astype(bool))
    if found is None:
        assert max(areas, default=0) == 0
    else:
        assert (found.width + 2) * (found.height + 2) == 64 * max(areas)


def test_a_box_around_holds_everything() -> None:
    mask = np.zeros((40, 50), bool)
    mask[10:12, 20] = mask[30, 45] = True
    assert box_around(mask) == Box(17, 7, 32, 27)
    assert box_around(np.zeros((4, 4), bool)) is None


def test_times_of_tags_are_times_of_frames() -> None:
    for tag in truth()["tags"]:
        assert Fraction(tag["frame"], 25) == Fraction(str(tag["time"]))

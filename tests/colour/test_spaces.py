"""Colour spaces against IEC 61966-2-1, ISO/CIE 11664-4, ICC.1, ITU-R BT.601/709 and two reference libraries."""

import warnings

import numpy as np
import pytest
from skimage.color import lab2rgb, rgb2lab

from filmreview.colour import spaces, video
from filmreview.colour.difference import ciede2000

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it warns of a plotting library that is not installed
    import colour


@pytest.fixture(scope="module")
def many() -> np.ndarray:
    return np.random.default_rng(4).random((20_000, 3))


def test_srgb_curve_at_its_published_points() -> None:
    # IEC 61966-2-1:1999, 5.2: threshold 0.04045, slope 12.92; and the curve is continuous there to the standard's rounding.
    assert spaces.srgb_to_linear([0.0, 1.0, 0.04045]) == pytest.approx([0.0, 1.0, 0.0031308], abs=1e-7)
    assert spaces.srgb_to_linear(0.5) == pytest.approx(((0.5 + 0.055) / 1.055) ** 2.4)
    assert spaces.linear_to_srgb(0.0031308) == pytest.approx(0.04045, abs=1e-5)


def test_srgb_curve_there_and_back(many: np.ndarray) -> None:
    assert np.abs(spaces.linear_to_srgb(spaces.srgb_to_linear(many)) - many).max() < 1e-6


def test_white_of_srgb_is_d65() -> None:
    # IEC 61966-2-1, 4.1: x 0.3127, y 0.3290.
    assert spaces.WHITE[:2] / spaces.WHITE.sum() == pytest.approx([0.3127, 0.3290], abs=2e-5)


def test_neutral_pixels_have_no_chroma() -> None:
    grey = np.linspace(0, 1, 101)[:, None] * np.ones(3)
    lab = spaces.srgb_to_lab(grey)
    assert np.abs(lab[:, 1:]).max() < 1e-9
    assert lab[[0, 100], 0] == pytest.approx([0.0, 100.0])


def test_srgb_primaries_in_lab() -> None:
    # L*, a*, b* of the primaries as colour-science 0.4 gives them for D65 (red 53.24 80.09 67.20, green 87.74 -86.18 83.18,
    # blue 32.30 79.19 -107.86), which is also what the usual tables print.
    expected = [[53.24, 80.09, 67.20], [87.74, -86.18, 83.18], [32.30, 79.19, -107.86]]
    assert spaces.srgb_to_lab(np.eye(3)) == pytest.approx(np.array(expected), abs=0.03)


def test_lab_agrees_with_scikit_image_and_colour_science(many: np.ndarray) -> None:
    ours = spaces.srgb_to_lab(many)
    theirs = colour.XYZ_to_Lab(colour.sRGB_to_XYZ(many), colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D65"])
    assert ciede2000(ours, rgb2lab(many)).max() < 0.02
    assert ciede2000(ours, theirs).max() < 0.02


def test_lab_of_dark_values_uses_the_straight_foot() -> None:
    # ISO/CIE 11664-4: below (6/29)^3 the function is straight; CIE 15 gives L* = 903.3 Y there.
    assert spaces.xyz_to_lab(spaces.WHITE * 0.005)[0] == pytest.approx(903.3 * 0.005, abs=1e-3)


def test_lab_there_and_back(many: np.ndarray) -> None:
    lab = spaces.srgb_to_lab(many)
    assert np.abs(spaces.lab_to_srgb(lab) - many).max() < 1e-6
    assert np.abs(spaces.lab_to_srgb(lab) - lab2rgb(lab)).max() < 2e-3  # its white point is rounded otherwise


@pytest.mark.parametrize("kind", ["float32", "uint16", "uint8"])
def test_tables_for_pictures_stay_within_their_word(many: np.ndarray, kind: str) -> None:
    if kind == "float32":
        picture, exact = many.astype(np.float32), many.astype(np.float32).astype(np.float64)
    else:
        top = np.iinfo(kind).max
        picture = np.round(many**2 * top).astype(kind)  # squared: more dark pixels, where tables are worst
        exact = picture / top
    assert ciede2000(spaces.picture_to_lab(picture), spaces.srgb_to_lab(exact)).max() < 0.025
    assert np.abs(spaces.picture_to_linear(picture) - spaces.srgb_to_linear(exact)).max() < 2e-5
    assert spaces.picture_to_lab(picture.reshape(100, 200, 3)).shape == (100, 200, 3)


def test_bradford_from_d65_to_d50_is_the_published_matrix() -> None:
    # Bruce Lindbloom, "Chromatic Adaptation", Bradford, D65 to D50: value from memory, confirmed here with colour-science.
    d65 = np.array([0.95047, 1.0, 1.08883])
    d50 = np.array([0.96422, 1.0, 0.82521])
    published = np.array(
        [[1.0478112, 0.0228866, -0.0501270], [0.0295424, 0.9904844, -0.0170491], [-0.0092345, 0.0150436, 0.7521316]]
    )
    ours = spaces.adapt(np.eye(3), d65, d50).T
    theirs = colour.adaptation.matrix_chromatic_adaptation_VonKries(d65, d50, transform="Bradford")
    assert ours == pytest.approx(theirs, abs=1e-6)
    assert ours == pytest.approx(published, abs=5e-4)
    assert spaces.adapt(d65, d65, d50) == pytest.approx(d50, abs=1e-9)


def test_bt709_and_bt601_primaries() -> None:
    # ITU-R BT.709-6, 3.2 and BT.601-7, 2.5.1: luma coefficients; codes 16..235 and 16..240 (3.4).
    for matrix, luma in ((video.Matrix.BT709, [0.2126, 0.7152, 0.0722]), (video.Matrix.BT601, [0.299, 0.587, 0.114])):
        ycbcr = video.rgb_to_ycbcr(np.eye(3), matrix)
        assert ycbcr[:, 0] == pytest.approx(luma)
        assert [ycbcr[0, 2], ycbcr[2, 1]] == pytest.approx([0.5, 0.5])
    codes = video.limited_codes(video.rgb_to_ycbcr([[0, 0, 0], [1, 1, 1]], video.Matrix.BT709))
    assert codes == pytest.approx(np.array([[16, 128, 128], [235, 128, 128]]))


@pytest.mark.parametrize(("matrix", "name"), [(video.Matrix.BT601, "ITU-R BT.601"), (video.Matrix.BT709, "ITU-R BT.709")])
def test_ycbcr_agrees_with_colour_science(many: np.ndarray, matrix: video.Matrix, name: str) -> None:
    theirs = colour.RGB_to_YCbCr(many, K=colour.WEIGHTS_YCBCR[name], out_legal=False, out_range=(0, 1, -0.5, 0.5))
    if theirs[:, 1:].min() >= 0:  # some versions put the chroma around one half
        theirs[:, 1:] -= 0.5
    ours = video.rgb_to_ycbcr(many, matrix)
    assert np.abs(video.ycbcr_to_rgb(ours, matrix) - many).max() < 1e-12
    assert np.abs(ours - theirs).max() < 1e-9


def test_one_matrix_read_as_the_other_shifts_saturated_colours() -> None:
    rgb = np.array([[0.8, 0.1, 0.1], [0.1, 0.6, 0.1], [0.5, 0.5, 0.5]])
    wrong = video.read_as_other(rgb, video.Matrix.BT709)
    differences = ciede2000(spaces.srgb_to_lab(np.clip(wrong, 0, 1)), spaces.srgb_to_lab(rgb))
    assert differences[:2].min() > 2.0
    assert differences[2] < 1e-6  # grey stays grey

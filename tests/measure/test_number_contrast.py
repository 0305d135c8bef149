"""Contrast of a number with its jersey: the limits, and thin strokes on film."""

from fractions import Fraction

import av
import cv2
import numpy as np
import pytest

from filmreview.colour.palette import colour_named, measured, parse_colour
from filmreview.colour.spaces import linear_to_srgb, srgb_to_linear
from filmreview.facts.region import Box
from filmreview.measure.contrast import WIDE_STROKE, contrast_of, measure_number, stroke_width
from filmreview.measure.decision import Answer

SPREAD = np.diag([2.0, 2.0, 3.0])


@pytest.mark.parametrize(
    ("number", "jersey", "word"),
    [("white", "navy", "yes"), ("black", "white", "yes"), ("white", "light grey", "no"), ("red", "black", "cannot be told"),
     ("#2a2a2a", "black", "no")],
)  # fmt: skip
def test_exact_colours(number: str, jersey: str, word: str) -> None:
    # limits: L* 30 (UEFA Equipment Regulations 2022, 54.04) and dE00 20 (project default); hue alone is for the eye
    contrast = contrast_of(parse_colour(number), parse_colour(jersey))
    assert contrast.answer is Answer(word)
    assert "L* apart" in contrast.figures


def test_the_lowest_of_the_deficiencies_is_one_of_the_three() -> None:
    found = contrast_of(parse_colour("red"), parse_colour("green"))
    apart = dict(found.seen_apart)
    assert set(apart) == {"protan", "deutan", "tritan"}
    assert apart[found.deficiency] == pytest.approx(found.lowest, abs=0.01)
    assert found.lowest == pytest.approx(min(apart.values()), abs=0.01)
    assert found.lowest < found.difference / 2  # red and green are what protans and deutans confuse: common knowledge


def test_white_and_light_grey_are_21_apart_in_lightness() -> None:
    contrast = contrast_of(colour_named("white"), colour_named("light grey"))
    assert contrast.lightness == pytest.approx(21.0, abs=0.2)
    assert contrast.ratio < 3.0


def test_a_missed_contrast_of_thin_strokes_cannot_be_told() -> None:
    number, jersey = measured((45, 0, 0), SPREAD), measured((38, 2, 2), SPREAD)
    assert contrast_of(number, jersey, 8.0).answer is Answer.NO
    assert contrast_of(number, jersey, 3.0).answer is Answer.UNKNOWN
    assert "strokes of 3.0 px" in contrast_of(number, jersey, 3.0).reason


@pytest.mark.parametrize(
    ("lightness", "reason"),
    [(75, "the lightness may differ by less than 30: the eye decides"), (60, "the contrast is near the limit, or in hue")],
)
def test_why_the_eye_decides_goes_with_the_figure_beside_it(lightness: float, reason: str) -> None:
    """37 apart is over the 30 that is enough: what is missing is sureness, and not contrast."""
    found = contrast_of(measured((lightness, 0, 0), 100 * SPREAD), measured((38, 2, 2), SPREAD), 8.0)
    assert (found.answer, found.reason.startswith(reason)) == (Answer.UNKNOWN, True)


def test_a_reached_contrast_is_believed_at_any_width() -> None:
    assert contrast_of(measured((85, 0, 0), SPREAD), measured((38, 2, 2), SPREAD), 2.0).answer is Answer.YES


def test_stroke_width() -> None:
    mask = np.zeros((40, 40), dtype=bool)
    mask[5:35, 10:14] = True
    mask[30:35, 10:30] = True
    assert stroke_width(mask) == pytest.approx(4.5, abs=0.5)
    assert stroke_width(np.zeros((3, 3), dtype=bool)) == 0.0


def _number_on_film(stroke: float) -> np.ndarray:
    """White 11 on navy, blurred by a lens and coded as 4:2:0 by H.264; strokes of a width in px. Exact picture float32."""
    fine = np.zeros((160 * 8, 160 * 8, 3))
    fine[:] = srgb_to_linear([0.10, 0.12, 0.30])
    for centre in (62, 98):
        left = round((centre - stroke / 2) * 8)
        fine[40 * 8 : 120 * 8, left : left + round(stroke * 8)] = srgb_to_linear([0.9, 0.9, 0.9])
    seen = cv2.GaussianBlur(cv2.resize(fine, (160, 160), interpolation=cv2.INTER_AREA), (0, 0), 0.9)
    rgb = np.rint(255 * linear_to_srgb(seen)).astype(np.uint8)
    coder = av.CodecContext.create("libx264", "w")
    coder.width = coder.height = 160
    coder.pix_fmt = "yuv420p"
    coder.time_base = Fraction(1, 25)
    coder.options = {"crf": "26", "tune": "zerolatency"}
    packets = coder.encode(av.VideoFrame.from_ndarray(rgb, format="rgb24").reformat(format="yuv420p")) + coder.encode()
    decoder = av.CodecContext.create("h264", "r")
    frames = [frame for packet in packets for frame in decoder.decode(packet)] + decoder.decode()
    return frames[0].to_ndarray(format="rgb24").astype(np.float32) / 255


REGION = Box(45, 36, 72, 88)
TRUE_LIGHTNESS = 91.3 - 13.0  # L* of 0.9 grey less that of the navy, both exact sRGB


def test_thin_strokes_are_pulled_toward_the_jersey() -> None:
    # Own worked example: measured / true lightness difference 1.02 at 5.5 px, 0.79 at 2.8 px, 0.59 at 1.4 px.
    shares = []
    for stroke in (8.0, 2.8, 1.4):
        found = measure_number(_number_on_film(stroke), REGION)
        assert found.contrast is not None
        shares.append(found.contrast.lightness / TRUE_LIGHTNESS)
    assert shares[0] == pytest.approx(1.0, abs=0.08)
    assert shares[0] > shares[1] > shares[2]
    assert shares[2] < 0.85


def test_wide_and_thin_numbers_as_facts() -> None:
    wide, thin = (measure_number(_number_on_film(stroke), REGION) for stroke in (9.0, 2.0))
    assert wide.stroke_px >= WIDE_STROKE > thin.stroke_px
    assert wide.contrast is not None
    assert wide.contrast.answer is Answer.YES
    assert [fact.key for fact in wide.facts()] == ["colour"]
    assert wide.jersey is not None
    assert wide.jersey.name in ("navy", "royal blue")


def test_an_outlined_number_is_not_taken_for_its_border() -> None:
    """A white 0 on white with a navy border of 2 px, 80 px high: the border stands out, the digit does not."""
    picture = np.full((160, 160, 3), 0.9, dtype=np.float32)
    cv2.rectangle(picture, (50, 40), (105, 120), (0.10, 0.12, 0.30), 2)
    cv2.rectangle(picture, (68, 58), (87, 102), (0.10, 0.12, 0.30), 2)
    picture = cv2.GaussianBlur(picture, (0, 0), 0.7)
    picture[:8, :8] = (0.7, 0.2, 0.2)  # something in colour: the film is not monochrome
    found = measure_number(picture, REGION)
    assert found.contrast is not None
    assert found.contrast.answer is Answer.UNKNOWN
    assert "as thin as a border: say the number's style" in found.contrast.reason
    assert found.facts() == ()


def test_number_and_jersey_from_a_region_each() -> None:
    film = _number_on_film(9.0)  # strokes at 62 and 98 px across
    both = measure_number(film, REGION)
    apart = measure_number(film, Box(59, 60, 6, 40), jersey_region=Box(70, 60, 20, 40))
    assert both.contrast is not None
    assert apart.contrast is not None
    assert apart.contrast.answer is Answer.YES
    assert apart.contrast.lightness == pytest.approx(both.contrast.lightness, abs=3.0)
    assert apart.stroke_px == pytest.approx(6.0, abs=0.5)  # never more than the region drawn in the stroke
    around = measure_number(film, REGION, jersey_region=Box(70, 60, 20, 40))
    assert around.stroke_px == pytest.approx(both.stroke_px, abs=1.0)
    assert around.contrast is not None
    assert around.contrast.lightness == pytest.approx(both.contrast.lightness, abs=3.0)


def test_a_narrow_region_in_a_stroke_stays_one_sided() -> None:
    found = measure_number(_number_on_film(9.0), Box(73, 60, 4, 40), jersey_region=Box(78, 60, 12, 40))  # both jersey
    assert found.contrast is not None
    assert found.contrast.answer is Answer.UNKNOWN
    assert found.facts() == ()


@pytest.mark.parametrize(
    ("region", "jersey", "why"),
    [
        (Box(60, 60, 1, 40), Box(70, 60, 20, 40), "the number is 1 px across, 2 are needed"),
        (Box(60, 60, 6, 40), Box(70, 60, 5, 40), "the jersey is 5 px across, 6 are needed"),
    ],
)
def test_regions_too_small_for_a_contrast(region: Box, jersey: Box, why: str) -> None:
    assert measure_number(_number_on_film(9.0), region, jersey_region=jersey).why_not == why


def test_what_cannot_be_measured() -> None:
    assert measure_number(_number_on_film(4.0), Box(50, 50, 5, 40)).why_not == "5 px across, 8 are needed"
    assert measure_number(np.zeros((80, 80, 3), dtype=np.float32), Box(10, 10, 40, 40)).why_not == "the picture is black"

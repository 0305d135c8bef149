"""Measuring the colour of a region on pictures of which every pixel is known."""

from dataclasses import replace

import numpy as np
import pytest

from filmreview.colour.difference import ciede2000
from filmreview.colour.palette import PALETTE, parse_colour
from filmreview.colour.spaces import lab_to_srgb, linear_to_srgb, srgb_to_linear
from filmreview.colour.video import Matrix
from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Origin
from filmreview.facts.region import Box, Polygon
from filmreview.measure.colour import measure_colour
from filmreview.measure.pixels import trimmed_mean
from filmreview.measure.reference import reference_from, with_dark_item
from filmreview.measure.view import Blur

GREEN, RED, WHITE, BLACK = (lab_to_srgb(PALETTE[name]) for name in ("green", "red", "white", "black"))


def _picture(light: tuple[float, float, float] = (1.0, 1.0, 1.0), noise: float = 0.01) -> np.ndarray:
    """A drawn frame: a green field at 40,40 with a red band through it, white at 200,40, black at 300,40, on a grey wall."""
    picture = np.full((240, 400, 3), 0.45)
    picture[40:140, 40:140] = GREEN
    picture[150:230, 40:140] = GREEN
    picture[175:205, 40:140] = RED
    picture[40:100, 200:260] = WHITE
    picture[40:100, 300:360] = BLACK
    picture[150:200, 200:260] = lab_to_srgb((70.0, 5.0, -35.0))  # a pale blue wall
    lit = linear_to_srgb(srgb_to_linear(picture) * np.array(light) * 0.9)
    return np.clip(lit + np.random.default_rng(3).normal(0, noise, picture.shape), 0, 1).astype(np.float32)


FIELD, WHITE_BOX, BLACK_BOX, STRIPED = Box(40, 40, 100, 100), Box(200, 40, 60, 60), Box(300, 40, 60, 60), Box(40, 150, 100, 80)
WALL = Box(5, 5, 30, 30)
WARM = (1.0, 0.8, 0.55)


def test_a_field_of_one_colour() -> None:
    found = measure_colour(_picture(), FIELD)
    assert found.colour is not None
    assert found.colour.name == "green"
    assert found.solid is True
    assert [fact.key for fact in found.facts()] == ["colour", "solid"]
    assert all(fact.origin is Origin.MEASURED and fact.why for fact in found.facts())
    assert found.pixels == pytest.approx(92 * 92 * 0.65, rel=0.02)  # 4 px off each edge, 25th to 90th percentile kept


def test_a_white_reference_takes_the_light_away() -> None:
    picture = _picture(WARM)
    plain = measure_colour(picture, FIELD)
    reference = reference_from(picture, WHITE_BOX, parse_colour("white"))
    corrected = measure_colour(picture, FIELD, reference)
    assert plain.colour is not None
    assert corrected.colour is not None
    assert float(ciede2000(plain.colour.lab, PALETTE["green"])) > 4.0
    assert float(ciede2000(corrected.colour.lab, PALETTE["green"])) < 1.0
    assert np.trace(np.array(corrected.colour.covariance)) < np.trace(np.array(plain.colour.covariance))


def test_a_match_to_another_declared_colour_works_too() -> None:
    picture = _picture(WARM)
    grey = Box(150, 100, 40, 120)
    reference = reference_from(picture, grey, parse_colour("#737373"))  # 0.45 in 0..1
    found = measure_colour(picture, FIELD, reference)
    assert found.colour is not None
    assert float(ciede2000(found.colour.lab, PALETTE["green"])) < 1.5


def test_two_colours_are_told_apart() -> None:
    found = measure_colour(_picture(), STRIPED)
    assert found.solid is False
    assert [colour.name for colour in found.colours] == ["green", "red"]
    assert found.colour == found.colours[0]  # the predominant one is the larger
    assert found.clusters[0].share == pytest.approx(0.58, abs=0.03)  # 42 of the 72 rows left
    assert found.facts()[0].value == found.colours


def test_shading_is_not_a_second_colour() -> None:
    picture = _picture(noise=0.0).astype(np.float64)
    slope = np.linspace(0.45, 1.0, 100)[None, :, None]
    picture[40:140, 40:140] = linear_to_srgb(srgb_to_linear(picture[40:140, 40:140]) * slope)
    assert measure_colour(picture.astype(np.float32), FIELD).solid is True


def test_the_parts_and_their_sum() -> None:
    picture = _picture(WARM)
    reference = reference_from(picture, WHITE_BOX, parse_colour("white"))
    between = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 4.0))
    found = measure_colour(picture, FIELD, reference, between=between, assumed_matrix=Matrix.BT709)
    assert [part.name for part in found.parts] == ["light", "edge", "coding", "pixels", "reference", "frames", "matrix"]
    summed = sum(np.array(part.covariance) for part in found.parts)
    assert found.colour is not None
    assert np.allclose(summed, np.array(found.colour.covariance))
    assert found.parts[3].sds[0] < 0.5  # thousands of pixels: their noise is the least of it


def test_a_reference_far_from_the_item_is_worth_less() -> None:
    wide = np.concatenate([_picture(WARM)] * 3, axis=1)
    near = reference_from(wide, WHITE_BOX, parse_colour("white"))
    far = reference_from(wide, Box(WHITE_BOX.x + 800, WHITE_BOX.y, 60, 60), parse_colour("white"))
    one, two = measure_colour(wide, FIELD, near), measure_colour(wide, FIELD, far)
    assert two.parts[0].sds[0] > one.parts[0].sds[0]
    assert one.parts[1:3] == two.parts[1:3]


def test_more_pixels_do_not_take_the_light_part_away() -> None:
    small, large = (measure_colour(_picture(), Box(50, 50, side, side)) for side in (20, 80))
    assert small.parts[0].sds == pytest.approx(large.parts[0].sds, rel=0.05)
    assert small.parts[3].sds[0] > large.parts[3].sds[0]


@pytest.mark.parametrize(
    ("region", "reason"),
    [
        (Box(50, 50, 0, 0), "the region holds no pixel"),
        (Box(50, 50, 1, 1), "1 px across, 6 are needed"),
        (Box(50, 50, 90, 5), "5 px across, 6 are needed"),
    ],
)
def test_a_region_too_small(region: Box, reason: str) -> None:
    found = measure_colour(_picture(), region)
    assert (found.colour, found.why_not, found.facts()) == (None, reason, ())
    assert found.view.word == "too poor"


def test_the_least_region_is_measured_but_thin() -> None:
    found = measure_colour(_picture(), Box(60, 60, 6, 40))
    assert found.colour is not None
    assert found.view.word == "thin"
    assert found.solid is None


def test_all_highlights() -> None:
    picture = _picture()
    picture[40:140, 40:140] = 1.0
    found = measure_colour(picture, FIELD)
    assert (found.colour, found.why_not) == (None, "100% of the pixels are clipped")


def test_a_black_frame() -> None:
    found = measure_colour(np.full((240, 400, 3), 0.004, dtype=np.float32), FIELD)
    assert (found.colour, found.why_not) == (None, "the picture is black")


def test_a_monochrome_film() -> None:
    grey = np.repeat(_picture().mean(axis=2, keepdims=True), 3, axis=2)
    found = measure_colour(grey, FIELD)
    assert (found.colour, found.why_not) == (None, "the film is monochrome")
    with pytest.raises(FilmReviewError, match="the film is monochrome"):
        reference_from(grey, WHITE_BOX, parse_colour("white"))


def test_a_region_outside_the_picture() -> None:
    with pytest.raises(FilmReviewError, match="reaches outside the picture of 400x240"):
        measure_colour(_picture(), Box(390, 40, 20, 20))


def test_a_reference_on_a_coloured_wall_is_refused() -> None:
    for light, region in ((WARM, FIELD), (WARM, Box(200, 150, 60, 50)), ((1.0, 1.0, 1.0), Box(200, 150, 60, 50))):
        with pytest.raises(FilmReviewError, match="no lamp makes white look like that"):
            reference_from(_picture(light), region, parse_colour("white"))


def test_a_clipped_reference_is_refused() -> None:
    picture = _picture()
    picture[40:100, 200:203] = 1.0  # taken away with the edge
    reference_from(picture, WHITE_BOX, parse_colour("white"))
    picture[60:64, 220:240] = 1.0  # 3 % of what is left
    with pytest.raises(FilmReviewError, match="3% of its pixels are clipped"):
        reference_from(picture, WHITE_BOX, parse_colour("white"))


@pytest.mark.parametrize(
    ("region", "declared", "why"),
    [
        (Box(200, 40, 5, 60), "white", "5 px across"),
        (BLACK_BOX, "white", "too dark"),
        (WHITE_BOX, "red", "red has next to no green to judge the light by"),
        (Box(200, 40, 60, 60), "#303030", "too bright for #303030, with"),
    ],
)
def test_other_references_that_cannot_serve(region: Box, declared: str, why: str) -> None:
    with pytest.raises(FilmReviewError, match=why):
        reference_from(_picture(), region, parse_colour(declared))


def test_a_dark_item_that_does_not_read_dark_makes_the_film_unfit() -> None:
    picture = _picture(WARM)
    reference = reference_from(picture, WHITE_BOX, parse_colour("white"))
    assert with_dark_item(reference, picture, BLACK_BOX, "the shorts").unfit == ""
    lifted = (0.35 + 0.65 * picture).astype(np.float32)
    unfit = with_dark_item(reference_from(lifted, WHITE_BOX, parse_colour("white")), lifted, BLACK_BOX, "the shorts")
    assert "the film is unfit for colour" in unfit.unfit
    assert measure_colour(lifted, FIELD, unfit).why_not == unfit.unfit


def test_a_polygon_leaves_out_what_is_outside_it() -> None:
    found = measure_colour(_picture(), Polygon(((35, 30), (150, 30), (150, 35), (145, 145), (40, 145))))
    inside = measure_colour(_picture(), Polygon(((42, 42), (138, 42), (138, 138), (42, 138))))
    assert inside.solid is True
    assert inside.colour is not None
    assert found.colour is not None
    assert inside.colour.name == found.colour.name == "green"


def test_a_region_smeared_by_motion_is_not_said_to_be_solid() -> None:
    """Letters smeared into one look like one colour; two that still stand apart are two."""
    assert measure_colour(_picture(), FIELD, blur=Blur(2.0, 0.02)).solid is True
    assert measure_colour(_picture(), FIELD, blur=Blur(4.0, 0.04)).solid is None
    assert measure_colour(_picture(), STRIPED, blur=Blur(4.0, 0.04)).solid is False


def test_two_pixels_have_a_mean() -> None:
    """Neither of two lies between the quarter and the nine tenths of them."""
    both = np.array([[0.1, 0.2, 0.3], [0.3, 0.4, 0.5]])
    mean, kept = trimmed_mean(both, np.array([False, False]))
    assert mean == pytest.approx([0.2, 0.3, 0.4])
    assert kept == 2


@pytest.mark.parametrize("seed", range(40))
def test_small_regions_of_scattered_colours_are_measured(seed: int) -> None:
    """Clusters of one, two or three pixels among them."""
    draw = np.random.default_rng(seed)
    picture = np.full((30, 40, 3), 0.4, dtype=np.float32)
    picture[10:16, 10:22] = draw.uniform(0.05, 0.9, 3)
    for _ in range(1 + seed % 5):
        picture[12 + draw.integers(2), 12 + draw.integers(8)] = draw.uniform(0.05, 0.9, 3)
    found = measure_colour(picture, Box(10, 10, 12, 6))
    assert found.colour is not None, found.why_not
    assert np.isfinite(found.colour.lab).all()
    assert np.isfinite(found.colour.covariance or np.nan).all()


def test_what_it_was_measured_against_is_told() -> None:
    picture = _picture()
    white, grey = reference_from(picture, WHITE_BOX, parse_colour("white")), reference_from(picture, WALL, parse_colour("grey"))
    told = [measure_colour(picture, STRIPED, one) for one in (None, white, replace(white, elsewhere=True), grey)]
    assert [one.against for one in told] == [
        "without a white", "against a white", "against a white in another view", "against a known colour"
    ]  # fmt: skip
    assert ("px, against a white, view " in told[1].why, "px, without a white, view " in told[0].why) == (True, True)

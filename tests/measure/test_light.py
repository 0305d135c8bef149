"""What a picture shows of its light, and the causes of error it is turned into."""

from dataclasses import replace

import numpy as np
import pytest

from filmreview.colour.difference import ciede2000
from filmreview.colour.palette import PALETTE, parse_colour
from filmreview.colour.spaces import lab_to_linear, linear_to_srgb
from filmreview.facts.region import Box
from filmreview.measure.colour import measure_colour
from filmreview.measure.light import Shown, light_covariance, moves, patterned
from filmreview.measure.pixels import black_of, bright_of, pixels_in
from filmreview.measure.reference import reference_from
from filmreview.measure.uncertainty import WITH_REFERENCE, coding_part, lab_slope

ITEM, WHITE, SHADED = Box(40, 40, 60, 60), Box(140, 40, 60, 60), Box(240, 40, 60, 60)


def _picture(name: str = "black", veil: float = 0.0) -> np.ndarray:
    """An item, a white in full light and a white in half of it on a grey ground, under even light of 0.7."""
    linear = np.full((240, 400, 3), 0.2)
    linear[ITEM.y : ITEM.bottom, ITEM.x : ITEM.right] = lab_to_linear(PALETTE[name])
    linear[WHITE.y : WHITE.bottom, WHITE.x : WHITE.right] = lab_to_linear(PALETTE["white"])
    linear[SHADED.y : SHADED.bottom, SHADED.x : SHADED.right] = 0.7 * lab_to_linear(PALETTE["white"])
    linear[190:230, 40:360] = 0.003  # something as dark as cloth can be
    noise = np.random.default_rng(5).normal(0, 0.006, linear.shape)
    return np.clip(linear_to_srgb(0.7 * linear + veil) + noise, 0, 1).astype(np.float32)


def test_haze_over_the_picture_is_found_in_its_darkest_part() -> None:
    clear, hazy = black_of(_picture()), black_of(_picture(veil=0.008))
    assert clear < 0.003
    assert 0.004 < hazy < 0.009
    assert black_of(np.full((240, 400, 3), 0.5, dtype=np.float32)) == pytest.approx(
        0.7 * 0.012
    )  # nothing dark in view: no more
    assert black_of(np.zeros((10, 10, 3), dtype=np.float32)) == 0.0  # too small to judge


def test_a_black_item_under_haze_is_told_better_than_as_it_reads() -> None:
    picture = _picture(veil=0.008)
    reference = reference_from(picture, WHITE, parse_colour("white"))
    found = measure_colour(picture, ITEM, reference)
    assert found.colour is not None
    off = float(ciede2000(found.colour.lab, PALETTE["black"]))
    as_read = pixels_in(picture, ITEM, 4).linear.mean(axis=0) * np.array(reference.gains)
    lightness = 116 * np.cbrt(float(as_read @ [0.2126, 0.7152, 0.0722])) - 16
    assert abs(found.colour.lab[0] - PALETTE["black"][0]) < 0.6 * abs(lightness - PALETTE["black"][0])
    assert off < 3.0
    assert found.parts[0].sds[0] > measure_colour(_picture(), ITEM, reference).parts[0].sds[0]


def test_clipped_lamps_are_not_the_brightest() -> None:
    picture = _picture()
    before = bright_of(picture)
    picture[0:30] = 1.0
    assert bright_of(picture) == pytest.approx(before, rel=0.03)
    assert before == pytest.approx(0.7 * 0.89, rel=0.05)
    assert bright_of(np.ones((240, 400, 3), dtype=np.float32)) == 0.0


def test_a_white_in_shade_counts_for_less() -> None:
    picture = _picture("red")
    lit, shaded = (reference_from(picture, box, parse_colour("white")) for box in (WHITE, SHADED))
    assert lit.dim == pytest.approx(0.0, abs=0.02)
    assert shaded.dim == pytest.approx(-np.log(0.7), abs=0.03)
    # it is believed in part: the gain is less than the 1 / 0.7 that a white in full light would have
    assert shaded.gains[1] / lit.gains[1] == pytest.approx(0.7**-0.6, rel=0.03)
    assert measure_colour(picture, ITEM, shaded).parts[0].sds[0] > measure_colour(picture, ITEM, lit).parts[0].sds[0]


def test_a_dark_thing_of_known_colour_is_not_in_shade() -> None:
    linear = _picture("maroon")
    reference = reference_from(linear, Box(10, 110, 380, 60), parse_colour("#7c7c7c"))  # the ground, 0.2 in linear light
    assert reference.dim < 0.05


def test_small_causes_agree_with_first_order() -> None:
    tiny = replace(
        WITH_REFERENCE, **dict.fromkeys(("brightness", "red", "blue", "warm", "rendition", "crosstalk", "tone"), 0.002)
    )
    tiny = replace(tiny, by_unevenness=0.0, stray=0.0002, floor=(0.0, 0.0, 0.0))
    values, shown = np.array([0.3, 0.2, 0.1]), Shown(np.ones(3))
    offsets = 0.5 * (moves(values, tiny, shown)[:, 0] - moves(values, tiny, shown)[:, 1])
    slope = lab_slope(values)
    assert np.allclose(light_covariance(values, tiny, shown), slope @ (offsets.T @ offsets) @ slope.T, rtol=0.02, atol=1e-5)


@pytest.mark.parametrize("change", [{"black": 0.01}, {"distance": 0.5}, {"uneven": 0.2}, {"dim": 0.3}])
def test_what_the_film_shows_makes_it_less_sure(change: dict[str, float]) -> None:
    shown = Shown(np.array([1.5, 1.4, 1.6]))
    values = np.array([0.05, 0.02, 0.02])
    plain, worse = (light_covariance(values, WITH_REFERENCE, one) for one in (shown, replace(shown, **change)))
    assert np.trace(worse) > 1.01 * np.trace(plain)


def test_a_pattern_is_not_taken_for_uneven_light() -> None:
    assert patterned(Shown(np.ones(3), uneven=0.6)).uneven < 0.2
    assert patterned(Shown(np.ones(3), uneven=0.05)).uneven == 0.05


def test_coarser_film_and_thinner_items_are_less_sure() -> None:
    def spread(by: int, bits: float | None) -> float:
        return float(np.trace(np.array(coding_part([0.4, 0.2, 0.2], np.ones(3), 0.0, by, bits).covariance)))

    assert spread(4, 0.03) > spread(4, 0.07) > spread(4, 0.15)
    assert spread(1, 0.07) > spread(3, 0.07) > spread(4, 0.07)
    assert spread(4, None) == pytest.approx(spread(4, 0.05))

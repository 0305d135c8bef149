"""Chances that a limit is kept, for exact and measured colours."""

import time

import numpy as np
import pytest

from filmreview.colour.chance import Pair, chance_lightness_apart, chance_named, chance_within
from filmreview.colour.difference import ciede2000
from filmreview.colour.palette import PALETTE, colour_named, measured, parse_colour
from filmreview.colour.value import Colour
from filmreview.errors import FilmReviewError

DEFAULT = np.diag([2.7**2, 2.7**2, 3.7**2])


def test_exact_colours_are_decided_at_once() -> None:
    black, navy = colour_named("black"), colour_named("navy")
    assert chance_within(black, black, 10.0) == 1.0
    assert chance_within(black, navy, 10.0) == 0.0
    assert chance_lightness_apart(black, colour_named("white"), 30.0) == 1.0
    assert chance_lightness_apart(black, navy, 30.0) == 0.0
    assert chance_named(black, "black") == 1.0
    assert chance_named(navy, "black") == 0.0
    assert chance_named(parse_colour("#ffffff"), "white") == 1.0


def test_a_limit_is_not_included() -> None:
    a, b = Colour((50.0, 0.0, 0.0), "a"), Colour((60.0, 0.0, 0.0), "b")
    difference = float(ciede2000(a.lab, b.lab))
    assert chance_within(a, b, difference) == 0.0
    assert chance_within(a, b, difference + 1e-9) == 1.0
    assert chance_lightness_apart(a, b, 10.0) == 1.0


def test_ten_thousand_exact_pairs_in_well_under_a_second() -> None:
    names = [colour_named(name) for name in PALETTE]
    start = time.process_time()
    for number in range(10_000):
        chance_within(names[number % 20], names[(number // 20) % 20], 10.0)
    assert time.process_time() - start < 0.5


def test_measured_chance_agrees_with_many_independent_draws() -> None:
    a, b = measured((50, 20, 10), DEFAULT), measured((54, 26, 14), DEFAULT)
    draw = np.random.default_rng(99)
    error = draw.multivariate_normal(np.zeros(3), DEFAULT, (2, 200_000))
    truth = float(np.mean(ciede2000(a.lab + error[0], b.lab + error[1]) < 8.0))
    assert chance_within(a, b, 8.0) == pytest.approx(truth, abs=0.035)  # four standard errors of 4,000 draws
    exact = parse_colour("#7a5040")
    truth = float(np.mean(ciede2000(a.lab + error[0], np.array(exact.lab)) < 10.0))
    assert chance_within(a, exact, 10.0) == pytest.approx(truth, abs=0.035)


def test_swapped_and_repeated_calls_answer_the_same() -> None:
    a, b = measured((50, 20, 10), DEFAULT), measured((54, 26, 14), 2 * DEFAULT)
    first = chance_within(a, b, 8.0, Pair.TWO_PLAYERS)
    assert chance_within(b, a, 8.0, Pair.TWO_PLAYERS) == first
    chance_within.cache_clear()
    assert chance_within(a, b, 8.0, Pair.TWO_PLAYERS) == first


def test_two_items_on_one_player_are_compared_more_sharply() -> None:
    a, b = measured((50, 20, 10), DEFAULT), measured((52, 22, 12), DEFAULT)
    one, two, apart = (chance_within(a, b, 5.0, pair) for pair in (Pair.ONE_PLAYER, Pair.TWO_PLAYERS, Pair.UNRELATED))
    assert one > two > apart


def test_lightness_chance_is_the_normal_one() -> None:
    a = measured((50, 0, 0), DEFAULT)
    assert chance_lightness_apart(a, Colour((20.0, 0.0, 0.0), "x"), 30.0) == pytest.approx(0.5, abs=0.032)
    assert chance_lightness_apart(a, Colour((10.0, 0.0, 0.0), "x"), 30.0) > 0.999


def test_name_of_a_measured_colour() -> None:
    assert chance_named(measured((92, 0, 1), DEFAULT), "white") > 0.9
    assert 0.05 < chance_named(measured((88, 2, 5), DEFAULT), "white") < 0.95
    assert chance_named(measured(PALETTE["maroon"], DEFAULT), "maroon") > 0.95
    with pytest.raises(FilmReviewError):
        chance_named(measured((50, 0, 0), DEFAULT), "blurple")

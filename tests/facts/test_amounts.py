"""The chance that a size keeps a limit, against a reference implementation of the normal distribution."""

import statistics

import pytest

from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Amount
from filmreview.facts.items import check_item, check_player
from filmreview.facts.region import Box, parse_box


@pytest.mark.parametrize(
    ("value", "spread", "limit"), [(2.5, 0.25, 2.0), (6.03, 0.36, 6.0), (13.6, 1.8, 16.3), (1.0, 3.0, 9.0)]
)
def test_chances_agree_with_the_normal_distribution_of_the_standard_library(value: float, spread: float, limit: float) -> None:
    reference = statistics.NormalDist(value, spread)
    assert Amount(value, spread).chance_at_most(limit) == pytest.approx(reference.cdf(limit), abs=1e-12)
    assert Amount(value, spread).chance_at_least(limit) == pytest.approx(1 - reference.cdf(limit), abs=1e-12)


def test_jcgm_106_2012_example_7_4() -> None:
    """JCGM 106:2012, example 7.4: y 13.6, u 1.8, limits 12.5 and 16.3 (the value 0.6626 was computed again, not read)."""
    amount = Amount(13.6, 1.8)
    assert amount.chance_at_most(16.3) - amount.chance_at_most(12.5) == pytest.approx(0.6626, abs=5e-5)


def test_an_exact_size_at_the_limit_keeps_it() -> None:
    assert Amount(2.0).chance_at_most(2.0) == 1.0
    assert Amount(2.0).chance_at_least(2.0) == 1.0
    assert Amount(2.01).chance_at_most(2.0) == 0.0


@pytest.mark.parametrize("number", ["0", "00", "5", "14", "99"])
def test_player_numbers(number: str) -> None:
    assert check_player(number) == number


@pytest.mark.parametrize("number", ["", "100", "-1", "1a", "٣", "4.0"])
def test_impossible_player_numbers(number: str) -> None:
    with pytest.raises(FilmReviewError, match="is not a player number"):
        check_player(number)


def test_an_unknown_item_suggests_the_nearest() -> None:
    with pytest.raises(FilmReviewError, match='unknown item "head band"; write "headband"'):
        check_item("head band")


@pytest.mark.parametrize("text", ["", "1,2,3", "1,2,3,x", "1,2,0,4", "1,2,3,-4", "1.5,2,3,4"])
def test_what_is_no_region(text: str) -> None:
    with pytest.raises(FilmReviewError, match="region"):
        parse_box(text)


def test_a_region_outside_the_picture_is_refused() -> None:
    with pytest.raises(FilmReviewError, match=r"the region 600,0,50,10 reaches outside the picture of 640x272 pixels"):
        Box(600, 0, 50, 10).check_inside(640, 272)
    Box(600, 0, 40, 272).check_inside(640, 272)

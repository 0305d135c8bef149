"""The interval of a share, against the published examples and against what such an interval is for."""

import math

import pytest
from statsmodels.stats.proportion import proportion_confint

from filmreview.sheets.share import Z_95, Share, share_of, share_words


@pytest.mark.parametrize(
    ("count", "total", "low", "high"), [(81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611)]
)
def test_published_examples(count: int, total: int, low: float, high: float) -> None:
    """Newcombe 1998, Statistics in Medicine 17, 857-872, table I, method 3."""
    share = share_of(count, total)
    assert share.low == pytest.approx(low, abs=5e-5)
    assert share.high == pytest.approx(high, abs=5e-5)


@pytest.mark.parametrize("total", [1, 2, 7, 20, 148, 263, 5000])
def test_another_program_finds_the_same(total: int) -> None:
    """statsmodels, `proportion_confint(method="wilson")`, for every count, or 50 of them."""
    for count in range(0, total + 1, max(1, total // 50)):
        share = share_of(count, total)
        low, high = proportion_confint(count, total, alpha=0.05, method="wilson")
        assert (share.low, share.high) == (pytest.approx(low, abs=1e-12), pytest.approx(high, abs=1e-12))


@pytest.mark.parametrize(("count", "total"), [(1, 7), (3, 5), (29, 30), (250, 1000)])
def test_the_ends_are_where_the_score_test_just_rejects(count: int, total: int) -> None:
    """What defines the interval (Wilson 1927): |p - share| equals 1.96 standard errors taken at p itself."""
    share = share_of(count, total)
    for end in (share.low, share.high):
        assert abs(end - count / total) / math.sqrt(end * (1 - end) / total) == pytest.approx(Z_95)


def test_turned_around_it_is_the_mirror() -> None:
    one, other = share_of(3, 11), share_of(8, 11)
    assert (one.low, one.high) == (pytest.approx(1 - other.high), pytest.approx(1 - other.low))


def test_the_ends_of_the_scale() -> None:
    assert share_of(20, 20).high == 1.0
    assert share_of(0, 0) == Share(0, 0, 0.0, 1.0)
    with pytest.raises(ValueError, match="6 of 5"):
        share_of(6, 5)


def test_words() -> None:
    assert share_words(share_of(3, 5)) == "60%, likely between 23% and 88%"
    assert share_words(share_of(0, 0)) == "0 of 0"

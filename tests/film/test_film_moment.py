"""Moments, spans, and times as people write them."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filmreview.errors import FilmReviewError
from filmreview.film.moment import Moment, Span, format_time, parse_time


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("0:00.000", Fraction(0)),
        ("31:07.4", Fraction(18674, 10)),
        ("1:02:03.456", Fraction(3723456, 1000)),
        ("12.04", Fraction(1204, 100)),
        ("90", Fraction(90)),
        (".5", Fraction(1, 2)),
        ("75:00", Fraction(4500)),
        (" 0:01 ", Fraction(1)),
    ],
)
def test_times_are_read_exactly(text: str, seconds: Fraction) -> None:
    assert parse_time(text) == seconds


@pytest.mark.parametrize(
    "text", ["", "1:60", "1:60:00", "-3", "1:-2", "1::2", "a:bc", "1:2:3:4", "1e3", "\u0663:\u0660\u0660", "1,5", "0:75.2"]
)
def test_other_text_is_refused_in_one_line(text: str) -> None:
    with pytest.raises(FilmReviewError, match="not a time") as raised:
        parse_time(text, where="--at")
    assert str(raised.value).startswith("--at: ")
    assert "\n" not in str(raised.value)


@pytest.mark.parametrize(
    ("seconds", "text"),
    [
        (Fraction(0), "0:00.000"),
        (Fraction(1001, 30000), "0:00.033"),
        (Fraction(59_9996, 10000), "1:00.000"),
        (Fraction(3599_9995, 10000), "1:00:00.000"),
        (Fraction(3723456, 1000), "1:02:03.456"),
        (Fraction(1, 2000), "0:00.001"),
        (Fraction(-3, 2), "-0:01.500"),
    ],
)
def test_times_are_written_to_the_nearest_millisecond(seconds: Fraction, text: str) -> None:
    assert format_time(seconds) == text


@given(st.integers(0, 40_000_000))
def test_what_is_written_is_read_back(thousandths: int) -> None:
    assert parse_time(format_time(Fraction(thousandths, 1000))) == Fraction(thousandths, 1000)


def test_a_moment_is_exact_where_floats_are_not() -> None:
    """108,000 steps of 1001/30000 s are an hour and 3.6 s to the last bit."""
    assert Moment(108_000 * 1001, Fraction(1, 30_000)).seconds == Fraction(36_036, 10)
    assert sum([1001 / 30_000] * 108_000) != 3603.6


def test_a_span_has_a_length_and_no_negative_one() -> None:
    early, late = Moment(3000, Fraction(1, 90_000)), Moment(9, Fraction(1, 30))
    assert Span(early, late).seconds == Fraction(3, 10) - Fraction(1, 30)
    with pytest.raises(FilmReviewError, match="ends before it starts"):
        Span(late, early)

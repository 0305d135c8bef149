"""Guard band decisions against JCGM 106:2012."""

import pytest

from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Amount
from filmreview.measure.decision import Answer, Limit, answer, chance_between, parse_limit


def test_jcgm_106_example() -> None:
    # JCGM 106:2012, numbers of its example in 7.4 (y 13.6, u 1.8, limits 12.5 and 16.3). Conformance probability recomputed
    # by hand from the normal distribution, Phi(1.5) - Phi(-0.6111) = 0.93319 - 0.27057; the printed answer was not seen.
    assert chance_between(Amount(13.6, 1.8), 12.5, 16.3) == pytest.approx(0.6626, abs=5e-5)


def test_one_sided_limits_agree_with_the_amount_itself() -> None:
    amount = Amount(2.4, 0.3)
    assert chance_between(amount, high=3.0) == pytest.approx(amount.chance_at_most(3.0))
    assert chance_between(amount, low=2.0) == pytest.approx(amount.chance_at_least(2.0))
    assert chance_between(amount) == 1.0


def test_exact_amounts() -> None:
    assert chance_between(Amount(2.0), 2.0, 2.0) == 1.0
    assert chance_between(Amount(2.1), 2.0, 2.09) == 0.0


@pytest.mark.parametrize(
    ("chance", "word"),
    [(1.0, "yes"), (0.95, "yes"), (0.949, "cannot be told"), (0.051, "cannot be told"), (0.05, "no"), (0.0, "no")],
)
def test_answers(chance: float, word: str) -> None:
    assert answer(chance) is Answer(word)


@pytest.mark.parametrize(
    ("text", "limit"),
    [
        ("at most 3", Limit(high=3.0)),
        ("At  least 0.75", Limit(low=0.75)),
        ("2 to 4.5", Limit(2.0, 4.5)),
        ("3 to 3", Limit(3.0, 3.0)),
    ],
)
def test_limits_as_they_are_written(text: str, limit: Limit) -> None:
    assert parse_limit(text) == limit
    assert parse_limit(str(limit)) == limit


def test_the_chance_that_a_limit_is_kept() -> None:
    amount = Amount(13.6, 1.8)  # the JCGM 106 example above
    assert Limit(12.5, 16.3).chance(amount) == pytest.approx(0.6626, abs=5e-5)
    assert Limit(high=16.3).chance(amount) == pytest.approx(amount.chance_at_most(16.3))
    assert Limit(12.5, 16.3).ends == (12.5, 16.3)
    assert Limit(low=2.0).ends == (2.0,)


@pytest.mark.parametrize("text", ["", "3", "under 3", "at most", "at most -3", "at most 3 in", "at most ٣", "2 to", "nan to 4"])
def test_what_is_no_limit(text: str) -> None:
    with pytest.raises(FilmReviewError, match='write "at most 3", "at least 6" or "2 to 4"'):
        parse_limit(text)


def test_a_limit_the_wrong_way_round() -> None:
    with pytest.raises(FilmReviewError, match='--limit: the limit 4 to 2 ends before it starts; write "2 to 4"'):
        parse_limit("4 to 2", "--limit")

"""Several films of one game: where an instant of one lies on another."""

from fractions import Fraction

import pytest

from filmreview.errors import FilmReviewError
from filmreview.film.moment import Moment
from filmreview.review.changes import RemoveFilm
from filmreview.review.common_time import departure, departure_words, instant_on, offset, tied, title_of
from filmreview.review.store import Store
from filmreview.review.stretch_changes import NameFilm, SetCommonMoment
from tests.review.small_game import a_film, moment

NTSC = Fraction(1, 30000)
"""The time base of films at 30000/1001 frames a second (SMPTE ST 170)."""


@pytest.fixture
def three(kept: Store) -> Store:
    """f1 from the stands, f2 from the end line with another time base, f3 not tied to either."""
    kept.apply(a_film(path="/films/end-line.mp4", digest="cd", length=Fraction(60), start=Moment(0, NTSC)))
    kept.apply(a_film(path="/films/half-2.mp4", digest="ef"))
    kept.apply(SetCommonMoment("f1", moment("20"), "f2", Moment(5 * 30000, NTSC)))
    return kept


def test_the_offset_holds_both_ways(three: Store) -> None:
    assert offset(three.review, "f1", "f2") == -15
    assert offset(three.review, "f2", "f1") == 15
    assert offset(three.review, "f1", "f1") == 0
    assert offset(three.review, "f1", "f3") is None
    assert [one.id for one in tied(three.review, "f1")] == ["f2"]


def test_the_same_instant_on_the_other_film_is_exact(three: Store) -> None:
    """A third of a second stays a third: no rounding on the way from one time base to the other and back."""
    there = instant_on(three.review, "f1", moment("30"), "f2")
    assert there == 15
    third = Moment(10 * 15360 + 5120 + 1024 + 15 * 15360, Fraction(1, 15360))
    assert instant_on(three.review, "f1", third, "f2") == 10 + Fraction(1, 3)


@pytest.mark.parametrize(
    ("at", "words"), [("12.5", r"does not show 0:12.500 .* begins 2.5 s later"), ("80", r"it ended 5.0 s before")]
)
def test_an_instant_outside_the_other_film_is_told(three: Store, at: str, words: str) -> None:
    with pytest.raises(FilmReviewError, match=words):
        instant_on(three.review, "f1", moment(at), "f2")


def test_the_ends_of_the_other_film(three: Store) -> None:
    """Its first instant is on it, the instant of its length no longer."""
    assert instant_on(three.review, "f1", moment("15"), "f2") == 0
    with pytest.raises(FilmReviewError, match="it ends at that instant"):
        instant_on(three.review, "f1", moment("75"), "f2")


def test_films_that_share_nothing_are_told(three: Store) -> None:
    three.apply(NameFilm("f3", "second half"))
    with pytest.raises(FilmReviewError, match=r"half-1.mp4 and second half \(half-2.mp4\) have no shared instant; set one"):
        instant_on(three.review, "f1", moment("20"), "f3")


def test_films_are_tied_through_a_third_and_a_tie_of_their_own_comes_first(three: Store) -> None:
    three.apply(SetCommonMoment("f3", moment("7"), "f2", Moment(0, NTSC)))
    assert offset(three.review, "f1", "f3") == -15 + 7
    assert offset(three.review, "f3", "f1") == 8
    three.apply(SetCommonMoment("f1", moment("20"), "f3", moment("13")))
    assert offset(three.review, "f1", "f3") == -7


def test_a_second_common_moment_tells_when_the_rates_differ(three: Store) -> None:
    """25 frames a second played as 24 (common practice for film on television) is 2.4 s off after a minute."""
    a_minute_on = Moment(round((5 + 40 * Fraction(25, 24)) * 30000), NTSC)
    apart = departure(three.review, "f1", moment("60"), "f2", a_minute_on)
    assert apart is not None
    assert apart == Fraction(40, 24)
    assert "1.67 s" in departure_words(apart)
    assert departure_words(Fraction(1, 15)) == ""
    assert departure(three.review, "f1", moment("60"), "f3", moment("1")) is None


def test_removing_a_film_unties_it(three: Store) -> None:
    three.apply(RemoveFilm("f2"))
    assert three.review.commons == ()
    three.undo()
    assert offset(three.review, "f1", "f2") == -15


def test_a_film_is_called_by_what_it_shows(three: Store) -> None:
    three.apply(NameFilm("f2", "end line"))
    assert [title_of(film) for film in three.review.films] == ["half-1.mp4", "end line (end-line.mp4)", "half-2.mp4"]

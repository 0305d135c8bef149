"""What cannot be measured is an unknown fact with its reason, or one line of refusal; whatever the region's shape."""

import re
from collections.abc import Iterator

import pytest

from filmreview.colour.palette import colour_named, parse_colour
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box, Region
from filmreview.film.film import Film, open_film
from filmreview.measure.colour import measure_colour
from filmreview.measure.contrast import measure_number
from filmreview.measure.decision import Answer
from filmreview.measure.on_film import Known, measure_on_film
from filmreview.measure.reference import reference_from
from filmreview.measure.view import GOOD, THIN, TOO_POOR
from tests.measure.bad_films import (
    BLOWN,
    CLOTH,
    LIT,
    NO_PIXEL,
    NO_WHITE,
    ONE_PIXEL,
    SHAPES,
    UNLIT,
    UNTOLD,
    WALL,
    NoWhite,
    inside,
    shaped,
    write_bad,
    write_monochrome,
)

WHITE = colour_named("white")


@pytest.fixture(scope="module")
def film(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Film]:
    with open_film(write_bad(tmp_path_factory.mktemp("bad") / "bad.mp4")) as opened:
        yield opened


@pytest.fixture(scope="module")
def grey(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Film]:
    with open_film(write_monochrome(tmp_path_factory.mktemp("grey") / "grey.mp4")) as opened:
        yield opened


UNKNOWN = [
    pytest.param(untold.number, region, untold.why, id=f"{name}-{shape}")
    for name, untold in UNTOLD.items()
    for shape, region in untold.regions.items()
]


@pytest.mark.parametrize(("number", "region", "why"), UNKNOWN)
def test_a_colour_that_cannot_be_told_says_why(film: Film, number: int, region: Region, why: str) -> None:
    measured = measure_colour(film.frame(number).exact_picture(), region)
    assert (measured.colour, measured.facts(), measured.why_not, measured.why) == (None, (), why, why)
    assert (measured.view.word, measured.view.reasons[0]) == (TOO_POOR, why)
    shot, _ = measure_on_film(film, film.moment_of(number), region, frames=5) if isinstance(region, Box) else (measured, None)
    assert shot.why_not == why, "nor from several frames"


@pytest.mark.parametrize("shape", SHAPES)
def test_a_film_without_colour_gives_no_colour_and_says_so(grey: Film, shape: str) -> None:
    picture = grey.frame(LIT).exact_picture()
    measured = measure_colour(picture, shaped(shape, CLOTH))
    assert (measured.facts(), measured.why_not) == ((), "the film is monochrome")
    assert (measured.view.word, measured.pixels > 1000) == (GOOD, True), "seen well, only without colour"
    number = measure_number(picture, shaped(shape, CLOTH))
    assert (number.facts(), number.why_not) == ((), "the film is monochrome")
    with pytest.raises(FilmReviewError, match="the film is monochrome; take a frame with a picture in colour"):
        reference_from(picture, shaped(shape, CLOTH), WHITE)


@pytest.mark.parametrize("no_white", NO_WHITE.values(), ids=NO_WHITE)
@pytest.mark.parametrize("shape", SHAPES)
def test_what_is_no_white_is_refused_in_one_line(film: Film, shape: str, no_white: NoWhite) -> None:
    there = Known(film.moment_of(no_white.number), shaped(shape, no_white.box), WHITE)
    told = f"this region cannot serve: {re.escape(no_white.why)}.*; {no_white.todo}$"
    with pytest.raises(FilmReviewError, match=told) as refused:
        measure_on_film(film, film.moment_of(LIT), CLOTH, there)
    assert "\n" not in str(refused.value)
    assert not re.search(r"octave|channel|-0\.0|\d\.\d", str(refused.value)), "in words, rounded"


def test_how_far_a_wall_is_off_white_is_said_in_round_figures(film: Film) -> None:
    """By IEC 61966-2-1 R'G'B' 200, 110, 50 are 0.578, 0.156, 0.032 of linear light: 3.7 and 0.20 beside green."""
    with pytest.raises(FilmReviewError, match=r"red is (2[67]\d)% too strong and blue is (79|80|81)% too weak;"):
        reference_from(film.frame(LIT).exact_picture(), inside(WALL), WHITE)


def test_a_white_far_too_dark_and_a_colour_far_too_bright(film: Film) -> None:
    """By IEC 61966-2-1: R' 0.2 is 0.033 of linear light, white about 0.89; 0.8 is 0.604, #40 0.051."""
    picture = film.frame(LIT).exact_picture().copy()
    picture[:60, :60], picture[60:120, :60] = 0.2, 0.8
    dark = "it is too dark for white, with 4% of the light that white should have; point at something that is white, lit"
    with pytest.raises(FilmReviewError, match=dark):
        reference_from(picture, Box(10, 5, 40, 40), WHITE)
    with pytest.raises(FilmReviewError, match=r"it is too bright for #404040, with 11\d\d% of the light that #404040 should"):
        reference_from(picture, Box(5, 65, 30, 40), parse_colour("#404040"))


def test_what_is_written_on_a_white_does_not_spoil_it(film: Film) -> None:
    """A number in its quarter of a jersey is dropped with the darkest of its pixels; a third of it is not."""
    picture = film.frame(LIT).exact_picture().copy()
    picture[10:50, 10:50], picture[10:18, 10:50] = 0.8, 0.3
    reference_from(picture, Box(10, 10, 40, 40), WHITE, erode=0)
    picture[10:24, 10:50] = 0.3
    with pytest.raises(FilmReviewError, match="only 65% of it is of one colour"):
        reference_from(picture, Box(10, 10, 40, 40), WHITE, erode=0)


@pytest.mark.parametrize("shape", SHAPES)
def test_a_reference_without_a_pixel_is_refused(film: Film, shape: str) -> None:
    with pytest.raises(FilmReviewError, match="this region cannot serve: it is 0 px across"):
        reference_from(film.frame(LIT).exact_picture(), NO_PIXEL[shape], WHITE)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize(
    ("regions", "why"), [(NO_PIXEL, "0 px across, 8 are needed"), (ONE_PIXEL, "1 px across, 8 are needed")]
)
def test_a_number_too_small(film: Film, shape: str, regions: dict[str, Region], why: str) -> None:
    number = measure_number(film.frame(LIT).exact_picture(), regions[shape])
    assert (number.contrast, number.facts(), number.why_not) == (None, (), why)
    jersey = measure_number(film.frame(LIT).exact_picture(), CLOTH, None, regions[shape])
    assert jersey.why_not == f"the jersey is {why.split(',', maxsplit=1)[0]}, 6 are needed"


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("jersey", [None, Box(70, 70, 20, 20)])
def test_a_number_in_highlights_is_not_said_to_be_missing(film: Film, shape: str, jersey: Box | None) -> None:
    """Two things may both lie beyond what the film can show."""
    picture = film.frame(LIT).exact_picture()
    found = measure_number(picture, shaped(shape, Box(48, 48, 20, 48)), None, jersey)
    assert found.contrast.answer is Answer.UNKNOWN
    assert "100% of the pixels are clipped" in found.contrast.reason
    assert (found.facts(), found.view.word) == ((), THIN)


@pytest.mark.parametrize("shape", SHAPES)
def test_where_no_light_falls_everything_is_black_and_the_view_says_so(film: Film, shape: str) -> None:
    measured = measure_colour(film.frame(LIT).exact_picture(), shaped(shape, inside(UNLIT)))
    assert (measured.view.word, measured.view.reasons) == (THIN, ("100% of the pixels have no light",))
    assert measured.why.endswith("view thin")


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("jersey", [None, Box(245, 115, 20, 20)])
def test_a_number_without_light_is_not_said_to_be_missing(film: Film, shape: str, jersey: Box | None) -> None:
    found = measure_number(film.frame(LIT).exact_picture(), shaped(shape, inside(UNLIT)), None, jersey)
    assert found.contrast.answer is Answer.UNKNOWN
    assert found.contrast.reason.startswith("100% of the pixels have no light: how far the number and the jersey are apart")
    assert (found.facts(), found.view.word) == ((), THIN)


def test_a_highlight_that_stands_out_does_stand_out(film: Film) -> None:
    """It is at least as light as it reads."""
    found = measure_number(film.frame(LIT).exact_picture(), inside(BLOWN), None, CLOTH)
    assert found.contrast.answer is Answer.YES
    assert [fact.key for fact in found.facts()] == ["colour"]


@pytest.mark.parametrize("shape", SHAPES)
def test_a_number_that_is_the_jersey_is_no_fault(film: Film, shape: str) -> None:
    """Every pixel the same: nothing to part into number and jersey."""
    picture = film.frame(LIT).exact_picture().copy()
    picture[CLOTH.y : CLOTH.bottom, CLOTH.x : CLOTH.right] = (0.2, 0.3, 0.7)
    found = measure_number(picture, shaped(shape, inside(CLOTH)), None, inside(CLOTH))
    assert (found.contrast.answer, found.contrast.lightness, found.view.word) == (Answer.NO, 0.0, GOOD)

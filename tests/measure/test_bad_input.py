"""What cannot be measured is an unknown fact with its reason, or one line of refusal; whatever the region's shape."""

from collections.abc import Iterator

import pytest

from filmreview.colour.palette import colour_named
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box, Region
from filmreview.film.film import Film, open_film
from filmreview.measure.colour import measure_colour
from filmreview.measure.contrast import measure_number
from filmreview.measure.decision import Answer
from filmreview.measure.on_film import Known, measure_on_film
from filmreview.measure.reference import reference_from
from filmreview.measure.view import GOOD, THIN
from tests.measure.bad_films import (
    BLACK_FROM,
    BLOWN,
    CLOTH,
    NO_PIXEL,
    ONE_PIXEL,
    SHAPES,
    WALL,
    inside,
    shaped,
    write_bad,
    write_monochrome,
)

WHITE = colour_named("white")
SEEN, BLACK = 3, BLACK_FROM + 3


@pytest.fixture(scope="module")
def film(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Film]:
    with open_film(write_bad(tmp_path_factory.mktemp("bad") / "bad.mp4")) as opened:
        yield opened


@pytest.fixture(scope="module")
def grey(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Film]:
    with open_film(write_monochrome(tmp_path_factory.mktemp("grey") / "grey.mp4")) as opened:
        yield opened


UNKNOWN = [
    pytest.param(SEEN, region, why, id=f"{name}-{shape}")
    for name, regions, why in (
        ("no pixel", NO_PIXEL, "the region holds no pixel"),
        ("one pixel", ONE_PIXEL, "1 px across, 6 are needed"),
        ("highlights", {shape: shaped(shape, inside(BLOWN)) for shape in SHAPES}, "100% of the pixels are clipped"),
    )
    for shape, region in regions.items()
] + [pytest.param(BLACK, shaped(shape, CLOTH), "the picture is black", id=f"black-{shape}") for shape in SHAPES]


@pytest.mark.parametrize(("number", "region", "why"), UNKNOWN)
def test_a_colour_that_cannot_be_told_says_why(film: Film, number: int, region: Region, why: str) -> None:
    measured = measure_colour(film.frame(number).exact_picture(), region)
    assert (measured.colour, measured.facts(), measured.why_not, measured.why) == (None, (), why, why)
    shot, _ = measure_on_film(film, film.moment_of(number), region, frames=5) if isinstance(region, Box) else (measured, None)
    assert shot.why_not == why, "nor from several frames"


@pytest.mark.parametrize("shape", SHAPES)
def test_a_film_without_colour_gives_no_colour_and_says_so(grey: Film, shape: str) -> None:
    picture = grey.frame(SEEN).exact_picture()
    measured = measure_colour(picture, shaped(shape, CLOTH))
    assert (measured.facts(), measured.why_not) == ((), "the film is monochrome")
    number = measure_number(picture, shaped(shape, CLOTH))
    assert (number.facts(), number.why_not) == ((), "the film is monochrome")
    with pytest.raises(FilmReviewError, match="the film is monochrome; take a frame with a picture in colour"):
        reference_from(picture, shaped(shape, CLOTH), WHITE)


@pytest.mark.parametrize(
    ("number", "box", "told"),
    [
        (SEEN, inside(WALL), "no lamp makes white look like that .*; point at something that is white, not at a coloured wall"),
        (SEEN, inside(CLOTH), "no lamp makes white look like that"),
        (SEEN, inside(BLOWN), "100% of its pixels are clipped .*; point at a place less bright"),
        (SEEN, Box(150, 140, 1, 1), "it is 1 px across; mark 6 px across or more"),
        (BLACK, CLOTH, "the picture is black; take a frame with a picture in colour"),
    ],
)
@pytest.mark.parametrize("shape", SHAPES)
def test_what_is_no_white_is_refused_in_one_line(film: Film, shape: str, number: int, box: Box, told: str) -> None:
    with pytest.raises(FilmReviewError, match=f"this cannot be the reference: {told}") as refused:
        measure_on_film(film, film.moment_of(SEEN), CLOTH, Known(film.moment_of(number), shaped(shape, box), WHITE))
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize("shape", SHAPES)
def test_a_reference_without_a_pixel_is_refused(film: Film, shape: str) -> None:
    with pytest.raises(FilmReviewError, match="this cannot be the reference: it is 0 px across"):
        reference_from(film.frame(SEEN).exact_picture(), NO_PIXEL[shape], WHITE)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize(
    ("regions", "why"), [(NO_PIXEL, "0 px across, 8 are needed"), (ONE_PIXEL, "1 px across, 8 are needed")]
)
def test_a_number_too_small(film: Film, shape: str, regions: dict[str, Region], why: str) -> None:
    number = measure_number(film.frame(SEEN).exact_picture(), regions[shape])
    assert (number.contrast, number.facts(), number.why_not) == (None, (), why)
    jersey = measure_number(film.frame(SEEN).exact_picture(), CLOTH, None, regions[shape])
    assert jersey.why_not == f"the jersey is {why.split(',', maxsplit=1)[0]}, 6 are needed"


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("jersey", [None, Box(70, 70, 20, 20)])
def test_a_number_in_highlights_is_not_said_to_be_missing(film: Film, shape: str, jersey: Box | None) -> None:
    """Two things may both lie beyond what the film can show."""
    picture = film.frame(SEEN).exact_picture()
    found = measure_number(picture, shaped(shape, Box(48, 48, 20, 48)), None, jersey)
    assert found.contrast.answer is Answer.UNKNOWN
    assert "100% of the pixels are clipped" in found.contrast.reason
    assert (found.facts(), found.view.word) == ((), THIN)


def test_a_highlight_that_stands_out_does_stand_out(film: Film) -> None:
    """It is at least as light as it reads."""
    found = measure_number(film.frame(SEEN).exact_picture(), inside(BLOWN), None, CLOTH)
    assert found.contrast.answer is Answer.YES
    assert [fact.key for fact in found.facts()] == ["colour"]


@pytest.mark.parametrize("shape", SHAPES)
def test_a_number_that_is_the_jersey_is_no_fault(film: Film, shape: str) -> None:
    """Every pixel the same: nothing to part into number and jersey."""
    picture = film.frame(SEEN).exact_picture().copy()
    picture[CLOTH.y : CLOTH.bottom, CLOTH.x : CLOTH.right] = (0.2, 0.3, 0.7)
    found = measure_number(picture, shaped(shape, inside(CLOTH)), None, inside(CLOTH))
    assert (found.contrast.answer, found.contrast.lightness, found.view.word) == (Answer.NO, 0.0, GOOD)

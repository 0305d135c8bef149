"""Names: the palette, reading colours, name chances."""

import itertools

import numpy as np
import pytest

from filmreview.colour import palette
from filmreview.colour.difference import ciede2000
from filmreview.colour.palette import (
    CENTRES,
    PALETTE,
    colour_named,
    everyday_names,
    in_region,
    lab_of_code,
    measured,
    parse_colour,
)
from filmreview.colour.spaces import srgb_to_lab
from filmreview.errors import FilmReviewError

DEFAULT = np.diag([2.7**2, 2.7**2, 3.7**2])


def test_every_name_reads_back_and_lies_at_its_centre() -> None:
    assert len(PALETTE) == 20
    for name, code in CENTRES.items():
        colour = parse_colour(name)
        assert (colour.name, colour.lab) == (name, lab_of_code(code))
        assert not colour.measured
        assert everyday_names(np.array([colour.lab]))[0] == name


def test_no_two_centres_count_as_the_same() -> None:
    closest = min(float(ciede2000(a, b)) for a, b in itertools.combinations(PALETTE.values(), 2))
    assert closest > 10.0


def test_centroids_are_the_267_of_the_book_and_close_to_each_other() -> None:
    # NBS SP 440: 267 centroids. That every centroid has another within 10.1 is checked on the data itself.
    words, labs = palette._centroids()
    book = labs.labs[:267]
    assert len(set(map(tuple, book.round(6)))) == 267
    assert {list(PALETTE)[number] for number in words} == set(PALETTE)
    differences = ciede2000(book[:, None], book[None]) + np.eye(267) * 1e3
    assert differences.min(axis=1).max() == pytest.approx(10.1, abs=0.1)


@pytest.mark.parametrize(
    ("text", "name"),
    [("White", "white"), ("  light   GREY ", "light grey"), ("gray", "grey"), ("navy blue", "navy"), ("#FF8800", "#ff8800")],
)
def test_spellings_that_are_taken(text: str, name: str) -> None:
    assert parse_colour(text).name == name


@pytest.mark.parametrize(
    ("text", "nearest"),
    [
        ("whte", "white"),
        ("crimson", "red"),
        ("teel", "teal"),
        ("lightblue", "light blue"),
        ("graye", "grey"),
    ],
)
def test_an_unknown_colour_suggests_the_nearest(text: str, nearest: str) -> None:
    with pytest.raises(FilmReviewError, match=f'a.toml, colour: unknown colour "{text}"; the nearest is "{nearest}"'):
        parse_colour(text, "a.toml, colour")


@pytest.mark.parametrize("text", ["", "#12", "#12345g", "#1234567", "qqq"])
def test_what_is_no_colour_is_refused_in_one_line(text: str) -> None:
    with pytest.raises(FilmReviewError) as caught:
        parse_colour(text)
    assert "\n" not in str(caught.value)


def test_regions_follow_their_limits() -> None:
    # limits of white, black and beige: project default
    assert in_region("white", [[82, 0, 7.5], [81.9, 0, 0], [95, 5.4, 5.4]]).tolist() == [True, False, False]
    assert in_region("black", [[28, 9, 0], [28.1, 0, 0], [10, 0, 9.1]]).tolist() == [True, False, False]
    assert in_region("beige", [[55, -6, 8], [97, 9, 32], [54.9, 0, 20], [70, 9.1, 20], [70, 0, 7.9]]).tolist() == [
        True, True, False, False, False,
    ]  # fmt: skip


def test_names_of_a_measured_colour_are_chances() -> None:
    sure = measured(PALETTE["green"], DEFAULT)
    assert sure.name == "green"
    assert sure.names[0][1] > 0.95
    between = (np.array(PALETTE["gold"]) + np.array(PALETTE["yellow"])) / 2
    torn = measured(between, DEFAULT)
    chances = dict(torn.names)
    assert {"gold", "yellow"} <= set(chances)
    assert max(chances.values()) < 0.9
    assert 0.9 < sum(chances.values()) <= 1.0 + 1e-9


def test_same_measurement_same_chances() -> None:
    first = measured((60, 10, 20), DEFAULT)
    palette.name_chances.cache_clear()
    assert measured((60, 10, 20), DEFAULT) == first


def test_the_candidates_hold_the_nearest_centroid() -> None:
    points = palette._centroids()[1]
    labs = srgb_to_lab(np.random.default_rng(6).random((4000, 3)))
    truly = np.argmin(ciede2000(labs[:, None], points.labs[None]), axis=1)
    assert np.mean(points.nearest(labs) == truly) > 0.99


def test_a_name_not_on_the_palette() -> None:
    with pytest.raises(FilmReviewError):
        colour_named("#ff8800")

"""Which reference a region is measured against: of its own view, the nearest in the picture; all else is said."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import pytest

from filmreview.colour.palette import colour_named
from filmreview.colour.value import Colour
from filmreview.errors import FilmReviewError
from filmreview.facts.region import Box, Polygon, Region
from filmreview.film.film import open_film
from filmreview.film.moment import Moment
from filmreview.measure.camera_view import same_view
from filmreview.measure.nearest_reference import nearest_on_film, nearest_reference
from tests.measure.two_views import NEAR, OTHER_VIEW, SECOND_VIEW, picture_of, write_two_views

WHITE = colour_named("white")


@dataclass(frozen=True)
class White:
    name: str
    moment: Moment
    region: Region
    colour: Colour = WHITE


NOW = Moment(100, Fraction(1, 25))
ITEM = Box(300, 200, 20, 20)


def white(name: str, ticks: int, x: int, y: int = 200) -> White:
    return White(name, Moment(ticks, Fraction(1, 25)), Box(x, y, 20, 20))


def views(**of: bool | None) -> Callable[[White], bool | None]:
    """in_view by name, and a fault for one that must not be asked."""
    return lambda one: of[one.name]


def test_without_any_there_is_none() -> None:
    assert nearest_reference([], NOW, ITEM, views()) is None


def test_the_nearest_in_the_picture_of_those_in_view_whatever_its_time() -> None:
    near, far = white("near", 9000, 330), white("far", 101, 500)
    found = nearest_reference([far, near], NOW, ITEM, views(near=True))  # the far one need not be looked at
    assert (found.reference, found.elsewhere) == (near, False)


def test_one_of_another_view_is_passed_over_though_it_is_nearer() -> None:
    near, far = white("near", 101, 300), white("far", 9000, 600)
    found = nearest_reference([near, far], NOW, ITEM, views(near=False, far=True))
    assert (found.reference, found.elsewhere) == (far, False)


def test_the_same_frame_is_no_nearer_than_it_is() -> None:
    here, near = white("here", 100, 600), white("near", 9000, 330)
    assert nearest_reference([here, near], NOW, ITEM, views(here=True, near=True)).reference == near
    assert nearest_reference([here, near], NOW, ITEM, views(here=True, near=False)).reference == here


@pytest.mark.parametrize("turned", [False, True])
def test_of_equally_near_ones_the_nearer_in_time(turned: bool) -> None:
    left, right = white("left", 500, 260), white("right", 60, 340)
    both = [right, left] if turned else [left, right]
    assert nearest_reference(both, NOW, ITEM, views(left=True, right=True)).reference == right


def test_with_none_in_view_the_nearest_in_time_and_it_is_said() -> None:
    near, soon = white("near", 9000, 300), white("soon", 90, 600)
    found = nearest_reference([near, soon], NOW, ITEM, views(near=False, soon=False))
    assert (found.reference, found.elsewhere) == (soon, True)


def test_one_that_cannot_serve_is_taken_only_when_none_can() -> None:
    lost, other = white("lost", 99, 300), white("other", 9000, 600)
    assert nearest_reference([lost, other], NOW, ITEM, views(lost=None, other=False)).reference == other
    assert nearest_reference([lost], NOW, ITEM, views(lost=None)).reference == lost


def test_by_the_middle_of_any_region() -> None:
    corner = White("corner", NOW, Polygon(((300, 200), (340, 200), (300, 240))))
    other = white("other", 100, 350)
    assert nearest_reference([other, corner], NOW, ITEM, views(corner=True)).reference == corner
    with pytest.raises(FilmReviewError, match="three corners"):
        nearest_reference([other], NOW, Polygon(((1, 1), (2, 2))), views())


def test_on_a_film_of_two_views(tmp_path: Path) -> None:
    path = write_two_views(tmp_path / "two-views.mp4")
    with open_film(path) as film:
        whites = [White(name, film.moment_of(number), box) for name, (number, box) in {**NEAR, **OTHER_VIEW}.items()]
        here = nearest_on_film(film, whites, film.moment_of(12), Box(500, 180, 40, 40))
        there = nearest_on_film(film, whites[:2], film.moment_of(SECOND_VIEW + 4), Box(500, 180, 40, 40))
    assert (here.reference.name, here.elsewhere) == ("right", False)
    assert (there.reference.name, there.elsewhere) == ("right", True)  # the later of the two


def test_on_the_same_frame_of_a_film(tmp_path: Path) -> None:
    path = write_two_views(tmp_path / "two-views.mp4")
    with open_film(path) as film:
        moment = film.moment_of(2)
        here = White("here", moment, NEAR["left"][1])
        assert nearest_on_film(film, [here], moment, ITEM).elsewhere is False


@pytest.mark.parametrize("why", ["no such frame", "too small"])
def test_one_of_a_film_that_cannot_serve_is_passed_over(tmp_path: Path, why: str) -> None:
    path = write_two_views(tmp_path / "two-views.mp4")
    with open_film(path) as film:
        left = White("left", film.moment_of(2), NEAR["left"][1])
        if why == "too small":
            unfit = White("unfit", film.moment_of(10), Box(500, 180, 3, 3))
        else:
            unfit = White("unfit", Moment(7, Fraction(1, 1000003)), Box(500, 180, 40, 40))
        found = nearest_on_film(film, [unfit, left], film.moment_of(12), Box(500, 180, 40, 40))
    assert (found.reference, found.elsewhere) == (left, False)


def test_the_made_film_has_two_views() -> None:
    """What the tests above rest on."""
    assert same_view(picture_of(2), picture_of(12))
    assert not same_view(picture_of(2), picture_of(SECOND_VIEW + 2))

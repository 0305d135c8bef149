"""filmreview tag --measure by the whites kept in the review: the same choice as at the desk, and it is said."""

from pathlib import Path

import pytest

from filmreview.colour.palette import colour_named
from filmreview.facts.region import Box, Polygon, Region
from filmreview.film.film import open_film
from filmreview.measure.on_film import Known, measure_on_film
from filmreview.review import store
from filmreview.review.changes import SetReference
from filmreview.review.reading import read
from tests.commandline.conftest import Say
from tests.commandline.made_review import made_review
from tests.measure.two_views import ITEM, NEAR, OTHER_VIEW, write_two_views

WHOSE = ["--team", "visitor", "--player", "14", "--item", "arm sleeve"]
IN_FIRST, IN_SECOND = "0.16", "1.04"  # frames 4 and 26 of 25 a second
RIGHT = "measured against the white pointed at 0:00.400"


@pytest.fixture
def film(tmp_path: Path) -> Path:
    return write_two_views(tmp_path / "two-views.mp4")


@pytest.fixture
def views(say: Say, film: Path, tmp_path: Path) -> Path:
    """A review of the film of two views."""
    return made_review(say, film, tmp_path)


def point_at(path: Path, film: Path, **of: tuple[int, Region]) -> None:
    """What the desk keeps when a white is pointed at."""
    with store.open(path, "R. Valdrune") as opened, open_film(film) as there:
        for number, region in of.values():
            opened.apply(SetReference(opened.review.films[0].id, there.moment_of(number), region, colour_named("white")))


def colour_why(path: Path) -> str:
    """What the measured colour of the last tag was measured by."""
    return next(fact.why for fact in read(path).tags[-1].facts if fact.key == "colour")


def test_the_white_of_this_view_nearest_in_the_picture(say: Say, views: Path, film: Path) -> None:
    point_at(views, film, **NEAR, **OTHER_VIEW)
    answer = say("tag", views, *WHOSE, "--at", IN_FIRST, "--box", ITEM, "--measure")
    assert (answer.code, answer.told.strip()) == (0, RIGHT)
    with open_film(film) as there:
        number, box = NEAR["right"]
        known = Known(there.moment_of(number), box, colour_named("white"))
        measured, _ = measure_on_film(there, there.moment_of(4), ITEM, known)
    assert colour_why(views) == measured.why


def test_one_of_another_view_is_said(say: Say, views: Path, film: Path) -> None:
    point_at(views, film, **NEAR)
    answer = say("tag", views, *WHOSE, "--at", IN_SECOND, "--box", ITEM, "--measure")
    assert answer.told.strip() == f"{RIGHT}, in another view: better name one of this view with --white"
    assert "px, against a white in another view, view" in colour_why(views)


def test_a_white_given_comes_first_and_without_any_nothing_is_told(say: Say, views: Path, film: Path) -> None:
    assert say("tag", views, *WHOSE, "--at", IN_FIRST, "--box", ITEM, "--measure").told == ""
    assert "without a white" in colour_why(views)
    point_at(views, film, **NEAR)
    white = str(NEAR["right"][1])
    assert say("tag", views, *WHOSE, "--at", IN_FIRST, "--box", ITEM, "--measure", "--white", white).told == ""
    assert "px, against a white, view" in colour_why(views)


def test_nothing_is_looked_at_where_nothing_is_measured(say: Say, views: Path, film: Path) -> None:
    point_at(views, film, **NEAR)
    assert say("tag", views, *WHOSE, "--at", IN_FIRST, "--box", ITEM).told == ""


def test_a_number_by_the_same_choice(say: Say, views: Path, film: Path) -> None:
    point_at(views, film, **NEAR)
    number = ["--team", "visitor", "--player", "14", "--item", "number", "--box", "470,150,90,90", "--measure"]
    assert say("tag", views, *number, "--at", IN_FIRST).told.splitlines()[0] == RIGHT
    assert "in another view" in say("tag", views, *number, "--at", IN_SECOND).told


def test_a_white_of_another_shape_and_one_that_cannot_serve(say: Say, views: Path, film: Path) -> None:
    box = NEAR["right"][1]
    corners = ((box.x, box.y), (box.right, box.y), (box.right, box.bottom), (box.x, box.bottom))
    point_at(views, film, small=(6, Box(505, 185, 3, 3)))
    refused = say("tag", views, *WHOSE, "--at", IN_FIRST, "--box", ITEM, "--measure")
    assert refused.code == 2
    assert "this region cannot serve: it is 3 px across" in refused.told
    assert read(views).tags == ()
    point_at(views, film, cut=(10, Polygon(corners)))
    answer = say("tag", views, *WHOSE, "--at", IN_FIRST, "--box", ITEM, "--measure")
    assert (answer.code, answer.told.strip()) == (0, RIGHT), "one that cannot serve is passed over"


@pytest.mark.parametrize(
    ("option", "colour", "part"), [("--white", "", "  part white: "), ("--match", "=light grey", "  part known colour: ")]
)
def test_the_part_of_a_known_region_is_named_for_what_it_is(say: Say, film: Path, option: str, colour: str, part: str) -> None:
    lines = say("measure", film, "--at", IN_FIRST, "--box", ITEM, option, f"{NEAR['right'][1]}{colour}").out.splitlines()
    assert any(line.startswith(part) for line in lines), lines
    assert not any(line.startswith("  part reference") for line in lines)

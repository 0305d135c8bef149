"""Zoom, pan, regions: arithmetic without a widget. Checked with values worked out by hand and with made-up ones."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from filmreview.desktop.picture_region import Grip, box_between, dragged, grip_at, inside
from filmreview.desktop.picture_view import MOST, View
from filmreview.facts.region import Box

PICTURE = (1280, 720)
views = some.builds(
    lambda width, height, steps: _stepped(View().on_canvas(width, height).of_picture(*PICTURE), steps),
    some.integers(200, 3000),
    some.integers(150, 2000),
    some.lists(some.tuples(some.floats(0.2, 5), some.floats(-500, 2500), some.floats(-500, 2500)), max_size=4),
)
boxes = some.builds(
    lambda x, y, width, height: Box(x, y, min(width, PICTURE[0] - x), min(height, PICTURE[1] - y)),
    some.integers(0, PICTURE[0] - 1),
    some.integers(0, PICTURE[1] - 1),
    some.integers(1, 400),
    some.integers(1, 400),
)
EDGES = ((False, False), (True, False), (False, True))  # neither, the first, the second edge of a direction
grips = some.sampled_from([Grip(left, top, right, bottom) for left, right in EDGES for top, bottom in EDGES])


def _stepped(view: View, steps: list[tuple[float, float, float]]) -> View:
    for factor, x, y in steps:
        view = view.zoomed(factor, (x, y)).panned(x / 10, y / 10)
    return view


def test_a_fitted_picture_is_whole_and_in_the_middle() -> None:
    view = View().on_canvas(640, 640).of_picture(1280, 720)
    assert (view.scale, view.left, view.top) == (0.5, 0.0, 140.0)
    assert view.in_sight() == (0, 0, 1280, 720)


def test_a_fitted_picture_follows_the_canvas_a_zoomed_one_keeps_its_scale() -> None:
    view = View().on_canvas(640, 360).of_picture(1280, 720)
    assert view.on_canvas(1280, 720).scale == 1.0
    assert view.zoomed(2, (0, 0)).on_canvas(1280, 720).scale == 1.0
    assert view.zoomed(3, (0, 0)).on_canvas(1280, 720).scale == 1.5


def test_another_picture_of_the_same_size_keeps_the_view() -> None:
    view = View().on_canvas(640, 360).of_picture(1280, 720).zoomed(4, (100, 100))
    assert view.of_picture(1280, 720) == view
    assert view.of_picture(640, 360).fitted


@given(views, some.floats(1.01, 3), some.floats(0, 640), some.floats(0, 360))
def test_zooming_in_keeps_the_point_under_the_pointer(view: View, factor: float, x: float, y: float) -> None:
    near = view.zoomed(factor, (x, y))
    if near.scale < MOST and 0 <= view.to_picture((x, y))[0] <= 1280 and 0 <= view.to_picture((x, y))[1] <= 720:
        assert near.to_picture((x, y)) == pytest.approx(view.to_picture((x, y)), abs=1e-6)


@given(views)
def test_some_of_the_picture_always_stays_in_sight(view: View) -> None:
    left, top, right, bottom = view.in_sight()
    assert right > left
    assert bottom > top


@given(views, some.floats(0, 1280), some.floats(0, 720))
def test_canvas_and_picture_points_are_inverse(view: View, x: float, y: float) -> None:
    assert view.to_picture(view.to_canvas((x, y))) == pytest.approx((x, y), abs=1e-6)


def test_zooming_out_ends_at_the_whole_picture() -> None:
    view = View().on_canvas(640, 360).of_picture(1280, 720).zoomed(3, (20, 30))
    assert view.zoomed(0.01, (500, 20)) == view.fit()


@pytest.mark.parametrize(
    ("one", "other", "box"),
    [
        ((10.2, 20.7), (14.1, 22.0), Box(10, 20, 5, 2)),
        ((14.1, 22.0), (10.2, 20.7), Box(10, 20, 5, 2)),  # drawn from lower right to upper left
        ((-30.0, -5.0), (3.5, 2.5), Box(0, 0, 4, 3)),  # from outside the picture
        ((1279.5, 719.5), (1500.0, 900.0), Box(1279, 719, 1, 1)),
        ((-30.0, 5.0), (-3.5, 20.0), None),  # beside it
    ],
)
def test_a_drag_takes_every_pixel_it_touches(one: tuple[float, float], other: tuple[float, float], box: Box | None) -> None:
    assert box_between(one, other, PICTURE) == box


@given(boxes, grips, some.floats(-2000, 2000), some.floats(-2000, 2000))
def test_a_dragged_region_stays_a_region_of_the_picture(box: Box, grip: Grip, dx: float, dy: float) -> None:
    moved = dragged(box, grip, dx, dy, PICTURE)
    moved.check_inside(*PICTURE)
    assert moved.width >= 1
    assert moved.height >= 1
    if grip.whole:
        assert (moved.width, moved.height) == (box.width, box.height)
    if not grip.whole and not grip.left:
        assert moved.x == box.x
    if not grip.whole and not grip.bottom:
        assert moved.bottom == box.bottom


@pytest.mark.parametrize(
    ("point", "grip"),
    [
        ((150.0, 130.0), Grip()),
        ((100.0, 100.0), Grip(left=True, top=True)),
        ((201.0, 130.0), Grip(right=True)),
        ((150.0, 158.0), Grip(bottom=True)),
        ((196.0, 157.0), Grip(right=True, bottom=True)),
        ((90.0, 130.0), None),
    ],
)
def test_a_pointer_holds_the_edge_or_the_whole(point: tuple[float, float], grip: Grip | None) -> None:
    assert grip_at(Box(100, 100, 100, 60), point, reach=6.0) == grip


def test_a_small_region_can_still_be_moved_by_its_middle() -> None:
    assert grip_at(Box(100, 100, 4, 4), (102.0, 102.0), reach=6.0) == Grip()


def test_a_region_outside_the_picture_is_known() -> None:
    assert inside(Box(0, 0, 1280, 720), PICTURE)
    assert not inside(Box(1, 0, 1280, 720), PICTURE)


def test_a_view_like_another_shows_the_same_part_as_large() -> None:
    leader = View().on_canvas(800, 450).of_picture(*PICTURE).zoomed(3, (200, 100))
    follower = View().on_canvas(400, 300).of_picture(*PICTURE).like(leader)
    assert follower.scale == leader.scale
    assert follower.to_picture((200, 150)) == pytest.approx(leader.to_picture((400, 225)))


def test_a_view_of_a_picture_of_another_size_shows_the_same_share_of_it() -> None:
    leader = View().on_canvas(800, 450).of_picture(*PICTURE).zoomed(3, (200, 100))
    follower = View().on_canvas(800, 450).of_picture(640, 360).like(leader)
    assert follower.scale == pytest.approx(2 * leader.scale)
    x, y = leader.to_picture((400, 225))
    assert follower.to_picture((400, 225)) == pytest.approx((x / 2, y / 2))
    assert follower.like(leader.fit()) == follower.fit()

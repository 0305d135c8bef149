"""Parts of regions and the brush: arithmetic without a widget, checked by hand, by made-up regions and by the measured mask."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from filmreview.desktop.picture_region import Grip
from filmreview.desktop.region_brush import BRUSHES, Stroke, dab, next_brush
from filmreview.desktop.region_parts import (
    BRUSH,
    WHOLE,
    Kind,
    Part,
    contains,
    part_at,
    parts_of,
    polygon_of,
    with_corner,
    with_far_edges_moved,
    with_part_moved,
    without_corner,
)
from filmreview.facts.region import Box, Patch, Polygon
from filmreview.measure.shape import bounds_of, mask_of

PICTURE = (320, 180)
SQUARE = Polygon(((100.0, 50.0), (140.0, 50.0), (140.0, 90.0), (100.0, 90.0)))
places = some.tuples(some.floats(0, 320).map(lambda x: round(x, 1)), some.floats(0, 180).map(lambda y: round(y, 1)))
polygons = some.lists(places, min_size=3, max_size=7).map(tuple).map(polygon_of).filter(lambda made: made is not None)


def patch(*dabs: tuple[float, float], across: int = 12) -> Patch:
    made = None
    for at in dabs:
        made = dab(made, PICTURE, across, True, at)
    assert made is not None
    return made


def test_keys_hold_every_part_of_each_shape() -> None:
    box = [part.words for part in parts_of(Box(1, 2, 3, 4))]
    assert box == [
        "the whole region", "upper left corner", "upper edge", "upper right corner", "right edge", "lower right corner",
        "lower edge", "lower left corner", "left edge",
    ]  # fmt: skip
    assert [part.words for part in parts_of(SQUARE)] == ["the whole region", "corner 1", "corner 2", "corner 3", "corner 4"]
    assert parts_of(patch((50, 50))) == (WHOLE, BRUSH)


def test_a_pointer_holds_what_is_under_it() -> None:
    assert part_at(SQUARE, (101, 51), 3) == Part(Kind.CORNER, number=0)
    assert part_at(SQUARE, (120, 51), 3) == Part(Kind.NEW_CORNER, number=0)
    assert part_at(SQUARE, (100, 71), 3) == Part(Kind.NEW_CORNER, number=3)
    assert part_at(SQUARE, (120, 70), 3) == WHOLE
    assert part_at(SQUARE, (90, 70), 3) is None
    assert part_at(Box(10, 10, 40, 30), (11, 25), 3) == Part(Kind.EDGES, Grip(left=True))
    painted = patch((50, 50))
    assert part_at(painted, (44, 44), 3) == WHOLE
    assert part_at(painted, (50, 50), 3) is None, "the brush goes there"


def test_a_corner_moves_alone_and_stays_in_the_picture() -> None:
    moved = with_part_moved(SQUARE, Part(Kind.CORNER, number=1), 500, -3.25, PICTURE)
    assert moved == Polygon(((100.0, 50.0), (320.0, 46.8), (140.0, 90.0), (100.0, 90.0)))


def test_a_new_corner_is_pulled_out_of_a_side() -> None:
    pulled = with_part_moved(SQUARE, Part(Kind.NEW_CORNER, number=3), -20, 5, PICTURE)
    assert pulled == Polygon((*SQUARE.points, (80.0, 75.0)))


def test_corners_come_and_go_but_three_stay() -> None:
    more = with_corner(SQUARE, 0)
    assert more.points[1] == (120.0, 50.0)
    assert without_corner(more, 1) == SQUARE
    three = without_corner(SQUARE, 3)
    assert len(three.points) == 3
    assert without_corner(three, 0) == three


def test_far_edges_stretch_a_polygon_from_its_upper_left() -> None:
    wider = with_far_edges_moved(SQUARE, 20, 0, PICTURE)
    assert wider == Polygon(((100.0, 50.0), (160.0, 50.0), (160.0, 90.0), (100.0, 90.0)))
    assert with_far_edges_moved(patch((50, 50)), 5, 5, PICTURE) == patch((50, 50))


def test_clicks_that_hold_no_pixel_are_no_polygon() -> None:
    assert polygon_of(((10.0, 10.0), (50.0, 10.0))) is None
    assert polygon_of(((10.0, 10.0), (50.0, 10.0), (90.0, 10.0))) is None
    assert polygon_of(((10.0, 10.0), (10.0, 10.0), (50.0, 10.0), (50.0, 40.0))) is not None


@given(polygons, places)
def test_inside_is_what_is_measured(region: Polygon, place: tuple[float, float]) -> None:
    middle = (int(place[0]) + 0.5, int(place[1]) + 0.5)
    box, mask = mask_of(region, 320, 180)
    row, column = int(place[1]) - box.y, int(place[0]) - box.x
    measured = 0 <= row < mask.shape[0] and 0 <= column < mask.shape[1] and bool(mask[row, column])
    assert contains(region, middle) == measured


@given(polygons, some.integers(0, 6), some.floats(-400, 400), some.floats(-400, 400))
def test_no_move_makes_a_region_empty_or_leaves_the_picture(region: Polygon, number: int, dx: float, dy: float) -> None:
    for part in (WHOLE, Part(Kind.CORNER, number=number % len(region.points)), Part(Kind.NEW_CORNER, number=0)):
        moved = with_part_moved(region, part, dx, dy, PICTURE)
        assert mask_of(moved, 320, 180)[1].any()


def test_a_dab_paints_the_pixels_whose_middles_it_covers() -> None:
    # By hand: of a disc 4 px across on a corner of four pixels the middles within 2 px are those of a 4 x 4 block without
    # its corners, which lie 1.5 * sqrt(2) = 2.12 px away.
    made = dab(None, PICTURE, 4, True, (50.0, 50.0))
    assert made is not None
    assert made.box == Box(48, 48, 4, 4)
    assert mask_of(made, *PICTURE)[1].tolist() == [
        [False, True, True, False],
        [True] * 4,
        [True] * 4,
        [False, True, True, False],
    ]


def test_a_stroke_leaves_no_gap_between_two_places_of_the_pointer() -> None:
    stroke = Stroke(None, PICTURE, 6, add=True)
    stroke.to((20, 20))
    stroke.to((120, 90))
    assert stroke.patch is not None
    box, mask = mask_of(stroke.patch, *PICTURE)
    for share in np.linspace(0, 1, 60):
        x, y = 20 + share * 100, 20 + share * 70
        assert mask[min(int(y) - box.y, box.height - 1), min(int(x) - box.x, box.width - 1)]


def test_rubbing_out_takes_pixels_away_and_in_the_end_the_patch() -> None:
    painted = patch((50, 50), (70, 50))
    less = dab(painted, PICTURE, 24, False, (70, 50))
    assert less is not None
    assert mask_of(less, *PICTURE)[1].sum() < mask_of(painted, *PICTURE)[1].sum()
    assert dab(patch((50, 50)), PICTURE, 48, False, (50, 50)) is None


def test_painting_past_the_edge_stays_in_the_picture() -> None:
    painted = patch((0, 0), (320, 180), across=48)
    bounds_of(painted).check_inside(*PICTURE)
    with_part_moved(painted, WHOLE, 30, -30, PICTURE)


def test_the_brush_has_an_end_at_both_sides() -> None:
    assert next_brush(BRUSHES[-1], 1) == BRUSHES[-1]
    assert next_brush(BRUSHES[0], -1) == BRUSHES[0]
    assert next_brush(BRUSHES[1], 1) == BRUSHES[2]


@pytest.mark.parametrize("region", [Box(10, 10, 20, 20), SQUARE, patch((50, 50))])
def test_the_whole_moves_by_whole_pixels_up_to_the_edge(region: Box | Polygon | Patch) -> None:
    before = bounds_of(region)
    after = bounds_of(with_part_moved(region, WHOLE, 7.4, -1000, PICTURE))
    assert (after.x, after.y, after.width, after.height) == (before.x + 7, 0, before.width, before.height)

"""Court points, homography, distances on the floor."""

import math

import cv2
import numpy as np
import pytest

from filmreview.errors import FilmReviewError
from filmreview.measure.courts import COURTS, court, court_of, court_point, of_any_size
from filmreview.measure.ends import Ends
from filmreview.measure.floor import Floor, floor_from

FOUR = ("left lane at end line, near", "left lane at end line, far", "division line at near side", "division line at far side")


def _camera(point: tuple[float, float], height: float = 18.0, back: float = 40.0, focal: float = 900.0) -> tuple[float, float]:
    """A pinhole camera in the stands at mid court, looking down at the floor. Feet to pixels."""
    tilt = math.radians(22)
    x, y = point[0] - 42.0, point[1] + back
    depth = y * math.cos(tilt) + height * math.sin(tilt)
    up = y * math.sin(tilt) - height * math.cos(tilt)
    return (640 + focal * x / depth, 360 - focal * up / depth)


def _floor(names: tuple[str, ...] = FOUR, noise: np.ndarray | None = None, name: str = "school") -> Floor:
    clicks = {}
    for number, point in enumerate(names):
        shift = (0.0, 0.0) if noise is None else noise[number]
        x, y = _camera(court_point(name, point))
        clicks[point] = (x + shift[0], y + shift[1])
    return floor_from(name, clicks)


def test_courts_have_the_published_sizes() -> None:
    # school 84 x 50 ft (ideal), college 94 x 50 ft, FIBA 28 x 15 m; lane 12 ft or 4.90 m; free-throw line 19 ft or 5.80 m.
    assert court_point("school", "right far corner") == (84.0, 50.0)
    assert court_point("college", "right far corner") == (94.0, 50.0)
    assert court_point("fiba", "right far corner") == pytest.approx((28 / 0.3048, 15 / 0.3048))
    for name, lane, line in (("school", 12.0, 19.0), ("college", 12.0, 19.0), ("fiba", 4.9 / 0.3048, 5.8 / 0.3048)):
        near, far = (court_point(name, f"left lane at free-throw line, {side}") for side in ("near", "far"))
        assert far[1] - near[1] == pytest.approx(lane)
        assert near[0] == pytest.approx(line)
        assert court_point(name, "right lane at free-throw line, far")[0] == pytest.approx(
            court(name)["right far corner"][0] - line
        )
    assert set(COURTS["school"]) == set(COURTS["college"]) == set(COURTS["fiba"])


def test_places_come_back_exactly_without_click_errors() -> None:
    floor = _floor()
    for place in ((19.0, 31.0), (5.0, 3.0), (60.0, 45.0)):
        assert floor.place(_camera(place)) == pytest.approx(place, abs=1e-6)
    assert floor.distance(_camera((19.0, 19.0)), _camera((19.0, 31.0))).value == pytest.approx(12.0)


def test_homography_agrees_with_opencv() -> None:
    floor = _floor()
    theirs, _ = cv2.findHomography(floor.pixels, floor.feet)
    assert floor.matrix / floor.matrix[2, 2] == pytest.approx(theirs, rel=1e-4, abs=1e-6)


def test_distance_uncertainty_covers_click_errors() -> None:
    draw = np.random.default_rng(11)
    ends = (_camera((15.0, 20.0)), _camera((27.0, 33.0)))
    true = math.hypot(12.0, 13.0)
    inside = 0
    for _ in range(160):
        floor = _floor(noise=draw.uniform(-1, 1, (4, 2)))
        clicks = [tuple(np.array(end) + draw.uniform(-1, 1, 2)) for end in ends]
        found = floor.distance(clicks[0], clicks[1])
        inside += abs(found.value - true) <= 1.96 * found.plus_minus
    assert 0.92 <= inside / 160 <= 0.99  # 160 looks: standard error 1.6 %


def test_more_points_make_it_surer() -> None:
    more = (*FOUR, "left near corner", "left far corner", "right lane at end line, near", "right lane at end line, far")
    ends = (_camera((15.0, 20.0)), _camera((27.0, 33.0)))
    assert _floor(more).distance(*ends).plus_minus < _floor().distance(*ends).plus_minus


def test_what_cannot_be_a_floor() -> None:
    with pytest.raises(FilmReviewError, match="3 court points are given; click four or more"):
        _floor(FOUR[:3])
    with pytest.raises(FilmReviewError, match="lie on one line"):
        _floor(("left near corner", "left far corner", "left lane at end line, near", "division line at near side"))
    with pytest.raises(FilmReviewError, match='unknown court point "left near corners"; write "left near corner"'):
        floor_from("school", dict.fromkeys(("left near corners", "b", "c", "d"), (0.0, 0.0)))
    with pytest.raises(FilmReviewError, match="unknown court"):
        court("street")


LANE = (
    "left lane at end line, near",
    "left lane at end line, far",
    "left lane at free-throw line, near",
    "left lane at free-throw line, far",
)


def test_a_length_in_inches_with_its_parts() -> None:
    ends = Ends(_camera((19.0, 19.0)), _camera((19.0, 31.0)))
    length = _floor().length(ends)
    assert length.inches == pytest.approx(144.0)
    assert set(length.parts) == {"court points' clicks", "item's ends"}
    assert length.plus_minus == pytest.approx(length.inches * math.hypot(*length.parts.values()))
    assert length.against == "the floor of a school court"
    feet = _floor().distance(ends.first, ends.second)
    assert (12 * feet.value, 12 * feet.plus_minus) == (pytest.approx(length.inches), pytest.approx(length.plus_minus))


def test_draws_of_a_distance_agree_with_first_order() -> None:
    ends = Ends(_camera((15.0, 20.0)), _camera((27.0, 33.0)))
    floor = _floor()
    draws, length = floor.drawn_length(ends), floor.length(ends)
    assert draws.mean() == pytest.approx(length.inches, abs=0.2 * length.plus_minus)
    assert draws.std() == pytest.approx(length.plus_minus, rel=0.08)


def test_points_above_the_horizon_are_no_floor() -> None:
    # the camera looks down by 22 degrees with a focal length of 900 px: its horizon lies 900 tan 22 = 364 px above the middle
    floor = _floor()
    assert floor.place((640.0, 0.0))[1] > 50.0
    with pytest.raises(FilmReviewError, match="the point 640,-10 lies above the floor's horizon"):
        floor.place((640.0, -10.0))
    with pytest.raises(FilmReviewError, match="lies above the floor's horizon"):
        floor.length(Ends((640.0, 200.0), (640.0, -10.0)))


def test_places_that_the_points_do_not_fix_are_no_length() -> None:
    near_horizon = Ends((640.0, 3.0), (660.0, 3.0))
    length = _floor().length(near_horizon)
    assert length.why_not.startswith("the court points leave ±")
    assert length.fact("width_in") is None


@pytest.mark.parametrize("swap", [("near", "far"), ("far", "near")])
def test_points_with_each_others_names(swap: tuple[str, str]) -> None:
    pixels = [_camera(court_point("school", name)) for name in LANE]
    mirrored = {
        name.replace("near", "x").replace("far", "near").replace("x", "far"): at for name, at in zip(LANE, pixels, strict=True)
    }
    with pytest.raises(FilmReviewError, match="do not lie as on a floor; left and right, near and far"):
        floor_from("school", mirrored)
    one, two = (f"left lane at end line, {side}" for side in swap)
    crossed = dict(zip(LANE, pixels, strict=True))
    crossed[one], crossed[two] = crossed[two], crossed[one]
    with pytest.raises(FilmReviewError, match="do not lie as on a floor"):
        floor_from("school", crossed)


def test_more_than_four_points_tell_whether_they_fit() -> None:
    more = (*FOUR, "left lane at free-throw line, near", "left lane at free-throw line, far")
    assert _floor().misfit == pytest.approx(0.0, abs=1e-6)
    assert _floor(more).misfit == pytest.approx(0.0, abs=1e-6)
    clicks = {point: _camera(court_point("school", point)) for point in more}
    assert floor_from("college", clicks).misfit > 5.0  # another court than the one on the film


def test_courts_of_books_and_what_a_size_rests_on() -> None:
    assert [court_of(book) for book in ("nfhs", "ncaa-men", "fiba", "ours", None)] == [
        "school",
        "college",
        "fiba",
        "school",
        "school",
    ]
    assert of_any_size("school", FOUR)
    assert not of_any_size("college", FOUR)
    assert not of_any_size("school", LANE)
    assert of_any_size("school", (*LANE[:2], "right lane at end line, near", "right lane at end line, far"))

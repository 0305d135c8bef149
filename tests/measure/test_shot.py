"""Following a region over the frames around a moment, and taking the sharpest."""

from dataclasses import dataclass

import cv2
import numpy as np
import pytest

from filmreview.colour.difference import ciede2000
from filmreview.colour.palette import PALETTE
from filmreview.colour.spaces import lab_to_srgb
from filmreview.facts.region import Box, Polygon
from filmreview.measure.shape import moved
from filmreview.measure.shot import blur_at, follow, measure_shot
from filmreview.measure.view import Blur

MOTION = (5, -2)
START = Box(120, 80, 40, 30)


@dataclass
class Drawn:
    values: np.ndarray
    exact_asked: int = 0

    def picture(self) -> np.ndarray:
        return np.rint(self.values * 255).astype(np.uint8)

    def exact_picture(self) -> np.ndarray:
        self.exact_asked += 1
        return self.values.astype(np.float32)


def _frames(blurs: list[float], jump: bool = False) -> list[Drawn]:
    """A red patterned thing that moves 5 px right and 2 up from frame to frame before a still crowd; START is frame 2."""
    draw = np.random.default_rng(1)
    crowd = cv2.resize(draw.uniform(0.2, 0.7, (24, 40, 3)), (400, 240), interpolation=cv2.INTER_CUBIC)
    red = np.clip(lab_to_srgb(PALETTE["red"]), 0, 1) * draw.uniform(0.85, 1.0, (8, 10, 1)).repeat(5, axis=0).repeat(5, axis=1)
    frames = []
    for number, blur in enumerate(blurs):
        values = crowd.copy()
        x, y = START.x - 5 + (number - 2) * MOTION[0], START.y - 5 + (number - 2) * MOTION[1]
        if not (jump and number > 2):
            values[y : y + 40, x : x + 50] = red
        values = cv2.GaussianBlur(values, (0, 0), blur) if blur else values
        frames.append(Drawn(np.clip(values + draw.normal(0, 0.008, values.shape), 0, 1)))
    return frames


def test_the_region_is_followed_by_its_motion() -> None:
    found = {one.number: one for one in follow([frame.picture() for frame in _frames([0.8] * 5)], 2, START)}
    assert sorted(found) == [0, 1, 2, 3, 4]
    for number, one in found.items():
        assert one.region == Box(START.x + (number - 2) * MOTION[0], START.y + (number - 2) * MOTION[1], 40, 30)
        assert one.alike > 0.9


def test_it_is_given_up_at_a_cut() -> None:
    found = follow([frame.picture() for frame in _frames([0.8] * 5, jump=True)], 2, START)
    assert sorted(one.number for one in found) == [0, 1, 2]


def test_the_sharpest_frame_is_measured_and_only_it_exactly() -> None:
    frames = _frames([2.0, 2.0, 2.0, 0.6, 2.0])
    shot = measure_shot(frames, 2, START)
    assert (shot.number, shot.frames) == (3, 5)
    assert isinstance(shot.region, Box)
    assert (abs(shot.region.x - START.x - 5), abs(shot.region.y - START.y + 2)) <= (1, 1)
    assert [frame.exact_asked for frame in frames] == [0, 0, 0, 1, 0]
    assert shot.measured.colour is not None
    assert shot.measured.colour.name == "red"


def test_motion_blur_is_half_of_what_the_region_moves() -> None:
    """A shutter open for half the frame time: common practice."""
    view = measure_shot(_frames([0.8] * 3), 1, moved(START, -MOTION[0], -MOTION[1])).measured.view
    assert dict(view.figures)["blur px"] == pytest.approx(0.5 * np.hypot(*MOTION))
    pictures = [frame.picture() for frame in _frames([0.8] * 5)]
    blur = blur_at(follow(pictures, 2, START), 2)
    assert blur is not None
    assert blur.share == pytest.approx(0.5 * max(5 / START.width, 2 / START.height))


def test_a_frame_by_itself_tells_no_motion_blur() -> None:
    (alone,) = _frames([0.8] * 5)[2:3]
    assert "blur px" not in dict(measure_shot([alone], 0, START).measured.view.figures)
    given = measure_shot([alone], 0, START, blur=Blur(21.0, 0.6)).measured
    assert (given.colour, given.why_not) == (None, "motion blur 21 px")


def test_a_little_sharper_is_not_worth_another_frame() -> None:
    assert measure_shot(_frames([1.0] * 5), 2, START).number == 2


def test_more_frames_never_make_it_surer() -> None:
    frames = _frames([0.8] * 5)
    one, five = measure_shot(frames[2:3], 0, START), measure_shot(frames, 2, START)
    assert one.measured.colour is not None
    assert five.measured.colour is not None
    assert [part.name for part in one.measured.parts] == ["light", "edge", "coding", "pixels"]
    assert "frames" in [part.name for part in five.measured.parts]
    assert np.all(np.diag(five.measured.colour.covariance) >= np.diag(one.measured.colour.covariance) - 1e-6)
    assert float(ciede2000(one.measured.colour.lab, five.measured.colour.lab)) < 0.5


@pytest.mark.parametrize(
    "region", [Box(0, 0, 30, 30), Polygon(((0, 0), (30, 0), (30, 30))), Box(370, 210, 30, 30), Box(9, 9, 1, 1)]
)
def test_regions_at_the_edge_and_of_a_pixel(region: Box | Polygon) -> None:
    shot = measure_shot(_frames([0.8] * 3), 1, region)
    assert shot.frames >= 1
    assert (shot.measured.colour is None) == (region == Box(9, 9, 1, 1))

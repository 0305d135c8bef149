"""Figures by hand: lengths by a known thing and by the floor, seen by a pinhole camera in a made hall, clicked by a made hand.
How often the 95 % interval holds the truth, how often a limit is wrongly called. Run: pytest -s tests/bench/test_size_bench.py

The camera, the hall and the hand are made here from geometry alone: things stand in three dimensions, the camera looks at them
from anywhere in the stands, and each click is off in both directions of the picture. Nothing of `measure.size` makes them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
import pytest

from filmreview.errors import FilmReviewError
from filmreview.facts.fact import Amount
from filmreview.measure.courts import COURTS
from filmreview.measure.decision import Answer, answer
from filmreview.measure.ends import Ends
from filmreview.measure.floor import floor_from
from filmreview.measure.known import KNOWN
from filmreview.measure.length import ByFloor, ByKnown, see_length

LOOKS = 12_000
FLOOR_LOOKS = 1200
WIDTH, HEIGHT = 1280, 720
LEAN = 15.0
Hand = Callable[[np.random.Generator], np.ndarray]
HANDS: dict[str, Hand] = {
    "anywhere within a pixel": lambda draw: draw.uniform(-1, 1, 2),
    "normal, sd 0.58 px": lambda draw: draw.normal(0, 3**-0.5, 2),
}


@dataclass(frozen=True)
class Camera:
    """A pinhole camera. at: its place in feet. axes: right, down and forward, rows. focal: px."""

    at: np.ndarray
    axes: np.ndarray
    focal: float

    def pixel(self, point: np.ndarray) -> np.ndarray | None:
        right, down, forward = self.axes @ (point - self.at)
        if forward < 1.0:
            return None
        seen = np.array([WIDTH / 2 + self.focal * right / forward, HEIGHT / 2 + self.focal * down / forward])
        return seen if 0 <= seen[0] <= WIDTH and 0 <= seen[1] <= HEIGHT else None


def looking(at: np.ndarray, target: np.ndarray, focal: float) -> Camera:
    forward = (target - at) / np.linalg.norm(target - at)
    right = np.cross(forward, [0.0, 0.0, 1.0])
    right /= np.linalg.norm(right)
    return Camera(at, np.array([right, np.cross(forward, right), forward]), focal)


def facing(camera: Camera, middle: np.ndarray, inches: float, turn: float, lean: float) -> tuple[np.ndarray, np.ndarray]:
    """Both ends of a thing around a point: in the plane across the line of sight, turned in it, leaning out of it (degrees)."""
    sight = (middle - camera.at) / np.linalg.norm(middle - camera.at)
    side = np.cross(sight, [0.0, 0.0, 1.0])
    side /= np.linalg.norm(side)
    across = np.cos(turn) * side + np.sin(turn) * np.cross(side, sight)
    half = inches / 24 * (np.cos(np.radians(lean)) * across + np.sin(np.radians(lean)) * sight)
    return middle - half, middle + half


def clicked(camera: Camera, ends: tuple[np.ndarray, np.ndarray], hand: Hand, draw: np.random.Generator) -> Ends | None:
    seen = [camera.pixel(end) for end in ends]
    if seen[0] is None or seen[1] is None:
        return None
    one, two = (at + hand(draw) for at in seen if at is not None)
    return Ends((float(one[0]), float(one[1])), (float(two[0]), float(two[1])))


def by_known(hand: Hand, seed: int) -> Iterator[tuple[float, Amount, int]]:
    """True inches, what was measured, and px of the shorter of item and known thing."""
    draw = np.random.default_rng(seed)
    things = [thing for thing in KNOWN.values() if not thing.assumed and thing.middle < 40]
    for _ in range(LOOKS):
        target = np.array([draw.uniform(5, 79), draw.uniform(5, 45), draw.uniform(2, 9)])
        camera = looking(
            np.array([draw.uniform(0, 84), draw.uniform(-50, -8), draw.uniform(5, 25)]), target, draw.uniform(900, 7000)
        )
        away = np.linalg.norm(target - camera.at)
        apart, true = draw.uniform(0.0, 0.07), draw.uniform(1.5, 14)
        thing = things[draw.integers(len(things))]
        size = draw.uniform(thing.low, thing.high)
        beside = target + draw.uniform(-1.5, 1.5) * camera.axes[0] + draw.uniform(-apart, apart) * away * camera.axes[2]
        item = clicked(camera, facing(camera, target, true, draw.uniform(0, np.pi), draw.uniform(0, LEAN)), hand, draw)
        known = clicked(camera, facing(camera, beside, size, draw.uniform(0, np.pi), 0.0), hand, draw)
        if item is None or known is None:
            continue
        length = see_length(item, ByKnown(thing, known, apart, LEAN), 0.0).length
        if not length.why_not:
            yield true, length.amount, int(min(item.pixels, known.pixels))


def by_floor(hand: Hand, seed: int) -> Iterator[tuple[float, Amount, int]]:
    """The same for two points of the floor; court points four to six of those in sight."""
    draw = np.random.default_rng(seed)
    for _ in range(FLOOR_LOOKS):
        court = list(COURTS)[draw.integers(3)]
        target = np.array([draw.uniform(10, 75), draw.uniform(10, 40), 0.0])
        camera = looking(
            np.array([draw.uniform(0, 84), draw.uniform(-50, -8), draw.uniform(8, 25)]), target, draw.uniform(600, 2000)
        )
        in_sight = {
            name: at for name, (x, y) in COURTS[court].items() if (at := camera.pixel(np.array([x, y, 0.0]))) is not None
        }
        ends = (target + np.append(draw.uniform(-8, 8, 2), 0.0), target + np.append(draw.uniform(-8, 8, 2), 0.0))
        item = clicked(camera, ends, hand, draw)
        if item is None or len(in_sight) < 4:
            continue
        chosen = draw.permutation(list(in_sight))[: draw.integers(4, 7)]
        clicks = {str(name): tuple(map(float, in_sight[str(name)] + hand(draw))) for name in chosen}
        try:
            length = see_length(item, ByFloor(floor_from(court, clicks), tuple(clicks)), 0.0).length
        except FilmReviewError:
            continue
        if not length.why_not:
            yield float(12 * np.linalg.norm(ends[1] - ends[0])), length.amount, int(item.pixels)


def figures(name: str, looks: list[tuple[float, Amount, int]]) -> tuple[float, float]:
    """Prints coverage by size in the picture and wrong calls of limits; returns both over all."""
    draw = np.random.default_rng(9)
    inside = np.array([abs(true - amount.value) <= 1.96 * amount.plus_minus for true, amount, _ in looks])
    px = np.array([pixels for _, _, pixels in looks])
    wrong = told = 0
    for true, amount, _ in looks:
        limit = true * draw.uniform(0.6, 1.6)
        word = answer(amount.chance_at_most(limit))
        told += word is not Answer.UNKNOWN
        wrong += word is (Answer.NO if true <= limit else Answer.YES)
    parts = []
    for low, high in ((5, 10), (10, 20), (20, 40), (40, 2000)):
        among = (px >= low) & (px < high)
        if among.sum() > 50:
            parts.append(f"{low}-{high} px {inside[among].mean():.1%}")
    print(f"\n{name}: {len(looks)} looks, 95 % interval holds {inside.mean():.1%} ({', '.join(parts)})")
    print(f"  limits 0.6 to 1.6 of the truth: wrong calls {wrong / len(looks):.2%}, called {told / len(looks):.0%}")
    return float(inside.mean()), wrong / len(looks)


@pytest.mark.parametrize("hand", list(HANDS))
def test_lengths_by_a_known_thing(hand: str) -> None:
    held, wrong = figures(f"by a known thing, clicks {hand}", list(by_known(HANDS[hand], 1)))
    assert 0.93 <= held <= 0.97
    assert wrong < 0.05


@pytest.mark.parametrize("hand", list(HANDS))
def test_lengths_on_the_floor(hand: str) -> None:
    held, wrong = figures(f"on the floor, clicks {hand}", list(by_floor(HANDS[hand], 2)))
    assert 0.93 <= held <= 0.97
    assert wrong < 0.05

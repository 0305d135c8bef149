"""A white is a reference for the view it stands in; from another one it is worth less."""

from fractions import Fraction
from pathlib import Path

import cv2
import numpy as np
import pytest

from filmreview.colour.palette import parse_colour
from filmreview.facts.region import Box
from filmreview.film.film import open_film
from filmreview.film.writing import FilmWriter, Writing
from filmreview.measure.camera_view import same_view, seen_from
from filmreview.measure.colour import measure_colour
from filmreview.measure.on_film import measure_on_film, white_at
from filmreview.measure.reference import Reference


def _view(seed: int, pan: int = 0, players: int = 0) -> np.ndarray:
    """A hall of its own, panned by px, with players that stand elsewhere each time. uint8 (360, 640, 3)."""
    hall = cv2.resize(np.random.default_rng(seed).uniform(40, 200, (9, 20, 3)), (800, 360), interpolation=cv2.INTER_CUBIC)
    picture = np.clip(hall[:, 80 + pan : 720 + pan], 0, 255).astype(np.uint8)
    draw = np.random.default_rng(players)
    for _ in range(8):
        x, y = int(draw.integers(0, 600)), int(draw.integers(0, 280))
        picture[y : y + 70, x : x + 30] = draw.integers(0, 255, 3)
    return picture


@pytest.mark.parametrize(("pan", "players"), [(0, 0), (0, 1), (40, 2), (-75, 3)])
def test_moving_players_and_a_slow_pan_are_one_view(pan: int, players: int) -> None:
    assert same_view(_view(1), _view(1, pan, players))


@pytest.mark.parametrize("seed", range(2, 10))
def test_another_hall_is_another_view(seed: int) -> None:
    assert not same_view(_view(1), _view(seed, players=seed))


def test_pictures_of_another_size_are_another_view() -> None:
    assert not same_view(_view(1), _view(1)[:300])


def test_flat_pictures_do_not_fail() -> None:
    assert same_view(np.zeros((360, 640, 3), dtype=np.uint8), np.zeros((360, 640, 3), dtype=np.uint8))


def test_a_white_of_another_view_is_worth_less() -> None:
    reference = Reference(Box(300, 100, 20, 20), parse_colour("white"), (1.4, 1.3, 1.5), 0.01)
    picture = _view(1).astype(np.float32) / 255
    here, there = (seen_from(reference, _view(seed), _view(1, players=4)) for seed in (1, 5))
    assert (here.elsewhere, there.elsewhere) == (False, True)
    spreads = [
        np.trace(np.array(measure_colour(picture, Box(200, 100, 30, 30), one).parts[0].covariance)) for one in (here, there)
    ]
    assert spreads[1] > 1.5 * spreads[0]


def test_on_a_film_with_a_cut(tmp_path: Path) -> None:
    def with_white(seed: int) -> np.ndarray:
        picture = _view(seed)
        picture[100:160, 100:160] = (190, 180, 165)
        return picture

    path = tmp_path / "cut.mp4"
    with FilmWriter(path, Writing(640, 360, Fraction(25))) as writer:
        for number in range(20):
            writer.add_picture(with_white(1 if number < 10 else 5))
    with open_film(path) as film:
        white = white_at(film.moment_of(3), Box(100, 100, 60, 60))
        found = [measure_on_film(film, film.moment_of(number), Box(300, 200, 40, 40), white)[0] for number in (5, 15)]
    assert "a white in another view" in found[1].why
    assert "white in another view" not in found[0].why

"""Whether the 95 % of a measured colour hold: many garments under light, cloth and camera errors of known size, no film coding.

The big figures, on H.264 films of two kinds of made gyms, are printed by tests/bench/test_gym_bench.py.
"""

from functools import cache

import numpy as np
import pytest

from filmreview.colour.palette import CENTRES, lab_of_code, parse_colour
from filmreview.colour.spaces import lab_to_linear, linear_to_srgb, srgb_to_lab
from filmreview.facts.region import Box
from filmreview.measure.colour import MeasuredColour, measure_colour
from filmreview.measure.reference import reference_from

SIDE, GAP, ACROSS, DOWN, SCENES = 22, 6, 10, 5, 7
WHITE = Box(GAP, GAP, SIDE, SIDE)
ROUGH = 2.0
INSIDE = 7.815
"""Chi-squared of three degrees of freedom, 95 % (table value)."""


def _scene(seed: int, hard: float) -> tuple[np.ndarray, list[tuple[str, Box, np.ndarray]]]:
    """A picture of 49 garments and a white one, each shaded by itself, and what they truly are. hard: scales all errors."""
    draw = np.random.default_rng([11, seed])
    step = SIDE + GAP
    linear = np.full((DOWN * step + GAP, ACROSS * step + GAP, 3), 0.18)
    truths = []
    for number in range(ACROSS * DOWN):
        box = Box(GAP + number % ACROSS * step, GAP + number // ACROSS * step, SIDE, SIDE)
        name = "white" if number == 0 else str(draw.choice(list(CENTRES)))
        cloth = np.clip(lab_to_linear(np.array(lab_of_code(CENTRES[name])) + draw.normal(0, 2.0, 3)), 0.004, 0.95)
        if number:
            truths.append((name, box, srgb_to_lab(linear_to_srgb(cloth))))
        across = np.linspace(-1, 1, SIDE)[None, :, None]
        shade = 1 - draw.uniform(0.15, 0.4) * (across - draw.uniform(-0.4, 0.4)) ** 2
        lit = cloth * shade * np.exp(hard * draw.normal(0, 0.08))
        linear[box.y : box.bottom, box.x : box.right] = lit * np.exp(hard * draw.normal(0, 0.02, 3) * (number > 0))
    warm = draw.uniform(0.0, 0.3)
    lamp = 0.65 * np.exp([0.4 * warm, 0.0, -warm])
    place = np.linspace(-1, 1, linear.shape[1])[None, :, None]
    seen = linear * lamp * np.exp(hard * draw.normal(0, 0.05) * place)
    grey = seen @ np.array([0.2126, 0.7152, 0.0722])
    seen = np.maximum(grey[..., None] + (1 + hard * draw.normal(0, 0.06)) * (seen - grey[..., None]), 0)
    seen = seen ** (1 + hard * draw.normal(0, 0.03)) + hard * draw.uniform(0, 0.006)
    noisy = linear_to_srgb(np.clip(seen, 0, 1)) + draw.normal(0, 0.012, seen.shape)
    return np.rint(255 * np.clip(noisy, 0, 1)).astype(np.float32) / 255, truths


@cache
def _errors(reference: bool, hard: float = ROUGH) -> list[tuple[str, np.ndarray, np.ndarray]]:
    """Name, error of L*a*b* and covariance of every garment of the scenes."""
    found = []
    for seed in range(SCENES):
        picture, truths = _scene(seed, hard)
        white = reference_from(picture, WHITE, parse_colour("white")) if reference else None
        for name, box, truth in truths:
            measured: MeasuredColour = measure_colour(picture, box, white)
            if measured.colour is not None:  # else the film is too bright there, and says so
                found.append((name, np.array(measured.colour.lab) - truth, np.array(measured.colour.covariance)))
    assert len(found) > 0.9 * SCENES * (ACROSS * DOWN - 1)
    return found


def _held(found: list[tuple[str, np.ndarray, np.ndarray]]) -> float:
    return float(np.mean([error @ np.linalg.solve(spread, error) < INSIDE for _, error, spread in found]))


GROUPS = {
    "dark": ("black", "navy", "maroon", "dark green", "brown", "dark grey"),
    "pale": ("white", "light grey", "grey", "beige", "light blue", "pink"),
    "vivid": ("red", "orange", "gold", "yellow", "green", "royal blue", "purple", "teal"),
}


@pytest.mark.parametrize("group", GROUPS)
def test_the_truth_lies_inside_whatever_the_colour(group: str) -> None:
    # About 100 garments a group or more: the standard error of a share of 95 % is 2 points.
    cell = [one for one in _errors(True) if one[0] in GROUPS[group]]
    assert len(cell) >= 90
    assert _held(cell) >= 0.91


def test_the_ellipsoid_is_no_wider_than_it_must_be() -> None:
    """The errors are about as large as they are said to be: their mean square is 3 degrees of freedom when all is right."""
    squares = [float(error @ np.linalg.solve(spread, error)) for _, error, spread in _errors(True)]
    assert 0.90 <= _held(_errors(True)) <= 0.99
    assert 1.5 <= float(np.mean(squares)) <= 3.6


def test_worse_halls_and_cameras_than_it_was_made_for_show() -> None:
    """Nothing in this test may pass by the ellipsoid being boundless: with all errors doubled the truth is outside often."""
    assert _held(_errors(True, 2 * ROUGH)) < 0.75


def test_without_a_reference_the_truth_lies_inside_too() -> None:
    assert _held(_errors(False)) >= 0.90
    with_one, without = (
        np.mean([np.sqrt(np.trace(spread)) for _, _, spread in _errors(reference)]) for reference in (True, False)
    )
    assert without > 1.2 * with_one

"""CIEDE2000 against the published pairs and two reference libraries."""

import warnings
from pathlib import Path

import numpy as np
import pytest
from skimage.color import deltaE_ciede2000

from filmreview.colour.difference import ciede2000

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it warns of a plotting library that is not installed
    import colour

# Sharma, Wu, Dalal, Color Res. Appl. 30 (2005) 21-30, table 1: 34 pairs printed to four decimals.
PAIRS = np.loadtxt(
    Path(__file__).parents[2] / "fixtures/measure/ciede2000-sharma-2005.csv", delimiter=",", skiprows=1, dtype=np.float64
)


def test_all_34_pairs_are_there() -> None:
    assert PAIRS[:, 0].tolist() == list(range(1, 35))
    # Pair 14 is the one that some libraries' copies have wrong: b* of the second colour is -2.49, a* 0.0010.
    assert PAIRS[13, 1:].tolist() == [50.0, -0.001, 2.49, 50.0, 0.001, -2.49, 4.8045]


@pytest.mark.parametrize("row", PAIRS, ids=[f"pair {int(row[0])}" for row in PAIRS])
def test_sharma_pair(row: np.ndarray) -> None:
    assert float(ciede2000(row[1:4], row[4:7])) == pytest.approx(row[7], abs=5.1e-5)
    assert float(ciede2000(row[4:7], row[1:4])) == pytest.approx(row[7], abs=5.1e-5)  # the arguments swapped


def test_random_pairs_agree_with_the_libraries() -> None:
    draw = np.random.default_rng(7)
    first = draw.uniform([0, -100, -100], [100, 100, 100], (50_000, 3))
    second = np.where(draw.random((50_000, 1)) < 0.5, first + draw.normal(0, 4, first.shape), draw.permutation(first))
    ours = ciede2000(first, second)
    assert np.abs(ours - deltaE_ciede2000(first, second)).max() < 1e-6
    assert np.abs(ours - colour.difference.delta_E_CIE2000(first, second)).max() < 1e-6
    assert np.array_equal(ours, ciede2000(second, first))


def test_greys_and_identical_colours() -> None:
    greys = np.array([[20.0, 0, 0], [50, 0, 0], [90, 0, 0]])
    assert ciede2000(greys, greys).tolist() == [0, 0, 0]
    assert float(ciede2000([50, 0, 0], [51, 0, 0])) == pytest.approx(deltaE_ciede2000([50, 0, 0], [51, 0, 0]))
    assert float(ciede2000([50, 0, 0], [50, 20, -30])) == pytest.approx(deltaE_ciede2000([50, 0, 0], [50, 20, -30]))


def test_shapes_broadcast() -> None:
    assert ciede2000(np.zeros((5, 1, 3)), np.ones((4, 3))).shape == (5, 4)
    assert ciede2000((0, 0, 0), (1, 1, 1)).shape == ()
    assert ciede2000(np.zeros((0, 3)), np.zeros((0, 3))).shape == (0,)

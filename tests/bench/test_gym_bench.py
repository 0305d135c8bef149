"""Figures by hand: colours of made gym scenes on H.264 film, how far off, how well the uncertainty holds, how often a check is
wrong. Run: pytest -s tests/bench/test_gym_bench.py (three to five minutes).

The uncertainty was fitted on scenes 0 to 39 (`fit_uncertainty.py`); these are others, 5000 on, and a second, harsher kind of
hall that nothing was fitted on.
"""

from __future__ import annotations

import sys
import warnings
from collections import Counter
from collections.abc import Iterator
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).parent))

from gym_cases import PICTURES, Case, Coding, cases, filmed
from made_gym import DISTANCES, Hall, Scene

from filmreview.colour.chance import Pair, chance_lightness_apart, chance_named, chance_within
from filmreview.colour.difference import ciede2000
from filmreview.colour.palette import PALETTE, colour_named, in_region
from filmreview.colour.spaces import WHITE as WHITE_XYZ
from filmreview.colour.spaces import adapt, lab_to_linear, linear_to_srgb, xyz_to_lab
from filmreview.colour.value import Colour
from filmreview.facts.region import Box
from filmreview.measure.colour import measure_colour
from filmreview.measure.decision import Answer, answer
from filmreview.measure.reference import reference_from

FRESH = range(5000, 5020)
CODINGS = [Coding(1.0), Coding(2.0), Coding(4.0), Coding(2.0, tagged=False), Coding(2.0, matrix="bt601", tagged=False)]
HARSH = Hall(
    pools=(0.2, 0.45), warm=(-0.15, 0.6), drift=0.14, folds=0.12, weave=0.05, round=(0.2, 0.65), gamma=(0.92, 1.1),
    saturation=(0.9, 1.2), veil=(0.0, 0.012), exposure=(0.5, 1.15), blur=(0.6, 1.4), noise=(0.008, 0.025), white=(0.76, 0.96),
)  # fmt: skip


@pytest.fixture(scope="module")
def all_cases() -> list[Case]:
    """The same garments in every coding at 2 Mbit/s tagged; every second scene in the other codings too."""
    found = []
    for distance in DISTANCES:
        for seed in FRESH:
            codings = CODINGS if seed % 2 == 0 else CODINGS[1:2]
            found += list(cases(range(seed, seed + 1), distance, codings, most=18))
    return found


def _text(values: list[float]) -> str:
    return f"{np.median(values):5.1f} / {np.quantile(values, 0.95):5.1f}"


def _off(lab: object, case: Case) -> float:
    return float(ciede2000(np.array(lab), case.truth))


def _corrected(found: list[Case]) -> list[Case]:
    return [case for case in found if case.corrected is not None and case.corrected.colour is not None]


def _at(found: list[Case], coding: Coding) -> list[Case]:
    return [case for case in found if case.coding == coding]


def test_differences_by_method(all_cases: list[Case]) -> None:
    print("\ndE00 to the true colour, median / 95 %: plain mean | eroded, trimmed | with white reference | grey world")
    limits = {}
    for coding in CODINGS:
        for distance in DISTANCES:
            for kind in ("torso", "sleeve"):
                cell = [
                    case
                    for case in _corrected(_at(all_cases, coding))
                    if (case.distance, case.garment.kind) == (distance, kind)
                ]
                plain, grey = [_off(case.plain, case) for case in cell], [_off(case.grey, case) for case in cell]
                alone = [_off(case.alone.colour.lab, case) for case in cell if case.alone.colour]
                corrected = [_off(case.corrected.colour.lab, case) for case in cell if case.corrected and case.corrected.colour]
                texts = " | ".join(_text(values) for values in (plain, alone, corrected, grey))
                print(f"{_name(coding):26} {distance:5} {kind:6} {len(cell):4}: {texts}")
                limits[coding, distance, kind] = float(np.quantile(corrected, 0.95))
    assert limits[CODINGS[1], "mid", "torso"] <= 5.5
    assert limits[CODINGS[1], "mid", "sleeve"] <= 5.5


def _name(coding: Coding) -> str:
    return f"{coding.megabits:.0f} Mbit/s {coding.matrix}{'' if coding.tagged else ' untagged'}"


def _squares(case: Case, colour: Colour) -> tuple[float, np.ndarray]:
    error = np.array(colour.lab) - case.truth
    spread = np.array(colour.covariance)
    return float(error @ np.linalg.solve(spread, error)), np.abs(error) <= 1.96 * np.sqrt(np.diag(spread))


def _coverage(title: str, found: list[Case], alone: bool) -> float:
    measured = [(case, (case.alone if alone else case.corrected)) for case in found]
    kept = [(case, one.colour) for case, one in measured if one is not None and one.colour is not None]
    squares, inside = zip(*(_squares(case, colour) for case, colour in kept), strict=True)
    held = float(np.mean(np.array(squares) < 7.815))  # chi-squared, three degrees of freedom, 95 %
    print(f"{title:40} {len(kept):5}: ellipsoid {held:.3f}, L* a* b* {np.mean(inside, axis=0).round(3)}")
    return held


def test_coverage_of_95_percent(all_cases: list[Case]) -> None:
    print("\nshare of truths inside 95 %, with white reference, all codings together")
    cells = {}
    for distance in DISTANCES:
        for kind in ("torso", "sleeve"):
            cell = [case for case in all_cases if (case.distance, case.garment.kind) == (distance, kind)]
            cells[distance, kind] = _coverage(f"{distance} {kind}", cell, alone=False)
    for name in PALETTE:
        _coverage(name, [case for case in all_cases if case.garment.name == name], alone=False)
    for coding in CODINGS:
        _coverage(_name(coding), _at(all_cases, coding), alone=False)
    whole = _coverage("all", all_cases, alone=False)
    _coverage("without reference", all_cases, alone=True)
    assert 0.93 <= whole <= 0.97
    assert min(cells.values()) >= 0.90


def test_coverage_in_a_harsher_hall() -> None:
    found = [case for distance in DISTANCES for case in cases(range(3000, 3008), distance, [Coding(2.0)], most=18, hall=HARSH)]
    print("\na harsher hall that nothing was fitted on")
    _coverage("with reference", found, alone=False)
    _coverage("without reference", found, alone=True)
    print(
        "dE00 with reference",
        _text(
            [_off(case.corrected.colour.lab, case) for case in _corrected(found) if case.corrected and case.corrected.colour]
        ),
    )


def _checks(found: list[Case]) -> Iterator[tuple[str, Answer, bool]]:
    """What the colour checks say, and what is true: same colour, named colour, lightness contrast."""
    whole = _corrected(found)
    for case in whole:
        colour = _colour(case)
        for name in ("white", "black", "beige", "navy", "red"):
            centre = colour_named(name)
            truly = bool(in_region(name, case.truth)) if name in ("white", "black", "beige") else _off(centre.lab, case) < 10
            yield "named", answer(chance_named(colour, name)), truly
        yield "same as declared", answer(chance_within(colour, colour_named(case.garment.name), 10.0)), _off(
            PALETTE[case.garment.name], case
        ) < 10.0  # fmt: skip
    for first, second in _pairs(whole):
        same_player = first.garment.player == second.garment.player
        pair = Pair.ONE_PLAYER if same_player else Pair.TWO_PLAYERS
        where = "one player" if same_player else "two players"
        one, two = _colour(first), _colour(second)
        yield f"same, {where}", answer(chance_within(one, two, 10.0, pair)), float(ciede2000(first.truth, second.truth)) < 10.0
        apart = abs(first.truth[0] - second.truth[0]) >= 30
        yield f"contrast, {where}", answer(chance_lightness_apart(one, two, 30.0, pair)), bool(apart)


def _colour(case: Case) -> Colour:
    assert case.corrected is not None
    assert case.corrected.colour is not None
    return case.corrected.colour


def _pairs(found: list[Case]) -> Iterator[tuple[Case, Case]]:
    by_film: dict[tuple[int, str, Coding], list[Case]] = {}
    for case in found:
        by_film.setdefault((case.scene, case.distance, case.coding), []).append(case)
    for group in by_film.values():
        near = [(one, two) for one, two in combinations(group, 2) if one.garment.player == two.garment.player]
        yield from near
        others = [(one, two) for one, two in combinations(group, 2) if one.garment.player != two.garment.player]
        # pairs of nearly the same colour are rare and what the rules ask about: all of them, and one in ten of the rest
        for number, (one, two) in enumerate(others):
            if float(ciede2000(one.truth, two.truth)) < 20 or number % 10 == 0:
                yield one, two


def test_wrong_answers_of_the_checks(all_cases: list[Case]) -> None:
    said: dict[str, Counter[str]] = {}
    for check, word, truly in _checks(_at(all_cases, CODINGS[1])):
        wrong = word is not Answer.UNKNOWN and (word is Answer.YES) != truly
        said.setdefault(check, Counter())["unknown" if word is Answer.UNKNOWN else "wrong" if wrong else "right"] += 1
    print("\nanswers of the colour checks, 2 Mbit/s, with white reference")
    for check, counts in {**said, "all": sum(said.values(), Counter())}.items():
        count = sum(counts.values())
        print(f"{check:24} {count:6}: wrong {counts['wrong'] / count:.2%}, cannot be told {counts['unknown'] / count:.1%}")
    total = sum(said.values(), Counter())
    assert total["wrong"] / sum(total.values()) < 0.02


def test_solid_garments_are_not_called_many_coloured(all_cases: list[Case]) -> None:
    words = Counter(str(case.corrected.solid) for case in _corrected(all_cases) if case.corrected)
    print("\nsolid garments called solid (True), many-coloured (False), undecided (None):", dict(words))
    assert words["False"] / sum(words.values()) < 0.02


def test_share_of_the_error_that_pairs_have_in_common(all_cases: list[Case]) -> None:
    """The sd of the difference of two errors as a share of independent ones: what `Pair` holds."""
    print("\nsd of differences as a share of independent errors, L* a* b*")
    found: dict[bool, list[np.ndarray]] = {True: [], False: []}
    for first, second in _pairs(_corrected(_at(all_cases, CODINGS[1]))):
        one, two = _colour(first), _colour(second)
        spread = np.sqrt(np.diag(np.array(one.covariance)) + np.diag(np.array(two.covariance)))
        error = (np.array(one.lab) - first.truth) - (np.array(two.lab) - second.truth)
        found[first.garment.player == second.garment.player].append(error / spread)
    for same, shares in found.items():
        print("one player " if same else "two players", np.sqrt(np.mean(np.square(shares), axis=0)).round(2), len(shares))
    assert all(len(shares) > 30 for shares in found.values())


def test_a_published_colour_chart_on_film() -> None:
    """The 24 patches of a published chart (values as colour-science carries them), filmed in warm light at 2 Mbit/s."""
    names, labs = _chart()
    picture, boxes = _chart_picture(labs)
    scene = Scene([picture] * PICTURES, (), {}, "near", 0)
    exact, _ = filmed(scene, Coding(2.0))
    white = names.index("white 9.5 (.05 D)")
    reference = reference_from(exact, boxes[white], Colour(tuple(labs[white]), "white"))
    print("\ndE00 of the patches of a published chart, warm light, its white as the reference (chance that dE00 < 10)")
    errors = []
    for name, lab, box in zip(names, labs, boxes, strict=True):
        found = measure_colour(exact, box, reference)
        assert found.colour is not None
        errors.append(float(ciede2000(found.colour.lab, lab)))
        truth = Colour((float(lab[0]), float(lab[1]), float(lab[2])), name)
        print(f"  {name:24} {errors[-1]:4.1f}  {found.colour.name:10} {chance_within(found.colour, truth, 10.0):.3f}")
    print(f"  median {np.median(errors):.1f}, worst {max(errors):.1f}")
    assert np.median(errors) < 3


def _chart() -> tuple[list[str], np.ndarray]:
    """Names and L*a*b* for D65 (Bradford from the chart's illuminant)."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it warns of a plotting library that is not installed
        import colour
    chart = colour.CCS_COLOURCHECKERS["ColorChecker24 - After November 2014"]
    xyz = colour.xyY_to_XYZ(np.array(list(chart.data.values())))
    light = colour.xy_to_XYZ(chart.illuminant)
    return list(chart.data), xyz_to_lab(adapt(xyz, light, WHITE_XYZ))


def _chart_picture(labs: np.ndarray) -> tuple[np.ndarray, list[Box]]:
    linear = np.full((720, 1280, 3), 0.05)
    boxes = []
    for number, lab in enumerate(labs):
        box = Box(160 + (number % 6) * 165, 60 + (number // 6) * 155, 120, 120)
        linear[box.y : box.bottom, box.x : box.right] = np.clip(lab_to_linear(lab), 0, 1)
        boxes.append(box)
    lit = linear * np.array([1.0, 0.85, 0.62]) * np.linspace(0.80, 0.95, 1280)[None, :, None]
    noisy = lit + np.random.default_rng(1).normal(0, 0.008, lit.shape) * np.sqrt(np.maximum(lit, 0.02))
    return np.rint(255 * linear_to_srgb(np.clip(noisy, 0, 1))).astype(np.uint8), boxes

"""WCAG contrast and colour-vision deficiencies against published values and colour-science."""

import warnings

import numpy as np
import pytest

from filmreview.colour.contrast import wcag_ratio
from filmreview.colour.difference import ciede2000
from filmreview.colour.spaces import srgb_to_lab
from filmreview.colour.vision import MATRICES, Deficiency, lowest_difference, seen_by

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it warns of a plotting library that is not installed
    from colour.blindness import CVD_MATRICES_MACHADO2010


def _rgb(code: str) -> list[float]:
    return [int(code[place : place + 2], 16) / 255 for place in (1, 3, 5)]


# Ratios on white that the W3C's own pages and contrast tools quote for WCAG 2.x: #767676 is the lightest grey to pass 4.5:1.
@pytest.mark.parametrize(("code", "ratio"), [("#777777", 4.48), ("#767676", 4.54), ("#aaaaaa", 2.32), ("#0000ee", 9.40)])
def test_wcag_ratio_on_white(code: str, ratio: float) -> None:
    assert wcag_ratio(_rgb(code), [1, 1, 1]) == pytest.approx(ratio, abs=0.006)
    assert wcag_ratio([1, 1, 1], _rgb(code)) == wcag_ratio(_rgb(code), [1, 1, 1])


def test_wcag_ratio_runs_from_1_to_21() -> None:
    assert wcag_ratio([0, 0, 0], [1, 1, 1]) == pytest.approx(21.0)
    assert wcag_ratio([0.3, 0.2, 0.9], [0.3, 0.2, 0.9]) == 1.0


@pytest.mark.parametrize(
    ("ours", "theirs"),
    [(Deficiency.PROTAN, "Protanomaly"), (Deficiency.DEUTAN, "Deuteranomaly"), (Deficiency.TRITAN, "Tritanomaly")],
)
def test_machado_matrices_are_the_published_ones(ours: Deficiency, theirs: str) -> None:
    # Machado, Oliveira, Fernandes 2009, table of severity 1.0, as kept by colour-science.
    assert np.array_equal(MATRICES[ours], CVD_MATRICES_MACHADO2010[theirs][1.0])
    assert MATRICES[ours].sum(axis=1) == pytest.approx([1, 1, 1], abs=2e-6)  # white stays white


def test_red_and_green_come_close_without_middle_waves() -> None:
    red, green = _rgb("#b04020"), _rgb("#607820")
    plain = float(ciede2000(srgb_to_lab(red), srgb_to_lab(green)))
    lowest, deficiency = lowest_difference(red, green)
    assert plain > 35
    assert lowest < 15
    assert deficiency in (Deficiency.PROTAN, Deficiency.DEUTAN)
    assert seen_by(Deficiency.TRITAN, [1.0, 1.0, 1.0]) == pytest.approx([1, 1, 1], abs=1e-5)

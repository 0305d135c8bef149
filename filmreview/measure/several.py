"""One colour from several regions: a team's jersey, measured once and used again.

Regions of one shot share the error of their light and are only averaged. Other shots and other places on the floor are
independent evidence, and do make the colour surer. Regions that differ by more than they should are one garment no longer.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from filmreview.colour.palette import measured
from filmreview.colour.value import Colour
from filmreview.errors import FilmReviewError

Floats = NDArray[np.float64]

_MOST_APART = 16.27
"""Chi-squared of three degrees of freedom exceeded once in a thousand."""


def one_colour(found: Sequence[tuple[Colour, str]]) -> Colour:
    """The colour of one thing from measured colours, each with the name of its shot.

    Raises FilmReviewError when there is none, when one is exact, or when two shots disagree beyond their uncertainty.
    """
    if not found or any(not colour.measured for colour, _ in found):
        raise FilmReviewError("no measured colours are given", todo="measure the garment on one or more frames")
    shots = [_of_shot([colour for colour, name in found if name == shot]) for shot in dict.fromkeys(name for _, name in found)]
    for lab, spread in shots[1:]:
        apart = lab - shots[0][0]
        if float(apart @ np.linalg.solve(spread + shots[0][1], apart)) > _MOST_APART:
            raise FilmReviewError("the shots disagree on this colour", todo="measure again, with a white in each shot")
    return measured(*joined(shots))


def joined(shots: Sequence[tuple[Floats, Floats]]) -> tuple[Floats, Floats]:
    """Mean L*, a*, b* and its covariance from independent shots, each with its own."""
    labs, spreads = np.array([lab for lab, _ in shots]), np.array([spread for _, spread in shots])
    return labs.mean(axis=0), spreads.mean(axis=0) / len(shots)


def _of_shot(colours: Sequence[Colour]) -> tuple[Floats, Floats]:
    """Mean and covariance of regions of one shot: the covariance is that of a single region."""
    labs = np.array([colour.lab for colour in colours], dtype=np.float64)
    spreads = np.array([colour.covariance for colour in colours], dtype=np.float64)
    return labs.mean(axis=0), spreads.mean(axis=0)

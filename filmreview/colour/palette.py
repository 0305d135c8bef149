"""Twenty colour names, the exact colour behind each, reading a colour from text, and name chances of a measured one.

Centres: ISCC-NBS centroids (Kelly and Judd, NBS Special Publication 440, 1976, as sRGB codes) and CSS Color Module Level 4
named colours, each named beside its code. White, black and beige are regions, not points: published beiges alone lie up to
32 dE00 apart. The everyday name of any colour is that of the nearest of the 267 centroids in `centroids.csv`, each of which
is given one of the twenty names there (its "deep yellowish pink" is #e66761 as in all lists of synonyms of that book; the
list of centroids itself has a slip, #e66721).
"""

from __future__ import annotations

import csv
import re
from collections.abc import Mapping
from functools import cache, lru_cache
from importlib import resources
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike, NDArray
from PIL import ImageColor

from filmreview.colour.difference import ciede2000
from filmreview.colour.draws import draws
from filmreview.colour.nearest import Points
from filmreview.colour.spaces import srgb_to_lab
from filmreview.colour.value import Colour, Covariance, Lab
from filmreview.errors import FilmReviewError, nearest

CENTRES: Mapping[str, str] = MappingProxyType({
    "white": "#f2f3f4",  # ISCC-NBS white
    "black": "#222222",  # ISCC-NBS black
    "beige": "#c2b280",  # ISCC-NBS grayish yellow ("beige" of Maerz and Paul)
    "grey": "#848482",  # ISCC-NBS medium gray
    "light grey": "#b9b8b5",  # ISCC-NBS light gray
    "dark grey": "#555555",  # ISCC-NBS dark gray
    "navy": "#252440",  # ISCC-NBS dark purplish blue ("navy blue" of Maerz and Paul)
    "royal blue": "#4169e1",  # CSS royalblue
    "light blue": "#a1caf1",  # ISCC-NBS very light blue
    "green": "#008856",  # ISCC-NBS vivid green
    "dark green": "#1b4d3e",  # ISCC-NBS dark green
    "red": "#be0032",  # ISCC-NBS vivid red
    "maroon": "#722f37",  # ISCC-NBS dark red ("maroon" of the Standard Color Card of America)
    "orange": "#f38400",  # ISCC-NBS vivid orange
    "gold": "#f6a600",  # ISCC-NBS vivid orange yellow
    "yellow": "#f3c300",  # ISCC-NBS vivid yellow
    "purple": "#663399",  # CSS rebeccapurple
    "pink": "#e68fac",  # ISCC-NBS strong purplish pink
    "brown": "#6f4e37",  # ISCC-NBS moderate brown
    "teal": "#008080",  # CSS teal
})  # fmt: skip
SAME_SPELLING: Mapping[str, str] = MappingProxyType({
    "gray": "grey", "light gray": "light grey", "dark gray": "dark grey", "navy blue": "navy", "royal": "royal blue",
    "blue": "royal blue",
    "off-white": "white", "sky blue": "light blue", "forest green": "dark green", "tan": "beige", "burgundy": "maroon",
})  # fmt: skip
_EXTRA_CENTROIDS: Mapping[str, str] = MappingProxyType({  # CSS colours more saturated than any centroid
    "#0000ff": "royal blue", "#0000cd": "royal blue", "#000080": "navy", "#ff0000": "red", "#ffff00": "yellow",
    "#00ff00": "green", "#008000": "green", "#ff00ff": "pink", "#800080": "purple", "#4b0082": "purple", "#ff8c00": "orange",
    "#dc143c": "red", "#00ffff": "light blue",
})  # fmt: skip


def lab_of_code(code: str) -> Lab:
    """L*, a*, b* of "#rrggbb"."""
    lab = srgb_to_lab([int(code[place : place + 2], 16) / 255 for place in (1, 3, 5)])
    return (float(lab[0]), float(lab[1]), float(lab[2]))


PALETTE: Mapping[str, Lab] = MappingProxyType({name: lab_of_code(code) for name, code in CENTRES.items()})


def colour_named(name: str, where: str | None = None) -> Colour:
    """The exact colour of a palette name; raises FilmReviewError with the nearest name for an unknown one."""
    folded = " ".join(name.casefold().split())
    folded = SAME_SPELLING.get(folded, folded)
    if folded not in PALETTE:
        raise _unknown_colour(name, where)
    return Colour(PALETTE[folded], folded)


def parse_colour(text: str, where: str | None = None) -> Colour:
    """The exact colour of a palette name or a code "#rrggbb"; raises FilmReviewError with the nearest name otherwise."""
    code = text.strip().casefold()
    if re.fullmatch("#[0-9a-f]{6}", code):
        return Colour(lab_of_code(code), code)
    if code.startswith("#"):
        raise FilmReviewError(f'"{text}" is not a colour code', where=where, todo='write "#" and six hexadecimal digits')
    return colour_named(text, where)


def measured(lab: ArrayLike, covariance: ArrayLike) -> Colour:
    """The colour of a measured L*, a*, b* and its 3x3 covariance, with its likeliest name and all name chances."""
    values, spread = _plain_lab(lab), _plain_covariance(covariance)
    names = name_chances(values, spread)
    return Colour(values, names[0][0], spread, names)


@lru_cache(maxsize=4096)
def name_chances(lab: Lab, covariance: Covariance) -> tuple[tuple[str, float], ...]:
    """Palette names with the probability that each is the right name, likeliest first, those under 1 % left out.

    By draws, seeded by the inputs; each draw takes the name of `everyday_names`.
    """
    numbers = _name_numbers(draws(lab, covariance))
    shares = np.bincount(numbers, minlength=len(PALETTE)) / len(numbers)
    chances = sorted(((name, float(share)) for name, share in zip(PALETTE, shares, strict=True)), key=_likeliest)
    return tuple(pair for pair in chances if pair[1] >= 0.01)


def everyday_names(labs: NDArray[np.float64]) -> NDArray[np.str_]:
    """The palette name of each colour of (n, 3): that of its region, else of the nearest centroid."""
    return np.array(list(PALETTE))[_name_numbers(labs)]


def _name_numbers(labs: NDArray[np.float64]) -> NDArray[np.intp]:
    """Places of the names in the palette."""
    names, centroids = _centroids()
    numbers: NDArray[np.intp] = names[centroids.nearest(labs)]
    for name in ("white", "black", "beige"):
        numbers[in_region(name, labs)] = list(PALETTE).index(name)
    return numbers


def in_region(name: str, labs: ArrayLike) -> NDArray[np.bool_]:
    """Whether each colour (..., 3) lies in the region of white, black or beige (limits: project default)."""
    values = np.asarray(labs, dtype=np.float64)
    lightness, a, b = values[..., 0], values[..., 1], values[..., 2]
    chroma = np.hypot(a, b)
    if name == "white":
        return np.asarray((lightness >= 82.0) & (chroma <= 7.5))
    if name == "black":
        return np.asarray((lightness <= 28.0) & (chroma <= 9.0))
    return np.asarray((lightness >= 55.0) & (lightness <= 97.0) & (a >= -6.0) & (a <= 9.0) & (b >= 8.0) & (b <= 32.0))


@cache
def _centroids() -> tuple[NDArray[np.intp], Points]:
    text = resources.files("filmreview.colour").joinpath("centroids.csv").read_text(encoding="utf-8")
    rows = [(row["hex"], row["word"]) for row in csv.DictReader(text.splitlines())]
    rows += list(_EXTRA_CENTROIDS.items()) + [(code, name) for name, code in CENTRES.items()]
    names = list(PALETTE)
    return np.array([names.index(word) for _, word in rows]), Points(np.array([lab_of_code(code) for code, _ in rows]))


def _likeliest(pair: tuple[str, float]) -> tuple[float, str]:
    return (-pair[1], pair[0])


def _unknown_colour(name: str, where: str | None) -> FilmReviewError:
    close = _nearest_name(" ".join(name.casefold().split()))
    todo = f'the nearest is "{close}"' if close else "write one of: " + ", ".join(PALETTE)
    return FilmReviewError(f'unknown colour "{name}"', where=where, todo=todo + ', or "#rrggbb"')


def _nearest_name(folded: str) -> str | None:
    """A name that has this word in it ("blue"), the one that looks like a colour of CSS ("crimson"), or is spelt like it."""
    for known in PALETTE:
        if folded in known.split():
            return known
    code = ImageColor.colormap.get(folded.replace(" ", ""))
    if isinstance(code, str):
        differences = ciede2000(lab_of_code(code), list(PALETTE.values()))
        return list(PALETTE)[int(np.argmin(differences))]
    close = nearest(folded, [*PALETTE, *SAME_SPELLING])
    return SAME_SPELLING.get(close, close) if close else None


def _plain_lab(lab: ArrayLike) -> Lab:
    values = np.asarray(lab, dtype=np.float64)
    return (float(values[0]), float(values[1]), float(values[2]))


def _plain_covariance(covariance: ArrayLike) -> Covariance:
    rows = np.asarray(covariance, dtype=np.float64)
    return (_plain_lab(rows[0]), _plain_lab(rows[1]), _plain_lab(rows[2]))

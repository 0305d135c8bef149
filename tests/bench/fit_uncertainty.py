"""Fit the light and edge errors of `filmreview.measure` on made gym scenes of two kinds; two more are only checked on.

Run by hand, in a folder of your own:
`python tests/bench/fit_uncertainty.py rows KIND FOLDER 0 100` measures the garments of scenes 0 to 99 of three distances, KIND
being first, second, third or fourth;
`python tests/bench/fit_uncertainty.py check FOLDER` prints the coverage by the numbers that stand in the package;
`python tests/bench/fit_uncertainty.py fit FOLDER` fits on every third scene, prints numbers and the coverage of the others;
`python tests/bench/fit_uncertainty.py coding` prints what H.264 makes of the colour of a region, coded against not coded.

The fit: likelihood of normal errors with far-out ones capped, the kinds of gym weighed as `WEIGHTS` says, and with it the share
inside the 95 % ellipsoid of every garment at every distance, of every colour and of every coding, each drawn to 95 %.
Causes move the colour through `light.moves`, the package's own code, so what is fitted is what is used.
"""

from __future__ import annotations

import pickle
import sys
from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from pathlib import Path

import numpy as np
from gym_cases import CODINGS, MAKERS, PICTURES, Coding, Maker, filmed, nearest, references
from made_gym import DISTANCES, make_scene
from scipy.optimize import minimize
from second_gym import make_second

from filmreview.colour.spaces import linear_to_lab
from filmreview.colour.video import Matrix, rgb_to_ycbcr
from filmreview.measure.edge import without_surroundings
from filmreview.measure.light import LightError, Shown, moves
from filmreview.measure.pixels import black_of, pixels_in, trimmed_mean
from filmreview.measure.reference import corrected, gains_of
from filmreview.measure.shape import LEAST_ACROSS, erode, mask_of
from filmreview.measure.uncertainty import (
    EDGE_FALL,
    EDGE_MIXED,
    EDGE_SHARE,
    WITH_REFERENCE,
    WITHOUT_REFERENCE,
    coding_part,
    lab_slope,
    matrix_part,
    pixels_part,
    reference_part,
)

CAUSES = (
    "veil", "stray", "stray", "stray", "crosstalk", "crosstalk", "crosstalk", "rendition", "tone", "brightness",
    "by_unevenness", "brightness_apart", "by_dimness", "red", "colour_apart", "blue", "colour_apart", "warm",
)  # fmt: skip
"""What each row of `light.moves` is moved by."""
LEAST = {"brightness": 0.10, "by_unevenness": 0.1, "brightness_apart": 0.15, "by_dimness": 0.2, "red": 0.015, "blue": 0.015,
         "colour_apart": 0.05, "warm": 0.01, "rendition": 0.04, "crosstalk": 0.008, "tone": 0.03, "veil": 0.25,
         "stray": 0.0008, "edge": 0.1, "mixed": 0.3, "thin": 0.5}  # fmt: skip
"""No cause may be explained away: the fit shall not lean on our halls."""
FLOOR = WITH_REFERENCE.floor
Numbers = dict[str, float]
"""What is fitted, by the names of `LightError` and "edge", "mixed", and "thin" as a share of CHROMA_THIN."""
WEIGHTS = {"first": 1.0, "second": 1.0}
"""What is fitted on."""
WITH_ONE_ONLY = ("edge", "mixed", "thin", "brightness_apart", "colour_apart", "by_dimness")
"""What is fitted with a reference only."""
INSIDE = 7.815
"""Chi-squared of three degrees of freedom, 95 %."""


@dataclass(frozen=True)
class Row:
    """One garment: the corrected linear colour, what the film shows, the parts that are not fitted, and the error of L*a*b*."""

    linear: np.ndarray
    shown: Shown
    edge: np.ndarray  # covariance of L*a*b* for an edge share of 1 without erosion
    mixed: np.ndarray  # the same for 1 of the share that the edge told
    thin: np.ndarray  # what coding adds where little could be eroded, by the package's number
    fixed: np.ndarray
    error: np.ndarray
    cells: tuple[str, ...]  # garment and distance, colour, coding
    reference: str  # nearest, any, none
    seed: int


def rows(seeds: range, maker: Maker, most: int = 36) -> list[Row]:
    """Each garment with the nearest reference, with one reference for the whole scene, and without any."""
    found = []
    for seed in seeds:
        for distance in DISTANCES:
            scene, coding = maker(seed, distance), CODINGS[seed % len(CODINGS)]
            film = filmed(scene, coding)
            whites, draw = list(references(film.picture, scene)), np.random.default_rng(seed)
            one = whites[int(draw.integers(len(whites)))] if whites else None
            for number in draw.permutation(len(scene.garments))[:most]:
                garment = scene.garments[number]
                for word, reference in (("nearest", nearest(whites, garment)), ("any", one), ("none", None)):
                    if reference is not None or word == "none":
                        row = _row(film, garment, reference, (garment.kind + " " + distance, garment.name, str(coding)))
                        found += [replace(row, reference=word, seed=seed)] if row else []
    return found


def _row(film, garment, reference, cells):  # type: ignore[no-untyped-def]
    pixels, black = pixels_in(film.picture, garment.box, 4), black_of(film.picture)
    if pixels.shape.across < LEAST_ACROSS or pixels.clipped_share > 0.5:
        return None
    gains = gains_of(reference)
    mean, _ = trimmed_mean(pixels.linear, pixels.clipped)
    mean = without_surroundings(mean, pixels.around, pixels.mixed)
    linear, around = corrected(mean, reference, black), corrected(pixels.around, reference, black)
    slope, apart = lab_slope(linear), around - linear
    values = pixels.values.mean(axis=0)
    coded, wide = (np.array(coding_part(values, gains, black, by, film.bits).covariance) for by in (pixels.shape.by, 4))
    parts = [pixels_part(np.maximum(pixels.linear - black, 0.0), gains)]
    if film.assumed is not None:
        parts.append(matrix_part(values, gains, film.assumed))
    uneven, away, dim = pixels.uneven, 0.0, 0.0
    if reference is not None:
        parts.append(reference_part(linear, reference.share))
        uneven, dim = float(np.hypot(uneven, reference.uneven)), reference.dim
        away = float(np.hypot(*np.subtract(_middle(reference.region), _middle(garment.box)))) / film.picture.shape[1]
    surroundings = slope @ (apart.T @ apart) @ slope.T / max(len(apart), 1)
    return Row(
        linear, Shown(gains, black, away, uneven, dim), np.exp(-EDGE_FALL * pixels.shape.by) ** 2 * surroundings,
        pixels.mixed**2 * surroundings, coded - wide, wide + sum(np.array(part.covariance) for part in parts),
        linear_to_lab(linear) - np.array(garment.lab), cells, "", 0,
    )  # fmt: skip


def _middle(box) -> tuple[float, float]:  # type: ignore[no-untyped-def]
    return (box.x + box.width / 2, box.y + box.height / 2)


def by_cause(row: Row, now: Numbers) -> dict[str, np.ndarray]:
    """The covariance of each cause, as the package makes it."""
    values = np.maximum(row.linear, 8e-4)
    offsets = linear_to_lab(np.maximum(moves(values, _light(now), row.shown), 8e-4)) - linear_to_lab(values)
    found: dict[str, np.ndarray] = {"edge": now["edge"] ** 2 * row.edge, "mixed": now["mixed"] ** 2 * row.mixed}
    found["thin"] = now["thin"] ** 2 * row.thin
    for name, pair in zip(CAUSES, offsets, strict=True):
        found[name] = found.get(name, 0.0) + 0.5 * pair.T @ pair
    return found


def fit(by_kind: dict[str, list[Row]], now: Numbers, fixed: tuple[str, ...] = ()) -> Numbers:
    """Three rounds: the causes' covariances at the present numbers, then the numbers for these covariances."""
    chosen = [row for kept in by_kind.values() for row in kept]
    weight = np.concatenate([np.full(len(kept), WEIGHTS[kind] / len(kept)) for kind, kept in by_kind.items()])
    weight = weight / weight.sum()
    kinds = np.repeat(list(by_kind), [len(kept) for kept in by_kind.values()])
    errors = np.array([row.error for row in chosen])
    cells = list(_cells(chosen, kinds))
    for _ in range(3):
        made = [by_cause(row, now) for row in chosen]
        names = [name for name in made[0] if name not in fixed]
        parts = np.array([[one[name] for one in made] for name in names])
        rest = np.array([row.fixed + sum(one[name] for name in fixed) for row, one in zip(chosen, made, strict=True)])
        rest = rest + np.diag(np.square(FLOOR))
        low = [min(max(np.log(LEAST[name] / now[name]), -1.0), 0.0) for name in names]
        found = minimize(
            _loss, np.zeros(len(names)), args=(parts, rest, errors, weight, cells), jac=True, method="L-BFGS-B",
            bounds=[(one, 1.0) for one in low], options={"maxiter": 100},
        )  # fmt: skip
        now = now | {name: float(now[name] * np.exp(by)) for name, by in zip(names, found.x, strict=True)}
    return now


def _cells(chosen: list[Row], kinds: np.ndarray) -> Iterator[tuple[np.ndarray, float]]:
    """Cells whose share inside is drawn to 95 %, and how strongly: garments at distances most, of one kind of gym little."""
    for place, strength in enumerate((60.0, 8.0, 20.0)):
        names = np.array([row.cells[place] for row in chosen])
        for name in sorted(set(names)):
            cell = np.flatnonzero(names == name)
            if len(cell) > 200 or place == 0:
                yield cell, strength
            alone = [np.intersect1d(cell, np.flatnonzero(kinds == kind)) for kind in sorted(set(kinds)) if place == 0]
            yield from ((one, 8.0) for one in alone if len(one) > 100)


def _loss(x, parts, rest, errors, weight, cells):  # type: ignore[no-untyped-def]
    """Likelihood and coverage, with their slope by the logarithm of each number."""
    weights = np.exp(2 * x)
    spread = np.tensordot(weights, parts, 1) + rest
    inverse = np.linalg.inv(spread)
    pulled = np.einsum("nij,nj->ni", inverse, errors)
    far = np.einsum("ni,ni->n", pulled, errors)
    value = 3.0 * np.sum(weight * (0.5 * np.linalg.slogdet(spread)[1] + 0.5 * np.minimum(far, 25.0)))
    by_far, by_spread = 1.5 * (far < 25.0) * weight, 1.5 * inverse * weight[:, None, None]
    inside = 1.0 / (1.0 + np.exp(-(INSIDE - far) / 0.7))
    for cell, strength in cells:
        share = weight[cell] / weight[cell].sum()
        off = inside[cell] @ share - 0.953
        value += strength * off**2
        by_far[cell] -= 2 * strength * off * (inside * (1.0 - inside) / 0.7)[cell] * share
    by_spread = by_spread - (by_far[:, None] * pulled)[:, :, None] * pulled[:, None, :]
    return value, np.einsum("nij,knij->k", by_spread, parts) * 2.0 * weights


def report(chosen: list[Row], now: Numbers) -> None:
    """Share inside the 95 % ellipsoid and the three intervals, of all and by cell."""
    spread = np.array([sum(by_cause(row, now).values()) + row.fixed for row in chosen]) + np.diag(np.square(FLOOR))
    errors = np.array([row.error for row in chosen])
    inside = np.einsum("ni,nij,nj->n", errors, np.linalg.inv(spread), errors) < INSIDE
    sds = np.sqrt(spread[:, [0, 1, 2], [0, 1, 2]])
    held = np.abs(errors) < 1.96 * sds
    for cell in ("", *sorted({cell for row in chosen for cell in row.cells})):
        here = np.array([not cell or cell in row.cells for row in chosen])
        print(
            f"  {cell or 'all':60} {here.sum():6} ellipsoid {inside[here].mean():.3f}, "
            f"L* a* b* {held[here].mean(axis=0).round(3)}, "
            f"sds {sds[here].mean(axis=0).round(1)}, rms {np.sqrt((errors[here] ** 2).mean(axis=0)).round(1)}"
        )


def coded_errors(seeds: range = range(300, 304)) -> None:
    """Root mean square error of Y', Cb and Cr of regions by px eroded and Mbit/s: the picture coded against not coded."""
    found: dict[tuple[float, int], list[np.ndarray]] = {}
    for seed in seeds:
        for distance in DISTANCES:
            for scene in (make_scene(seed, distance, PICTURES), make_second(seed, distance, PICTURES)):
                for megabits in (1.0, 2.0, 4.0):
                    film = filmed(scene, Coding(megabits))
                    for garment in scene.garments[:40]:
                        shape = erode(*mask_of(garment.box, 1280, 720), 4)
                        area = (slice(shape.box.y, shape.box.bottom), slice(shape.box.x, shape.box.right))
                        before, after = (
                            picture[area][shape.mask].mean(axis=0) for picture in (scene.pictures[9] / 255.0, film.picture)
                        )
                        error = rgb_to_ycbcr(after, Matrix.BT709) - rgb_to_ycbcr(before, Matrix.BT709)
                        found.setdefault((megabits, shape.by), []).append(error)
    for (megabits, by), errors in sorted(found.items()):
        print(
            f"  {megabits:.0f} Mbit/s, {by} px eroded, {len(errors):5}: {np.sqrt(np.mean(np.square(errors), axis=0)).round(4)}"
        )


def _light(now: Numbers) -> LightError:
    return LightError(**{name: value for name, value in now.items() if name not in ("edge", "mixed", "thin")}, floor=FLOOR)


def _standing(word: str) -> Numbers:
    """The numbers that stand in the package."""
    error = WITHOUT_REFERENCE if word == "none" else WITH_REFERENCE
    light = {one.name: getattr(error, one.name) for one in fields(error) if one.name != "floor"}
    return {**light, "edge": EDGE_SHARE, "mixed": EDGE_MIXED, "thin": 1.0}


def _kept(folder: Path, word: str, kind: str) -> list[Row]:
    found = [row for path in sorted(folder.glob(f"{kind}-*.pickle")) for row in pickle.loads(path.read_bytes())]
    return [row for row in found if row.reference == word]


def _report_all(folder: Path, word: str, now: Numbers, left: tuple[int, ...]) -> None:
    """Coverage of each kind of gym, and of those that are fitted on together. left: remainders of the seed by three."""
    together = []
    for kind in MAKERS:
        chosen = [row for row in _kept(folder, word, kind) if row.seed % 3 in left]
        if chosen:
            print(kind, word)
            report(chosen, now)
        together += chosen if kind in WEIGHTS else []
    print("those fitted on, as many scenes of each", word)
    report(together, now)


def _fit_all(folder: Path, word: str, now: Numbers, fixed: tuple[str, ...]) -> Numbers:
    chosen = {kind: [row for row in _kept(folder, word, kind) if row.seed % 3 == 0] for kind in WEIGHTS}
    return fit({kind: kept for kind, kept in chosen.items() if kept}, now, fixed)


def main(what: str, *words: str) -> None:
    """Measure rows, check the numbers of the package on those kept, or fit."""
    if what == "coding":
        coded_errors()
    elif what == "rows":
        kind, folder, start, stop = words
        Path(folder, f"{kind}-{start}.pickle").write_bytes(pickle.dumps(rows(range(int(start), int(stop)), MAKERS[kind])))
    elif what == "check":
        for word in ("nearest", "any", "none"):
            _report_all(Path(words[0]), word, _standing(word), (0, 1, 2))
    else:
        folder = Path(words[0])
        for word, fixed in (
            ("nearest", ()),
            ("none", ("edge", "mixed", "thin", "brightness_apart", "colour_apart", "by_dimness")),
        ):
            now = _fit_all(folder, word, _standing(word), fixed)
            print(word, {name: round(value, 4) for name, value in now.items()})
            _report_all(folder, word, now, (1, 2))


if __name__ == "__main__":
    main(*sys.argv[1:])

"""Fit the light and edge errors of `filmreview.measure` on made gym scenes; the second gym is never used here.

Run by hand, in a folder of your own:
`python tests/bench/fit_uncertainty.py rows FOLDER 0 100` measures the garments of scenes 0 to 99 of three distances;
`python tests/bench/fit_uncertainty.py second FOLDER 0 100` the same of the second gym, to be checked only;
`python tests/bench/fit_uncertainty.py check FOLDER` prints the coverage by the numbers that stand in the package;
`python tests/bench/fit_uncertainty.py fit FOLDER` prints the numbers that stand in `measure.uncertainty`, and the coverage;
`python tests/bench/fit_uncertainty.py coding` prints what H.264 makes of the colour of a region, coded against not coded.

The fit: likelihood of normal errors with far-out ones capped, and with it the share of garments inside the 95 % ellipsoid of
every kind at every distance, every colour and every coding, each drawn to 95 %. Causes move the colour through `light.moves`,
the package's own code, so what is fitted is what is used.
"""

from __future__ import annotations

import pickle
import sys
from dataclasses import dataclass, fields
from itertools import product
from pathlib import Path

import numpy as np
from gym_cases import CODINGS, PICTURES, Coding, Maker, filmed, first_maker, nearest, references, second_maker
from made_gym import DISTANCES, make_scene
from scipy.optimize import minimize
from second_gym import make_second

from filmreview.colour.spaces import linear_to_lab
from filmreview.colour.video import Matrix, rgb_to_ycbcr
from filmreview.measure.light import LightError, Shown, moves
from filmreview.measure.pixels import black_of, pixels_in, trimmed_mean
from filmreview.measure.reference import corrected, gains_of
from filmreview.measure.shape import LEAST_ACROSS, erode, mask_of
from filmreview.measure.uncertainty import (
    EDGE_FALL,
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
LEAST = {"brightness": 0.12, "brightness_apart": 0.3, "by_dimness": 0.35, "red": 0.02, "blue": 0.02, "colour_apart": 0.05,
         "warm": 0.01,
         "rendition": 0.05, "crosstalk": 0.014, "tone": 0.05, "veil": 0.3, "stray": 0.001, "edge": 0.7}  # fmt: skip
"""No cause may be explained away: the fit shall not lean on our halls."""
INSIDE = 7.815
"""Chi-squared of three degrees of freedom, 95 %."""


@dataclass(frozen=True)
class Row:
    """One garment: the corrected linear colour, what the film shows, the parts that are not fitted, and the error of L*a*b*."""

    linear: np.ndarray
    shown: Shown
    edge: np.ndarray  # covariance of L*a*b* for an edge share of 1 without erosion
    fixed: np.ndarray
    error: np.ndarray
    cells: tuple[str, ...]
    reference: str  # nearest, any, none


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
                        row = _row(film, garment, reference, (garment.kind + " " + distance, garment.name, str(coding)), word)
                        found += [row] if row else []
    return found


def _row(film, garment, reference, cells, word):  # type: ignore[no-untyped-def]
    pixels, black = pixels_in(film.picture, garment.box, 4), black_of(film.picture)
    if pixels.shape.across < LEAST_ACROSS or pixels.clipped_share > 0.5:
        return None
    gains = gains_of(reference)
    mean, _ = trimmed_mean(pixels.linear, pixels.clipped)
    linear, around = corrected(mean, reference, black), corrected(pixels.around, reference, black)
    slope, apart = lab_slope(linear), around - linear
    values = pixels.values.mean(axis=0)
    parts = [
        pixels_part(np.maximum(pixels.linear - black, 0.0), gains),
        coding_part(values, gains, black, pixels.shape.by, film.bits),
    ]
    if film.assumed is not None:
        parts.append(matrix_part(values, gains, film.assumed))
    uneven, away, dim = pixels.uneven, 0.0, 0.0
    if reference is not None:
        parts.append(reference_part(linear, reference.share))
        uneven, dim = float(np.hypot(uneven, reference.uneven)), reference.dim
        away = float(np.hypot(*np.subtract(_middle(reference.region), _middle(garment.box)))) / film.picture.shape[1]
    share = np.exp(-EDGE_FALL * pixels.shape.by) ** 2 / max(len(apart), 1)
    return Row(
        linear, Shown(gains, black, away, uneven, dim), share * slope @ (apart.T @ apart) @ slope.T,
        sum(np.array(part.covariance) for part in parts), linear_to_lab(linear) - np.array(garment.lab), cells, word,
    )  # fmt: skip


def _middle(box) -> tuple[float, float]:  # type: ignore[no-untyped-def]
    return (box.x + box.width / 2, box.y + box.height / 2)


def by_cause(row: Row, error: LightError, edge: float) -> dict[str, np.ndarray]:
    """The covariance of each cause, as the package makes it."""
    values = np.maximum(row.linear, 8e-4)
    offsets = linear_to_lab(np.maximum(moves(values, error, row.shown), 8e-4)) - linear_to_lab(values)
    found: dict[str, np.ndarray] = {"edge": edge**2 * row.edge}
    for name, pair in zip(CAUSES, offsets, strict=True):
        found[name] = found.get(name, 0.0) + 0.5 * pair.T @ pair
    return found


def fit(chosen: list[Row], start: LightError, edge: float, fixed: tuple[str, ...] = ()) -> tuple[LightError, float]:
    """Three rounds: the causes' covariances at the present numbers, then the numbers for these covariances."""
    errors = np.array([row.error for row in chosen])
    cells = [np.flatnonzero([cell in row.cells for row in chosen]) for cell in sorted({c for row in chosen for c in row.cells})]
    for _ in range(3):
        made = [by_cause(row, start, edge) for row in chosen]
        names = [name for name in made[0] if name not in fixed]
        parts = np.array([[one[name] for one in made] for name in names])
        rest = np.array([row.fixed + sum(one[name] for name in fixed) for row, one in zip(chosen, made, strict=True)])
        rest = rest + np.diag(np.square(start.floor))
        now = np.array([edge if name == "edge" else getattr(start, name) for name in names])
        low = np.maximum(np.log([LEAST.get(name, 1e-3) for name in names]) - np.log(np.maximum(now, 1e-6)), -1.0)
        found = minimize(
            _loss, np.maximum(low, 0.0), args=(parts, rest, errors, cells), jac=True, method="L-BFGS-B",
            bounds=[(one, max(one + 1e-6, 1.0)) for one in low], options={"maxiter": 80},
        )  # fmt: skip
        new = dict(zip(names, now * np.exp(found.x), strict=True))
        edge = float(new.pop("edge", edge))
        start = LightError(
            **{one.name: float(new[one.name]) if one.name in new else getattr(start, one.name) for one in fields(start)}
        )
    return start, edge


def _loss(x, parts, rest, errors, cells):  # type: ignore[no-untyped-def]
    """Likelihood and coverage, with their slope by the logarithm of each number."""
    weights, count = np.exp(2 * x), len(errors)
    spread = np.tensordot(weights, parts, 1) + rest
    inverse = np.linalg.inv(spread)
    pulled = np.einsum("nij,nj->ni", inverse, errors)
    far = np.einsum("ni,ni->n", pulled, errors)
    value = 3.0 * np.mean(0.5 * np.linalg.slogdet(spread)[1] + 0.5 * np.minimum(far, 25.0))
    by_far, by_spread = 1.5 * (far < 25.0) / count, 1.5 * inverse / count
    inside = 1.0 / (1.0 + np.exp(-(INSIDE - far) / 0.7))
    for cell in cells:
        off = inside[cell].mean() - 0.952
        value += 60.0 * off**2
        by_far[cell] -= 120.0 * off * (inside * (1.0 - inside) / 0.7)[cell] / len(cell)
    by_spread = by_spread - (by_far[:, None] * pulled)[:, :, None] * pulled[:, None, :]
    return value, np.einsum("nij,knij->k", by_spread, parts) * 2.0 * weights


def report(chosen: list[Row], error: LightError, edge: float) -> None:
    """Share inside the 95 % ellipsoid and the three intervals, of all and by cell."""
    spread = np.array([sum(by_cause(row, error, edge).values()) + row.fixed for row in chosen]) + np.diag(
        np.square(error.floor)
    )
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


def _error(word: str) -> LightError:
    return WITHOUT_REFERENCE if word == "none" else WITH_REFERENCE


def _kept(folder: Path, kind: str = "rows") -> list[Row]:
    return [row for path in sorted(folder.glob(f"{kind}-*.pickle")) for row in pickle.loads(path.read_bytes())]


def main(what: str, folder: str = "", start: str = "0", stop: str = "0") -> None:
    """Measure rows, or fit on those kept."""
    if what == "coding":
        coded_errors()
        return
    if what in ("rows", "second"):
        maker = first_maker if what == "rows" else second_maker
        Path(folder, f"{what}-{start}.pickle").write_bytes(pickle.dumps(rows(range(int(start), int(stop)), maker)))
        return
    if what == "check":
        for kind, word in product(("rows", "second"), ("nearest", "any", "none")):
            print(kind, word)
            report([row for row in _kept(Path(folder), kind) if row.reference == word], _error(word), EDGE_SHARE)
        return
    kept = _kept(Path(folder))
    chosen = [row for row in kept if row.reference == "nearest"][::2] + [row for row in kept if row.reference == "any"][::4]
    error, edge = fit(chosen, WITH_REFERENCE, EDGE_SHARE)
    print("with reference", error, "edge", round(edge, 3))
    for word in ("nearest", "any"):
        report([row for row in kept if row.reference == word], error, edge)
    chosen = [row for row in kept if row.reference == "none"]
    error, edge = fit(chosen[::3], WITHOUT_REFERENCE, edge, fixed=("edge", "brightness_apart", "colour_apart", "by_dimness"))
    print("without reference", error)
    report(chosen, error, edge)


if __name__ == "__main__":
    main(*sys.argv[1:])

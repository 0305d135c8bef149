"""Fit the light and edge errors of `filmreview.measure.uncertainty` on made gym scenes: seeds 0 to 39 train, 1000 on validate.

Run by hand: `python tests/bench/fit_uncertainty.py`. Prints the fitted numbers, which then stand in the module, with the
coverage of the 95 % ellipsoids on training and validation scenes. The fit is by likelihood of normal errors with far-out
cases capped, then all causes are scaled together until 95.5 % of the training garments lie inside.
"""

from __future__ import annotations

import pickle
import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from gym_cases import PICTURES, Coding, _apart, _references, filmed
from made_gym import DISTANCES, make_scene
from scipy.optimize import minimize

from filmreview.colour.spaces import linear_to_lab
from filmreview.measure.pixels import pixels_in, trimmed_mean
from filmreview.measure.uncertainty import LightError, lab_slope, light_part, pixels_part, reference_part

TRAIN, VALIDATE = range(40), range(1000, 1020)
CODINGS = [Coding(1.0), Coding(2.0), Coding(4.0)]
START_WITH = (0.09, 0.03, 0.03, 0.06, 0.03, 0.003, 0.5, 0.8, 0.2, 0.9, 0.005, 1.0, 0.3, 0.1)
START_WITHOUT = (0.4, 0.1, 0.12, 0.05, 0.08, 0.003, 0.5, 2.0, 0.2, 0.9, 0.005, 1.0, 0.0, 0.0)
SCALED = [0, 1, 2, 3, 4, 5, 6, 7, 8, 10, 11, 12, 13]
NAMES = (
    "brightness",
    "red",
    "blue",
    "rendition",
    "tone",
    "stray",
    "floor",
    "floor b",
    "edge",
    "fall",
    "veil",
    "thin",
    "brightness apart",
    "colour apart",
)


@dataclass(frozen=True)
class Row:
    """One garment: what the covariance is made of, and the error. cell: kind, distance, name."""

    linear: np.ndarray
    apart: np.ndarray  # second moment of the surroundings' light against the item's, (3, 3)
    by: int
    fixed: np.ndarray  # covariance of pixels and reference
    error: np.ndarray
    cell: tuple[str, str, str]
    distance: float


def rows(seeds: range, most: int = 12) -> dict[bool, list[Row]]:
    """The rows with (True) and without (False) the nearest white reference, of the same garments."""
    found: dict[bool, list[Row]] = {True: [], False: []}
    for distance in DISTANCES:
        for seed in seeds:
            scene = make_scene(seed, distance, PICTURES)
            picture, _ = filmed(scene, CODINGS[seed % len(CODINGS)])
            references = list(_references(picture, scene))
            for number in np.random.default_rng(seed).permutation(len(scene.garments))[:most]:
                garment = scene.garments[number]
                found[False].append(_row(picture, garment, None, distance))
                if references:
                    found[True].append(_row(picture, garment, min(references, key=lambda one: _apart(one, garment)), distance))
    return found


def _row(picture, garment, reference, distance) -> Row:  # type: ignore[no-untyped-def]
    gains = np.ones(3) if reference is None else np.array(reference.gains)
    pixels = pixels_in(picture, garment.box, 4)
    mean, _ = trimmed_mean(pixels.linear, pixels.clipped)
    linear, around = mean * gains, pixels.around * gains - mean * gains
    fixed = np.array(pixels_part(pixels.linear, gains).covariance)
    if reference is not None:
        fixed = fixed + np.array(reference_part(linear, reference.share).covariance)
    apart = around.T @ around / len(around)
    away = 0.0 if reference is None else _apart(reference, garment) / picture.shape[1]
    error = linear_to_lab(linear) - np.array(garment.lab)
    return Row(linear, apart, pixels.shape.by, fixed, error, (garment.kind, distance, garment.name), away)


def covariances(values: np.ndarray, all_rows: list[Row]) -> np.ndarray:
    """The covariances (n, 3, 3) that the module gives for parameters in the order of NAMES, all at once (see `check`)."""
    error, (edge, fall, thin) = light_of(values), np.abs(values[[8, 9, 11]])
    linear, slopes, apart, by, fixed, distance = _columns(all_rows)
    brightness = np.hypot(error.brightness, error.brightness_apart * distance)[:, None]
    red, blue = (np.hypot(share, error.colour_apart * distance) for share in (error.red, error.blue))
    count = len(all_rows)
    nothing = np.zeros(count)
    grey = (linear @ np.array([0.2126, 0.7152, 0.0722]))[:, None]
    causes = [
        brightness * linear,
        np.stack([red * linear[:, 0], nothing, nothing], axis=1),
        np.stack([nothing, nothing, blue * linear[:, 2]], axis=1),
        error.rendition * (linear - grey),
        error.tone * linear * np.log(np.maximum(linear, 1e-4)),
        np.full((count, 3), error.veil),
        *(np.tile(row, (count, 1)) for row in np.eye(3) * error.stray),
    ]
    spread = sum(cause[:, :, None] * cause[:, None, :] for cause in causes)
    spread = spread + (edge * np.exp(-fall * by))[:, None, None] ** 2 * apart
    narrow = (thin * np.maximum(0.0, (4 - by) / 2)) ** 2
    floor = np.diag(np.square(error.floor)) + narrow[:, None, None] * np.diag([0.5, 1.0, 1.0])
    return slopes @ spread @ slopes.transpose(0, 2, 1) + floor + fixed


_COLUMNS: dict[int, tuple[np.ndarray, ...]] = {}


def _columns(all_rows: list[Row]) -> tuple[np.ndarray, ...]:
    if id(all_rows) not in _COLUMNS:
        linear = np.maximum(np.array([row.linear for row in all_rows]), 0.0)
        slopes = np.array([lab_slope(row.linear) for row in all_rows])
        others = (np.array([getattr(row, name) for row in all_rows]) for name in ("apart", "by", "fixed", "distance"))
        _COLUMNS[id(all_rows)] = (linear, slopes, *others)
    return _COLUMNS[id(all_rows)]


def check(values: np.ndarray, all_rows: list[Row]) -> None:
    """That the light part here is the module's own."""
    without = values.copy()
    without[[8, 11]] = 0.0
    for row, spread in zip(all_rows[:50], covariances(without, all_rows), strict=False):
        assert np.allclose(
            spread - row.fixed, np.array(light_part(row.linear, light_of(values), row.distance).covariance), atol=1e-6
        )


def light_of(values: np.ndarray) -> LightError:
    brightness, red, blue, rendition, tone, stray, floor, floor_b = np.abs(values[:8])
    return LightError(brightness, red, blue, stray, (floor, floor, floor_b), rendition, tone, *np.abs(values[[10, 12, 13]]))


def squares(values: np.ndarray, all_rows: list[Row]) -> np.ndarray:
    """Squared Mahalanobis distances of the errors."""
    return _squares(covariances(values, all_rows), all_rows)


def _squares(spread: np.ndarray, all_rows: list[Row]) -> np.ndarray:
    errors = np.array([row.error for row in all_rows])
    return np.einsum("ni,nij,nj->n", errors, np.linalg.inv(spread), errors)


def fit(all_rows: list[Row], start: np.ndarray) -> np.ndarray:
    def loss(values: np.ndarray) -> float:
        spread = covariances(values, all_rows)
        return float(np.mean(0.5 * np.linalg.slogdet(spread)[1] + 0.5 * np.minimum(_squares(spread, all_rows), 30.0)))

    found = minimize(
        loss, start, method="Nelder-Mead", options={"maxiter": 3000, "adaptive": True, "fatol": 1e-4, "xatol": 1e-4}
    )
    values = bounded(found.x)
    for _ in range(60):  # scale until 95.5 % lie inside the 95 % ellipsoid: real halls are less like ours than ours are alike
        inside = np.mean(squares(values, all_rows) < 7.815)
        values[SCALED] *= 1.01 if inside < 0.955 else 0.99
    return values


def bounded(values: np.ndarray) -> np.ndarray:
    """No cause may be explained away: least values for the floors and the edge, so that the fit does not lean on our halls."""
    least = np.array([0.02, 0.01, 0.01, 0.01, 0.01, 0.001, 0.6, 0.6, 0.1, 0.5, 0.001, 0.2, 0.0, 0.0])
    most = np.array([9, 9, 9, 9, 9, 9, 9, 9, 0.3, 1.0, 9, 9, 9, 9])
    return np.clip(np.abs(values), least, most)


def report(values: np.ndarray, all_rows: list[Row]) -> None:
    spread, errors, far = covariances(values, all_rows), np.array([row.error for row in all_rows]), squares(values, all_rows)
    inside = np.abs(errors) < 1.96 * np.sqrt(spread[:, [0, 1, 2], [0, 1, 2]])
    print(f"  all: {len(all_rows)} joint {np.mean(far < 7.815):.3f} L* a* b* {inside.mean(axis=0).round(3)}")
    for place in (0, 1, 2):
        for cell in sorted({row.cell[: place + 1][-1] for row in all_rows}):
            chosen = np.array([row.cell[place] == cell for row in all_rows])
            sds = np.sqrt(spread[chosen][:, [0, 1, 2], [0, 1, 2]]).mean(axis=0).round(1)
            shares = inside[chosen].mean(axis=0).round(2)
            print(f"  {cell}: {chosen.sum()} joint {np.mean(far[chosen] < 7.815):.3f} L*a*b* {shares} sds {sds}")


def _kept(folder: str | None) -> tuple[dict[bool, list[Row]], dict[bool, list[Row]]]:
    """Training and validation rows, kept in a folder from one run to the next when one is named."""
    path = Path(folder) / "rows.pickle" if folder else None
    if path and path.exists():
        train, validate = pickle.loads(path.read_bytes())
        return train, validate
    train, validate = rows(TRAIN), rows(VALIDATE)
    if path:
        path.write_bytes(pickle.dumps((train, validate)))
    return train, validate


def main(folder: str | None) -> None:
    """Fit and print both light errors."""
    train, validate = _kept(folder)
    for with_reference, start in ((True, START_WITH), (False, START_WITHOUT)):
        values = fit(train[with_reference], np.array(start))
        check(values, train[with_reference])
        print("with reference" if with_reference else "without reference")
        print({name: round(float(value), 4) for name, value in zip(NAMES, values, strict=True)})
        for name, chosen in (("training", train), ("validation", validate)):
            print(name)
            report(values, chosen[with_reference])


if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else None)

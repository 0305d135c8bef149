"""Spectra and light of the third kind of made gym (third_gym says what it is for): cloths, lamps, hall, all amounts.

Nothing in the package was fitted on it at the time of writing. Tables as carried by colour-science 0.4: CIE illuminants (CIE
15, CIE 204), lamps of the NIST colour quality scale sheet, a camera's curves measured by NPL (Darrodi and others 2015), chart
of ISO 17321-1, CIE 1931 colour matching functions.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from typing import Any

import numpy as np

FABRICS = {
    "chalk": "#f2f3f3", "jet": "#1e1d20", "graphite": "#47484b", "pewter": "#85878a", "silver": "#b7b8b8",
    "midnight": "#1c2746", "cobalt": "#2450a4", "sky": "#86b6dd", "kelly": "#12804a", "spruce": "#1b4433",
    "scarlet": "#ba2230", "wine": "#6c2036", "tangerine": "#dd7426", "amber": "#e9ab2a", "lemon": "#efd435",
    "violet": "#533086", "rose": "#e08fac", "cocoa": "#69492f", "lagoon": "#14807f", "oatmeal": "#cdb991",
}  # fmt: skip
"""Cloths of our own naming with the code a maker's colour card would give; the cloth in play is a dye lot away from it."""
DYE_LOT = (1.6, 1.5, 1.5)
"""sd of L*, a*, b* from card to cloth. From memory: mills hold lots within about 1 dE of a standard, a card is 2 or 3 off."""

_WAVES = np.arange(380.0, 781.0, 5.0)
_PLACE = (_WAVES - 580.0) / 200.0
_RIPPLES = np.array([np.cos(np.pi * count * (_PLACE + 1) / 2) for count in (3, 4, 5, 6)])
SRGB = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])  # IEC 61966-2-1
_TO_LAB = np.array([[0.0, 116, 0], [500, -500, 0], [0, 200, -200]])
_CUT = (6 / 29) ** 3
BOUNCE, ROOM, DAY = 2, 3, 4  # after the two kinds of lamp

Array = np.ndarray[Any, Any]


@dataclass(frozen=True)
class Amounts:
    """What a hall and a camera are drawn from: pairs are lowest and highest, single figures sd, each with its reason.

    All from memory of gyms and cameras where no source is named.
    """

    height: tuple[float, float] = (20.0, 25.0)  # ft, lamps over a school floor
    spacing: tuple[float, float] = (13.0, 19.0)  # ft between lamps; gym layouts keep it near their height or below
    beam: tuple[float, float] = (0.7, 2.0)  # power of the cosine: high-bay reflectors throw half their light within 60 degrees
    ageing: float = 0.13  # lamps of one hall lose 10-35 % in their life and are not all replaced at once
    dead: float = 0.04  # a lamp in 25 is out
    second: tuple[float, float] = (0.0, 0.35)  # share of lamps since replaced by another kind
    room: tuple[float, float] = (0.10, 0.26)  # of floor light, off walls and ceiling: painted block, bare or painted deck
    day: float = 0.25  # share of halls with windows that are not shut off
    fold: tuple[float, float] = (0.10, 0.22)  # rms slope of a loose jersey: 6 to 12 degrees
    tight: tuple[float, float] = (0.03, 0.07)  # the same of a stretched sleeve or a band
    weave: tuple[float, float] = (0.015, 0.035)  # mesh and knit, what a pixel of the size of a hole or two still sees
    sheen: tuple[float, float] = (0.01, 0.05)  # polyester: some 4 % surface reflection (index 1.5-1.6), spread wide
    wander: float = 4.0  # nm a camera's curves are shifted, one make to another
    stretch: float = 0.04  # and made wider or narrower
    warm: tuple[float, float] = (0.10, 0.14)  # log2 red over blue left: mean, sd; cameras leave a part of a warm light warm
    green: float = 0.05  # log2 green left: discharge lamps read green
    grey: tuple[float, float] = (0.0, 0.2)  # how far the balance follows the mean of the picture (a wooden floor)
    exposure: tuple[float, float] = (0.27, 0.3)  # mean linear light a meter aims at, sd in stops
    falloff: tuple[float, float] = (0.02, 0.15)  # left at the corner after the camera's own correction
    glare: tuple[float, float] = (0.004, 0.022)  # veiling glare of zooms is 1-4 % by ISO 9358's black patch on full white
    blur: tuple[float, float] = (0.5, 0.9)  # px sd: lens, pixel and scaling from 1080 lines
    smear: tuple[float, float] = (0.0, 2.5)  # px in the exposure: 1 to 3 ft/s at 1/60 s when a tag is put at a calm moment
    tone: tuple[float, float] = (0.0, 0.7)  # from the sRGB curve to the BT.709 one, which a desk then shows darker
    knee: tuple[float, float] = (0.82, 0.95)  # where highlights bend; camcorders: 80-95 %
    slope: tuple[float, float] = (0.3, 0.6)  # beyond it
    black: tuple[float, float] = (-0.008, 0.010)  # black level set a little low or high
    vivid: tuple[float, float] = (0.96, 1.14)  # colour strength of consumer settings
    bleed: tuple[float, float] = (0.7, 1.6)  # px sd of colour, from demosaicing and colour noise reduction
    sharpen: tuple[float, float] = (0.15, 0.7)  # of what a blur of 1.2 px takes away
    electrons: tuple[float, float] = (1500.0, 7000.0)  # at white: small sensor at ISO 800-3200, 2 pixels to one
    reading: tuple[float, float] = (3.0, 8.0)  # electrons
    smooth: tuple[float, float] = (0.4, 0.8)  # what noise reduction leaves of the noise
    flicker: float = 0.004  # ballasts at twice the mains against 29.97 pictures a second


AMOUNTS = Amounts()
LAMPS = (
    ("LED-B3",), ("LED-B4",), ("LED-B3", "LED-B4"), ("F32T8/TL841 (Triphosphor)",), ("F32T8/TL850 (Triphosphor)",), ("FL2",),
    ("FL11",), ("HP4",), ("HP5",), ("Metal Halide",), ("MHC100/U/MP/4K",),
)  # fmt: skip
"""Common practice: high-bay metal halide, then fluorescent tubes, now LED, all of about 4000 to 5000 K."""


@dataclass(frozen=True)
class Light:
    """The light where one player stands, for each source: scalar, vector and tensor moments; the strongest lamps."""

    level: Array = field(repr=False)
    vector: Array = field(repr=False)
    tensor: Array = field(repr=False)
    floor: float
    room: float
    strongest: tuple[tuple[float, Array], ...]


@dataclass(frozen=True)
class Hall:
    """Lamps as x, z in ft of the floor with strength and kind; height, beam; room light; daylight's strength and direction."""

    lamps: Array = field(repr=False)
    height: float
    beam: float
    room: float
    day: float
    day_from: Array = field(repr=False)


# spectra


@cache
def tables() -> dict[str, Array]:
    """CIE 1931 functions times D65 (scaled to Y = 1), the chart's spectra and the cameras' curves at 380-780 nm by 5."""
    import colour

    day, seen = _bench_sd(colour.SDS_ILLUMINANTS["D65"]), colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"]
    functions = np.array([seen[wave] for wave in _WAVES])
    weights = functions * day[:, None]
    found = {"observer": weights / weights[:, 1].sum(), "functions": functions, "day": day / day.mean()}
    chart = colour.SDS_COLOURCHECKERS["ISO 17321-1"]
    found["chart"] = np.array([_bench_sd(patch) for patch in chart.values()])
    for name, curves in colour.MSDS_CAMERA_SENSITIVITIES.items():
        steps, values = curves.wavelengths, curves.values
        found[name] = np.array([np.interp(_WAVES, steps, values[:, one], left=0, right=0) for one in range(3)]).T
    return found


@cache
def lamp_spectrum(names: tuple[str, ...]) -> Array:
    """The mean of the named lamps' spectra, each of the same luminous flux."""
    import colour

    both = [_bench_sd(colour.SDS_ILLUMINANTS.get(name) or colour.SDS_LIGHT_SOURCES[name]) for name in names]
    return np.mean([one / (one @ tables()["functions"][:, 1]) for one in both], axis=0)


def _bench_sd(curve: Any) -> Array:
    return np.interp(_WAVES, curve.wavelengths, curve.values, left=0, right=0)


def lab_of_spectrum(reflectance: Array) -> Array:
    """L*, a*, b* under D65, 2 degree observer; white is the perfect diffuser (CIE 15)."""
    weights = tables()["observer"]
    return _lab((reflectance @ weights) / weights.sum(axis=0))


def _lab(ratio: Array) -> Array:
    return _TO_LAB @ np.where(ratio > _CUT, np.cbrt(ratio), ratio * (29 / 6) ** 2 / 3 + 4 / 29) - np.array([16.0, 0, 0])


def spectrum_of(lab: Array, ripples: Array) -> Array:
    """The logistic spectrum with these ripples that comes nearest to the L*a*b*: damped Gauss-Newton on three numbers."""

    weights = tables()["observer"] / tables()["observer"].sum(axis=0)
    powers = np.array([np.ones_like(_PLACE), _PLACE, _PLACE**2])
    pull = np.diag([0.0, 0.004, 0.004])  # holds the parabola gentle where many shapes would do

    def tried(numbers: Array) -> tuple[Array, Array, Array]:
        share = 1 / (1 + np.exp(-np.clip(numbers @ powers + ripples @ _RIPPLES, -30, 30)))
        cloth = 0.012 + 0.955 * share  # no dyed cloth reflects nothing, none all
        ratio = cloth @ weights
        slope = _TO_LAB @ np.diag(np.where(ratio > _CUT, np.maximum(ratio, _CUT) ** (-2 / 3) / 3, (29 / 6) ** 2 / 3))
        slope = slope @ ((0.955 * share * (1 - share) * powers) @ weights).T
        return cloth, np.append(_lab(ratio) - lab, pull @ numbers), np.vstack([slope, pull])

    numbers, damp = np.array([np.log(max(lab[0], 8) / 100), 0.0, 0.0]), 1.0
    cloth, error, slope = tried(numbers)
    for _ in range(60):
        step = np.linalg.solve(slope.T @ slope + damp * np.eye(3), -slope.T @ error)
        new = tried(numbers + step)
        better = new[1] @ new[1] < error @ error
        if better:
            numbers, (cloth, error, slope) = numbers + step, new
        damp *= 0.2 if better else 5.0
        if damp > 1e9 or (better and np.abs(step).max() < 1e-3):
            break
    return cloth


def lab_of_code(code: str) -> Array:
    """L*, a*, b* of an sRGB code (IEC 61966-2-1), by the sRGB matrix."""
    signal = np.array([int(code[at : at + 2], 16) / 255 for at in (1, 3, 5)])
    linear = np.where(signal <= 0.04045, signal / 12.92, ((signal + 0.055) / 1.055) ** 2.4)
    return _lab(SRGB @ linear / SRGB.sum(axis=1))


class Dyer:
    """Cloth spectra of one scene, and what the scene's camera makes of them under each source of light."""

    def __init__(self, draw: np.random.Generator, bare: bool) -> None:
        self.draw, self.bare = draw, bare
        kinds = draw.choice(len(LAMPS), 2, replace=False)
        first, second = (lamp_spectrum(LAMPS[kind]) for kind in kinds)
        make, curves = tables()["Nikon 5100 (NPL)"], []  # the other camera of the table has stacked layers: no film camera
        for channel, middle in enumerate((600.0, 530.0, 460.0)):
            wide, by = 1 + draw.normal(0, AMOUNTS.stretch), draw.normal(0, AMOUNTS.wander)
            curves.append(np.interp(middle + (_WAVES - by - middle) / wide, _WAVES, make[:, channel]))
        self.curves = np.array(curves).T
        self.wood = self.spectrum("#c79a62" if draw.random() < 0.7 else "#b98a5a", (2.0, 1.5, 2.5))
        paint_on_walls = self.spectrum("#d6d0c0", (4.0, 1.5, 3.0))
        day = tables()["day"] / (tables()["day"] @ tables()["functions"][:, 1])
        mixed = 0.8 * first + 0.2 * second
        self.sources = np.array([first, second, mixed * self.wood, mixed * paint_on_walls / paint_on_walls.max(), day])
        self.brightener = 0.0 if draw.random() < 0.5 else draw.uniform(0.02, 0.06)
        self.ultraviolet = draw.uniform(0.0, 0.5)
        self.white = self.signal(np.ones_like(_WAVES))

    def spectrum(self, code: str, lot: tuple[float, float, float] = DYE_LOT) -> Array:
        """Reflectance of a cloth a dye lot away from the code. Ripples (some 2 % of reflectance) make it a dye of its own."""
        lab = lab_of_code(code) + self.draw.normal(0, lot)
        return spectrum_of(lab, self.draw.normal(0, 0.10, 4))

    def signal(self, reflectance: Array) -> Array:
        """(5, 3): the camera's red, green and blue for each source of unit illuminance; the perfect diffuser is about 1."""
        scale = (self.sources[0][:, None] * self.curves).sum(axis=0)[1]
        return ((self.sources * reflectance) @ self.curves / scale).astype(np.float32)

    def dye(self, name: str) -> tuple[Array, Array]:
        """Signal and true L*a*b* of a cloth of that name. White kit of some halls holds a brightener, which glows at 440 nm.

        From memory: whitened polyester reflects some 5 % more than all of its light about 440 nm by day; indoor lamps give
        half as much ultraviolet at most, LEDs none.
        """
        cloth = self.spectrum(FABRICS[name])
        glow = self.brightener * np.exp(-(((_WAVES - 440) / 22) ** 2) / 2) if name == "chalk" else np.zeros_like(cloth)
        seen = cloth + glow * self.ultraviolet
        return self.white if self.bare else self.signal(seen), lab_of_spectrum(cloth + glow)


# light


def hall_of(draw: np.random.Generator) -> Hall:
    """A grid of lamps over a hall of 110 by 80 ft, the camera near the middle of one side."""
    height, spacing = draw.uniform(*AMOUNTS.height), draw.uniform(*AMOUNTS.spacing)
    across = np.arange(-55, 55, spacing) + draw.uniform(0, spacing)
    along = np.arange(0, 80, spacing * draw.uniform(0.8, 1.0)) + draw.uniform(-0.3, 0.7) * spacing
    places = np.array([(x, z) for x in across + draw.uniform(-15, 15) for z in along])
    strength = np.exp(draw.normal(0, AMOUNTS.ageing, len(places))) * (draw.random(len(places)) > AMOUNTS.dead)
    kind = draw.random(len(places)) < draw.uniform(*AMOUNTS.second)
    strength *= np.where(kind, draw.uniform(0.9, 1.3), 1.0)
    day = draw.uniform(0.05, 0.25) if draw.random() < AMOUNTS.day else 0.0
    side = float(draw.choice([-1.0, 1.0]))
    day_from = np.array([side, 0.45, draw.uniform(-0.4, 0.4)])
    beam = draw.uniform(*AMOUNTS.beam)
    lamps = np.column_stack([places, strength, kind])
    level = np.mean([floor_light(lamps, height, beam, x, z) for x in (-20, 0, 20) for z in (20, 35, 50)])
    lamps[:, 2] /= level
    return Hall(lamps, height, beam, draw.uniform(*AMOUNTS.room), day, day_from / np.linalg.norm(day_from))


def floor_light(lamps: Array, height: float, beam: float, x: Any, z: Any) -> Any:
    """Light on the floor at x, z (ft, any shape), of lamps that throw cosine to the power of `beam`."""
    square = (lamps[:, 0] - np.asarray(x)[..., None]) ** 2 + (lamps[:, 1] - np.asarray(z)[..., None]) ** 2 + height**2
    return (lamps[:, 2] * (height / np.sqrt(square)) ** (beam + 1) / square).sum(axis=-1)


def light_at(hall: Hall, x: float, z: float) -> Light:
    """Moments of the light 4 ft above x, z. Axes: right, up, toward the camera."""
    toward = np.column_stack([hall.lamps[:, 0] - x, np.full(len(hall.lamps), hall.height - 4.0), z - hall.lamps[:, 1]])
    away = np.linalg.norm(toward, axis=1)
    toward /= away[:, None]
    power = hall.lamps[:, 2] * toward[:, 1] ** hall.beam / away**2
    shares = [power * (hall.lamps[:, 3] == 0), power * (hall.lamps[:, 3] == 1), 0 * power, 0 * power, 0 * power]
    level = np.array([share.sum() for share in shares])
    vector = np.array([share @ toward for share in shares])
    tensor = np.array([np.einsum("i,ij,ik->jk", share, toward, toward) for share in shares])
    level[DAY], vector[DAY] = hall.day, hall.day * hall.day_from
    tensor[DAY] = hall.day * np.outer(hall.day_from, hall.day_from)
    best = np.argsort(-power)[:4]
    strongest = tuple((float(power[one]), toward[one]) for one in best)
    floor = float(floor_light(hall.lamps, hall.height, hall.beam, x, z)) + 0.45 * hall.day
    return Light(level, vector, tensor, floor, hall.room, strongest)


def shaded(light: Light, normal: tuple[Array, Array, Array], open_sky: Array) -> Array:
    """(5, rows, columns): light of each source on a surface; max(0, cos) = 1/4 + cos/2 + 5/32 (3 cos^2 - 1)."""
    nx, ny, nz = normal
    terms = np.stack([np.ones_like(nx), nx, ny, nz, nx * nx, ny * ny, nz * nz, 2 * nx * ny, 2 * nx * nz, 2 * ny * nz])
    found = np.zeros((5, *nx.shape), dtype=np.float32)
    for source in (0, 1, DAY):
        tensor = light.tensor[source] * 15 / 32
        numbers = np.concatenate([
            [light.level[source] * 3 / 32], light.vector[source] / 2, np.diag(tensor), tensor[0, 1:], tensor[1, 2:],
        ]).astype(np.float32)  # fmt: skip
        found[source] = np.maximum(0, np.tensordot(numbers, terms, 1)) * open_sky
    found[BOUNCE] = light.floor * (1 - ny) / 2 * open_sky
    found[ROOM] = light.room * (1 + 0.4 * ny) * open_sky
    return found

"""A second kind of made gym, harder than the first.

It shares no model with `made_gym`. Light comes from single lamps of their own colour temperature and from a window, falls off
with distance, and the lens darkens toward the corners. Cloth is lit from a direction, has creases, mesh and sheen. The white
that serves as reference is a jersey, the backboard's border, a line on the floor or a table cloth, wherever it happens to be.
The camera mixes channels, saturates, bends its tone curve, lifts or crushes black, sharpens with halos and smears colour noise.
The truth of a garment is the L*a*b* of its cloth under even white light.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
from made_gym import Garment, Scene

from filmreview.colour.spaces import lab_to_linear, linear_to_srgb, srgb_to_lab, srgb_to_linear, xyz_to_lab
from filmreview.facts.region import Box

WIDTH, HEIGHT = 1280, 720
SCALES = {"near": 4.4, "mid": 2.8, "far": 1.8}
"""Pixels an inch."""
LUMA = np.array([0.2126, 0.7152, 0.0722])

CLOTHS = {
    "snow": "#f4f5f3", "cream": "#efe6cf", "silver": "#a9adb0", "charcoal": "#3a3d42", "coal": "#16171a",
    "carolina": "#7bafd4", "cobalt": "#0047ab", "midnight": "#12203a", "cardinal": "#8c1d2f", "wine": "#561a2b",
    "scarlet": "#cc1f1f", "tangerine": "#f2701d", "old gold": "#b3995d", "lemon": "#f7e03c", "kelly": "#1f8a3b",
    "pine": "#15402f", "aqua": "#1b8f97", "violet": "#5a3596", "rose": "#d9678c", "cocoa": "#5b4334",
}  # fmt: skip


@dataclass(frozen=True)
class Arena:
    """Ranges a scene is drawn from. lamps: how many. height: of the lamps, in picture widths: the lower the more uneven.
    kelvin: of the hall; apart: sd of lamps' temperature around it, as a share. adapted: how much of the light's colour the
    camera took away. corner: share of light lost there. crosstalk: sd of what a channel takes of another. others: see names."""

    lamps: tuple[int, int] = (5, 12)
    height: tuple[float, float] = (0.5, 0.95)
    kelvin: tuple[float, float] = (3300.0, 5600.0)
    apart: float = 0.06
    window: float = 0.2
    adapted: tuple[float, float] = (0.55, 1.0)
    corner: tuple[float, float] = (0.0, 0.22)
    ambient: tuple[float, float] = (0.6, 0.85)
    creases: tuple[float, float] = (0.02, 0.10)
    mesh: tuple[float, float] = (0.0, 0.10)
    sheen: tuple[float, float] = (0.0, 0.008)
    white: tuple[float, float] = (0.80, 0.95)
    crosstalk: float = 0.012
    saturation: tuple[float, float] = (0.90, 1.18)
    exponent: tuple[float, float] = (0.93, 1.09)
    bend: tuple[float, float] = (-0.03, 0.06)
    lift: tuple[float, float] = (-0.004, 0.008)
    flare: tuple[float, float] = (0.0, 0.006)
    sharpened: tuple[float, float] = (0.0, 0.6)
    noise: tuple[float, float] = (0.004, 0.018)
    smear: tuple[float, float] = (0.0, 0.006)


ROUGH = Arena(
    height=(0.35, 0.7), apart=0.08, window=0.35, adapted=(0.45, 1.0), corner=(0.0, 0.3), ambient=(0.5, 0.8),
    creases=(0.03, 0.16), sheen=(0.0, 0.014), white=(0.76, 0.96), crosstalk=0.02, saturation=(0.87, 1.22),
    exponent=(0.91, 1.12), bend=(-0.05, 0.10), lift=(-0.006, 0.014), flare=(0.0, 0.010), sharpened=(0.0, 1.0),
    noise=(0.006, 0.026), smear=(0.0, 0.010),
)  # fmt: skip
"""Halls and cameras at the worse end of what schools have."""


def make_second(seed: int, distance: str, pictures: int = 12, arena: Arena | None = None) -> Scene:
    """A scene of as many players as fit, and one to three white things. Made by its seed alone."""
    arena = arena or Arena()
    draw = np.random.default_rng([77, seed, sorted(SCALES).index(distance)])
    painter = _Painter(draw, SCALES[distance], arena)
    painter.hall()
    painter.players()
    painter.white_things()
    lit = (painter.cloth * painter.shade[..., None] + painter.gloss[..., None]) * _lamps(draw, arena)
    coded = _camera(draw, lit, arena)
    shots = _shots(draw, coded, pictures, arena)
    return Scene(shots, tuple(painter.garments), painter.whites, distance, seed)


class _Painter:
    def __init__(self, draw: np.random.Generator, scale: float, arena: Arena) -> None:
        self.draw, self.scale, self.arena = draw, scale, arena
        self.cloth = np.zeros((HEIGHT, WIDTH, 3), np.float32)
        self.shade = np.ones((HEIGHT, WIDTH), np.float32)
        self.gloss = np.zeros((HEIGHT, WIDTH), np.float32)
        self.garments: list[Garment] = []
        self.whites: dict[int, Box] = {}
        azimuth = draw.uniform(-0.8, 0.8)
        self.light = np.array([np.sin(azimuth), np.cos(azimuth)])

    def hall(self) -> None:
        """Bleachers full of people above, boards below, a painted key."""
        horizon = int(HEIGHT * self.draw.uniform(0.2, 0.5))
        self.cloth[:horizon] = _linear(self.draw.choice(["#b8b4aa", "#5f6f86", "#7d3b3b", "#d8d2c4"]))
        spots = self.draw.random((horizon // 9 + 1, WIDTH // 9 + 1, 3)).astype(np.float32) ** 2
        crowd = cv2.resize(spots, (WIDTH, horizon), interpolation=cv2.INTER_LINEAR)
        self.cloth[:horizon] = 0.4 * self.cloth[:horizon] + 0.5 * crowd
        self.cloth[horizon:] = _linear(self.draw.choice(["#d0a56f", "#b97f49", "#c9b08a"]))
        boards = np.repeat(self.draw.uniform(0.9, 1.08, HEIGHT // 6 + 1), 6)[: HEIGHT - horizon]
        self.cloth[horizon:] *= boards[:, None, None].astype(np.float32)
        left = int(self.draw.integers(100, WIDTH - 500))
        self.cloth[horizon + 60 : horizon + 220, left : left + 380] = self._dyed(str(self.draw.choice(list(CLOTHS))))

    def players(self) -> None:
        """Rows of players, each turned his own way."""
        step, tall = 44 * self.scale, 58 * self.scale
        number = 0
        for row in range(int((HEIGHT - 10) // tall)):
            for column in range(int((WIDTH - 20) // step)):
                corner = (int(14 + column * step + self.draw.uniform(0, 6)), int(10 + row * tall + self.draw.uniform(0, 4)))
                self._player(number, corner)
                number += 1

    def _player(self, number: int, corner: tuple[int, int]) -> None:
        x, y = corner
        inch, turned = self.scale, float(self.draw.uniform(-0.45, 0.45))
        skin = _linear(self.draw.choice(["#f0c8a8", "#b07a55", "#7a4c33", "#4a2f22"]))
        jersey, tight, band = (str(self.draw.choice(list(CLOTHS))) for _ in range(3))
        self._limb((x + 12 * inch, y, 7 * inch, 9 * inch), skin, turned, 0.2)
        headband = self._limb((x + 12 * inch, y + 1.5 * inch, 7 * inch, 2.4 * inch), self._dyed(band), turned, 0.4)
        for side in (6.5, 24.5):
            self._limb((x + side * inch, y + 10 * inch, 4.5 * inch, 22 * inch), skin, turned, 0.2)
        torso = self._limb((x + 11 * inch, y + 9 * inch, 16 * inch, 25 * inch), self._dyed(jersey), turned, 1.0)
        self._limb(
            (x + 11 * inch, y + 34 * inch, 16 * inch, 17 * inch), self._dyed(str(self.draw.choice(list(CLOTHS)))), turned, 1.0
        )
        sleeve = self._limb((x + 6.5 * inch, y + 13 * inch, 4.5 * inch, 13 * inch), self._dyed(tight), turned, 0.5)
        for kind, name, box, inside in (
            ("torso", jersey, torso, 3),
            ("sleeve", tight, sleeve, 0),
            ("headband", band, headband, 0),
        ):
            self.garments.append(Garment(kind, name, self._lab_at(box), self._dragged(box, inside), number))

    def _lab_at(self, box: Box) -> tuple[float, float, float]:
        value = self.cloth[box.y + box.height // 2, box.x + box.width // 2].astype(np.float64)
        lab = srgb_to_lab(linear_to_srgb(value))
        return (float(lab[0]), float(lab[1]), float(lab[2]))

    def _dyed(self, name: str) -> np.ndarray:
        lab = srgb_to_lab([int(CLOTHS[name][place : place + 2], 16) / 255 for place in (1, 3, 5)])
        return np.clip(lab_to_linear(lab + self.draw.normal(0, 3.0, 3)), 0.004, 0.93)

    def _dragged(self, box: Box, inside: int) -> Box:
        left, top, right, bottom = (int(value) for value in self.draw.integers(-1, 2, 4))
        width, height = box.width - 2 * inside - left + right, box.height - 2 * inside - top + bottom
        return Box(max(box.x + inside + left, 0), max(box.y + inside + top, 0), width, height)

    def _limb(self, place: tuple[float, float, float, float], linear: np.ndarray, turned: float, cloth: float) -> Box:
        """A rounded, clothed part of a body. cloth: how much it creases and shines."""
        x, y, width, height = (round(value) for value in place)
        box = Box(x, y, min(width, WIDTH - x), min(height, HEIGHT - y))
        across = (np.arange(width) + 0.5) / width * 2 - 1
        roundness = self.draw.uniform(0.75, 1.0)
        normal = np.stack([roundness * across, np.sqrt(1 - (roundness * across) ** 2)])
        turn = np.array([[np.cos(turned), np.sin(turned)], [-np.sin(turned), np.cos(turned)]])
        facing = np.clip(self.light @ (turn @ normal), 0, 1)
        ambient = self.draw.uniform(*self.arena.ambient)
        down = 1 + self.draw.uniform(-0.12, 0.06) * np.linspace(-1, 1, height)
        light = (ambient + (1 - ambient) * facing)[None, :] * down[:, None] * self._creases(width, height, cloth)
        area = (slice(y, y + box.height), slice(x, x + box.width))
        self.cloth[area] = linear
        self.shade[area] = (light * 1.08)[: box.height, : box.width]
        lobe = np.exp(-(((facing - 1.0) / 0.12) ** 2))[None, : box.width]
        self.gloss[area] = cloth * self.draw.uniform(*self.arena.sheen) * lobe
        return box

    def _creases(self, width: int, height: int, cloth: float) -> np.ndarray:
        y, x = np.mgrid[:height, :width] / self.scale
        total = np.zeros((height, width))
        for _ in range(3):
            angle, length = self.draw.uniform(0, np.pi), self.draw.uniform(4, 14)
            wave = (x * np.cos(angle) + y * np.sin(angle)) / length + 0.4 * np.sin(x / 5 + self.draw.uniform(0, 6))
            total += np.sin(2 * np.pi * wave + self.draw.uniform(0, 6)) ** 3
        mesh = self.draw.uniform(*self.arena.mesh) * ((x * 4).astype(int) % 2 & (y * 4).astype(int) % 2)
        return np.exp(cloth * self.draw.uniform(*self.arena.creases) * total) * (1 - cloth * mesh)

    def white_things(self) -> None:
        """One to three things known to be white, painted over whatever is there; garments under them are dropped."""
        kinds = list(self.draw.permutation(["jersey", "border", "line", "table"]))[: int(self.draw.integers(1, 4))]
        for number, kind in enumerate(kinds):
            linear = np.clip(self.draw.uniform(*self.arena.white) * (1 + self.draw.normal(0, 0.015, 3)), 0, 1)
            box = self._white(str(kind), linear)
            self.garments = [one for one in self.garments if not _touch(one.box, box)]
            self.whites[number] = box

    def _white(self, kind: str, linear: np.ndarray) -> Box:
        inch = self.scale
        wide, high = {"jersey": (16, 25), "border": (70, 3.5), "line": (60, 4), "table": (90, 14)}[kind]
        width, height = int(wide * inch), max(int(high * inch), 8)
        x, y = int(self.draw.integers(8, WIDTH - width - 8)), int(self.draw.integers(8, HEIGHT - height - 8))
        if kind == "jersey":
            self._limb((x, y, width, height), linear, float(self.draw.uniform(-0.45, 0.45)), 1.0)
        else:
            area = (slice(y, y + height), slice(x, x + width))
            self.cloth[area], self.gloss[area] = linear, 0.0
            self.shade[area] = self.draw.uniform(0.88, 1.06)
        margin = 3 if kind == "jersey" else 0
        return Box(x + margin, y + margin, width - 2 * margin, height - 2 * margin)


def _touch(one: Box, two: Box) -> bool:
    gap = 5
    return one.x < two.right + gap and two.x < one.right + gap and one.y < two.bottom + gap and two.y < one.bottom + gap


def _linear(code: object) -> np.ndarray:
    text = str(code)
    return srgb_to_linear([int(text[place : place + 2], 16) / 255 for place in (1, 3, 5)])


def light_of(kelvin: float) -> np.ndarray:
    """Linear sRGB of a black body, green 1: cubic of Kim et al. (US patent 7,024,034), for 1,667 to 25,000 K, from memory."""
    t = 1000.0 / kelvin
    if kelvin < 4000:
        x = -0.2661239 * t**3 - 0.2343589 * t**2 + 0.8776956 * t + 0.179910
        y = -0.9549476 * x**3 - 1.37418593 * x**2 + 2.09137015 * x - 0.16748867
    else:
        x = -3.0258469 * t**3 + 2.1070379 * t**2 + 0.2226347 * t + 0.240390
        y = 3.0817580 * x**3 - 5.87338670 * x**2 + 3.75112997 * x - 0.37001483
    linear = lab_to_linear(xyz_to_lab([x / y, 1.0, (1 - x - y) / y]))
    return np.maximum(linear / linear[1], 0.02)


def _lamps(draw: np.random.Generator, arena: Arena) -> np.ndarray:
    """Linear gains (h, w, 3): lamps over the picture, a window at one side, dark corners, and the camera's balance."""
    y, x = np.mgrid[: HEIGHT // 8, : WIDTH // 8].astype(np.float32) * 8 / WIDTH
    kelvin = draw.uniform(*arena.kelvin)
    light = np.zeros((*y.shape, 3), np.float32)
    height = draw.uniform(*arena.height)
    for place in range(int(draw.integers(*arena.lamps))):
        at = (draw.uniform(-0.1, 1.1), draw.uniform(-0.1, 0.66))
        fall = (height**2 / ((x - at[0]) ** 2 + (y - at[1]) ** 2 + height**2)) ** 1.5
        light += (draw.uniform(0.6, 1.2) * fall)[..., None] * light_of(kelvin * np.exp(draw.normal(0, arena.apart)))
        del place
    light /= (light @ LUMA).mean()
    side = x if draw.random() < 0.5 else 1 - x
    light += draw.uniform(0, arena.window) * np.exp(-side / 0.35)[..., None] * light_of(6800)
    middle = light.reshape(-1, 3).mean(axis=0)
    light /= (middle / middle[1]) ** draw.uniform(*arena.adapted) * np.exp(draw.normal(0, 0.02, 3))
    corner = draw.uniform(*arena.corner)
    light *= (1 - corner * ((x - 0.5) ** 2 + (y - 0.28) ** 2) / 0.33)[..., None]
    return cv2.resize(light / (light @ LUMA).mean(), (WIDTH, HEIGHT), interpolation=cv2.INTER_CUBIC)


def _camera(draw: np.random.Generator, lit: np.ndarray, arena: Arena) -> np.ndarray:
    """Linear in, nonlinear R'G'B' out."""
    mixed = np.eye(3) + draw.normal(0, arena.crosstalk, (3, 3))
    mixed /= mixed.sum(axis=1, keepdims=True)
    light = lit @ mixed.T
    grey = (light @ LUMA)[..., None]
    light = grey + draw.uniform(*arena.saturation) * (light - grey)
    top = float(np.quantile(grey[::4, ::4], 0.985))
    light = light / top * draw.uniform(0.6, 0.95)
    light = cv2.GaussianBlur(light.astype(np.float32), (0, 0), draw.uniform(0.5, 1.1))
    light = np.clip(light + draw.uniform(*arena.flare), 0, None) ** draw.uniform(*arena.exponent)
    coded = linear_to_srgb(light)
    coded = coded + draw.uniform(*arena.bend) * np.sin(2 * np.pi * np.clip(coded, 0, 1)) * -0.5
    coded = np.where(coded > 0.9, 0.9 + 0.25 * np.tanh((coded - 0.9) / 0.25), coded)  # a soft shoulder
    coded = coded + draw.uniform(*arena.lift)
    soft = cv2.GaussianBlur(coded, (0, 0), draw.uniform(0.8, 1.6))
    return coded + draw.uniform(*arena.sharpened) * (coded - soft)


def _shots(draw: np.random.Generator, coded: np.ndarray, count: int, arena: Arena) -> list[np.ndarray]:
    """The pictures: a shake of a pixel, noise of each pixel and smeared noise of colour."""
    sd, smear = draw.uniform(*arena.noise), draw.uniform(*arena.smear)
    found = []
    for number in range(count):
        shake = (0, 0) if number >= count - 4 else tuple(int(value) for value in draw.integers(-1, 2, 2))
        blotches = cv2.resize(
            draw.standard_normal((HEIGHT // 5, WIDTH // 5, 3), np.float32), (WIDTH, HEIGHT), interpolation=cv2.INTER_LINEAR
        )
        noisy = np.roll(coded, shake, axis=(0, 1)) + sd * draw.standard_normal((HEIGHT, WIDTH, 1), np.float32)
        noisy = noisy + smear * (blotches - (blotches @ LUMA.astype(np.float32))[..., None])
        found.append(np.rint(255 * np.clip(noisy, 0, 1)).astype(np.uint8))
    return found

"""Made gym scenes: players in kit of known colour under uneven warm light, through a made camera, as pictures of a film.

Everything is drawn in linear light: cloth of a known colour with folds and weave, bodies shaded as upright cylinders, lamps
in pools with their own warmth, then a camera (exposure, imperfect white balance, colour rendition, tone, veil, blur, noise).
The truth of a garment is the L*a*b* of its cloth under even white light. All sizes and amounts are drawn at random from
`Hall` ranges; a scene is made by its seed alone.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import cv2
import numpy as np

from filmreview.colour.spaces import lab_to_linear, linear_to_srgb, srgb_to_lab
from filmreview.facts.region import Box

WIDTH, HEIGHT = 1280, 720
DISTANCES = {"near": 4.6, "mid": 2.9, "far": 1.9}
"""Pixels an inch. A torso (17 in) is then 78, 49 or 32 px wide, an upper-arm sleeve (4.4 in) 20, 13 or 8 px."""

KIT = {
    "white": "#eceded", "black": "#1b1b1d", "dark grey": "#4b4c4e", "grey": "#8a8b8c", "light grey": "#b9bab8",
    "navy": "#1a2342", "royal blue": "#1f4aa8", "light blue": "#8fbbe6", "green": "#0c7a43", "dark green": "#143d2b",
    "red": "#b71c2b", "maroon": "#6a1f33", "orange": "#e0701c", "gold": "#f0ae1c", "yellow": "#f2d21f",
    "purple": "#4f2a80", "pink": "#e58bab", "brown": "#6b4a33", "teal": "#0d7f80", "beige": "#cbb58a",
}  # fmt: skip
_CODES = np.rint(255 * linear_to_srgb(np.arange(4096) / 4095)).astype(np.uint8)
SKIN = ("#8d5a3c", "#c68f6c", "#5b3a28", "#e0b394")


@dataclass(frozen=True)
class Hall:
    """Ranges a scene is drawn from. pools: how much darker it is between lamps. warm: log2 of red up and blue down that the
    camera's balance left. drift: change of that warmth across the hall. folds, weave: sd of cloth brightness. round: how
    dark the side of a body gets. gamma, saturation, veil: the camera. blur: sd in px. noise: sd at white, of 1. white: of
    the reference jersey's own reflectance, and its tint. crosstalk: sd of what a channel of the camera takes of another.
    facing: how much of the light a part of a body gets that is turned to or from the lamps."""

    pools: tuple[float, float] = (0.12, 0.36)
    warm: tuple[float, float] = (0.0, 0.45)
    drift: float = 0.13
    folds: float = 0.10
    weave: float = 0.03
    round: tuple[float, float] = (0.25, 0.6)
    gamma: tuple[float, float] = (0.96, 1.06)
    saturation: tuple[float, float] = (0.93, 1.13)
    veil: tuple[float, float] = (0.0, 0.006)
    exposure: tuple[float, float] = (0.68, 1.05)
    blur: tuple[float, float] = (0.6, 1.0)
    motion: tuple[float, float] = (0.0, 2.5)
    noise: tuple[float, float] = (0.007, 0.020)
    white: tuple[float, float] = (0.82, 0.96)
    crosstalk: float = 0.010
    facing: tuple[float, float] = (0.93, 1.05)


ROUGH = Hall(
    pools=(0.2, 0.45), warm=(-0.15, 0.6), drift=0.14, folds=0.12, weave=0.05, round=(0.2, 0.65), gamma=(0.92, 1.1),
    saturation=(0.9, 1.2), veil=(0.0, 0.012), exposure=(0.5, 1.15), blur=(0.6, 1.4), noise=(0.008, 0.025), white=(0.76, 0.96),
    crosstalk=0.018, facing=(0.82, 1.10),
)  # fmt: skip
ROUGH_SHARE = 0.5
"""A hall drawn by `make_scene` is of the rough kind this often: how good a hall is cannot be seen on its film."""


@dataclass(frozen=True)
class Garment:
    """One garment. kind: torso, sleeve or headband. lab: its true colour. box: where it is, as dragged, within 1 px."""

    kind: str
    name: str
    lab: tuple[float, float, float]
    box: Box
    player: int


@dataclass(frozen=True)
class Scene:
    """pictures: uint8 (720, 1280, 3) nonlinear R'G'B'. whites: boxes of the white jerseys by player. white_lab: the cloth's."""

    pictures: list[np.ndarray] = field(repr=False)
    garments: tuple[Garment, ...]
    whites: dict[int, Box]
    distance: str
    seed: int


def lab_of(code: str) -> np.ndarray:
    return srgb_to_lab([int(code[place : place + 2], 16) / 255 for place in (1, 3, 5)])


def make_scene(seed: int, distance: str, pictures: int = 16, hall: Hall | None = None) -> Scene:
    """A scene of as many players as fit, every third in a white jersey (the home team)."""
    draw = np.random.default_rng([seed, sorted(DISTANCES).index(distance)])
    hall = hall or (ROUGH if draw.random() < ROUGH_SHARE else Hall())
    cloth = _backdrop(draw)
    shade = np.ones((HEIGHT, WIDTH), dtype=np.float32)
    garments, whites = _draw_players(draw, cloth, shade, DISTANCES[distance], hall)
    lit = cloth * shade[..., None] * _light(draw, hall)
    seen = _camera(draw, lit, hall)
    return Scene(_shots(draw, seen, pictures, hall), tuple(garments), whites, distance, seed)


def _backdrop(draw: np.random.Generator) -> np.ndarray:
    """Wooden floor below, a wall or a crowd above. Linear (h, w, 3)."""
    cloth = np.empty((HEIGHT, WIDTH, 3), dtype=np.float32)
    cloth[:] = lab_to_linear(lab_of("#c8935a") + draw.normal(0, 4, 3))
    top = int(HEIGHT * draw.uniform(0.25, 0.45))
    cloth[:top] = lab_to_linear(lab_of(str(draw.choice(["#9a9fa6", "#6d7480", "#b7a98f", "#4c5a74"]))))
    crowd = cv2.resize(draw.random((18, 64, 3)).astype(np.float32), (WIDTH, top), interpolation=cv2.INTER_NEAREST)
    cloth[:top] *= 0.6 + 0.8 * crowd
    planks = np.repeat(draw.normal(1, 0.05, WIDTH // 16 + 1), 16)[:WIDTH].astype(np.float32)
    cloth[top:] *= planks[None, :, None]
    return cloth


def _draw_players(draw, cloth, shade, scale, hall):  # type: ignore[no-untyped-def]
    garments: list[Garment] = []
    whites: dict[int, Box] = {}
    step, tall = int(38 * scale), int(52 * scale)
    white = np.array(lab_to_linear(lab_of("#ffffff"))) * draw.uniform(*hall.white) * (1 + draw.normal(0, 0.018, 3))
    names = list(KIT)
    places = [
        (x, y) for y in range(int(8 * scale), HEIGHT - tall, tall + 6) for x in range(int(10 * scale), WIDTH - step, step)
    ]
    for player, place in enumerate(places):
        jersey = "white" if player % 3 == 1 else str(draw.choice(names))
        sleeve = str(draw.choice(names))
        x, y = place[0] + int(draw.integers(-4, 5)), place[1] + int(draw.integers(-3, 4))
        _body(draw, cloth, shade, (x, y), scale, hall)
        garments.append(_headband(draw, cloth, shade, (x, y), scale, hall, player))
        linear = white if jersey == "white" and player % 3 == 1 else _cloth_of(draw, jersey)
        torso = _cylinder(draw, cloth, shade, (x, y, int(17 * scale), int(24 * scale)), linear, hall)
        arm_linear = _cloth_of(draw, sleeve)
        arm_width = round(4.4 * scale)
        arm = _cylinder(
            draw, cloth, shade, (x + int(17 * scale) + 1, y + int(6 * scale), arm_width, int(12 * scale)), arm_linear, hall
        )
        if player % 3 == 1:
            whites[player] = _dragged(draw, torso, 3)
        else:
            garments.append(_garment("torso", jersey, linear, _dragged(draw, torso, 2), player))
        garments.append(_garment("sleeve", sleeve, arm_linear, _dragged(draw, arm, 0), player))
    return garments, whites


def _cloth_of(draw, name: str) -> np.ndarray:  # type: ignore[no-untyped-def]
    """Cloth near the named colour, inside what sRGB can show: dye lots differ."""
    lab = lab_of(KIT[name]) + draw.normal(0, 2.5, 3)
    return np.clip(lab_to_linear(lab), 0.004, 0.95)


def _garment(kind, name, linear, box, player) -> Garment:  # type: ignore[no-untyped-def]
    lab = srgb_to_lab(linear_to_srgb(linear))
    return Garment(kind, name, (float(lab[0]), float(lab[1]), float(lab[2])), box, player)


def _dragged(draw, box: tuple[int, int, int, int], inside: int) -> Box:  # type: ignore[no-untyped-def]
    """A reviewer's box: a little inside a torso, on the edges of a sleeve, each side within a pixel."""
    x, y, width, height = box
    left, top, right, bottom = (int(value) for value in draw.integers(-1, 2, 4))
    return Box(x + inside + left, y + inside + top, width - 2 * inside - left + right, height - 2 * inside - top + bottom)


def _body(draw, cloth, shade, corner, scale, hall) -> None:  # type: ignore[no-untyped-def]
    x, y = corner
    skin = lab_to_linear(lab_of(str(draw.choice(SKIN))))
    _cylinder(draw, cloth, shade, (x + int(5 * scale), y - int(7 * scale), int(7 * scale), int(8 * scale)), skin, hall)
    _cylinder(draw, cloth, shade, (x + int(17 * scale), y, int(5 * scale), int(22 * scale)), skin, hall)
    _cylinder(draw, cloth, shade, (x - int(5 * scale), y, int(5 * scale), int(22 * scale)), skin, hall)
    dark = _cloth_of(draw, str(draw.choice(list(KIT))))
    _cylinder(draw, cloth, shade, (x, y + int(24 * scale), int(17 * scale), int(18 * scale)), dark, hall)


def _headband(draw, cloth, shade, corner, scale, hall, player) -> Garment:  # type: ignore[no-untyped-def]
    name = str(draw.choice(list(KIT)))
    linear, (x, y) = _cloth_of(draw, name), corner
    place = (x + int(5 * scale), y - round(5.5 * scale), int(7 * scale), round(2.4 * scale))
    return _garment("headband", name, linear, _dragged(draw, _cylinder(draw, cloth, shade, place, linear, hall), 0), player)


def _cylinder(draw, cloth, shade, box, linear, hall):  # type: ignore[no-untyped-def]
    x, y, width, height = box
    x, y = max(x, 0), max(y, 0)
    across = np.linspace(-1, 1, width)
    turned = draw.uniform(-0.35, 0.35)
    falloff = 1 - draw.uniform(*hall.round) * np.clip(np.abs(across - turned), 0, 1.2) ** 2
    folds = cv2.resize(draw.normal(0, 1, (6, 4)).astype(np.float32), (width, height), interpolation=cv2.INTER_CUBIC)
    cloth_light = np.exp(hall.folds * folds + hall.weave * draw.normal(0, 1, (height, width)))
    light = (falloff[None, :] * cloth_light * draw.uniform(*hall.facing)).astype(np.float32)
    area = (slice(y, min(y + height, HEIGHT)), slice(x, min(x + width, WIDTH)))
    tall, wide = area[0].stop - area[0].start, area[1].stop - area[1].start
    cloth[area] = linear.astype(np.float32)
    shade[area] = light[:tall, :wide]
    return (x, y, wide, tall)


def _light(draw: np.random.Generator, hall: Hall) -> np.ndarray:
    """Lamps in pools, warmer or cooler from place to place. Linear gains (h, w, 3)."""
    depth = draw.uniform(*hall.pools)
    level = cv2.resize(draw.uniform(0, 1, (3, 5)).astype(np.float32), (WIDTH, HEIGHT), interpolation=cv2.INTER_CUBIC)
    warm = draw.uniform(*hall.warm) + hall.drift * cv2.resize(
        draw.normal(0, 1, (2, 3)).astype(np.float32), (WIDTH, HEIGHT), interpolation=cv2.INTER_CUBIC
    )
    tint = draw.normal(0, 0.04)
    colour = np.stack([2 ** (0.63 * warm * 0.7), np.full_like(warm, 2**tint), 2 ** (-0.7 * warm)], axis=-1)
    return (1 - depth * (1 - np.clip(level, 0, 1)))[..., None] * colour


def _camera(draw: np.random.Generator, lit: np.ndarray, hall: Hall) -> np.ndarray:
    """Exposure, rendition, tone, veil and blur. Linear in, nonlinear R'G'B' 0..1 out."""
    luminance = np.array([0.2126, 0.7152, 0.0722])
    grey = (lit @ luminance)[..., None]
    mixed = np.eye(3) + draw.normal(0, hall.crosstalk, (3, 3))
    lit = lit @ (mixed / mixed.sum(axis=1, keepdims=True)).T  # the sensor's red, green and blue are not those of sRGB
    rendered = grey + draw.uniform(*hall.saturation) * (lit - grey)
    exposed = np.clip(rendered * draw.uniform(*hall.exposure), 0, None)
    toned = exposed ** draw.uniform(*hall.gamma) + draw.uniform(*hall.veil)
    sd = draw.uniform(*hall.blur)
    blurred = cv2.GaussianBlur(toned.astype(np.float32), (0, 0), sd)
    length = draw.uniform(*hall.motion)
    return cv2.GaussianBlur(blurred, (0, 0), sigmaX=max(length / 3.46, 0.05), sigmaY=0.05)


def _shots(draw: np.random.Generator, seen: np.ndarray, count: int, hall: Hall) -> list[np.ndarray]:
    """The pictures: a slow pan up to the last picture, sensor noise by the root of the light."""
    sd = draw.uniform(*hall.noise)
    shots = []
    size = (HEIGHT + 64, WIDTH + 64)
    sheet = 0.8 * draw.standard_normal((*size, 1), np.float32) + 0.6 * draw.standard_normal((*size, 3), np.float32)
    for number in range(count):
        offset = min(0, number - count * 3 // 4) // 2  # the pan ends before the measured picture
        moved = np.roll(seen, offset, axis=1)
        places = draw.integers(0, 64, 2)  # other pieces of one sheet of noise: far faster than drawing it anew
        noise = sheet[places[0] : places[0] + HEIGHT, places[1] : places[1] + WIDTH]
        noisy = moved + sd * noise * np.sqrt(np.clip(moved, 0.02, 1))
        shots.append(_CODES[(np.clip(noisy, 0, 1) * 4095 + 0.5).astype(np.int16)])
    return shots

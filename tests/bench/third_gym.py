"""A third kind of made gym: cloths are spectra, lit by lamps with published spectra, seen through published camera curves.

A check only: nothing in the package is fitted on it. Its author had not seen how the other gyms are painted, nor how the
package measures colour and rates its uncertainty; of `made_gym` the head with classes and ranges was seen. Amounts are in
`third_light.Amounts`, each with its reason.

Model. Each cloth is a smooth reflectance spectrum: a logistic function of a parabola over wavelength (the shape of Jakob
and Hanika 2019) plus small ripples drawn at random, solved so that it has the wanted L*a*b* under D65. The truth of a
garment is the L*a*b* of that spectrum under D65 (CIE 1931 observer), white being the perfect diffuser. The film is the same
spectrum under the hall's lamps through a camera's three curves, so that two cloths alike by day may differ on film. Light at
a player is the sum over a grid of lamps, kept as moments of the lamps' directions (the nine-term cosine law of Ramamoorthi
and Hanrahan 2001), with lamps of a second kind, daylight from one side, light off the floor and off walls and ceiling, each
a spectrum of its own. Bodies are elliptic cylinders with folds. The camera: lens fall-off, glare, blur, balance and exposure
set by itself, a 3x3 matrix fitted on a colour chart, tone with a knee, colour sharpness, sharpening, noise.

Tables, all as carried by colour-science 0.4: CIE illuminants (CIE 15, CIE 204), lamps of the NIST colour quality scale
sheet, camera curves measured by NPL (Darrodi and others 2015), chart of ISO 17321-1, CIE 1931 colour matching functions.

Left out: players stand in rows at one scale (only their light knows how deep they stand); one body does not shade another;
the box on a numbered jersey lies below the number. Whites: home jerseys under their player's number; near, where it is wide
enough to be marked, also the backboard's border as number 0.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import cv2
import numpy as np
from made_gym import HEIGHT, WIDTH, Garment, Scene
from third_light import (
    AMOUNTS,
    BOUNCE,
    DAY,
    FABRICS,
    ROOM,
    SRGB,
    Array,
    Dyer,
    Hall,
    Light,
    floor_light,
    hall_of,
    lab_of_code,
    lamp_spectrum,
    light_at,
    shaded,
    tables,
)

from filmreview.facts.region import Box

PX_AN_INCH = {"near": 4.4, "mid": 2.95, "far": 1.95}
"""From memory: a phone or camcorder of some 60 degrees, 720 lines, 20, 31 and 47 ft away."""
SLOTS = {"near": (8, 3), "mid": (9, 3), "far": (10, 4)}
"""Players across and rows: as many as stand clear of each other near, and not many more far off, to keep benches short."""
MEASURED = 9
STILL_FROM = 8
"""From this picture on nothing moves; before it the camera pans by a few pixels a picture."""

LIMBS = ("jet", "chalk", "oatmeal", "midnight", "scarlet", "graphite", "cobalt", "wine", "pewter", "kelly", "silver", "amber")
"""Common practice: arm sleeves and headbands are black, white, beige or a team colour, with the odd other one."""
SKINS = ("#8a5a40", "#c49170", "#593b2a", "#ddb497")


@dataclass(frozen=True)
class Painted:
    """A scene as the camera's signal, and all that is known of it."""

    draw: np.random.Generator = field(repr=False)
    dyer: Dyer
    hall: Hall
    canvas: Canvas
    garments: tuple[Garment, ...]
    whites: dict[int, Box]


@dataclass
class Canvas:
    """What is being painted: camera signal before its settings, and the garment of each pixel (8 x player + its place; -1).

    folds: heights of unit sd. slopes: theirs to the right and down, rms 1 together. weave: unit sd.
    """

    signal: Array
    owner: Array
    folds: Array
    slopes: Array
    weave: Array
    draw: np.random.Generator
    px: float


def make_third(seed: int, distance: str, pictures: int = 12) -> Scene:
    """A scene of players in kit of known colour, every third in white; the last four pictures differ in noise only."""
    painted = paint(seed, distance)
    base, spread = film(painted)
    return Scene(_shoot(painted.draw, base, spread, pictures), painted.garments, painted.whites, distance, seed)


def paint(seed: int, distance: str, bare: bool = False) -> Painted:
    """The scene as the camera's signal. bare: all cloth of garments is the perfect diffuser (shows the light by itself)."""
    draw = np.random.default_rng([3, seed, sorted(PX_AN_INCH).index(distance)])
    px = PX_AN_INCH[distance]
    dyer = Dyer(draw, bare)
    hall = hall_of(draw)
    canvas = _backdrop(draw, hall, dyer, px)
    whites: dict[int, Box] = {}
    if distance == "near":
        whites[0] = _backboard(canvas, hall, dyer)
    garments: list[Garment] = []
    across, rows = SLOTS[distance]
    for number in range(1, across * rows + 1):
        row, column = divmod(number - 1, across)
        left = (column + 0.5) * WIDTH / across + draw.uniform(-0.5, 0.5) * max(0.0, WIDTH / across - 30 * px)
        free = HEIGHT / rows - 46 * px
        top = row * HEIGHT / rows + 2 + draw.uniform(0.1 if row else 0.45, 0.9) * max(0.0, free)  # clear of the backboard
        home = number % 3 == 0
        place = ((left - WIDTH / 2) / px / 12, 20.0 * 4.4 / px + 6.0 * (rows - 1 - row))
        figure = Figure(canvas, light_at(hall, *place), dyer, number, left, top)
        found = figure.wear("chalk" if home else str(draw.choice(list(FABRICS)[1:])))
        garments += found
        if home:
            whites[number] = found[0].box
    return Painted(draw, dyer, hall, canvas, tuple(garments), whites)


# what stands in the hall


def _noise(draw: np.random.Generator, wide: float, high: float) -> Array:
    """A picture of smooth noise of unit sd; wide and high: its grain in px. Made at half size."""
    raw = draw.standard_normal((HEIGHT // 2, WIDTH // 2), dtype=np.float32)
    smooth = cv2.GaussianBlur(raw, (0, 0), sigmaX=max(wide / 2, 0.4), sigmaY=max(high / 2, 0.4))
    smooth = cv2.resize(smooth, (WIDTH, HEIGHT), interpolation=cv2.INTER_CUBIC)
    return smooth / smooth.std()


def _backdrop(draw: np.random.Generator, hall: Hall, dyer: Dyer, px: float) -> Canvas:
    """Wall, people on it as blots, the wooden floor with the lamps' pools and their streaks in the varnish, lines."""
    horizon = int(HEIGHT * draw.uniform(0.22, 0.36))
    rows, columns = np.mgrid[0:HEIGHT:16, 0:WIDTH:16].astype(np.float32)
    depth = np.clip(10 * 1108 / np.maximum(rows - 0.55 * horizon, 1), 12, 85)
    across = (columns - WIDTH / 2) / 1108 * depth
    level = cv2.resize(floor_light(hall.lamps, hall.height, hall.beam, across, depth).astype(np.float32), (WIDTH, HEIGHT))
    wood, line = dyer.signal(dyer.wood), dyer.signal(dyer.spectrum("#ececea"))
    boards = 1 + 0.05 * _noise(draw, 30, 2)
    signal = (level * boards)[..., None] * (0.8 * wood[0] + 0.2 * wood[1]) + hall.room * wood[ROOM] + hall.day * wood[DAY]
    spots = WIDTH / 2 + hall.lamps[:, 0] / np.maximum(hall.lamps[:, 1], 10) * 1108
    streaks = np.exp(-(((np.arange(WIDTH)[:, None] - spots) / 18) ** 2) / 2) @ draw.uniform(0.0, 0.25, len(spots))
    signal += np.outer(np.linspace(0, 1, HEIGHT), streaks).astype(np.float32)[..., None] * dyer.white[0]
    for _ in range(3):
        ends = [(int(draw.uniform(-300, 1500)), int(draw.choice([horizon, HEIGHT]))) for _ in range(2)]
        cv2.line(signal, ends[0], ends[1], (0.8 * line[0]).tolist(), max(2, round(2 * px)), cv2.LINE_AA)
    wall = dyer.signal(dyer.spectrum("#cfc9bb", (5.0, 2.0, 4.0)))
    signal[:horizon] = 0.45 * wall[0] + hall.room * wall[ROOM]
    crowd = [dyer.signal(dyer.spectrum(str(draw.choice(list(FABRICS.values())))))[0] for _ in range(12)]
    for _ in range(90):
        spot = (int(draw.uniform(0, WIDTH)), int(draw.uniform(0, horizon)))
        size = (int(draw.uniform(2, 4) * px), int(draw.uniform(3, 6) * px))
        cv2.ellipse(signal, spot, size, 0, 0, 360, (draw.uniform(0.2, 0.4) * crowd[draw.integers(12)]).tolist(), -1)
    folds = 0.75 * _noise(draw, 1.3 * px, 6 * px) + 0.8 * _noise(draw, 2.2 * px, 2.5 * px)  # hanging, and dragged
    slopes = np.stack([cv2.Sobel(folds, cv2.CV_32F, 1, 0), cv2.Sobel(folds, cv2.CV_32F, 0, 1)])
    folds /= folds.std()
    slopes /= np.sqrt((slopes**2).sum(axis=0).mean())
    weave = cv2.GaussianBlur(draw.standard_normal((HEIGHT, WIDTH), dtype=np.float32), (0, 0), 0.5)
    owner = np.full((HEIGHT, WIDTH), -1, dtype=np.int16)
    return Canvas(np.ascontiguousarray(signal, dtype=np.float32), owner, folds, slopes, weave / weave.std(), draw, px)


def _backboard(canvas: Canvas, hall: Hall, dyer: Dyer) -> Box:
    """A board of 72 by 42 in at 0.7 of the players' scale, behind them; its border (3 in here, the most allowed) as a box."""
    scale = 0.7 * canvas.px
    wide, high, edge = round(72 * scale), round(42 * scale), 3 * scale
    left = int(canvas.draw.uniform(60, WIDTH - wide - 60))
    light = light_at(hall, (left + wide / 2 - WIDTH / 2) / scale / 12, 32.0)
    flat = tuple(np.full((1, 1), one, dtype=np.float32) for one in (0.0, 0.0, 1.0))
    level = shaded(light, (flat[0], flat[1], flat[2]), np.ones((1, 1), dtype=np.float32))[:, 0, 0]
    white = level @ dyer.signal(dyer.spectrum("#eeeeec", (2.0, 0.6, 1.0)))
    top = 4
    board = canvas.signal[top : top + high, left : left + wide]
    inner = board[round(edge) : high - round(edge), round(edge) : wide - round(edge)].copy() * 0.8 + 0.05 * white
    board[:] = white
    board[round(edge) : high - round(edge), round(edge) : wide - round(edge)] = inner
    return _dragged(canvas.draw, left + 0.2 * wide, top, left + 0.8 * wide, top + edge)


def _dragged(draw: np.random.Generator, left: float, top: float, right: float, bottom: float) -> Box:
    """A box whose sides are each within a pixel of these."""
    x, y, end, low = (round(side + draw.uniform(-0.5, 0.5)) for side in (left, top, right, bottom))
    return Box(x, y, max(2, end - x), max(2, low - y))


class Figure:
    """A player in inches from the middle of the top of the head, painted on the canvas part by part, from back to front."""

    def __init__(self, canvas: Canvas, light: Light, dyer: Dyer, number: int, left: float, top: float) -> None:
        self.canvas, self.light, self.dyer, self.number = canvas, light, dyer, number
        self.left, self.top, self.draw = left, top, canvas.draw
        self.garments: list[Garment] = []

    def wear(self, jersey: str) -> list[Garment]:
        """Paint the player; the garments found on it, the jersey first."""
        draw = self.draw
        skin = self.dyer.signal(self.dyer.spectrum(str(draw.choice(SKINS)), (4.0, 2.0, 2.5)))
        hair = self.dyer.signal(self.dyer.spectrum(str(draw.choice(["#1d1916", "#3a2a1e", "#6b5238"]))))
        yaw = draw.uniform(-0.8, 0.8)
        half = float(np.hypot(8.8 * np.cos(yaw), 5.5 * np.sin(yaw)))
        cloth, lab = self.dyer.dye(jersey)
        for side in (-1, 1):
            self._part((side * (half + 1.0), 14, 30), 1.9, 1.9, skin, 0.02, lean=side * 0.06)
        self._part((0, 34, 46), half, 5.5, cloth, 0.12, yaw=yaw)
        self._part((0, 8, 14), 2.6, 2.6, skin, 0.01)
        fold = draw.uniform(*AMOUNTS.fold)
        self._part((0, 12, 36), 8.8, 5.5, cloth, fold, yaw=yaw, owner=0, sheen=draw.uniform(*AMOUNTS.sheen), beside=0.3)
        self._part((0, 11.5, 14), 2.4, 2.4, skin, 0.01)
        numbered = draw.random() < 0.5
        if numbered:
            self._digits(jersey)
        inset = 3 / self.canvas.px
        down = 24.0 if numbered else 14.5
        self._keep("torso", jersey, lab, (-half + inset, down + inset / 2, half - inset, 36 - inset))
        self._part((0, 0, 9.5), 3.1, 3.8, skin, 0.02, round_ends=True)
        self._part((0, 0, 2.4), 2.95, 3.6, hair, 0.15, round_ends=True)
        if draw.random() < 0.55:
            self._band()
        for side in self._arms():
            self._sleeve(side, half, cloth)
        return self.garments

    def _arms(self) -> list[int]:
        chance = self.draw.random()
        return [] if chance < 0.25 else [-1, 1] if chance < 0.45 else [int(self.draw.choice([-1, 1]))]

    def _band(self) -> None:
        name = str(self.draw.choice(LIMBS))
        cloth, lab = self.dyer.dye(name)
        wide = self.draw.uniform(1.9, 2.9)  # common practice: bands of 2 in and a little more, 3 in the most allowed
        self._part((0, 2.0, 2.0 + wide), 3.15, 3.9, cloth, self.draw.uniform(*AMOUNTS.tight), owner=len(self.garments))
        self._keep("headband", name, lab, (-3.15, 2.0, 3.15, 2.0 + wide))

    def _sleeve(self, side: int, half: float, jersey: Array) -> None:
        """A sleeve on the upper arm and over the elbow; the side by the body takes some of the jersey's colour."""
        name = str(self.draw.choice(LIMBS))
        cloth, lab = self.dyer.dye(name)
        middle, high, low, girth = side * (half + 1.4), 16.0, 27.0 + self.draw.uniform(-2, 2), self.draw.uniform(1.9, 2.2)
        taken = 0.06 * jersey[0] / self.dyer.white[0]
        fold, sheen = self.draw.uniform(*AMOUNTS.tight), self.draw.uniform(*AMOUNTS.sheen)
        self._part(
            (middle, high, low), girth, girth, cloth, fold,
            lean=side * self.draw.uniform(0.0, 0.06), owner=len(self.garments), sheen=sheen, near=(-side, taken),
        )  # fmt: skip
        self._keep("sleeve", name, lab, (middle - girth, high, middle + girth, low))

    def _keep(self, kind: str, name: str, lab: Array, sides: tuple[float, float, float, float]) -> None:
        px = self.canvas.px
        left, right = (self.left + px * side for side in (sides[0], sides[2]))
        top, bottom = (self.top + px * side for side in (sides[1], sides[3]))
        box = _dragged(self.draw, left, top, right, bottom)
        self.garments.append(Garment(kind, name, (float(lab[0]), float(lab[1]), float(lab[2])), box, self.number))

    def _digits(self, jersey: str) -> None:
        """A number of 4 in on the chest in white or dark, over the cloth; it takes the cloth's shading from its mean."""
        px = self.canvas.px
        name = "jet" if lab_of_code(FABRICS[jersey])[0] > 50 else "chalk"
        cloth = self.dyer.signal(self.dyer.spectrum(FABRICS[name]))
        level = 0.55 * (self.light.level[0] + self.light.level[1]) / 1.2
        text, scale = str(self.draw.integers(0, 56)), 4 * px / 21
        (wide, _), _ = cv2.getTextSize(text, cv2.FONT_HERSHEY_SIMPLEX, scale, 1)
        spot = (int(self.left - wide / 2), int(self.top + 22 * px))
        thick = max(1, round(0.9 * px))
        cv2.putText(
            self.canvas.signal, text, spot, cv2.FONT_HERSHEY_SIMPLEX, scale, (level * cloth[0]).tolist(), thick, cv2.LINE_AA
        )

    def _part(
        self, place: tuple[float, float, float], wide: float, deep: float, cloth: Array, fold: float, yaw: float = 0.0,
        lean: float = 0.0, owner: int = -1, sheen: float = 0.015, beside: float = 0.12, round_ends: bool = False,
        near: tuple[int, Array] | None = None,
    ) -> None:  # fmt: skip
        """One upright elliptic cylinder. place: middle, top and bottom in inches; wide, deep: half axes; yaw: turned by."""
        px, canvas = self.canvas.px, self.canvas
        middle, high, low = place
        half = float(np.hypot(wide * np.cos(yaw), deep * np.sin(yaw)))
        x0, x1 = (int(self.left + px * (middle + side * (half + 1.5))) for side in (-1, 1))
        y0, y1 = int(self.top + px * high) - 1, int(self.top + px * low) + 2
        x0, y0, x1, y1 = max(0, x0), max(0, y0), min(WIDTH, x1), min(HEIGHT, y1)
        if x1 <= x0 or y1 <= y0:
            return
        down, along = np.mgrid[y0:y1, x0:x1].astype(np.float32) + 0.5
        down = (down - self.top) / px
        along = (along - self.left) / px - middle - lean * (down - (high + low) / 2)
        edge = half
        if round_ends:
            edge = half * np.sqrt(np.clip(1 - ((down - (high + low) / 2) / ((low - high) / 2)) ** 2, 0.02, 1))
        cover = np.clip((edge - np.abs(along)) * px + 0.5, 0, 1)
        cover *= np.clip(np.minimum(down - high, low - down) * px + 0.5, 0, 1)
        angle = np.arccos(np.clip(along / half, -1, 1)) - np.arctan2(deep * np.sin(yaw), wide * np.cos(yaw))
        nx, nz = np.cos(angle) * deep, np.sin(angle) * wide
        nx, nz = nx * np.cos(yaw) + nz * np.sin(yaw), nz * np.cos(yaw) - nx * np.sin(yaw)
        length = np.hypot(nx, nz)
        patch = canvas.folds[y0:y1, x0:x1]
        sx, sy = fold * canvas.slopes[:, y0:y1, x0:x1]
        nx, ny, nz = nx / length - sx, sy + 0.15 * np.cos((down - high) / (low - high) * np.pi), nz / length
        length = np.sqrt(nx * nx + ny * ny + nz * nz)
        normal = (nx / length, ny / length, nz / length)
        shut = (
            1 - beside * np.exp(-np.maximum(0, half - np.abs(along)) / 1.2) + 0.5 * fold * patch
        )  # valleys see less of the hall
        level = shaded(self.light, normal, shut.astype(np.float32))
        colour = np.tensordot(level.transpose(1, 2, 0), cloth, 1)
        colour *= (1 + self.draw.uniform(*AMOUNTS.weave) * canvas.weave[y0:y1, x0:x1])[..., None]
        if near is not None:
            colour *= 1 + np.clip(0.5 + near[0] * along / half, 0, 1)[..., None] * near[1]
        colour += (sheen * self._gloss(normal))[..., None] * self.dyer.white[0]
        target = canvas.signal[y0:y1, x0:x1]
        target += (colour - target) * cover[..., None]
        if owner >= 0:
            canvas.owner[y0:y1, x0:x1][cover > 0.5] = self.number * 8 + owner
        else:
            canvas.owner[y0:y1, x0:x1][cover > 0.5] = -1

    def _gloss(self, normal: tuple[Array, Array, Array]) -> Array:
        """The wide gleam of the four strongest lamps, by the half vector; 12 is a satin's power."""
        view, total = np.array([0.0, 0.2, 0.98]), np.zeros_like(normal[0])
        for power, toward in self.light.strongest:
            half = (view + toward) / np.linalg.norm(view + toward)
            cosine = normal[0] * half[0] + normal[1] * half[1] + normal[2] * half[2]
            total += 1.5 * power * np.maximum(0, cosine) ** 12
        return total


# camera


def _matrix(draw: np.random.Generator, curves: Array) -> Array:
    """Camera signal after balance to linear sRGB, fitted on the chart under a lamp of the maker's choice, grey kept grey."""
    lamp = lamp_spectrum((str(draw.choice(["D55", "LED-B3", "FL11", "D65"])),))
    seen = (tables()["chart"] * lamp) @ curves / (lamp @ curves)
    wanted = tables()["chart"] @ tables()["observer"] / tables()["observer"].sum(axis=0)
    wanted = (wanted * SRGB.sum(axis=1)) @ np.linalg.inv(SRGB).T
    rows = []
    for channel in range(3):  # a row whose sum is 1: two numbers free
        others = [one for one in range(3) if one != channel]
        part = seen[:, others] - seen[:, [channel]]
        weight = 1 / (0.1 + wanted[:, [1]])  # dark patches count as the eye counts them, about
        numbers = np.linalg.lstsq(part * weight, (wanted[:, channel] - seen[:, channel]) * weight[:, 0], rcond=None)[0]
        row = np.zeros(3)
        row[others], row[channel] = numbers, 1 - numbers.sum()
        rows.append(row)
    return np.array(rows)


def film(painted: Painted) -> tuple[Array, Array]:
    """The camera's picture without noise, R'G'B' in 0..1, and the sd of its noise there (rows, columns, 1)."""
    draw, signal = painted.draw, _through_lens(painted.draw, painted.canvas.signal)
    signal = signal * _balance(painted, signal).astype(np.float32)
    aim, stops = AMOUNTS.exposure
    signal *= np.float32(aim * 2 ** draw.normal(0, stops) / signal[..., 1].mean())
    linear = cv2.transform(np.minimum(signal, 1.6), _matrix(draw, painted.dyer.curves).astype(np.float32))
    steps = np.arange(65536) / 32768
    places = np.clip(linear * 32768 + 0.5, 0, 65535).astype(np.uint16)
    curve = _tone(draw, steps)
    base = curve.astype(np.float32)[places]
    electrons, reading = draw.uniform(*AMOUNTS.electrons), draw.uniform(*AMOUNTS.reading)
    by_light = 1.4 * np.sqrt(steps / electrons + (reading / electrons) ** 2) * np.gradient(curve, steps)  # 1.4: balance, matrix
    spread = (by_light * draw.uniform(*AMOUNTS.smooth)).astype(np.float32)[places[..., 1]]
    return _finished(draw, base), spread[..., None]


def _through_lens(draw: np.random.Generator, signal: Array) -> Array:
    rows, columns = np.mgrid[0:HEIGHT, 0:WIDTH].astype(np.float32)
    square = ((columns / WIDTH - 0.5) ** 2 + ((rows - HEIGHT / 2) / WIDTH) ** 2) / (0.25 + 0.25 * (HEIGHT / WIDTH) ** 2)
    signal = signal * (1 - draw.uniform(*AMOUNTS.falloff) * square)[..., None]
    small = cv2.GaussianBlur(cv2.resize(signal, (160, 90), interpolation=cv2.INTER_AREA), (0, 0), 12)
    share = draw.uniform(*AMOUNTS.glare)
    haze = 0.5 * signal.mean(axis=(0, 1)) + 0.5 * cv2.resize(small, (WIDTH, HEIGHT))
    signal = (1 - share) * signal + share * haze
    smear = np.clip(draw.uniform(*AMOUNTS.smear) / 2 + 0.5 - np.abs(np.arange(-2, 3)), 0, 1)[None, :]
    signal = cv2.filter2D(signal, -1, smear / smear.sum())
    return cv2.GaussianBlur(signal, (0, 0), draw.uniform(*AMOUNTS.blur)).astype(np.float32)


def _balance(painted: Painted, signal: Array) -> Array:
    """Gains of red, green and blue: right for the mean light but for a pull toward a grey picture and a remainder."""
    draw, white = painted.draw, painted.dyer.white
    mean = 0.85 * white[0] + 0.15 * white[1] + 0.3 * white[BOUNCE] + 0.4 * painted.hall.room * white[ROOM]
    pull = draw.uniform(*AMOUNTS.grey)
    grey = signal.mean(axis=(0, 1))
    gains = (mean[1] / mean) ** (1 - pull) * (grey[1] / grey) ** pull
    warm, green = draw.normal(*AMOUNTS.warm), draw.normal(0, AMOUNTS.green)
    return gains * 2.0 ** np.array([warm / 2, green, -warm / 2])


def _tone(draw: np.random.Generator, light: Array) -> Array:
    """Between the sRGB curve (IEC 61966-2-1) and the BT.709 one, with a straight knee and a black level a little off."""
    share, black = draw.uniform(*AMOUNTS.tone), draw.uniform(*AMOUNTS.black)
    srgb = np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)
    video = np.where(light < 0.018, 4.5 * light, 1.099 * light**0.45 - 0.099)
    level = (1 - share) * srgb + share * video
    level = level + black * (1 - level)
    knee, slope = draw.uniform(*AMOUNTS.knee), draw.uniform(*AMOUNTS.slope)
    return np.clip(np.where(level > knee, knee + slope * (level - knee), level), 0, 1)


def _finished(draw: np.random.Generator, base: Array) -> Array:
    """Colour strength, colour bleeding and sharpening, on luma and colour differences (BT.709 luma)."""
    luma = cv2.transform(base, np.array([[0.2126, 0.7152, 0.0722]], dtype=np.float32))
    rest = cv2.GaussianBlur(base - luma[..., None], (0, 0), draw.uniform(*AMOUNTS.bleed)) * draw.uniform(*AMOUNTS.vivid)
    luma += draw.uniform(*AMOUNTS.sharpen) * (luma - cv2.GaussianBlur(luma, (0, 0), 1.2))
    return luma[..., None] + rest


def _shoot(draw: np.random.Generator, base: Array, spread: Array, pictures: int) -> list[Array]:
    """Pictures with noise. Brightness noise has the grain of demosaicing, colour noise that of its reduction (2.5 px)."""
    tall, broad = HEIGHT + 128, WIDTH + 128
    grain = cv2.GaussianBlur(draw.standard_normal((tall, broad), dtype=np.float32), (0, 0), 0.5)
    blots = cv2.GaussianBlur(draw.standard_normal((tall, broad, 3), dtype=np.float32), (0, 0), 2.5)
    noise = (grain / grain.std())[..., None] + 0.4 * blots / blots.std()
    pan, still = draw.integers(-3, 4, 2), min(STILL_FROM, pictures - 4)
    found = []
    for one in range(pictures):
        steps = max(0, still - one)
        moved = np.roll(base, (int(pan[1]) * steps // 2, int(pan[0]) * steps), axis=(0, 1)) if steps else base
        y, x = draw.integers(0, 129, 2)
        picture = moved + spread * noise[y : y + HEIGHT, x : x + WIDTH]
        found.append(cv2.convertScaleAbs(np.maximum(picture, 0), alpha=255 * (1 + draw.normal(0, AMOUNTS.flicker))))
    return found

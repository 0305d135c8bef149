"""What the functions that draw a person share: the picture, where the joints are, the codes of things, cloth and paint."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from filmreview.demo.brush import Cel, Field, Paint, linear
from filmreview.demo.made_up_game import GAME, Kit, Person, Rgb, Wear

OWNERS: tuple[str, ...] = (
    "nothing", "skin", "hair", "jersey", "number", "shorts", "shoe", "arm sleeve", "leg sleeve", "headband", "wristband",
    "undershirt", "jewelry", "knee brace", "trim",
)  # fmt: skip
CREW_KIT = Kit((238, 238, 238), (34, 34, 36), (30, 30, 32), (0, 0, 0), (0, 0, 0))


def code(thing: str) -> int:
    """The code of a thing in `Cel.owner`."""
    return OWNERS.index(thing)


@dataclass(frozen=True)
class Sketch:
    """at: column and row of each joint; near: towards the camera, feet. turn: degrees. detail: pixels to a foot."""

    cel: Cel
    person: Person
    at: dict[str, tuple[float, float]]
    near: dict[str, float]
    turn: float
    detail: float

    @property
    def kit(self) -> Kit:
        """The uniform of the person's team."""
        return GAME.kits.get(self.person.team, CREW_KIT)

    @property
    def in_crew(self) -> bool:
        """True for an official."""
        return self.person.team == "crew"

    def worn(self, item: str) -> Wear | None:
        """What the person wears of that item."""
        return next((wear for wear in self.person.wears if wear.item == item), None)


@dataclass(frozen=True)
class Zone:
    """A stretch of a limb in one colour: shares of the way along it."""

    start: float
    end: float
    colour: Rgb
    thing: str


def zones_paint(zones: Sequence[Zone]) -> Paint:
    """Paint for `brush.limb`: later zones lie over earlier ones."""

    def paint(share: Field, _: Field) -> tuple[Field, NDArray[np.uint8]]:
        colour = np.empty((*share.shape, 3), np.float32)
        owner = np.zeros(share.shape, np.uint8)
        for zone in zones:
            inside = (share >= zone.start) & (share < zone.end)
            colour[inside] = linear(zone.colour)
            owner[inside] = code(zone.thing)
        return colour, owner

    return paint


def wear_zones(person: Person, part: str) -> list[Zone]:
    """What the person wears on a part of a limb, as zones along it."""
    side = part.split(maxsplit=1)[0]
    found = []
    for wear in person.wears:
        parts = [name for name in wear.where if name.startswith(side)]
        if part in parts:
            start = wear.from_share if part == parts[0] else -9.0
            end = wear.to_share if part == parts[-1] else 9.0
            found.append(Zone(start if start > 0 else -9.0, end if end < 1 else 9.0, wear.colour, wear.item))
    return found


@cache
def _folds() -> Field:
    """Cloth: soft folds, mostly upright, and a fine weave; a factor around 1, shape (512, 512)."""
    dice = np.random.default_rng(7)
    soft = Image.fromarray(dice.normal(0, 1, (14, 30)).astype(np.float32)).resize((512, 512), Image.Resampling.BICUBIC)
    weave = dice.normal(0, 1, (512, 512)).astype(np.float32)
    return np.clip(1.0 + 0.055 * np.asarray(soft) + 0.018 * weave, 0.7, 1.25).astype(np.float32)


def folds(window: tuple[slice, slice], start: int) -> Field:
    """The cloth texture for a window, shifted by start so that no two people have the same folds."""
    rows = np.arange(window[0].start, window[0].stop)[:, None]
    columns = np.arange(window[1].start, window[1].stop)[None, :]
    return _folds()[_to_and_fro(rows + 37 * start), _to_and_fro(columns + 91 * start)]


def _to_and_fro(places: NDArray[np.int_]) -> NDArray[np.int_]:
    """0 to 511 and back again, so that the texture has no seam."""
    return np.where(places % 1024 < 512, places % 512, 511 - places % 512)

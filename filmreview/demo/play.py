"""What happens in the made-up game: where everybody and the ball is at any second, and when the ball is dead.

Four seconds and a bit of attack, a foul, two free throws with a substitution between them, a rebound the other way, and a
short dead ball at the side line.
"""

from __future__ import annotations

import csv
import math
from bisect import bisect_right
from dataclasses import dataclass, replace
from functools import cache
from importlib import resources

from filmreview.demo.body import STEPS
from filmreview.demo.stand import RING

SECONDS = 40
RATE = 25
FOUL, AT_DISPOSAL_1, FIRST_MADE, AT_DISPOSAL_2, OUT, THROWN_IN = 8.2, 13.0, 16.4, 28.2, 35.0, 38.0
STOPPAGES: tuple[tuple[float, float], ...] = ((FOUL, AT_DISPOSAL_1), (FIRST_MADE, AT_DISPOSAL_2), (OUT, THROWN_IN))
WHISTLES: tuple[float, ...] = (FOUL, OUT)
BAND_OFF = 36.4  # v24 takes the band off
HORN = 20.6
BECKONED = 22.6


@dataclass(frozen=True)
class Mark:
    """Where somebody is at a second. turn: degrees, see `body`; None: along the way, or to the basket when standing."""

    at: float
    x: float
    y: float
    pose: str = "ready"
    turn: float | None = None


@dataclass(frozen=True)
class Placement:
    """Somebody at one instant, ready to draw."""

    key: str
    x: float
    y: float
    pose: str
    turn: int
    without: frozenset[str] = frozenset()


@cache
def _paths() -> dict[str, tuple[Mark, ...]]:
    """Everybody's marks from `marks.csv` (who, second, x, y, pose, turn), in order of time."""
    paths: dict[str, tuple[Mark, ...]] = {}
    text = (resources.files("filmreview.demo") / "marks.csv").read_text(encoding="utf-8")
    for row in csv.DictReader(text.splitlines()):
        turn = float(row["turn"]) if row["turn"] else None
        mark = Mark(float(row["second"]), float(row["x"]), float(row["y"]), row["pose"], turn)
        paths[row["who"]] = (*paths.get(row["who"], ()), mark)
    return paths


PEOPLE: tuple[str, ...] = tuple(_paths())


def placed(key: str, second: float) -> Placement:
    """Where the person is, how posed and turned, at a second of the film."""
    where = _on_path(_paths()[key], key, second)
    off = frozenset({"wristband"}) if key == "v24" and second >= BAND_OFF else frozenset()
    return replace(where, without=off) if off else where


def _on_path(marks: tuple[Mark, ...], key: str, second: float) -> Placement:
    place = min(max(bisect_right([mark.at for mark in marks], second) - 1, 0), len(marks) - 2)
    now, then = marks[place], marks[place + 1]
    share = min(max((second - now.at) / (then.at - now.at), 0.0), 1.0)
    eased = share * share * (3 - 2 * share)
    run, rise = then.x - now.x, then.y - now.y
    x, y = now.x + run * eased, now.y + rise * eased
    speed = math.hypot(run, rise) / (then.at - now.at) * 6 * share * (1 - share)
    if speed > 1.2:
        gait, stride = ("run", 8.4) if math.hypot(run, rise) / (then.at - now.at) > 4.6 else ("walk", 4.8)
        step = int((math.hypot(run, rise) * eased / stride + place * 0.3) * STEPS) % STEPS
        return Placement(key, x, y, f"{gait} {step}", _towards(run, rise, 15))
    mark = then if share > 0.5 and (run, rise) != (0.0, 0.0) else now
    turn = mark.turn if mark.turn is not None else _towards(RING[0] - x, RING[1] - y, 10)
    sway = 0.05 * math.sin(second * 1.7 + sum(map(ord, key)))
    return Placement(key, x + sway, y, mark.pose, round(turn) % 360)


def _towards(run: float, rise: float, step: int) -> int:
    return round(math.degrees(math.atan2(run, -rise)) / step) * step % 360

"""Where the ball is at any second, and when it strikes something."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

from filmreview.demo.body import Place
from filmreview.demo.play import FIRST_MADE, THROWN_IN, placed
from filmreview.demo.stand import RING


@dataclass(frozen=True)
class _Leg:
    """The ball between two seconds. how: "held" or "dribbled" by a person, or "flies" from one place to another, rising so
    many feet over the straight line."""

    start: float
    end: float
    how: str
    who: str = ""
    start_at: Place = (0, 0, 0)
    end_at: Place = (0, 0, 0)
    rise: float = 0.0


_RIM = (RING[0] - 0.1, RING[1], RING[2] + 0.3)
_LINE_UP = (23.1, 24.8, 7.4)
_LEGS: tuple[_Leg, ...] = (
    _Leg(0, 3.6, "dribbled", "h12"),
    _Leg(3.6, 4.2, "held", "h12"),
    _Leg(4.2, 5.0, "flies", "", (19.7, 20, 4.5), (29.6, 39.5, 4.2), 1.5),
    _Leg(5.0, 5.9, "held", "h10"),
    _Leg(5.9, 6.6, "flies", "", (29.6, 39.5, 4.2), (20.7, 21, 4.0), 1.2),
    _Leg(6.6, 7.5, "dribbled", "h12"),
    _Leg(7.5, 8.1, "flies", "", (31.5, 22.6, 6.5), (36.2, 24.4, 9.6), 1.0),
    _Leg(8.1, 9.2, "flies", "", (36.2, 24.4, 9.6), (38.6, 20, 0.4), 0.6),
    _Leg(9.2, 11.0, "flies", "", (38.6, 20, 0.4), (37.6, 20.2, 3.6), 0.0),
    _Leg(11.0, 12.6, "held", "referee"),
    _Leg(12.6, 13.0, "flies", "", (37, 20.5, 4), (23.0, 24.9, 3.6), 1.0),
    _Leg(13.0, 14.7, "dribbled", "h12"),
    _Leg(14.7, 15.3, "held", "h12"),
    _Leg(15.3, FIRST_MADE, "flies", "", _LINE_UP, _RIM, 4.2),
    _Leg(FIRST_MADE, 17.1, "flies", "", _RIM, (RING[0], RING[1] - 0.4, 0.4), 0.0),
    _Leg(17.1, 18.4, "flies", "", (RING[0], RING[1] - 0.4, 0.4), (38.8, 17, 3.8), 2.0),
    _Leg(18.4, 27.7, "held", "referee"),
    _Leg(27.7, 28.2, "flies", "", (37.4, 20.5, 4), (23.0, 24.9, 3.6), 1.0),
    _Leg(28.2, 29.6, "dribbled", "h12"),
    _Leg(29.6, 30.1, "held", "h12"),
    _Leg(30.1, 31.2, "flies", "", _LINE_UP, (RING[0] + 0.6, RING[1], RING[2] + 0.4), 4.0),
    _Leg(31.2, 31.9, "flies", "", (RING[0] + 0.6, RING[1], RING[2] + 0.4), (35.0, 22, 7.4), 1.4),
    _Leg(31.9, 32.4, "held", "v31"),
    _Leg(32.4, 33.0, "flies", "", (34.6, 22, 4.5), (25.4, 22.5, 4.0), 0.8),
    _Leg(33.0, 34.6, "dribbled", "v5"),
    _Leg(34.6, 35.4, "flies", "", (14.0, 4.6, 1.0), (13.6, -2.5, 0.4), 0.8),
    _Leg(35.4, 37.2, "flies", "", (13.6, -2.5, 0.4), (13.4, 0.0, 3.8), 0.4),
    _Leg(37.2, THROWN_IN, "held", "v5"),
    _Leg(THROWN_IN, 38.8, "flies", "", (13, 0.6, 4.5), (10.4, 22.5, 4.0), 1.5),
    _Leg(38.8, 41, "dribbled", "v31"),
)
_DRIBBLE = 0.56  # seconds from bounce to bounce


def ball_at(second: float) -> Place:
    """Where the ball's middle is, feet."""
    leg = next(leg for leg in _LEGS if leg.start <= second < leg.end)
    if leg.how == "flies":
        share = (second - leg.start) / (leg.end - leg.start)
        x, y, z = (a + (b - a) * share for a, b in zip(leg.start_at, leg.end_at, strict=True))
        return x, y, z + 4 * leg.rise * share * (1 - share)
    person = placed(leg.who, second)
    angle = math.radians(person.turn)
    ahead = 1.25 if leg.how == "dribbled" or person.pose.startswith(("aim", "hold")) else 0.9
    x, y = person.x + ahead * math.sin(angle), person.y - ahead * math.cos(angle)
    if leg.how == "held":
        return x, y, 6.9 if person.pose == "aim" else 3.75
    share = ((second - leg.start) % _DRIBBLE) / _DRIBBLE
    return x + 0.25 * math.cos(angle), y, 0.4 + 2.7 * abs(math.cos(math.pi * share))


@cache
def bounces() -> tuple[float, ...]:
    """Seconds at which the ball strikes the floor or the ring."""
    found = [FIRST_MADE, 17.1, 31.2, 35.4, 9.2]
    for leg in _LEGS:
        if leg.how == "dribbled":
            count = int((leg.end - leg.start) / _DRIBBLE)
            found += [leg.start + _DRIBBLE * (n + 0.5) for n in range(count)]
    return tuple(sorted(found))

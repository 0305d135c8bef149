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
    """The ball up to a second, from the end of the leg before. how: "held" or "dribbled" by a person, or "flies" to a place,
    rising so many feet over the straight line; to None: to whoever has it next."""

    end: float
    how: str
    who: str = ""
    to: Place | None = None
    rise: float = 0.0


_FLOOR = 0.4
_NET = (RING[0] - 0.1, RING[1], RING[2] + 0.3)
_UNDER_NET = (RING[0], RING[1] - 0.4, _FLOOR)
_RING_EDGE = (RING[0] + 0.6, RING[1], RING[2] + 0.4)
_LEGS: tuple[_Leg, ...] = (
    _Leg(3.6, "dribbled", "h12"),
    _Leg(4.2, "held", "h12"),
    _Leg(5.0, "flies", rise=1.5),
    _Leg(5.9, "held", "h10"),
    _Leg(6.6, "flies", rise=1.2),
    _Leg(7.5, "dribbled", "h12"),
    _Leg(8.1, "flies", to=(36.2, 24.4, 9.6), rise=1.0),
    _Leg(9.2, "flies", to=(38.6, 20, _FLOOR), rise=0.6),
    _Leg(11.0, "flies"),
    _Leg(12.6, "held", "referee"),
    _Leg(13.0, "flies", rise=1.0),
    _Leg(14.7, "dribbled", "h12"),
    _Leg(14.9, "flies"),
    _Leg(15.3, "held", "h12"),
    _Leg(FIRST_MADE, "flies", to=_NET, rise=4.2),
    _Leg(17.1, "flies", to=_UNDER_NET),
    _Leg(18.4, "flies", rise=2.0),
    _Leg(27.7, "held", "referee"),
    _Leg(28.2, "flies", rise=1.0),
    _Leg(29.6, "dribbled", "h12"),
    _Leg(29.8, "flies"),
    _Leg(30.1, "held", "h12"),
    _Leg(31.2, "flies", to=_RING_EDGE, rise=4.0),
    _Leg(31.9, "flies", rise=1.4),
    _Leg(32.4, "held", "v31"),
    _Leg(33.0, "flies", rise=0.8),
    _Leg(34.6, "dribbled", "v5"),
    _Leg(35.4, "flies", to=(13.6, -2.5, _FLOOR), rise=0.8),
    _Leg(37.2, "flies", rise=0.4),
    _Leg(THROWN_IN, "held", "v5"),
    _Leg(38.8, "flies", rise=1.5),
    _Leg(41.0, "dribbled", "v31"),
)
_DRIBBLE = 0.56  # seconds from hand to hand


def ball_at(second: float) -> Place:
    """Where the ball's middle is, feet."""
    number = next(number for number, leg in enumerate(_LEGS) if second < leg.end)
    leg, start = _LEGS[number], _start(number)
    if leg.how != "flies":
        return _with(leg, second, start)
    share = (second - start) / (leg.end - start)
    x, y, z = (a + (b - a) * share for a, b in zip(_end_of(number - 1), _end_of(number), strict=True))
    return x, y, z + 4 * leg.rise * share * (1 - share)


def _start(number: int) -> float:
    return _LEGS[number - 1].end if number else 0.0


@cache
def _end_of(number: int) -> Place:
    """Where the ball is when a leg ends."""
    leg = _LEGS[number]
    if leg.how != "flies":
        return _with(leg, leg.end, _start(number))
    return leg.to or _with(_LEGS[number + 1], leg.end, leg.end)


def _with(leg: _Leg, second: float, start: float) -> Place:
    person = placed(leg.who, second)
    angle = math.radians(person.turn)
    ahead = 1.25 if leg.how == "dribbled" or person.pose.startswith(("aim", "hold")) else 0.9
    x, y = person.x + ahead * math.sin(angle), person.y - ahead * math.cos(angle)
    if leg.how == "held":
        return x, y, 6.9 if person.pose == "aim" else 3.75
    share = ((second - start) % _DRIBBLE) / _DRIBBLE
    return x + 0.25 * math.cos(angle), y, _FLOOR + 2.7 * abs(math.cos(math.pi * share))


@cache
def bounces() -> tuple[float, ...]:
    """Seconds at which the ball strikes the floor or the ring."""
    found = [FIRST_MADE]
    for number, leg in enumerate(_LEGS):
        if leg.to in (_UNDER_NET, _RING_EDGE) or (leg.to and leg.to[2] == _FLOOR):
            found.append(leg.end)
        if leg.how == "dribbled":
            count = int((leg.end - _start(number)) / _DRIBBLE)
            found += [_start(number) + _DRIBBLE * (n + 0.5) for n in range(count)]
    return tuple(sorted(found))

"""The camera's way: which part of the big picture it shows at any second."""

from __future__ import annotations

from filmreview.demo.stand import Shot, spot

_WIDE_WIDTH = 2650.0
_KEYS: tuple[tuple[float, float, float, float, float], ...] = (
    # second, looking at x, y, z (feet), width in big pixels
    (0.0, 14, 25, 3.5, _WIDE_WIDTH),
    (0.6, 14, 25, 3.5, _WIDE_WIDTH),
    (3.6, 26, 25, 3.5, _WIDE_WIDTH),
    (8.8, 26, 25, 3.5, _WIDE_WIDTH),
    (10.8, 28.6, 25, 4.0, 1560),
    (12.2, 29.0, 25, 4.0, 1440),
    (13.3, 30.3, 25, 4.3, 1060),
    (14.5, 30.3, 25, 4.3, 1060),
    (15.2, 29.3, 25, 5.0, 1500),
    (17.0, 29.3, 25, 5.0, 1500),
    (17.9, 16.9, 22, 4.7, 780),
    (19.9, 16.9, 22, 4.7, 780),
    (21.2, 1.0, 50, 3.6, 760),
    (23.0, 1.0, 50, 3.6, 760),
    (24.4, 4.0, 48, 3.6, 980),
    (26.2, 29.8, 25, 4.4, 1100),
    (28.2, 29.8, 25, 4.4, 1100),
    (29.0, 28.9, 25, 4.7, 1540),
    (31.8, 28.9, 25, 4.7, 1540),
    (33.6, 22, 20, 3.0, 2300),
    (34.9, 15, 15, 2.5, 2000),
    (36.1, 13.6, 4, 4.2, 1000),
    (37.2, 13.6, 4, 4.2, 1000),
    (38.6, 12, 18, 3.0, 2400),
    (41.0, 12, 18, 3.0, 2400),
)


def shot_at(second: float) -> Shot:
    """The shot at a second of the film: between two keys the camera starts and stops softly."""
    after = next(place for place, key in enumerate(_KEYS) if key[0] > second)
    one, two = _KEYS[after - 1], _KEYS[after]
    share = (second - one[0]) / (two[0] - one[0])
    eased = share * share * (3 - 2 * share)
    (x1, y1), (x2, y2) = spot(*one[1:4]), spot(*two[1:4])
    width = one[4] * (two[4] / one[4]) ** eased
    return Shot(x1 + (x2 - x1) * eased, y1 + (y2 - y1) * eased, width)

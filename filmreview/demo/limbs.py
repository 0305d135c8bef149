"""Arms and legs with sleeves, bands, braces, socks and shoes."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from filmreview.demo.brush import Cel, Field, Point, limb, linear
from filmreview.demo.made_up_game import Rgb
from filmreview.demo.sketch import Sketch, Zone, wear_zones, zones_paint

_SOCK: Rgb = (224, 224, 222)
_SHOES: dict[str, Rgb] = {"home": (206, 208, 214), "visitor": (52, 54, 58), "crew": (26, 26, 28)}
_ALL = (-9.0, 9.0)


def tube(
    sketch: Sketch, start: Point, end: Point, radii: tuple[float, float], zones: Sequence[Zone], *, cut: bool = False
) -> None:
    """A limb of a sketch; radii in feet at both ends. cut: the end is flat."""
    pixels = (radii[0] * sketch.detail, radii[1] * sketch.detail)
    limb(sketch.cel, start, end, pixels, zones_paint(zones), cut=cut)


def draw_arm(sketch: Sketch, side: str) -> None:
    """Upper arm, forearm and hand of one side."""
    shoulder, elbow, wrist, hand = (sketch.at[f"{side} {joint}"] for joint in ("shoulder", "elbow", "wrist", "hand"))
    skin = Zone(*_ALL, sketch.person.skin, "skin")
    tube(sketch, wrist, hand, (0.115, 0.11), [skin])
    tube(sketch, elbow, wrist, (0.165, 0.115), [skin, *wear_zones(sketch.person, f"{side} forearm")])
    upper = [skin, *wear_zones(sketch.person, f"{side} upper arm")]
    tube(sketch, shoulder, elbow, (0.205, 0.160), upper)
    if sketch.in_crew:
        tube(sketch, shoulder, _between(shoulder, elbow, 0.55), (0.225, 0.225), _striped_sleeve(), cut=True)
    elif sketch.worn("undershirt"):
        shirt = [zone for zone in upper if zone.thing == "undershirt"]
        tube(
            sketch,
            shoulder,
            _between(shoulder, elbow, 0.5),
            (0.225, 0.215),
            [Zone(*_ALL, shirt[0].colour, "undershirt")],
            cut=True,
        )


def draw_leg(sketch: Sketch, side: str) -> None:
    """Thigh with the leg of the shorts, knee, shin, sock and shoe of one side."""
    hip, knee, ankle, toe = (sketch.at[f"{side} {joint}"] for joint in ("hip", "knee", "ankle", "toe"))
    person = sketch.person
    shoe = Zone(*_ALL, _SHOES[person.team], "shoe")
    heel = (ankle[0], ankle[1] + 0.13 * sketch.detail)
    tube(sketch, heel, toe, (0.145, 0.11), [shoe])
    if sketch.in_crew:
        trousers = [Zone(*_ALL, sketch.kit.shorts, "shorts")]
        tube(sketch, knee, ankle, (0.24, 0.19), trousers)
        tube(sketch, hip, knee, (0.33, 0.25), trousers)
        return
    skin = Zone(*_ALL, person.skin, "skin")
    shin = [skin, Zone(0.66, 9.0, _SOCK, "shoe"), *wear_zones(person, f"{side} shin")]
    tube(sketch, knee, ankle, (0.205, 0.125), shin)
    tube(sketch, hip, knee, (0.30, 0.215), [skin, *wear_zones(person, f"{side} thigh")])
    for zone in wear_zones(person, f"{side} knee"):
        tube(
            sketch,
            _between(hip, knee, 0.86),
            _between(knee, ankle, 0.18),
            (0.225, 0.215),
            [Zone(*_ALL, zone.colour, zone.thing)],
            cut=True,
        )
    hem = [Zone(-9.0, 0.93, sketch.kit.shorts, "shorts"), Zone(0.93, 9.0, sketch.kit.trim, "trim")]
    tube(sketch, hip, _between(hip, knee, 0.66), (0.36, 0.39), hem, cut=True)


def draw_ball(cel: Cel, middle: Point, radius: float) -> None:
    """A ball: brown-orange leather with seams."""

    def leather(_: Field, across: Field) -> tuple[Field, int]:
        seam = (np.abs(np.abs(across) - 0.45) < 0.05) | (np.abs(across) < 0.045)
        return np.where(seam[..., None], linear((60, 34, 22)), linear((196, 104, 50))).astype(np.float32), 0

    limb(cel, middle, (middle[0] + 0.7, middle[1] + 0.7), (radius, radius), leather)


def _striped_sleeve() -> list[Zone]:
    edges = [-9.0, 0.0, 0.25, 0.5, 0.75, 9.0]
    greys: list[Rgb] = [(236, 236, 236), (30, 30, 32)]
    return [Zone(edges[n], edges[n + 1], greys[n % 2], "jersey") for n in range(len(edges) - 1)]


def _between(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share

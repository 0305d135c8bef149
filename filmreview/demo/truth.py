"""The truth file: what is on the film, where, in which true colours and sizes, and what the book makes of it.

JSON, so that other programs can be held to it as well. Boxes are x, y, width, height in pixels of the picture; times are
seconds from the film's start; colours are true colours in even daylight, "#rrggbb"; sizes are inches.
"""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from filmreview.demo.body import BODY_TALL
from filmreview.demo.drawing import HEIGHT, WIDTH
from filmreview.demo.filming import PICTURES
from filmreview.demo.made_up_game import GAME, Kit, Person, Rgb, Wear
from filmreview.demo.observed import CHARGED, EVENTS, KINDS, PUTS, Put
from filmreview.demo.play import RATE, SECONDS, STOPPAGES
from filmreview.demo.regions import box_around, box_inside, seen_in
from filmreview.demo.trunk import BACK_HIGH_IN, BORDER_IN, FRONT_HIGH_IN
from filmreview.facts.region import Box

_HEAD_HIGH_IN = 0.44 * 12  # half the height of a drawn head


def frame_of(put: Put) -> int:
    """The number of the picture a tag lies on."""
    return round(put.second * RATE)


def region_of(put: Put) -> Box:
    """Where the thing is: inside it for measuring, around it otherwise."""
    mask = seen_in(frame_of(put)).mask(put.who, put.thing)
    found = box_inside(mask) if put.inside else box_around(mask)
    if found is None:
        raise ValueError(f"{put.name}: the thing is not in the picture")
    return found


def white_of(put: Put) -> Box | None:
    """Where the reference is: on the white jersey named, None when none is."""
    return box_inside(seen_in(frame_of(put)).mask(put.white_of, "jersey")) if put.white_of else None


def true_colour(put: Put) -> Rgb:
    """The colour the thing was drawn in."""
    person = GAME.person(put.who)
    kit = GAME.kits[person.team]
    if put.item in ("jersey", "number"):
        return kit.jersey if put.item == "jersey" else kit.number
    return next(wear.colour for wear in person.wears if wear.item == put.item)


def code_of(colour: Rgb) -> str:
    """A colour as "#rrggbb"."""
    return "#{:02x}{:02x}{:02x}".format(*colour)


def truth() -> dict[str, Any]:
    """The whole truth file as plain data."""
    return {
        "made_by": "drawn by filmreview; every school and person is invented",
        "game": {
            "day": GAME.day.isoformat(), "book": GAME.book, "level": GAME.level, "home": GAME.home, "visitor": GAME.visitor,
            "crew": [{"position": position, "name": name} for position, name in GAME.crew], "observer": GAME.observer,
        },
        "film": {"width": WIDTH, "height": HEIGHT, "rate": RATE, "frames": PICTURES, "seconds": SECONDS},
        "kits": {team: _kit(kit) for team, kit in GAME.kits.items()},
        "numbers": {"front_height_in": FRONT_HIGH_IN, "back_height_in": BACK_HIGH_IN, "border_in": BORDER_IN},
        "people": [_person(person) for person in GAME.people],
        "stoppages": [
            {"from": start, "to": end, "kind": kind} for (start, end), kind in zip(STOPPAGES, KINDS, strict=True)
        ],
        "tags": [_tag(put) for put in PUTS],
        "events": [asdict(event) for event in EVENTS],
        "penalties": [asdict(charged) for charged in CHARGED],
    }  # fmt: skip


def _kit(kit: Kit) -> dict[str, str]:
    return {name: code_of(colour) for name, colour in asdict(kit).items()}


def _person(person: Person) -> dict[str, Any]:
    return {
        "team": person.team,
        "number": person.number,
        "tall_ft": person.tall,
        "wears": [_wear(wear, person) for wear in person.wears],
    }


def _wear(wear: Wear, person: Person) -> dict[str, Any]:
    told: dict[str, Any] = {"item": wear.item, "colour": code_of(wear.colour), "on": list(wear.where)}
    if wear.item == "headband":
        told["width_in"] = round((wear.to_share - wear.from_share) * _HEAD_HIGH_IN * person.tall / BODY_TALL, 2)
    return told


def _tag(put: Put) -> dict[str, Any]:
    person, white = GAME.person(put.who), white_of(put)
    return {
        "name": put.name,
        "frame": frame_of(put),
        "time": frame_of(put) / RATE,
        "team": person.team,
        "player": person.number,
        "item": put.item,
        "region": _box(region_of(put)),
        "white": _box(white) if white else None,
        "true_colour": code_of(true_colour(put)),
        "measured": put.measured,
        "expect": asdict(put.expect),
        "crew": asdict(put.crew),
    }


def _box(box: Box) -> list[int]:
    return [box.x, box.y, box.width, box.height]

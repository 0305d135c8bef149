"""The model's values as rows of plain columns, and back: the form they have in the file and in its history.

A row is a mapping of column to text, number or None; what is nested (facts, teams, crew) is one JSON text in its column.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import asdict
from datetime import date
from fractions import Fraction
from typing import Any

from filmreview.facts.fact import Fact, Origin
from filmreview.facts.region import Box, Region, region_from_json, region_to_json
from filmreview.facts.stored import colour_from_json, colour_to_json, fact_from_json, fact_to_json
from filmreview.film.moment import Moment, parse_time
from filmreview.review.model import (
    Blur,
    BlurAt,
    CommonMoment,
    CrewMember,
    CrewResponse,
    FaceChoice,
    FilmRef,
    Game,
    Lesson,
    Letter,
    OwnCall,
    PlacedEvent,
    PlacedReference,
    PlacedTag,
    Reply,
    Stoppage,
    TagOfficial,
    Team,
    Thing,
)

Row = Mapping[str, Any]


def part_of(thing: Thing) -> str:
    """The table a value belongs to: game, film, tag ..."""
    return _PARTS[type(thing)]


def id_of(thing: Thing) -> str:
    """The value's id; the one game is called "game"."""
    return "game" if isinstance(thing, Game) else thing.id


def to_row(thing: Thing) -> Row:
    """The value as a row of its table, its id among the columns."""
    return _TO_ROW[part_of(thing)](thing)


def from_row(part: str, row: Row) -> Thing:
    """The inverse of `to_row`."""
    return _FROM_ROW[part](row)


def _json(data: object) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))


def _moment(row: Row, prefix: str = "") -> Moment:
    return Moment(row[f"{prefix}pts"], Fraction(row[f"{prefix}time_base"]))


def _moment_columns(moment: Moment, prefix: str = "") -> Row:
    return {f"{prefix}pts": moment.pts, f"{prefix}time_base": str(moment.time_base)}


def _team_to_json(team: Team) -> dict[str, Any]:
    facts = {
        name: {"value": [colour_to_json(colour) for colour in _colours(fact)], "origin": fact.origin.value, "why": fact.why}
        for name, fact in team.facts.items()
    }
    return {"name": team.name, "facts": facts, "roster": list(team.roster)}


def _colours(fact: Fact) -> tuple[Any, ...]:
    return fact.value if isinstance(fact.value, tuple) else ()


def _team_from_json(data: Mapping[str, Any]) -> Team:
    facts = {
        name: Fact(name, tuple(colour_from_json(one) for one in fact["value"]), Origin(fact["origin"]), fact["why"])
        for name, fact in data["facts"].items()
    }
    return Team(data["name"], facts, tuple(data["roster"]))


def _game_to_row(game: Game) -> Row:
    return {
        "id": "game",
        "day": game.day.isoformat(),
        "level": game.level,
        "book": game.book,
        "adoption": game.adoption,
        "home": _json(_team_to_json(game.home)),
        "visitor": _json(_team_to_json(game.visitor)),
        "crew": _json([[one.position, one.name] for one in game.crew]),
        "observer": game.observer,
        "rulings_hidden": int(game.rulings_hidden),
    }


def _game_from_row(row: Row) -> Game:
    crew = tuple(CrewMember(position, name) for position, name in json.loads(row["crew"]))
    home, visitor = (_team_from_json(json.loads(row[side])) for side in ("home", "visitor"))
    day, hidden = date.fromisoformat(row["day"]), bool(row.get("rulings_hidden", 0))  # not in the history of forms 1 to 3
    return Game(day, row["level"], row["book"], row["adoption"], home, visitor, crew, row["observer"], hidden)


def _film_to_row(film: FilmRef) -> Row:
    return {
        "id": film.id,
        "path": film.path,
        "beside": film.beside,
        "size": film.size,
        "length": str(film.length),
        "digest": film.digest,
        **_moment_columns(film.start, "start_"),
        "width": film.width,
        "height": film.height,
        "what": film.what,
    }


def _film_from_row(row: Row) -> FilmRef:
    return FilmRef(
        row["id"],
        row["path"],
        row["size"],
        Fraction(row["length"]),
        row["digest"],
        _moment(row, "start_"),
        row["width"],
        row["height"],
        row["beside"],
        row.get("what", ""),  # not in the history of forms 1 to 3
    )


def _tag_to_row(tag: PlacedTag) -> Row:
    return {
        "id": tag.id,
        "film": tag.film,
        **_moment_columns(tag.moment),
        "team": tag.team,
        "player": tag.player,
        "item": tag.item,
        "region": None if tag.region is None else _json(region_to_json(tag.region)),
        "facts": _json([fact_to_json(fact) for fact in tag.facts]),
        "note": tag.note,
        "crew": None if tag.crew is None else _json(_crew_to_json(tag.crew)),
    }


def _tag_from_row(row: Row) -> PlacedTag:
    return PlacedTag(
        row["id"],
        row["film"],
        _moment(row),
        row["team"],
        row["player"],
        row["item"],
        _region(row["region"]),
        tuple(fact_from_json(fact) for fact in json.loads(row["facts"])),
        row["note"],
        None if row["crew"] is None else _crew_from_json(json.loads(row["crew"])),
    )


def _region(text: str | None) -> Region | None:
    return None if text is None else region_from_json(json.loads(text))


def _crew_to_json(crew: CrewResponse) -> dict[str, Any]:
    moment = None if crew.moment is None else dict(_moment_columns(crew.moment))
    return {"mark": crew.mark, "moment": moment, "did": crew.did, "film": crew.film}


def _crew_from_json(data: Mapping[str, Any]) -> CrewResponse:
    moment = None if data["moment"] is None else _moment(data["moment"])
    return CrewResponse(data["mark"], moment, data["did"], data["film"])


def _event_to_row(event: PlacedEvent) -> Row:
    return {
        "id": event.id,
        "film": event.film,
        **_moment_columns(event.moment),
        "what": event.what,
        "team": event.team,
        "player": event.player,
        "length": event.length,
        "before_start": None if event.before_start is None else str(event.before_start),
        "note": event.note,
        "kind": event.kind,
        "charged_to": event.charged_to,
    }


def _event_from_row(row: Row) -> PlacedEvent:
    what, team, player, length, note = (row[column] for column in ("what", "team", "player", "length", "note"))
    before_start = _before_start(row["before_start"])
    foul = (row.get("kind"), row.get("charged_to"))  # form 1 had neither, and its history still has not
    return PlacedEvent(row["id"], row["film"], _moment(row), what, team, player, length, before_start, note, *foul)


def _before_start(text: str | None) -> Fraction | None:
    """Seconds; form 1 kept it as a person writes it ("8:00")."""
    if text is None:
        return None
    return parse_time(text) if ":" in text else Fraction(text)


def _reference_to_row(reference: PlacedReference) -> Row:
    return {
        "id": reference.id,
        "film": reference.film,
        **_moment_columns(reference.moment),
        "region": _json(region_to_json(reference.region)),
        "colour": _json(colour_to_json(reference.colour)),
    }


def _reference_from_row(row: Row) -> PlacedReference:
    region, colour = region_from_json(json.loads(row["region"])), colour_from_json(json.loads(row["colour"]))
    return PlacedReference(row["id"], row["film"], _moment(row), region, colour)


def _stretch_columns(start: Moment, end: Moment) -> Row:
    return {**_moment_columns(start, "start_"), **_moment_columns(end, "end_")}


def _stoppage_to_row(one: Stoppage) -> Row:
    words = {"kind": one.kind, "note": one.note, "origin": one.origin}
    return {"id": one.id, "film": one.film, **_stretch_columns(one.start, one.end), **words}


def _stoppage_from_row(row: Row) -> Stoppage:
    words = (row["kind"], row["note"], row["origin"])
    return Stoppage(row["id"], row["film"], _moment(row, "start_"), _moment(row, "end_"), *words)


def _common_to_row(one: CommonMoment) -> Row:
    there = {"other": one.other, **_moment_columns(one.other_moment, "other_")}
    return {"id": one.id, "film": one.film, **_moment_columns(one.moment), **there}


def _common_from_row(row: Row) -> CommonMoment:
    return CommonMoment(row["id"], row["film"], _moment(row), row["other"], _moment(row, "other_"))


def _blur_to_row(one: Blur) -> Row:
    regions = [{**_moment_columns(at.moment), "box": region_to_json(at.box)} for at in one.regions]
    end = {**_moment_columns(one.end, "end_"), "origin": one.origin}
    return {"id": one.id, "film": one.film, "regions": _json(regions), **end}


def _blur_from_row(row: Row) -> Blur:
    regions = tuple(BlurAt(_moment(at), _box(at["box"])) for at in json.loads(row["regions"]))
    return Blur(row["id"], row["film"], regions, _moment(row, "end_"), row["origin"])


def _box(data: Any) -> Box:
    region = region_from_json(data)
    assert isinstance(region, Box), "a face is blurred in boxes"
    return region


def _face_choice_to_row(one: FaceChoice) -> Row:
    return {"id": one.id, "film": one.film, **_stretch_columns(one.start, one.end), "choice": one.choice}


def _face_choice_from_row(row: Row) -> FaceChoice:
    return FaceChoice(row["id"], row["film"], _moment(row, "start_"), _moment(row, "end_"), row["choice"])


_PARTS: Mapping[type, str] = {
    Game: "game",
    FilmRef: "film",
    PlacedTag: "tag",
    PlacedEvent: "event",
    PlacedReference: "reference",
    TagOfficial: "official",
    Reply: "reply",
    Letter: "letter",
    Stoppage: "stoppage",
    CommonMoment: "common",
    OwnCall: "own_call",
    Blur: "blur",
    FaceChoice: "face_choice",
    Lesson: "lesson",
}
_TO_ROW: Mapping[str, Callable[[Any], Row]] = {
    "game": _game_to_row,
    "film": _film_to_row,
    "tag": _tag_to_row,
    "event": _event_to_row,
    "reference": _reference_to_row,
    "official": asdict,
    "reply": asdict,
    "letter": asdict,
    "stoppage": _stoppage_to_row,
    "common": _common_to_row,
    "own_call": asdict,
    "blur": _blur_to_row,
    "face_choice": _face_choice_to_row,
    "lesson": asdict,
}
_FROM_ROW: Mapping[str, Callable[[Row], Thing]] = {
    "game": _game_from_row,
    "film": _film_from_row,
    "tag": _tag_from_row,
    "event": _event_from_row,
    "reference": _reference_from_row,
    "official": lambda row: TagOfficial(**row),
    "reply": lambda row: Reply(**row),
    "letter": lambda row: Letter(**row),
    "stoppage": _stoppage_from_row,
    "common": _common_from_row,
    "own_call": lambda row: OwnCall(**row),
    "blur": _blur_from_row,
    "face_choice": _face_choice_from_row,
    "lesson": lambda row: Lesson(**row),
}

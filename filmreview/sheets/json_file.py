"""The hand-over as one JSON document (RFC 8259) for other programs.

`findings.schema.json` beside this module tells its form (JSON Schema 2020-12).

Times are given three ways: as people read them, in seconds to the millisecond, and exact as pts and time base.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from filmreview.aside import written_aside
from filmreview.facts.region import region_to_json
from filmreview.progress import Progress, silent
from filmreview.review.model import FilmRef, Game
from filmreview.sheets.handover import Charge, Choice, Cited, Departure, HandOver, LetterTo, Line, Procedure
from filmreview.sheets.inert import inert
from filmreview.sheets.sheet_words import NOT_MARKED

SCHEMA_PATH = Path(__file__).with_name("findings.schema.json")
VERSION = 1


def write_json(sheet_of: HandOver, path: Path, progress: Progress = silent) -> None:
    """Write the document, in place of an older one only when it is whole. Raises FilmReviewError when it cannot be written."""
    with written_aside(path) as aside:
        aside.write_text(json.dumps(document(sheet_of), ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
    progress(1.0, "written")


def document(sheet_of: HandOver) -> dict[str, Any]:
    """The whole document as plain data; every text in it is made harmless."""
    whole = {
        "form": "filmreview findings",
        "version": VERSION,
        "program": sheet_of.program,
        "made_for": sheet_of.made_for,
        "game": _game(sheet_of.game),
        "book": {"title": sheet_of.book, "edition": sheet_of.edition, "adoption": sheet_of.adoption or None},
        "films": [_film(film) for film in sheet_of.films],
        "counts": [
            {"ruling": ruling, "crew_mark": None if mark == NOT_MARKED else mark, "count": count}
            for (ruling, mark), count in sorted(sheet_of.counts.items())
        ],
        "findings": [_line(line) for line in sheet_of.lines],
        "penalties": [_charge(one) for one in sheet_of.charges],
        "disputed": list(sheet_of.disputed),
        "choices": [_choice(one) for one in sheet_of.choices],
        "procedure": _procedure(sheet_of.procedure) if sheet_of.procedure else None,
        "rules": [_cited(one) for one in sheet_of.cited],
        "letters": [_letter(one) for one in sheet_of.letters],
        "cautions": list(sheet_of.cautions),
    }
    made: dict[str, Any] = _harmless(whole)
    return made


def _harmless(value: Any) -> Any:
    if isinstance(value, str):
        return inert(value)
    if isinstance(value, dict):
        return {key: _harmless(one) for key, one in value.items()}
    if isinstance(value, list):
        return [_harmless(one) for one in value]
    return value


def _game(game: Game) -> dict[str, Any]:
    return {
        "day": game.day.isoformat(),
        "level": game.level,
        "home": game.home.name,
        "visitor": game.visitor.name,
        "crew": [{"position": one.position, "name": one.name} for one in game.crew],
        "observer": game.observer or None,
    }


def _film(film: FilmRef) -> dict[str, Any]:
    length = round(float(film.length), 3)
    return {"id": film.id, "name": film.name, "seconds": length, "width": film.width, "height": film.height}


def _line(line: Line) -> dict[str, Any]:
    time_base = line.moment.time_base
    return {
        "number": line.number,
        "tag": line.tag,
        "film": line.film.id,
        "time": line.time,
        "seconds": round(float(line.seconds), 3),
        "pts": line.moment.pts,
        "time_base": f"{time_base.numerator}/{time_base.denominator}",
        "side": line.side,
        "team": line.team,
        "player": line.player,
        "item": line.item,
        "region": region_to_json(line.region) if line.region else None,
        "seen": list(line.seen),
        "ruling": line.ruling,
        "consequence": line.consequence,
        "reasons": list(line.reasons),
        "what_the_book_asks": line.todo,
        "rule": line.rule or None,
        "reference": line.reference or None,
        "edition": line.edition or None,
        "adoption": line.adoption or None,
        "source": line.source or None,
        "mark": line.mark or None,
        "would_change_it": list(line.asks),
        "ahead": [{"ruling": one.ruling, "from": one.starts, "rule": one.rule} for one in line.ahead],
        "ruled_before": line.earlier or None,
        "crew": _crew(line),
        "could_have_done": line.could_have_done,
        "official": line.official or None,
        "replies": list(line.replies),
        "note": line.note,
    }


def _crew(line: Line) -> dict[str, Any] | None:
    if line.crew_mark == NOT_MARKED:
        return None
    return {"mark": line.crew_mark, "time": line.crew_time or None, "did": line.did}


def _letter(one: LetterTo) -> dict[str, Any]:
    return {"position": one.position, "name": one.name, "words": one.words, "built_from_the_findings": one.built}


def _charge(one: Charge) -> dict[str, Any]:
    return {
        "team": one.team,
        "kind": one.kind,
        "count": one.count,
        "charged_to": one.charged_to,
        "free_throws_each": one.free_throws,
        "coaching_box": one.coaching_box or None,
        "then": one.then,
        "reference": one.reference,
        "source": one.source,
        "mark": one.mark,
        "players": list(one.players),
    }


def _choice(one: Choice) -> dict[str, Any]:
    return {"team": one.team, "rule": one.rule, "keep": one.keep, "change": list(one.change), "least_change": one.first}


def _procedure(one: Procedure) -> dict[str, Any]:
    return {
        "names": list(one.names),
        "path": one.path,
        "ruling": one.ruling,
        "departures": [_departure(each) for each in one.departures],
        "missing": list(one.missing),
        "reference": one.reference,
        "edition": one.edition,
    }


def _departure(one: Departure) -> dict[str, Any]:
    return {
        "procedure": one.procedure,
        "film": one.film,
        "time": one.time,
        "what": one.what,
        "asks": one.asks,
        "over": one.over or None,
        "reference": one.reference,
        "source": one.source,
        "mark": one.mark,
    }


def _cited(one: Cited) -> dict[str, Any]:
    return {
        "rule": one.rule,
        "title": one.title,
        "reference": one.reference,
        "edition": one.edition,
        "says": one.says,
        "source": one.source,
        "mark": one.mark,
        "findings": list(one.by),
    }

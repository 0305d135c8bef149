"""The findings as an OpenTimelineIO file (.otio): a track with the films one after the other, a marker for each finding.

Written in the JSON of the published schemas (Timeline.1, Stack.1, Track.1, Clip.2, Marker.2 ... of the OpenTimelineIO
documentation), without the library: the form is small, and so the sheet needs no compiled package that may lag behind a new
Python. Times count in the ticks of each film, so they are exact. A marker's colour is one of the schema's names; the ruling is
said in its name too.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path
from typing import Any

from filmreview.aside import written_aside
from filmreview.progress import Progress, silent
from filmreview.review.model import FilmRef
from filmreview.sheets.film_address import film_address
from filmreview.sheets.handover import HandOver, Line
from filmreview.sheets.inert import one_line

_COLOURS: Mapping[str, str] = {"illegal": "ORANGE", "cannot be told": "WHITE", "legal": "GREEN"}
_Json = dict[str, Any]


def write_otio(sheet_of: HandOver, path: Path, progress: Progress = silent) -> None:
    """Write the timeline, in place of an older one only when it is whole. Raises FilmReviewError when it cannot be written."""
    with written_aside(path) as aside:
        aside.write_text(json.dumps(timeline(sheet_of, path), ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
    progress(1.0, "written")


def timeline(sheet_of: HandOver, path: Path) -> _Json:
    """The whole document. path: where it will lie; films in its folder or below are named as seen from there."""
    clips = [_clip(sheet_of, film, path) for film in sheet_of.films]
    track = _thing("Track.1", "films", kind="Video", source_range=None, enabled=True, children=clips)
    stack = _thing("Stack.1", "tracks", source_range=None, enabled=True, children=[track])
    about: dict[str, str | int] = {"program": sheet_of.program, "book": sheet_of.book, "edition": sheet_of.edition}
    cautions = [one_line(text) for text in sheet_of.cautions]
    return {
        "OTIO_SCHEMA": "Timeline.1",
        "metadata": {"filmreview": {**_plain(about), "cautions": cautions}},
        "name": one_line(sheet_of.title),
        "global_start_time": None,
        "tracks": stack,
    }


def _clip(sheet_of: HandOver, film: FilmRef, path: Path) -> _Json:
    whole = _range(film, Fraction(0), film.length)
    reference = {
        "OTIO_SCHEMA": "ExternalReference.1",
        "metadata": {},
        "name": one_line(film.name),
        "available_range": whole,
        "available_image_bounds": None,
        "target_url": film_address(film, path),
    }
    markers = [_marker(line) for line in sheet_of.lines if line.film.id == film.id]
    return _thing(
        "Clip.2", film.name, markers, source_range=whole, enabled=True,
        media_references={"DEFAULT_MEDIA": reference}, active_media_reference_key="DEFAULT_MEDIA",
    )  # fmt: skip


def _marker(line: Line) -> _Json:
    told: dict[str, str | int] = {
        "tag": line.tag, "number": line.number, "time": line.time, "ruling": line.ruling, "consequence": line.consequence,
        "whose": line.whose, "item": line.item, "rule": line.rule, "reference": line.reference, "edition": line.edition,
        "crew_mark": line.crew_mark, "official": line.official,
    }  # fmt: skip
    return {
        "OTIO_SCHEMA": "Marker.2",
        "metadata": {"filmreview": _plain(told)},
        "name": f"No {line.number} {line.ruling}: {one_line(line.whose)}, {line.item}",
        "color": _COLOURS[line.ruling],
        "marked_range": _range(line.film, line.seconds, Fraction(0)),
        "comment": "; ".join((*map(one_line, line.reasons), f"crew: {line.crew_mark}")),
    }


def _thing(schema: str, name: str, markers: list[_Json] | None = None, **more: object) -> _Json:
    plain = {"OTIO_SCHEMA": schema, "metadata": {}, "name": one_line(name), "effects": [], "markers": markers or []}
    return {**plain, "color": None, **more}


def _range(film: FilmRef, start: Fraction, length: Fraction) -> _Json:
    return {"OTIO_SCHEMA": "TimeRange.1", "start_time": _time(film, start), "duration": _time(film, length)}


def _time(film: FilmRef, seconds: Fraction) -> _Json:
    """Seconds as ticks of the film; its rate is ticks a second."""
    rate = 1 / film.start.time_base
    return {"OTIO_SCHEMA": "RationalTime.1", "rate": float(rate), "value": float(seconds * rate)}


def _plain(data: Mapping[str, str | int]) -> _Json:
    return {key: one_line(value) if isinstance(value, str) else value for key, value in data.items()}

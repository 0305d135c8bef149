"""`filmreview film` and `filmreview frame`: what a film holds, and one exact frame of it."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from PIL import Image

from filmreview.aside import written_aside
from filmreview.commandline.answers import bar, counted, print_json, print_lines
from filmreview.errors import FilmReviewError
from filmreview.film.film import Film, Frame, open_film
from filmreview.film.info import FilmInfo
from filmreview.film.moment import format_time, parse_time


def film(given: argparse.Namespace) -> int:
    """Print what the film holds and the trouble found in it."""
    with open_film(given.film, progress=bar()) as opened:
        if given.json:
            print_json(film_document(opened))
        else:
            print_lines(*film_lines(opened))
    return 0


def frame(given: argparse.Namespace) -> int:
    """Write the exact frame as PNG and print where it lies."""
    target = Path(given.to)
    if target.suffix.casefold() != ".png":
        raise FilmReviewError(f'"{given.to}" does not end in .png', where="--to", todo="name a PNG file")
    seconds = parse_time(given.at, "--at") if given.at is not None else None
    with open_film(given.film, progress=bar()) as opened:
        found = opened.frame(given.number) if seconds is None else opened.frame_at(opened.moment_at(seconds))
        with written_aside(target) as aside:
            Image.fromarray(found.picture()).save(aside, format="PNG")
        print_json(frame_document(opened, found))
    return 0


def frame_document(opened: Film, found: Frame) -> dict[str, Any]:
    """{"pts": , "time_base": "1/15360", "time": , "number": }."""
    moment = found.moment
    base = f"{moment.time_base.numerator}/{moment.time_base.denominator}"
    return {"pts": moment.pts, "time_base": base, "time": format_time(opened.time_of(moment)), "number": found.number}


def film_document(opened: Film) -> dict[str, Any]:
    """What the film holds, as plain JSON data; fractions as text, times in seconds."""
    info = opened.info
    return {
        "path": str(opened.path),
        "container": info.container,
        "codec": info.codec,
        "pixel_format": info.pixel_format,
        "streams": list(info.streams),
        "width": info.width,
        "height": info.height,
        "stored_width": info.stored_width,
        "stored_height": info.stored_height,
        "frames": info.frames,
        "rate": str(info.rate),
        "constant_rate": info.constant_rate,
        "duration": float(info.duration),
        "start": float(info.start),
        "colour": {
            "matrix": info.matrix,
            "matrix_assumed": info.matrix_assumed,
            "range": info.range,
            "range_assumed": info.range_assumed,
            "high_dynamic": info.high_dynamic,
        },
        "rotation": info.rotation,
        "mirrored": info.mirrored,
        "sample_aspect": str(info.sample_aspect),
        "interlaced": info.interlaced,
        "sound": [
            {"codec": track.codec, "rate": track.rate, "channels": track.channels, "language": track.language}
            for track in info.sound
        ],
        "identity": {"size": opened.identity.size, "digest": opened.identity.digest},
        "trouble": list(info.trouble),
    }


def film_lines(opened: Film) -> list[str]:
    """The same for a reader."""
    info = opened.info
    steady = "constant" if info.constant_rate else "variable"
    lines = [
        f"{opened.path}: {info.container}, {info.codec}, {info.pixel_format}",
        f"  {counted(info.frames, 'frame')}, {format_time(info.duration)}, {float(info.rate):.3f} a second, {steady}",
        f"  {_size(info)}",
        f"  colours: {_told('matrix', info.matrix, info.matrix_assumed)}, {_told('range', info.range, info.range_assumed)}",
    ]
    if info.interlaced:
        lines.append("  interlaced: fields are made into whole frames")
    lines += [
        f"  sound {track.number}: {track.codec}, {track.rate} Hz, {counted(track.channels, 'channel')}" for track in info.sound
    ]
    if not info.sound:
        lines.append("  no sound")
    lines += [f"  trouble: {one}" for one in info.trouble] or ["  no trouble found"]
    return lines


def _size(info: FilmInfo) -> str:
    size = f"{info.width}x{info.height} pixels upright"
    if (info.width, info.height) != (info.stored_width, info.stored_height):
        size += (
            f" (stored {info.stored_width}x{info.stored_height}, turned {info.rotation} degrees, pixel {info.sample_aspect})"
        )
    return size


def _told(what: str, value: str, assumed: bool) -> str:
    return f"{what} {value}" + (" (assumed, the film does not tell)" if assumed else "")

"""`filmreview measure`: a colour, a length, a time or a number's contrast, with its uncertainty, or why it cannot be told."""

from __future__ import annotations

import argparse
from typing import Any

from filmreview.colour.palette import parse_colour
from filmreview.commandline.answers import bar, print_json, print_lines
from filmreview.commandline.film_commands import frame_document
from filmreview.commandline.game_words import pair
from filmreview.commandline.measure_elapsed import elapsed_document, elapsed_lines
from filmreview.commandline.measure_length import length_document, length_lines
from filmreview.commandline.measure_number import number_document, number_lines
from filmreview.commandline.measure_view import view_document, view_line
from filmreview.commandline.measure_words import kind_of
from filmreview.facts.region import parse_box
from filmreview.facts.stored import colour_to_json, fact_to_json
from filmreview.film.film import Film, Frame, Moment, open_film
from filmreview.film.moment import parse_time
from filmreview.measure.colour import MeasuredColour
from filmreview.measure.on_film import Known, best_sharpness, measure_on_film, white_at


def measure(given: argparse.Namespace) -> int:
    """Print value, uncertainty, its parts and the view grade. Not to be told is an answer: 0."""
    kind, seconds = kind_of(given), parse_time(given.at, "--at")
    with open_film(given.film, progress=bar()) as film:
        document = _document(kind, film, film.moment_at(seconds), given)
    if given.json:
        print_json(document)
    else:
        print_lines(*_LINES[kind](document))
    return 0


def _document(kind: str, film: Film, moment: Moment, given: argparse.Namespace) -> dict[str, Any]:
    if kind == "ends":
        return length_document(film, moment, given)
    if kind == "until":
        return elapsed_document(film, moment, given)
    known = known_of(given, moment)
    if kind == "number":
        return number_document(film, moment, given, known)
    region, frames = parse_box(given.box, "--box"), 1 if given.frames is None else given.frames
    best = best_sharpness(film, progress=bar()) if given.sharpness else None
    measured, frame = measure_on_film(film, moment, region, known, frames, best)
    return measured_document(film, frame, measured)


def known_of(given: argparse.Namespace, moment: Moment) -> Known | None:
    """The known region of --white or --match, None when neither is given."""
    if given.white:
        return white_at(moment, parse_box(given.white, "--white"))
    if given.match:
        box, colour = pair(given.match, "--match", "BOX=COLOUR", "546,331,79,56=white")
        return Known(moment, parse_box(box, "--match"), parse_colour(colour, "--match"))
    return None


def measured_document(film: Film, frame: Frame, measured: MeasuredColour) -> dict[str, Any]:
    """The measurement as plain JSON data; standard uncertainties of L*, a*, b*."""
    return {
        "frame": frame_document(film, frame),
        "colour": None if measured.colour is None else colour_to_json(measured.colour),
        "told_name": measured.told_name,
        "why_not": measured.why_not or None,
        "solid": measured.solid,
        "clusters": [{"lab": [float(part) for part in one.lab], "share": one.share} for one in measured.clusters],
        "pixels": measured.pixels,
        "clipped": measured.clipped,
        "parts": {part.name: list(part.sds) for part in measured.parts},
        "reference": measured.reference,
        "against": measured.against,
        "view": view_document(measured.view),
        "film": {"matrix": film.info.matrix, "matrix_assumed": film.info.matrix_assumed, "range": film.info.range},
        "facts": [fact_to_json(fact) for fact in measured.facts()],
    }


def measured_lines(document: dict[str, Any]) -> list[str]:
    """The same for a reader."""
    where = f"frame {document['frame']['number']} at {document['frame']['time']}"
    view = view_line(document["view"])
    colour = document["colour"]
    if colour is None:
        return [f"{where}: the colour cannot be told: {document['why_not']}", view]
    spread = [row[place] ** 0.5 for place, row in enumerate(colour["covariance"])]
    lab = ", ".join(
        f"{name} {value:z.1f} ± {sd:.1f}" for name, value, sd in zip(("L*", "a*", "b*"), colour["lab"], spread, strict=True)
    )
    likeliest, chance = colour["names"][0]
    told = document["told_name"] or f"the name cannot be told from this film; likeliest {likeliest}, {chance:.0%}"
    lines = [f"{where}: {told}", f"  {lab} (standard uncertainty)", "  names: " + _names(colour), view]
    known = document["against"].removeprefix("against a ").removesuffix(" in another view")
    lines += [
        f"  part {known if name == 'reference' else name}: " + ", ".join(f"{sd:.1f}" for sd in sds)
        for name, sds in document["parts"].items()
    ]
    solid = {True: "one solid colour", False: "several colours", None: "whether it is one solid colour cannot be told"}
    lines.append("  " + solid[document["solid"]] + ("" if document["reference"] else "; no white: name a region with --white"))
    return lines


def _names(colour: dict[str, Any]) -> str:
    return ", ".join(f"{name} {chance:.0%}" for name, chance in colour["names"] if chance >= 0.01)


_LINES = {"box": measured_lines, "ends": length_lines, "until": elapsed_lines, "number": number_lines}

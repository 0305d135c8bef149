"""`filmreview measure`: the colour of a region of a frame, with its uncertainty and names, or why it cannot be told."""

from __future__ import annotations

import argparse
from typing import Any

from filmreview.colour.palette import parse_colour
from filmreview.commandline.answers import bar, print_json, print_lines
from filmreview.commandline.film_commands import frame_document
from filmreview.commandline.game_words import pair
from filmreview.facts.region import parse_box
from filmreview.facts.stored import colour_to_json, fact_to_json
from filmreview.film.film import Film, Frame, Moment, open_film
from filmreview.film.moment import parse_time
from filmreview.measure.colour import MeasuredColour
from filmreview.measure.on_film import Known, measure_on_film, white_at


def measure(given: argparse.Namespace) -> int:
    """Print value, uncertainty, its parts, names with probabilities and the view grade. Not to be told is an answer: 0."""
    seconds, region = parse_time(given.at, "--at"), parse_box(given.box, "--box")
    with open_film(given.film, progress=bar()) as film:
        moment = film.moment_at(seconds)
        measured, frame = measure_on_film(film, moment, region, known_of(given, moment), given.frames)
        document = measured_document(film, frame, measured)
    if given.json:
        print_json(document)
    else:
        print_lines(*measured_lines(document))
    return 0


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
        "view": {"word": measured.view.word, "reasons": list(measured.view.reasons), "figures": dict(measured.view.figures)},
        "film": {"matrix": film.info.matrix, "matrix_assumed": film.info.matrix_assumed, "range": film.info.range},
        "facts": [fact_to_json(fact) for fact in measured.facts()],
    }


def measured_lines(document: dict[str, Any]) -> list[str]:
    """The same for a reader."""
    where = f"frame {document['frame']['number']} at {document['frame']['time']}"
    view = f"  view {document['view']['word']}" + "".join(f"; {reason}" for reason in document["view"]["reasons"])
    colour = document["colour"]
    if colour is None:
        return [f"{where}: the colour cannot be told: {document['why_not']}", view]
    spread = [row[place] ** 0.5 for place, row in enumerate(colour["covariance"])]
    lab = ", ".join(
        f"{name} {value:.1f} ± {sd:.1f}" for name, value, sd in zip(("L*", "a*", "b*"), colour["lab"], spread, strict=True)
    )
    likeliest, chance = colour["names"][0]
    told = document["told_name"] or f"the name cannot be told from this film; likeliest {likeliest}, {chance:.0%}"
    lines = [f"{where}: {told}", f"  {lab} (standard uncertainty)", "  names: " + _names(colour), view]
    lines += [f"  part {name}: " + ", ".join(f"{sd:.1f}" for sd in sds) for name, sds in document["parts"].items()]
    solid = {True: "one solid colour", False: "several colours", None: "whether it is one solid colour cannot be told"}
    lines.append(
        "  " + solid[document["solid"]] + ("" if document["reference"] else "; no reference: point at something white")
    )
    return lines


def _names(colour: dict[str, Any]) -> str:
    return ", ".join(f"{name} {chance:.0%}" for name, chance in colour["names"] if chance >= 0.01)

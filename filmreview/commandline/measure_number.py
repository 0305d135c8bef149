"""A number's contrast with its jersey for `filmreview measure`."""

from __future__ import annotations

import argparse
from typing import Any

from filmreview.colour.contrast import LARGE_TEXT
from filmreview.commandline.film_commands import frame_document
from filmreview.commandline.measure_view import view_document, view_line
from filmreview.facts.region import parse_box
from filmreview.facts.stored import colour_to_json, fact_to_json
from filmreview.film.film import Film, Moment
from filmreview.measure.contrast import CONTRAST_LIGHTNESS, NO_CONTRAST, Contrast
from filmreview.measure.number_on_film import number_on_film
from filmreview.measure.on_film import Known


def number_document(film: Film, moment: Moment, given: argparse.Namespace, known: Known | None) -> dict[str, Any]:
    """How the number in --number stands out from its jersey (in --jersey, else around it), as plain JSON data."""
    jersey = parse_box(given.jersey, "--jersey") if given.jersey else None
    found = number_on_film(film, moment, parse_box(given.number, "--number"), jersey, known)
    return {
        "frame": frame_document(film, film.frame_at(moment)),
        "number": None if found.number is None else colour_to_json(found.number),
        "jersey": None if found.jersey is None else colour_to_json(found.jersey),
        "stroke_px": found.stroke_px,
        "contrast": None if found.contrast is None else _contrast(found.contrast),
        "why_not": found.why_not or None,
        "view": view_document(found.view),
        "reference": known is not None,
        "facts": [fact_to_json(fact) for fact in found.facts()],
    }


def number_lines(document: dict[str, Any]) -> list[str]:
    """The same for a reader."""
    head = f"frame {document['frame']['number']} at {document['frame']['time']}: "
    contrast = document["contrast"]
    if contrast is None:
        return [f"{head}the contrast cannot be told: {document['why_not']}"]
    apart = ", ".join(f"{name} {value:.0f}" for name, value in contrast["seen_apart"].items())
    return [
        f"{head}stands out from the jersey: {contrast['answer']}; {contrast['reason']}",
        f"  number {_colour(document['number'])}; jersey {_colour(document['jersey'])}",
        f"  L* apart {contrast['lightness']:.0f} ({contrast['lightness_limit']:.0f} is enough), "
        f"dE00 {contrast['difference']:.0f} (under {contrast['difference_limit']:.0f} is not)",
        f"  ratio {contrast['ratio']:.1f}:1 ({contrast['ratio_limit']:.0f}:1 is WCAG's for large text)",
        f"  dE00 to colour-deficient eyes: {apart}",
        view_line(document["view"]) + ("" if document["reference"] else "; no white: name a region with --white"),
    ]


def _contrast(contrast: Contrast) -> dict[str, Any]:
    return {
        "answer": contrast.answer.value,
        "reason": contrast.reason,
        "lightness": contrast.lightness,
        "lightness_limit": CONTRAST_LIGHTNESS,
        "difference": contrast.difference,
        "difference_limit": NO_CONTRAST,
        "ratio": contrast.ratio,
        "ratio_limit": LARGE_TEXT,
        "seen_apart": {deficiency.value: apart for deficiency, apart in contrast.seen_apart},
    }


def _colour(colour: dict[str, Any]) -> str:
    name, chance = colour["names"][0]
    return f"{name} {chance:.0%} (L* {colour['lab'][0]:.0f} ± {colour['covariance'][0][0] ** 0.5:.0f})"

"""A length for `filmreview measure`: value, uncertainty and its parts, view, draws, and a limit's answer."""

from __future__ import annotations

import argparse
from typing import Any

from filmreview.commandline.answers import bar
from filmreview.commandline.film_commands import frame_document
from filmreview.commandline.measure_view import view_document, view_line
from filmreview.commandline.measure_words import against_of, amount_of, ends_of
from filmreview.errors import FilmReviewError
from filmreview.film.film import Film, Moment
from filmreview.measure.decision import Limit, parse_limit
from filmreview.measure.ends import Ends
from filmreview.measure.length import CM, SeenLength, see_length
from filmreview.measure.motion import blur_on_film
from filmreview.measure.on_film import best_sharpness
from filmreview.measure.size import summed_up
from filmreview.measure.view import frame_sharpness


def length_document(film: Film, moment: Moment, given: argparse.Namespace) -> dict[str, Any]:
    """The length between --ends as plain JSON data; inches unless said otherwise."""
    limit = parse_limit(given.limit, "--limit") if given.limit is not None else None
    ends = ends_of(given.ends, "--ends")
    ends.check(film.info.width, film.info.height, "--ends")
    against = against_of(given, film)
    share = _sharpness_share(film, moment) if given.sharpness else None
    seen = see_length(ends, against, blur_of(given, film, moment, ends), share)
    document = {
        "frame": frame_document(film, film.frame_at(moment)),
        "length": _length(seen),
        "why_not": seen.length.why_not or None,
        "view": view_document(seen.view),
        "notes": list(seen.notes),
    }
    if limit is not None:
        document["limit"] = _decision(seen, limit)
    if given.draws:
        document["draws"] = _draws(seen, limit)
    return document


def length_lines(document: dict[str, Any]) -> list[str]:
    """The same for a reader."""
    length, frame = document["length"], document["frame"]
    low, high = length["interval"]
    head = f"frame {frame['number']} at {frame['time']}: "
    value = (
        f"{length['inches']:.2f} ± {length['plus_minus']:.2f} in ({length['cm']:.2f} ± {length['plus_minus_cm']:.2f} cm), "
        "standard uncertainty"
    )
    scale = [f"  {length['px']:.1f} px long, {length['px_to_inch']:.2f} px to the inch", view_line(document["view"])]
    if document["why_not"]:  # where the causes are as large as the length, its figures say nothing
        lines = [f"{head}the length cannot be told: {document['why_not']}", *scale]
    else:
        lines = [head + value, f"  95 % {low:.2f} to {high:.2f} in, against {length['against']}", *scale]
        lines += [f"  part {name}: {inches:.2f} in" for name, inches in length["parts"].items()]
    if "draws" in document:
        drawn = document["draws"]
        lines.append(
            f"  by {drawn['count']:,} draws: {drawn['inches']:.2f} ± {drawn['plus_minus']:.2f} in, "
            f"95 % {drawn['interval'][0]:.2f} to {drawn['interval'][1]:.2f} in"
            + ("" if drawn["chance"] is None else f", P {drawn['chance']:.2f}")
        )
    if "limit" in document:
        lines.append("  " + document["limit"]["told"])
    return lines + [f"  note: {note}" for note in document["notes"]]


def blur_of(given: argparse.Namespace, film: Film, moment: Moment, ends: Ends) -> float | None:
    """Motion blur along the ends in px: as given, else from the frames around."""
    if given.blur is None:
        return blur_on_film(film, moment, ends)
    blur, most = amount_of(given.blur, "--blur", "pixels"), film.info.width + film.info.height
    if blur > most:
        raise FilmReviewError("the blur is longer than the picture", where="--blur", todo=f"write 0 to {most} pixels")
    return blur


def _length(seen: SeenLength) -> dict[str, Any]:
    length = seen.length
    return {
        "inches": length.inches,
        "plus_minus": length.plus_minus,
        "cm": length.inches * CM,
        "plus_minus_cm": length.plus_minus * CM,
        "interval": list(length.interval),
        "parts": {name: share * length.inches for name, share in length.parts.items()},
        "against": length.against,
        "px": seen.ends.pixels,
        "px_to_inch": seen.px_to_inch,
        "blur_px": seen.blur,
    }


def _decision(seen: SeenLength, limit: Limit) -> dict[str, Any]:
    decision = seen.decide(limit)
    return {
        "limit": str(limit),
        "answer": decision.answer.value,
        "chance": decision.chance,
        "cannot_call_between": [list(band) for band in decision.bands],
        "told": decision.words,
    }


def _draws(seen: SeenLength, limit: Limit | None) -> dict[str, Any]:
    drawn = summed_up(seen.draws(), limit)
    return {
        "inches": drawn.inches,
        "plus_minus": drawn.plus_minus,
        "interval": list(drawn.interval),
        "count": drawn.count,
        "chance": drawn.chance,
    }


def _sharpness_share(film: Film, moment: Moment) -> float | None:
    best = best_sharpness(film, progress=bar())
    return frame_sharpness(film.frame_at(moment).picture()) / best if best else None

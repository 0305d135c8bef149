"""The time between two moments for `filmreview measure`, from exact frame times."""

from __future__ import annotations

import argparse
from typing import Any

from filmreview.commandline.film_commands import frame_document
from filmreview.film.film import Film, Moment
from filmreview.film.moment import parse_time
from filmreview.measure.decision import Limit, answer, parse_limit
from filmreview.measure.elapsed import Elapsed, chance_kept, elapsed_on


def elapsed_document(film: Film, moment: Moment, given: argparse.Namespace) -> dict[str, Any]:
    """The time from --at to --until as plain JSON data: seconds, exact as a fraction too."""
    limit = parse_limit(given.limit, "--limit") if given.limit is not None else None
    last = film.moment_at(parse_time(given.until, "--until"))
    took = elapsed_on(film, moment, last)
    document: dict[str, Any] = {
        "frame": frame_document(film, film.frame_at(moment)),
        "until": frame_document(film, film.frame_at(last)),
        "elapsed": {
            "seconds": float(took.seconds),
            "exact": str(took.seconds),
            "plus_minus": took.amount.plus_minus,
            "at_most_off": float(took.at_most_off),
        },
    }
    if limit is not None:
        document["limit"] = _decision(took, limit)
    return document


def elapsed_lines(document: dict[str, Any]) -> list[str]:
    """The same for a reader."""
    first, last, took = document["frame"], document["until"], document["elapsed"]
    lines = [
        f"from frame {first['number']} at {first['time']} to frame {last['number']} at {last['time']}: "
        f"{took['seconds']:.3f} ± {took['plus_minus']:.3f} s (standard uncertainty)",
        f"  off by {took['at_most_off']:.3f} s at most: half of each frame",
    ]
    return lines + ([f"  {document['limit']['told']}"] if "limit" in document else [])


def _decision(took: Elapsed, limit: Limit) -> dict[str, Any]:
    chance = chance_kept(took, limit)
    word = answer(chance)
    told = f"{limit} s: {word} (P {chance:.2f})"
    return {"limit": str(limit), "answer": word.value, "chance": chance, "told": told}

"""`filmreview findings`: every tag with its ruling, penalties, choices, procedures."""

from __future__ import annotations

import argparse
from typing import Any

from filmreview.commandline.answers import print_json, print_lines, tell
from filmreview.commandline.ruling_lines import lines_of
from filmreview.facts.region import region_to_json
from filmreview.facts.stored import fact_to_json
from filmreview.review import ruled
from filmreview.review.model import CrewResponse, Review
from filmreview.review.own_calls import HIDDEN, veiled, waiting
from filmreview.review.reading import read
from filmreview.review.ruled import Finding, Findings
from filmreview.rules.situation_json import ruling_to_json, rulings_to_json


def findings(given: argparse.Namespace) -> int:
    """Print the findings; 0 whatever the rulings are."""
    found = veiled(ruled.findings(read(given.review)))
    hidden = [tag.id for tag in waiting(found.review)]
    if hidden:
        tell(f"rulings of {', '.join(hidden)} are {HIDDEN}: filmreview call")
        tell("penalties, choices and procedures are left out until then")
    document = findings_document(found)
    if given.json:
        print_json(document)
        return 0
    print_lines(*lines_of(document))
    return 0


def findings_document(found: Findings) -> dict[str, Any]:
    """The same keys as `filmreview rule --json`, with film, time, note and crew mark of each tag.

    hidden: the tags whose ruling is left out until the own call on them; while there is one, so are penalties, choices and
    the procedure.
    """
    game = found.review.game
    return {
        "title": f"{game.home.name} against {game.visitor.name}",
        "review": str(found.review.path),
        "films": [{"id": film.id, "name": film.name} for film in found.review.films],
        "hidden": [tag.id for tag in waiting(found.review)],
        **rulings_to_json(found.rulings),
        "rulings": [_finding(found.review, one) for one in found],
        "disputed": list(found.disputed),
        "procedure": found.procedure.to_json() if found.procedure else None,
    }


def _finding(review: Review, one: Finding) -> dict[str, Any]:
    tag = one.tag
    return {
        **ruling_to_json(one.ruling),
        "film": one.film.id,
        "time": one.time,
        "pts": tag.moment.pts,
        "time_base": f"{tag.moment.time_base.numerator}/{tag.moment.time_base.denominator}",
        "region": region_to_json(tag.region) if tag.region else None,
        "tag_facts": [fact_to_json(fact) for fact in tag.facts],
        "note": tag.note,
        "crew": _crew(review, tag.film, one.crew) if one.crew else None,
        "could_have_done": one.could_have_done,
    }


def _crew(review: Review, film: str, crew: CrewResponse) -> dict[str, Any]:
    time = review.time_text(crew.film or film, crew.moment) if crew.moment else None
    return {"mark": crew.mark, "time": time, "did": crew.did}

"""`filmreview rule`: rule situation files without film, and compare them with what they expect."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from filmreview.commandline.answers import counted, print_json, print_lines, tell
from filmreview.commandline.named_files import named_files
from filmreview.commandline.ruling_lines import lines_of
from filmreview.errors import FilmReviewError
from filmreview.rules.situation import compare, held_of, read_situation, rule_situation, to_json

BAD_INPUT = 2
ENDING = ".situation.toml"


def rule(given: argparse.Namespace) -> int:
    """Rule every file named. A bad file is told in one line and the others are still ruled.

    Returns 0 when all that was expected holds, 1 when something differs, 2 when a file could not be read.
    """
    documents: list[dict[str, Any]] = []
    differing = bad = 0
    for path in named_files(given.files, ENDING):
        try:
            document, differences, said = _ruled(path)
        except FilmReviewError as error:
            tell(f"filmreview: {error}")
            bad += 1
            continue
        documents.append(document)
        differing += bool(differences)
        if not given.json:
            print_lines(*lines_of(document), *said, "")
        for line in differences:
            tell(line if str(path) == path.name else f"{path.parent}: {line}")
    if given.json and documents:
        print_json(documents if _several(given.files) else documents[0])
    if bad:
        return BAD_INPUT
    return 1 if differing else 0


def _several(named: list[str]) -> bool:
    return len(named) > 1 or Path(named[0]).is_dir()


def _ruled(path: Path) -> tuple[dict[str, Any], list[str], list[str]]:
    """The document, what differs from what the file expects, and how much of that holds, in a line."""
    situation = read_situation(path)
    ruled = rule_situation(situation)
    holding, of = held_of(situation, ruled)
    document = {**to_json(situation, ruled), "expected": {"held": holding, "of": of}}
    said = [f"  {holding} of {counted(of, 'expectation')} held"] if of else []
    return document, compare(situation, ruled), said

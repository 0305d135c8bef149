"""`filmreview beside`: another observer's review beside one's own, differences first, and taking theirs over."""

from __future__ import annotations

import argparse
from typing import Any

from filmreview.commandline.answers import print_json, print_lines, tell
from filmreview.commandline.review_commands import opened_review
from filmreview.errors import FilmReviewError, unknown
from filmreview.film.moment import format_time, parse_time
from filmreview.review import merging
from filmreview.review.merging import ONLY_MINE, ONLY_THEIRS, WITHIN, Beside, Pair, same_films, take
from filmreview.review.model import PlacedTag, Review
from filmreview.review.own_calls import HIDDEN
from filmreview.review.reading import read
from filmreview.review.ruled import findings

MISSING = "missing"


def beside(given: argparse.Namespace) -> int:
    """Print the pairs; with --take take theirs as one step of the history and print what was taken."""
    mine, theirs = read(given.review), read(given.other)
    same_films(mine, theirs)  # before anything is ruled: another game is told at once
    within = parse_time(given.within, "--within") if given.within else WITHIN
    laid = merging.beside(findings(mine), findings(theirs), within)
    if given.take is not None:
        return _take(given, laid, mine)
    pairs = laid.pairs if given.all else laid.differing
    if given.json:
        print_json(_document(mine, laid, pairs))
        return 0
    for line in laid.told:
        tell(line)
    print_lines(_summary(laid), *(line for pair in pairs for line in _lines(mine, pair)))
    return 0


def _take(given: argparse.Namespace, laid: Beside, mine: Review) -> int:
    change = take(laid, mine, _chosen(laid, given.take))
    with opened_review(given.review) as opened:
        if opened.review != mine:
            raise FilmReviewError("the review was changed meanwhile", where=given.review, todo="do it again")
        touched = opened.apply(change)
        tags = [tag.id for tag in opened.review.tags if tag.id in touched]  # whose finding a tag is has an id of its own
    if given.json:
        print_json({"from": laid.who, "taken": tags})
    else:
        print_lines(f"taken from {laid.who}: {', '.join(tags)}")
    return 0


def _chosen(laid: Beside, words: str) -> list[Pair]:
    if words.strip() == MISSING:
        return list(laid.missing)
    by_id = {pair.theirs.id: pair for pair in laid.pairs if pair.theirs is not None}
    wanted = [word.strip() for word in words.split(",") if word.strip()]
    for one in wanted:
        if one not in by_id:
            raise unknown("tag of theirs", one, by_id, where="--take")
    return [by_id[one] for one in wanted]


def _summary(laid: Beside) -> str:
    both = [pair for pair in laid.pairs if pair.mine and pair.theirs]
    differ = sum(bool(pair.differs) for pair in both)
    mine = sum(pair.differs == (ONLY_MINE,) for pair in laid.pairs)
    theirs = sum(pair.differs == (ONLY_THEIRS,) for pair in laid.pairs)
    told = f"{len(both)} seen by both, {differ} of them with differences"
    return f"beside {laid.who}: {told}; {theirs} only theirs; {mine} only mine"


def _lines(review: Review, pair: Pair) -> list[str]:
    ids = f"{pair.mine.id if pair.mine else '-'} / {pair.theirs.id if pair.theirs else '-'}"
    film = f"{pair.film} " if len(review.films) > 1 else ""
    head = f"  {ids} at {film}{format_time(pair.time)}: {', '.join(pair.differs) or 'the same'}"
    sides = [
        f"      {name}: {_side(tag, ruling)}"
        for name, tag, ruling in (("mine", pair.mine, pair.rulings[0]), ("theirs", pair.theirs, pair.rulings[1]))
        if tag is not None
    ]
    return [head, *sides, *(f"      {one.words}: {one.mine} here, {one.theirs} in theirs" for one in pair.facts)]


def _side(tag: PlacedTag, ruling: str) -> str:
    whose = f"{tag.team} {tag.player or 'number not read'}, {tag.item}"
    if ruling == HIDDEN:  # a crew mark or a note would give it away
        return f"{whose}; {ruling}"
    crew = f"crew {tag.crew.mark}" if tag.crew else ""
    return "; ".join(part for part in (whose, ruling, crew, tag.note) if part)


def _document(review: Review, laid: Beside, pairs: tuple[Pair, ...]) -> dict[str, Any]:
    return {
        "review": str(review.path),
        "other": laid.who,
        "films": dict(laid.films),
        "told": list(laid.told),
        "pairs": [
            {
                "mine": pair.mine.id if pair.mine else None,
                "theirs": pair.theirs.id if pair.theirs else None,
                "film": pair.film,
                "time": format_time(pair.time),
                "differs": list(pair.differs),
                "rulings": {"mine": pair.rulings[0], "theirs": pair.rulings[1]},
                "facts": [{"key": one.key, "mine": one.mine, "theirs": one.theirs} for one in pair.facts],
            }
            for pair in pairs
        ],
    }

"""`filmreview call` and `filmreview calls`: an official's own calls, and how they compare with the book."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from filmreview.commandline.answers import print_json, print_lines
from filmreview.commandline.review_commands import opened_review
from filmreview.commandline.ruling_lines import behind_ruling
from filmreview.errors import FilmReviewError
from filmreview.review.changes import EditGame
from filmreview.review.lesson_changes import RemoveOwnCall, SetOwnCall
from filmreview.review.model import Review
from filmreview.review.own_calls import HIDDEN, Called, Score, Tally, score, shown
from filmreview.review.reading import read
from filmreview.review.ruled import findings


def call(given: argparse.Namespace) -> int:
    """Give the own call on a tag, or take it back; prints it beside the book's ruling once it is given."""
    if given.take_back and (given.consequence or given.words):
        raise FilmReviewError("a call that is taken back has no consequence or words", where="--take-back")
    with opened_review(given.review) as opened:
        if given.take_back:
            opened.apply(RemoveOwnCall(given.tag))
        else:
            opened.apply(SetOwnCall(given.tag, given.ruling, given.consequence, given.words.strip()))
        review = opened.review
    if given.take_back:
        print_lines(f"{given.tag}: no call of yours" + ("" if shown(review, given.tag) else f"; the ruling is {HIDDEN}"))
        return 0
    told = next(one for one in score(findings(review)).called if one.tag.id == given.tag)
    print_lines(*_lines(review, told))
    return 0


def calls(given: argparse.Namespace) -> int:
    """Print the score of the own calls; with --hide or --show first hide or show the rulings."""
    if given.hide or given.show:
        with opened_review(given.review) as opened:
            opened.apply(EditGame(replace(opened.review.game, rulings_hidden=given.hide)))
    review = read(given.review)
    told = score(findings(review))
    if given.json:
        print_json(_document(review, told))
        return 0
    hidden = "hidden until your own call" if review.game.rulings_hidden else "shown"
    print_lines(f"rulings are {hidden}; own calls: {told.words}")
    for one in told.called:
        print_lines(*(f"  {line}" for line in _lines(review, one)))
    if told.waiting:
        print_lines(f"  without your call: {', '.join(told.waiting)}")
    for title, tallies in (("by rule", told.by_rule), ("by item", told.by_item)):
        if tallies:
            print_lines(title, *(f"  {name}: {tally.words}" for name, tally in tallies.items()))
    return 0


def _lines(review: Review, one: Called) -> list[str]:
    tag, mine = one.tag, one.call
    whose = f"{tag.team} {tag.player or 'number not read'}, {tag.item} at {review.time_text(tag.film, tag.moment)}"
    said, book = _call_words(mine.ruling, mine.consequence), f"{one.ruling}{behind_ruling(one.ruling, one.consequence)}"
    lines = [f"{tag.id}: {whose}: {one.outcome.upper()}", f"    your call: {said}", f"    the book: {book} ({one.rule})"]
    return [*lines, f"    your words: {mine.words}"] if mine.words else lines


def _call_words(ruling: str, consequence: str) -> str:
    """Own words for what follows are told even where nothing does: that was called, too."""
    return f"{ruling}{behind_ruling(ruling, consequence) or (f', {consequence}' if consequence else '')}"


def _document(review: Review, told: Score) -> dict[str, Any]:
    return {
        "rulings_hidden": review.game.rulings_hidden,
        "whole": _tally(told.whole),
        "by_rule": _tallies(told.by_rule),
        "by_item": _tallies(told.by_item),
        "calls": [
            {
                "tag": one.tag.id,
                "call": {"ruling": one.call.ruling, "consequence": one.call.consequence, "words": one.call.words},
                "book": {"ruling": one.ruling, "consequence": one.consequence, "rule": one.rule},
                "outcome": one.outcome,
            }
            for one in told.called
        ],
        "without_call": list(told.waiting),
    }


def _tallies(tallies: Mapping[str, Tally]) -> dict[str, Any]:
    return {name: _tally(one) for name, one in tallies.items()}


def _tally(one: Tally) -> dict[str, int]:
    return {"agreed": one.agreed, "consequence differed": one.consequence, "differed": one.differed, "cannot be told": one.open}

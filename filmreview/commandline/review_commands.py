"""`filmreview new`, `tag`, `crew` and `event`: what a person puts down, without a screen."""

from __future__ import annotations

import argparse
import getpass
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

from filmreview.commandline.answers import bar, print_lines, tell
from filmreview.commandline.game_words import facts_of, game_of
from filmreview.commandline.measure_for_tag import Measured, measured_for_tag
from filmreview.errors import FilmReviewError
from filmreview.facts.items import check_item, check_player, check_team
from filmreview.facts.region import Box, parse_box
from filmreview.film.film import open_film
from filmreview.film.moment import Moment, parse_time
from filmreview.review import store
from filmreview.review.changes import AddEvent, AddTag, Change, SetCrew, Together
from filmreview.review.crew_changes import SetOfficial
from filmreview.review.films import add_film, found_film
from filmreview.review.model import CrewResponse, Review
from filmreview.review.reading import read
from filmreview.review.store import Store
from filmreview.rules.library import adoption_named, book_named
from filmreview.rules.procedures.event import EVENT_WORDS, check_word, read_seconds

ENDING = ".filmreview"


def new(given: argparse.Namespace) -> int:
    """Make the review file; nothing is left behind when a film cannot be opened or the set-up cannot be."""
    path = review_path(given.review)
    game = game_of(given)
    book = book_named(game.book, where="--book")
    if game.adoption:
        adoption_named(game.adoption, book, where="--adoption")
    if game.day < book.first_day:
        tell(f"--day: {game.day} is before {book.first_day}, where the book here begins: nothing can be ruled")
    changes = []
    for name in given.film:
        with open_film(name, progress=bar()) as film:
            changes.append(add_film(film, path.absolute()))
    made = store.create(path, game, who(game.observer))
    try:
        with made:
            made.apply(Together(tuple(changes), "add the films"))
            films = made.review.films
    except FilmReviewError:
        path.unlink(missing_ok=True)
        raise
    print_lines(str(path), *(f"  {film.id}: {film.name}" for film in films if len(films) > 1))
    return 0


def tag(given: argparse.Namespace) -> int:
    """Put a tag down; prints its id once it is on the disk."""
    check_team(given.team, "--team")
    check_item(given.item, "--item")
    if given.player is not None:
        check_player(given.player, "--player")
    seen = facts_of(given.fact)
    seconds = parse_time(given.at, "--at")
    region = parse_box(given.box, "--box") if given.box else None
    with opened_review(given.review) as opened:
        film_id = film_named(opened.review, given.film)
        _tell_of_roster(opened.review, given.team, given.player)
        moment, measured = _looked_at(opened.review, film_id, seconds, region, given)
        (tag_id,) = opened.apply(
            AddTag(film_id, moment, given.team, given.player, given.item, region, (*measured.facts, *seen), given.note)
        )
    for line in measured.untold:
        tell(f"the tag is kept, but {line}")
    print_lines(tag_id)
    return 0


def crew(given: argparse.Namespace) -> int:
    """Put down how the crew dealt with a tag; a time or words put down before stay unless new ones are given."""
    with opened_review(given.review) as opened:
        placed = opened.review.tag(given.tag)
        before = placed.crew or CrewResponse(given.mark)
        response = replace(before, mark=given.mark, did=given.did or before.did)
        if given.at:
            response = replace(response, moment=_moment(opened.review, placed.film, given.at), film=None)
        changes: list[Change] = [SetCrew(placed.id, response)]
        if given.official is not None:
            changes.append(SetOfficial(placed.id, given.official or None))
        opened.apply(Together(tuple(changes)))
    print_lines(f"{given.tag}: {given.mark}")
    return 0


def event(given: argparse.Namespace) -> int:
    """Put an event down; prints its id once it is on the disk."""
    word = check_word(given.what, "--what")
    if EVENT_WORDS[word].who == "player" and (given.team is None or given.player is None):
        raise FilmReviewError(f'"{word}" is about a player', where="--what", todo="give --team and --player")
    if given.team is not None:
        check_team(given.team, "--team")
    if given.player is not None:
        check_player(given.player, "--player")
    before_start = None if given.before_start is None else read_seconds(given.before_start, "--before-start")
    with opened_review(given.review) as opened:
        film_id = film_named(opened.review, given.film)
        moment = _moment(opened.review, film_id, given.at)
        (event_id,) = opened.apply(AddEvent(film_id, moment, given.what, given.team, given.player, given.length, before_start))
    print_lines(event_id)
    return 0


def review_path(text: str) -> Path:
    """The review's path, with its ending; raises FilmReviewError for another ending."""
    path = Path(text)
    if path.name in ("", ENDING):
        raise FilmReviewError(f'"{text}" names no review', where="REVIEW", todo=f"write such as game{ENDING}")
    if path.suffix == "":
        return path.with_name(path.name + ENDING)
    if path.suffix != ENDING:
        raise FilmReviewError(f"a review's name ends in {ENDING}", where=text, todo=f"write {path.stem}{ENDING}")
    return path


def opened_review(path: str) -> Store:
    """The review, open for writing; the history names its observer, or the login where none was told at set-up."""
    return store.open(path, who(read(path).game.observer))


def who(observer: str = "") -> str:
    """The person for the history: the observer, else the name of the login."""
    if observer:
        return observer
    try:
        return getpass.getuser()
    except (OSError, KeyError):  # no such user on this machine (a container)
        return "someone"


def film_named(review: Review, film_id: str | None) -> str:
    """The film of that id, or the first one; raises FilmReviewError when there is none."""
    if film_id is not None:
        return review.film(film_id).id
    if not review.films:
        raise FilmReviewError("the review has no film", where=review.path.name)
    return review.films[0].id


def _tell_of_roster(review: Review, team: str, player: str | None) -> None:
    roster = review.game.team(team).roster
    if roster and player is not None and player not in roster:
        tell(f"{player} is not on the roster of the {team} team; the tag is kept as it is")


def _moment(review: Review, film_id: str, at: str) -> Moment:
    seconds = parse_time(at, "--at")
    with open_film(found_film(review, film_id), progress=bar()) as film:
        return film.moment_at(seconds)


def _looked_at(
    review: Review, film_id: str, seconds: Fraction, region: Box | None, given: argparse.Namespace
) -> tuple[Moment, Measured]:
    """The exact moment, and what was measured there when asked for."""
    with open_film(found_film(review, film_id), progress=bar()) as film:
        moment = film.moment_at(seconds)
        if region is not None:
            region.check_inside(film.info.width, film.info.height)
        whites = tuple(one for one in review.references if one.film == film_id)
        return moment, measured_for_tag(film, moment, region, given, review.game.book, whites)

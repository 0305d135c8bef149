"""`filmreview films`: the films of one game: add, name, remove, find again, tie; and where an instant lies on the others."""

from __future__ import annotations

import argparse
from dataclasses import replace
from pathlib import Path
from typing import Any

from filmreview.commandline.answers import bar, print_json, print_lines, tell
from filmreview.commandline.review_commands import opened_review
from filmreview.errors import FilmReviewError
from filmreview.film.film import open_film
from filmreview.film.moment import Moment, format_time, parse_time
from filmreview.review.changes import Change, RemoveFilm, Together
from filmreview.review.common_time import departure, departure_words, instant_on, title_of
from filmreview.review.films import (
    MISSING,
    THERE,
    add_film,
    find_line,
    found_film,
    lost_films,
    place_of,
    whereabouts,
)
from filmreview.review.films_search import check_place, find_lost_films, others_taken_for
from filmreview.review.model import FilmRef, Review
from filmreview.review.reading import read
from filmreview.review.store import Store
from filmreview.review.stretch_changes import NameFilm, RemoveCommonMoment, SetCommonMoment


def films(given: argparse.Namespace) -> int:
    """Change what was asked for, then list the films; with --at tell where the instant lies on the others."""
    if "" in (given.add, given.name, given.remove, given.tie, given.untie, given.find, given.at):
        todo = "give a film, a folder, an id or an instant with it"
        raise FilmReviewError("--add, --name, --remove, --tie, --untie, --find or --at says nothing", where="films", todo=todo)
    if given.what is not None and not (given.add or given.name):
        raise FilmReviewError("there is no film to name", where="--what", todo="give --add FILM or --name ID with it")
    if given.at:
        return _tell_instant(given)
    if given.find:
        return _find_again(given)
    if any((given.add, given.name, given.remove, given.tie, given.untie)):
        with opened_review(given.review) as opened:
            change = _change(given, opened)
            doubt = _doubt(opened.review, change)
            opened.apply(change)
        if doubt:
            tell(doubt)
    review = read(given.review)
    if given.json:
        print_json({"films": [_film(review, one.id) for one in review.films]})
    else:
        print_lines(*(line for one in review.films for line in _lines(review, one)))
        if lost_films(review):
            print_lines(f"to find a film that was moved or renamed: {find_line(review)}")
    return 0


def _find_again(given: argparse.Namespace) -> int:
    """Look for the lost films in a folder; 1 when one of them is not there, which is said on standard error."""
    place = Path(given.find)
    with opened_review(given.review) as opened:
        check_place(place)
        lost = lost_films(opened.review)
        moved = find_lost_films(opened.review, place, bar()) if lost else ()
        if moved:
            opened.apply(Together(moved))
        review = opened.review
    found = {one.film: str(place_of(review, review.film(one.film))) for one in moved}
    missing = [film for film in lost if film.id not in found]
    others = {film.id: others_taken_for(film, place) for film in missing}
    if given.json:
        told = {film: [{"path": str(path), "differs": words} for path, words in listed] for film, listed in others.items()}
        print_json({"found": found, "not_found": [film.id for film in missing], "other_films": told})
    else:
        print_lines(*(f"{film}: found at {place}" for film, place in found.items()))
        if not lost:
            print_lines("every film is where it was" if review.films else "the review has no film")
    for film in missing:
        other = "".join(f"; {path} is another film: {words}" for path, words in others[film.id])
        tell(f"{film.id}: {film.name} is not in {given.find} or below it, under any name{other}")
    return 1 if missing else 0


def _change(given: argparse.Namespace, opened: Store) -> Change:
    review = opened.review
    if given.add:
        with open_film(given.add, progress=bar()) as film:
            added = add_film(film, review.path)
        return replace(added, what=(given.what or "").strip())
    if given.name:
        if given.what is None:
            raise FilmReviewError("what the film shows is missing", where="--name", todo='give --what "first half"')
        return NameFilm(given.name, given.what)
    if given.remove:
        return RemoveFilm(given.remove)
    if given.untie:
        return _untie(review, given.untie)
    return _tie(review, given.tie)


def _tie(review: Review, words: str) -> SetCommonMoment:
    one, sign, other = words.partition("=")
    if not sign:
        raise FilmReviewError(f'"{words}" is not ID@T=ID@T', where="--tie", todo="write such as f1@1:23.4=f2@0:10")
    return SetCommonMoment(*_place(review, one, "--tie"), *_place(review, other, "--tie"))


def _doubt(review: Review, change: Change) -> str:
    """What to say of a tie that does not fit the ones before; "" where nothing is to be said."""
    if not isinstance(change, SetCommonMoment):
        return ""
    apart = departure(review, change.film, change.moment, change.other, change.other_moment)
    return departure_words(apart) if apart is not None else ""


def _untie(review: Review, words: str) -> RemoveCommonMoment:
    one, _sign, other = (part.strip() for part in words.partition("="))
    review.film(one), review.film(other)
    common = review.common_of(one, other)
    if common is None:
        raise FilmReviewError(f"{one} and {other} have no shared instant", where="--untie")
    return RemoveCommonMoment(common.id)


def _place(review: Review, words: str, where: str) -> tuple[str, Moment]:
    """A film and its exact moment, from ID@T."""
    film_id, sign, time = (part.strip() for part in words.partition("@"))
    if not sign:
        raise FilmReviewError(f'"{words}" is not ID@T', where=where, todo="write such as f1@1:23.4")
    review.film(film_id)
    seconds = parse_time(time, where)
    with open_film(found_film(review, film_id), progress=bar()) as film:
        return film_id, film.moment_at(seconds)


def _tell_instant(given: argparse.Namespace) -> int:
    """1 when the instant is on no other film; why is said on standard error."""
    review = read(given.review)
    film, moment = _place(review, given.at, "--at")
    found: dict[str, str] = {}
    for other in (one for one in review.films if one.id != film):
        try:
            found[other.id] = format_time(instant_on(review, film, moment, other.id))
        except FilmReviewError as error:
            tell(str(error))
    if given.json:
        print_json({"film": film, "time": review.time_text(film, moment), "on": found})
    else:
        print_lines(*(f"{one}@{time}" for one, time in found.items()))
    return 0 if found else 1


def _lines(review: Review, film: FilmRef) -> list[str]:
    """The film, and below it where it is when it is not where it was."""
    line = "; ".join((f"{film.id}: {title_of(film)}, {format_time(film.length)}", *_ties(review, film.id)))
    now = whereabouts(review, film)
    if now.state == THERE:
        return [line]
    if now.state == MISSING:
        return [line, f"    missing: it is not at {now.place} any more"]
    return [line, f"    missing: another film lies at {now.place}: {now.differs}"]


def _ties(review: Review, film_id: str) -> list[str]:
    found = []
    for other in review.films:
        common = review.common_of(film_id, other.id)
        if common is not None:
            found.append(f"{review.time_text(film_id, common.moment)} is {other.time_text(common.other_moment)} of {other.id}")
    return found


def _film(review: Review, film_id: str) -> dict[str, Any]:
    film = review.film(film_id)
    now = whereabouts(review, film)
    commons = [common for other in review.films if (common := review.common_of(film_id, other.id))]
    return {
        "id": film.id,
        "what": film.what,
        "name": film.name,
        "length": float(film.length),
        "path": str(now.place),
        "state": now.state,
        "find": None if now.state == THERE else find_line(review),
        "common": [
            {
                "time": film.time_text(one.moment),
                "film": one.other,
                "time_there": review.time_text(one.other, one.other_moment),
            }
            for one in commons
        ],
    }

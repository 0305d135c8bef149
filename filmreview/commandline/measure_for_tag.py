"""What `filmreview tag` measures on the film: the colour of its region, and lengths, as facts of origin "measured"."""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from filmreview.commandline.answers import tell
from filmreview.commandline.game_words import facts_of, pair
from filmreview.commandline.measure_length import blur_of
from filmreview.commandline.measure_words import against_of, ends_of
from filmreview.errors import FilmReviewError, unknown
from filmreview.facts.fact import Fact
from filmreview.facts.keys import KEYS
from filmreview.facts.region import Box, parse_box
from filmreview.film.film import Film, Moment
from filmreview.film.moment import format_time
from filmreview.measure.ends import Ends
from filmreview.measure.length import ByFloor, ByKnown, see_length
from filmreview.measure.nearest_reference import nearest_on_film
from filmreview.measure.number_on_film import number_on_film
from filmreview.measure.on_film import Known, measure_on_film, white_at
from filmreview.measure.size import SIZE_KEYS
from filmreview.review.model import PlacedReference

_LOOK_AGAIN = "add --fact colour=WORD when tagging, or at the desk draw its region anew or say the colour by eye"
_END_AGAIN = "add --fact {key}=VALUE when tagging, or at the desk measure it anew or say it by eye"
_BY_EYE = "what you saw counts"
_OF_A_COLOUR = ("white", "jersey")
_OF_A_LENGTH = ("known", "floor", "point", "depth", "lean", "blur")


@dataclass(frozen=True)
class Measured:
    """facts: what the film told. untold: what it did not, why and what to do, a line each, to be said once the tag is kept."""

    facts: tuple[Fact, ...] = ()
    untold: tuple[str, ...] = ()


def measured_for_tag(
    film: Film,
    moment: Moment,
    region: Box | None,
    given: argparse.Namespace,
    book: str,
    whites: Sequence[PlacedReference],
) -> Measured:
    """The facts that --measure and --length ask for, and what cannot be told. book: of the review. whites: those kept in it for
    this film, of which the nearest in the item's view counts where --white gives none.

    Raises FilmReviewError for words that do not go together and places outside the picture.
    """
    colours, lengths = _colours(film, moment, region, given, whites), _lengths(film, moment, given, book)
    return Measured((*colours.facts, *lengths.facts), (*colours.untold, *lengths.untold))


def _colours(
    film: Film, moment: Moment, region: Box | None, given: argparse.Namespace, whites: Sequence[PlacedReference]
) -> Measured:
    if region is None or not given.measure:
        if given.measure or any(getattr(given, option) for option in _OF_A_COLOUR):
            where = f"--{next(option for option in ('measure', *_OF_A_COLOUR) if getattr(given, option))}"
            if region is None:
                raise FilmReviewError("there is no region to measure", where=where, todo="give --box x,y,width,height")
            raise FilmReviewError("nothing is to be measured", where=where, todo="give --measure too")
        return Measured()
    todo = _todo("colour", given, _LOOK_AGAIN)
    known = white_at(moment, parse_box(given.white, "--white")) if given.white else _kept(film, moment, region, whites)
    jersey = parse_box(given.jersey, "--jersey") if given.jersey else None
    if given.item == "number":
        number = number_on_film(film, moment, region, jersey, known)
        why = number.why_not or (number.contrast.reason if number.contrast else "")
        return _told(number.facts(), "the number's colour", why, todo)
    if jersey is not None:
        raise FilmReviewError(
            f"--jersey does not go with the item {given.item}", where="--jersey", todo="it goes with a number"
        )
    measured, _ = measure_on_film(film, moment, region, known)
    return _told(measured.facts(), "its colour", measured.why_not, todo)


def _todo(key: str, given: argparse.Namespace, todo: str) -> str:
    return _BY_EYE if any(fact.key == key for fact in facts_of(given.fact)) else todo


def _told(facts: tuple[Fact, ...], what: str, why: str, todo: str) -> Measured:
    return Measured(facts) if facts else Measured((), (f"{what} cannot be told: {why}; {todo}",))


def _kept(film: Film, moment: Moment, region: Box, whites: Sequence[PlacedReference]) -> Known | None:
    """The white of the review that counts for this region, told; None without one."""
    if film.info.high_dynamic:
        return None
    found = nearest_on_film(film, whites, moment, region)
    if found is None:
        return None
    white = found.reference
    where = ", in another view: better name one of this view with --white" if found.elsewhere else ""
    tell(f"measured against the {white.colour.name} pointed at {format_time(film.time_of(white.moment))}{where}")
    return Known(white.moment, white.region, white.colour)


def _lengths(film: Film, moment: Moment, given: argparse.Namespace, book: str) -> Measured:
    asked = _asked(given.length)
    if not asked:
        if extra := next((option for option in _OF_A_LENGTH if getattr(given, option)), None):
            raise FilmReviewError("there is no length to measure", where=f"--{extra}", todo="give --length KEY=X,Y,X,Y")
        return Measured()
    against = against_of(given, film, book)
    _tell_of_book(against, book)
    facts: list[Fact] = []
    untold: list[str] = []
    for key, ends in asked.items():
        ends.check(film.info.width, film.info.height, "--length")
        length = see_length(ends, against, blur_of(given, film, moment, ends)).length
        fact = length.fact(key)
        found = _told(
            () if fact is None else (fact,),
            f"the {KEYS[key].words}",
            length.why_not,
            _todo(key, given, _END_AGAIN.format(key=key)),
        )
        facts, untold = [*facts, *found.facts], [*untold, *found.untold]
    return Measured(tuple(facts), tuple(untold))


def _asked(words: Iterable[str]) -> dict[str, Ends]:
    asked: dict[str, Ends] = {}
    for one in words:
        key, ends = pair(one, "--length", "KEY=X,Y,X,Y", "width_in=90,40,121,40")
        if key not in SIZE_KEYS:
            raise unknown("size", key, SIZE_KEYS, where="--length")
        if key in asked:
            raise FilmReviewError(f'"{key}" is given twice', where="--length", todo="give each length once")
        asked[key] = ends_of(ends, "--length")
    return asked


def _tell_of_book(against: ByKnown | ByFloor, book: str) -> None:
    if isinstance(against, ByKnown) and not against.known.serves(book):
        tell(f"{against.known.name} is not what games under {book} have; measured against it all the same")

"""What may be put into a review: every value is checked on its way in, with the nearest right word in the message."""

from __future__ import annotations

from filmreview.errors import FilmReviewError, unknown
from filmreview.facts.items import check_item, check_level, check_player, check_team
from filmreview.facts.keys import key_named
from filmreview.facts.region import Region
from filmreview.film.moment import Moment, format_time
from filmreview.measure.shape import bounds_of
from filmreview.review.model import (
    CREW_MARKS,
    TEAM_FACTS,
    CrewResponse,
    FilmRef,
    Game,
    PlacedEvent,
    PlacedReference,
    PlacedTag,
    Review,
    Team,
)
from filmreview.rules.procedures.event import CHARGED_TO, FOUL_KINDS, TIME_OUT_LENGTHS, check_word


def check_game(game: Game) -> Game:
    """The game as it is; raises FilmReviewError for a level, a fact, a player or a crew entry that cannot be."""
    if game.level is not None:
        check_level(game.level, "game")
    if not game.book.strip():
        raise FilmReviewError("the game has no book", todo="name one, such as nfhs")
    _check_teams(game)
    positions = [one.position for one in game.crew]
    for one in game.crew:
        if not one.position.strip() or not one.name.strip():
            raise FilmReviewError("a crew member has no position or no name", where="crew", todo="write POSITION=NAME")
        if positions.count(one.position) > 1:
            raise FilmReviewError(f'the position "{one.position}" is given twice', where="crew", todo="give each once")
    return game


def _check_teams(game: Game) -> None:
    for side, team in (("home", game.home), ("visitor", game.visitor)):
        _check_team_setup(side, team)


def _check_team_setup(side: str, team: Team) -> None:
    if not team.name.strip():
        raise FilmReviewError(f"the {side} team has no name", todo="write NAME=COLOUR")
    for name in team.facts:
        if name not in TEAM_FACTS:
            raise unknown("kit fact", name, TEAM_FACTS, where=side)
    for number in team.roster:
        check_player(number, f"{side} roster")


def check_film(film: FilmRef) -> FilmRef:
    """The film as it is; raises FilmReviewError when it has no length or no size."""
    if film.length <= 0 or film.size <= 0:
        raise FilmReviewError("the film holds no pictures", where=film.name)
    return film


def check_moment(film: FilmRef, moment: Moment) -> Moment:
    """The moment as it is; raises FilmReviewError when it lies outside the film."""
    seconds = film.seconds_of(moment)
    if not 0 <= seconds < film.length:
        end = format_time(film.length)
        todo = f"give a time from 0:00.000 to before {end}"
        raise FilmReviewError(f"no picture at {float(seconds):.3f} s", where=film.name, todo=todo)
    return moment


def check_stretch(film: FilmRef, start: Moment, end: Moment) -> None:
    """Raise FilmReviewError unless start lies in the film, and end after it and not past the end of the film."""
    check_moment(film, start)
    seconds = film.seconds_of(end)
    if seconds <= film.seconds_of(start):
        raise FilmReviewError("the stretch ends before it begins", where=film.name, todo="give an end after its start")
    if seconds > film.length:
        last = format_time(film.length)
        raise FilmReviewError(f"the film ends before {format_time(seconds)}", where=film.name, todo=f"give an end up to {last}")


def check_region(film: FilmRef, region: Region) -> Region:
    """The region as it is; raises FilmReviewError when it reaches outside a picture whose size is known."""
    if film.width and film.height:
        bounds_of(region).check_inside(film.width, film.height)
    return region


def check_crew(review: Review, tag: PlacedTag, crew: CrewResponse) -> CrewResponse:
    """The crew response as it is; raises FilmReviewError for an unknown mark or a moment outside its film."""
    if crew.mark not in CREW_MARKS:
        raise unknown("crew mark", crew.mark, CREW_MARKS)
    if crew.moment is not None:
        check_moment(review.film(crew.film or tag.film), crew.moment)
    return crew


def check_tag(review: Review, tag: PlacedTag) -> PlacedTag:
    """The tag as it is; raises FilmReviewError for anything in it that cannot be."""
    film = review.film(tag.film)
    check_moment(film, tag.moment)
    check_team(tag.team)
    check_item(tag.item)
    if tag.player is not None:
        check_player(tag.player)
    for fact in tag.facts:
        key_named(fact.key)
    if tag.region is not None:
        check_region(film, tag.region)
    if tag.crew is not None:
        check_crew(review, tag, tag.crew)
    return tag


def check_event(review: Review, event: PlacedEvent) -> PlacedEvent:
    """The event as it is; raises FilmReviewError for anything in it that cannot be."""
    check_moment(review.film(event.film), event.moment)
    check_word(event.what)
    if event.team is not None:
        check_team(event.team)
    if event.player is not None:
        check_player(event.player)
    for kind, word, known in (
        ("kind of foul", event.kind, FOUL_KINDS),
        ("bearer of a foul", event.charged_to, CHARGED_TO),
    ):
        if word is not None and word not in known:
            raise unknown(kind, word, known)
    if event.length is not None and event.length not in TIME_OUT_LENGTHS:
        raise FilmReviewError(f"{event.length} s is not a length of a time-out", todo="give 60 or 30")
    return event


def check_reference(review: Review, reference: PlacedReference) -> PlacedReference:
    """The reference as it is; raises FilmReviewError for a moment or region outside its film."""
    film = review.film(reference.film)
    check_moment(film, reference.moment)
    check_region(film, reference.region)
    return reference

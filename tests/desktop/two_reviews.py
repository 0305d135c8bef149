"""Another observer's file of the same film, for the desk's tests."""

from dataclasses import replace
from pathlib import Path

from filmreview.desktop.setup_presenter import game_of
from filmreview.film.film import open_film
from filmreview.film.moment import parse_time
from filmreview.review import store as stores
from filmreview.review.changes import AddTag
from filmreview.review.films import add_film
from filmreview.review.line import parse_line
from filmreview.review.model import CrewResponse
from tests.desktop.desk_fixtures import FILMS, FORM

OTHER = "O. Vanterell"


def other_review(folder: Path, *tags: tuple[str, str, str], film: str = "constant.mp4") -> Path:
    """A review by OTHER of this film. tags: the time, the line of the tag, the crew mark ("" for none)."""
    path = folder / "other.filmreview"
    with open_film(FILMS / film) as opened, stores.create(path, replace(game_of(FORM), observer=OTHER), OTHER) as store:
        film_id = store.apply(add_film(opened, path))[0]
        for time, line, mark in tags:
            said = parse_line(line)
            assert said.team is not None
            assert said.item is not None
            crew = CrewResponse(mark) if mark else None
            moment = opened.moment_at(parse_time(time))
            player = str(said.player) if said.player else None
            store.apply(AddTag(film_id, moment, said.team, player, said.item, None, said.facts, "", crew))
    return path

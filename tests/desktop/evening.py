"""A review as it stands after an evening: hundreds of tags, measured and seen, with marks, notes and regions."""

import random
from dataclasses import replace
from itertools import cycle, islice
from pathlib import Path

from filmreview.desktop.setup_presenter import game_of
from filmreview.facts.fact import Fact, Origin
from filmreview.facts.keys import parse_value
from filmreview.facts.region import Box
from filmreview.film.film import Film
from filmreview.review import store as stores
from filmreview.review.changes import AddTag, Together
from filmreview.review.films import add_film
from filmreview.review.model import CREW_MARKS, CrewResponse
from tests.desktop.desk_fixtures import FORM

SEEN = (
    ("arm sleeve", {"colour": "orange", "in_play": "yes"}),
    ("arm sleeve", {"colour": "black"}),
    ("headband", {"colour": "white", "width_in": "2.5 +- 0.3", "worn": "forehead"}),
    ("headband", {"colour": "black", "solid": "no"}),
    ("undershirt", {"colour": "green"}),
    ("tights", {"colour": "black"}),
    ("jersey", {"tucked": "no"}),
    ("number", {"number": "14"}),
)
_SPREAD = ((6.0, -1.0, 0.5), (-1.0, 4.0, -2.0), (0.5, -2.0, 5.0))  # L*a*b*, as measured in a gym


def evening(path: Path, film: Film, tags: int = 500, seed: int = 1) -> Path:
    """Make the review of a film with that many tags, spread over it; each measured colour is another one."""
    chance = random.Random(seed)
    moments = [film.moment_of(number * film.info.frames // tags) for number in range(tags)]
    with stores.create(path, game_of(FORM), "R. Valdrune") as store:
        film_id = store.apply(add_film(film, store.path))[0]
        added = []
        for number, (moment, (item, seen)) in enumerate(zip(moments, islice(cycle(SEEN), tags), strict=True)):
            facts = [Fact(key, parse_value(key, value), Origin.SEEN) for key, value in seen.items()]
            facts = [_measured(fact, chance) if fact.key == "colour" else fact for fact in facts]
            box = Box(chance.randrange(0, film.info.width - 40), chance.randrange(0, film.info.height - 30), 40, 30)
            crew = CrewResponse(CREW_MARKS[number % len(CREW_MARKS)], moment, "told the coach") if number % 3 else None
            side, player = (("home", "14"), ("visitor", "22"))[number % 2]
            added.append(
                AddTag(film_id, moment, side, player, item, box, tuple(facts), "looks dark" if number % 4 else "", crew)
            )
        store.apply(Together(tuple(added)))
    return path


def _measured(fact: Fact, chance: random.Random) -> Fact:
    """The colour as if it had been measured."""
    (colour,) = fact.value
    lab = tuple(value + chance.gauss(0, 3) for value in colour.lab)
    measured = replace(colour, lab=lab, covariance=_SPREAD, names=((colour.name, 0.97),))
    return Fact("colour", (measured,), Origin.MEASURED, "303 px, against a white, view good")
